"""Every gap once and short, for the side of the sheet on which a crew decides: what is wrong, and what to do."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from kitlist.base.measures import spelled
from kitlist.base.terms import Units
from kitlist.faces.paper import typeface
from kitlist.faces.paper.build_items import things
from kitlist.faces.paper.document import GapLine
from kitlist.kit import Kit
from kitlist.readiness import Readiness
from kitlist.rules import RULES, Gap

WHAT_MM, WHAT_PT = 152.0, 12.0  # the line that a gap has on side 1, and its type
_MEASURED = frozenset({"V", "A", "Ah", "%", "h", "m", "mm", "mm²", "mΩ", "°C", "kg", "L", "shade"})
"""Units of what is measured. A count, "0 pieces", says no more than the title, and of days the remedy has the date."""
_UNIT_FIRST = frozenset({"shade"})
_RULES = {rule.name: rule for rule in RULES}


def mend_lines(readiness: Readiness, *, units: Units = Units.METRIC) -> tuple[GapLine, ...]:
    """The gaps gravest first, those of one kind about several things in one line; then what somebody accepted."""
    named = _names(readiness.kit)
    accepted = (
        GapLine(
            severity=str(gap.weight),
            what=_short(gap, named, units),
            do="",
            accepted=f"Accepted by {gap.accepted.accepted_by} until {gap.accepted.until.isoformat()}: "
            f"{gap.accepted.reason}",
        )
        for gap in readiness.accepted
        if gap.accepted
    )
    return (*_mended(readiness.gaps, named, units), *accepted)


def _names(kit: Kit) -> frozenset[str]:
    """What the things of a kit are called: a line names those, and not "bank" or the trip that the sheet is for."""
    kinds = (kit.bags, kit.vehicles, kit.batteries, kit.repairs, kit.mends, kit.beads, things(kit))
    return frozenset(thing.name for kind in kinds for thing in kind)


def _mended(gaps: Sequence[Gap], named: Collection[str], units: Units) -> Iterator[GapLine]:
    alike: dict[tuple[str, str], list[Gap]] = {}
    for gap in gaps:
        alike.setdefault((str(gap.weight), gap.rule), []).append(gap)
    for (severity, _), group in alike.items():
        yield GapLine(
            severity=severity,
            what=_short(group[0], named, units)
            if len(group) == 1 and (_fits(group[0].what) or not group[0].also)
            else _several(group),
            do=_remedy(group),
        )


def _fits(what: str) -> bool:
    return typeface.width_mm(what, size_pt=WHAT_PT, bold=True) <= WHAT_MM


def _remedy(group: Sequence[Gap]) -> str:
    """What to do: as the gap says it, or, for several of one kind that ask different things, as their rule does."""
    own = {gap.remedy for gap in group}
    return group[0].remedy if len(own) == 1 or group[0].rule not in _RULES else _RULES[group[0].rule].remedy


def _short(gap: Gap, named: Collection[str], units: Units) -> str:
    """What is wrong in one line: as the rule found it where that fits, else by the rule's title with its numbers."""
    if _fits(gap.what):
        return gap.what
    if gap.also:
        return _several((gap,))
    title = _about(_title(gap), gap.subject, named)
    if gap.measured is None or gap.required is None or gap.unit not in _MEASURED:
        return title
    measured, required = _amounts(gap.measured, gap.required, gap.unit)
    limit = "least" if gap.measured < gap.required else "most"
    begun = f"{title}{', ' if ': ' in title else ': '}"
    line = f"{begun}{spelled(f'{measured} where {required} is the {limit}', units=units)}"
    return line if _fits(line) else f"{begun}{measured}, limit {required}"


def _about(title: str, subject: str, named: Collection[str]) -> str:
    """The title with the thing of the kit that it is about, unless the title names it already."""
    said = title.casefold().split()
    if all(word in said for word in subject.casefold().split()) or not any(name in subject for name in named):
        return title
    return f"{title}: {subject}"


def _amount(value: float, unit: str, *, digits: int = 3) -> str:
    """Three digits are as many as anybody reads, and of hours two days' worth.

    >>> _amount(8.93333, "V"), _amount(4560, "h"), _amount(-6.0, "°C"), _amount(2, "")
    ('8.93 V', '190 days', '−6 °C', '2')
    """
    if unit == "h" and value > 48:
        value, unit = value / 24, "days"
    shown = f"{value:.0f}" if abs(value) >= 100 else f"{value:.{digits}g}"
    words = f"{unit} {shown}" if unit in _UNIT_FIRST else f"{shown} {unit}"
    return words.strip().replace("-", "−")


def _amounts(measured: float, required: float, unit: str) -> tuple[str, str]:
    """Both amounts with as many digits as it takes to see that they differ.

    >>> _amounts(11.59, 11.6, "V"), _amounts(10, 11, "shade")
    (('11.59 V', '11.6 V'), ('shade 10', 'shade 11'))
    """
    for digits in (3, 4, 5):
        found = _amount(measured, unit, digits=digits), _amount(required, unit, digits=digits)
        if found[0] != found[1]:
            break
    return found


def _several(group: Sequence[Gap]) -> str:
    """One line for gaps of one kind: which things they are about, or how many."""
    subjects = list(dict.fromkeys(name for gap in group for name in (gap.subject, *gap.also)))
    title = _title(group[0])
    for named in range(len(subjects), 0, -1):
        more = f" and {len(subjects) - named} more" if named < len(subjects) else ""
        line = f"{title}: {', '.join(subjects[:named])}{more}"
        if _fits(line):
            return line
    return f"{title}: {len(subjects)} of them"


def _title(gap: Gap) -> str:
    return _RULES[gap.rule].title if gap.rule in _RULES else "Not checked"
