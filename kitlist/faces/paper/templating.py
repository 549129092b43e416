"""Templates: everything is placed and worded before a template sees it; templates only lay out, and escape all."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any

from kitlist.base import resources

if TYPE_CHECKING:
    import jinja2
    from markupsafe import Markup

_LONE_LETTER = re.compile(r"(?<!\S)(\w-[^\s-]+)")


@cache
def environment() -> jinja2.Environment:
    """The one environment of all papers and pages."""
    import jinja2

    made = jinja2.Environment(
        loader=jinja2.FileSystemLoader(resources.folder("templates")),
        undefined=jinja2.StrictUndefined,
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.filters["unbroken"] = unbroken
    return made


def unbroken(text: str) -> Markup:
    """A text in which a lone letter stays on one line with the word behind its hyphen, as `typeface.wrap` reckons.

    >>> unbroken("angle & U-bolts")
    Markup('angle &amp; <span class="nowrap">U-bolts</span>')
    """
    from markupsafe import Markup

    pieces = _LONE_LETTER.split(text)
    return Markup("").join(
        Markup('<span class="nowrap">{}</span>').format(piece) if place % 2 else piece
        for place, piece in enumerate(pieces)
    )


def fill(template: str, **values: Any) -> str:
    """A template of `templates/` with these values, everything escaped."""
    return environment().get_template(template).render(**values)
