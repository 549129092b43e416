"""danger-behind-the-weld: a repair with something behind it that burns, bursts, fires, is live, or a closed volume."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.behind import LyingHazard, Tier, still_there
from kitlist.welding.repairs.parts import RepairClass


def check(case: Case) -> Iterator[Gap]:
    """Up to three gaps a repair: what is a stop until somebody took it away, what is shielded, and what was taken away.

    Their subject names the hazards: who accepted a brake line has not accepted the fuel line that is found later.
    """
    for outlook in case.outlook.repairs:
        repair = outlook.repair
        if outlook.repair_class is RepairClass.NEVER:
            continue
        there, gone = still_there(repair.behind, cleared=repair.cleared, cleared_by=repair.cleared_by)
        stops = [hazard for hazard in there if hazard.tier is Tier.STOP]
        if stops:
            yield Gap(
                subject=_subject(stops, repair.name),
                what=f"Behind {repair.name}: {_said(stops)}",
                remedy=_remedies(stops),
                command=f"kitlist repair edit {quoted(repair.name)} cleared=WORDS cleared-by=NAME",
            )
        fixes = [hazard for hazard in there if hazard.tier is Tier.FIX]
        if fixes:
            yield Gap(
                subject=_subject(fixes, repair.name),
                what=f"Behind {repair.name}: {_said(fixes)}",
                remedy=_remedies(fixes),
                command=f"kitlist repair edit {quoted(repair.name)} cleared=WORDS cleared-by=NAME",
                severity=Severity.FIX,
            )
        if gone:
            yield Gap(
                subject=_subject(gone, repair.name),
                what=f"Behind {repair.name}, {_said(gone)}: taken away or unplugged by {repair.cleared_by}",
                remedy="Look again before the helmet comes down: it may be back.",
                severity=Severity.NOTE,
            )


def _subject(hazards: Sequence[LyingHazard], name: str) -> str:
    return f"{', '.join(dict.fromkeys(hazard.name for hazard in hazards))} behind {name}"


def _said(hazards: Sequence[LyingHazard]) -> str:
    return ", ".join(hazard.words for hazard in hazards)


def _remedies(hazards: Sequence[LyingHazard]) -> str:
    by_remedy: dict[str, list[str]] = {}
    for hazard in hazards:
        by_remedy.setdefault(hazard.remedy, []).append(hazard.words)
    return " ".join(f"{_capital(', '.join(words))}: {_small(do)}" for do, words in by_remedy.items())


def _capital(words: str) -> str:
    return f"{words[0].upper()}{words[1:]}"


def _small(words: str) -> str:
    return f"{words[0].lower()}{words[1:]}"


RULE = Rule(
    name="danger-behind-the-weld",
    title="Something behind the weld that burns or bursts",
    severity=Severity.STOP,
    doing=Doing.MEND,
    why="What is behind the weld is forgotten the moment the helmet comes down.",
    remedy="Take it away or unplug it, and write down who did; else shield it; or do not weld there.",
    sources=(
        PRACTICE,
        Source(Tag.SECOND_HAND, "collision-repair training text: electronics within 300 mm out, negative first"),
        Source(Tag.SECOND_HAND, "car makers: airbag modules 450 mm off; waits from 10 s to 30 min"),
        Source(Tag.SECOND_HAND, "29 CFR 1910.252(a)(3)(ii): closed volumes are vented"),
    ),
    check=check,
    good=example.with_repair,
    bad=lambda: example.with_repair(behind="brake line"),
)
