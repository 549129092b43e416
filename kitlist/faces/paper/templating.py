"""Templates: everything is placed and worded before a template sees it; templates only lay out, and escape all."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from kitlist.base import resources

if TYPE_CHECKING:
    import jinja2


@cache
def environment() -> jinja2.Environment:
    """The one environment of all papers and pages."""
    import jinja2

    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(resources.folder("templates")),
        undefined=jinja2.StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )


def fill(template: str, **values: Any) -> str:
    """A template of `templates/` with these values, everything escaped."""
    return environment().get_template(template).render(**values)
