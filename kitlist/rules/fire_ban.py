"""fire-ban: the authority has said no."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import FireRules
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity
from kitlist.rules.doing import Doing


def check(case: Case) -> Iterator[Gap]:
    """A gap where hot work is banned on the trip."""
    if case.trip.fire_rules is FireRules.BANNED:
        yield Gap(
            subject="fire rules",
            what="Hot work is banned on this trip: no welding, no grinding",
            remedy="Plan to bolt, strap or splint; ask again before every day on which you might weld.",
        )


RULE = Rule(
    name="fire-ban",
    title="Fire ban",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="A spark under a total fire ban can burn a district. Nothing on this kit outranks the ban.",
    remedy="No arc and no grinder while it holds.",
    sources=(
        Source(Tag.SECOND_HAND, "local-government notice, 2019"),
        Source(Tag.READ, "DFES sheet, Western Australia"),
    ),
    check=check,
    good=example.whole,
    bad=lambda: example.with_trip(fire_rules=FireRules.BANNED),
    acceptable=False,
)
