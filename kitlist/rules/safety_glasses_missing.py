"""safety-glasses-missing: nothing before the eyes while chipping slag and grinding."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.packing import gear, missing
from kitlist.sources import Source, Tag
from kitlist.terms import (
    GearKind,
)


def check(case: Case) -> Iterator[Gap]:
    """A gap where no safety glasses are packed."""
    if not gear(case.kit, GearKind.SAFETY_GLASSES):
        yield missing("safety glasses", "Pack a pair for each person; they are worn under the helmet too.")


RULE = Rule(
    name="safety-glasses-missing",
    title="No safety glasses",
    severity=Severity.FIX,
    why="Slag springs off glowing, and goes into the eye of whoever bends to look.",
    remedy="Safety glasses under the helmet, for chipping and grinding.",
    sources=(Source(Tag.READ, "OSHA eye-protection fact sheet"),),
    check=check,
    mark="missing",
    good=example.whole,
    bad=lambda: example.without_gear(GearKind.SAFETY_GLASSES),
)
