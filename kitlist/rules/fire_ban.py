"""fire-ban: the authority has said no."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.sources import Source, Tag
from kitlist.base.terms import FireRules
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.fire_words import says_ban


def check(case: Case) -> Iterator[Gap]:
    """A gap where hot work is banned on the trip, by the answer or by its own words."""
    trip = case.trip
    said = next((words for words in (trip.fire_answer, trip.note, trip.fire_authority) if says_ban(words)), "")
    if trip.fire_rules is not FireRules.BANNED and said:
        yield Gap(
            subject="fire rules",
            what=f"The fire rules are written down as {trip.fire_rules}, and beside them stands: {said}",
            remedy="No arc and no grinder until the authority has said which; then write down its answer.",
            command=f"kitlist trip edit {quoted(trip.name)} fire-rules=ANSWER fire-answer=WORDS",
            known=False,
        )
    if trip.fire_rules is FireRules.BANNED:
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
