"""danger-behind-the-weld: a repair with something behind it that burns, bursts, fires or is fed live."""

from __future__ import annotations

import re
from collections.abc import Iterator

from kitlist.base.sources import PRACTICE, Source, Tag
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.welding.repairs.parts import RepairClass

_AIRBAG = (
    "airbag",
    "Airbag: both battery cables off, negative first, wait; module out within 300 mm.",
)
_AIR_SUSPENSION = (
    "air suspension",
    "Air suspension: release its pressure and take the bellows out; never heat a bellows or tank under pressure.",
)
_AIR_BAG_SAID = re.compile(r"\bair[ -]?bags?\b")  # of the suspension, or of the cabin: the word alone does not say
_DANGERS = (
    (
        r"\bfuel|\bpetrol|\bgasoline|\bdiesel|\bjerry ?can|(?<!water )(?<!air )\btank",
        ("fuel", "Fuel: move or drain it well away, cap the line, or do not weld there."),
    ),
    (
        r"\bbrake|\bhydraulic|\bclutch (line|hose|pipe)|\bpower steering",
        ("brake line", "Brake line: unclip it and hold it clear behind a wet cloth and a plate."),
    ),
    (
        r"\bwir(e|es|ing)\b|\bloom|\bcables?\b|\bharness|\bfuse ?box|\belectric|\bsensor|\becu\b|\balternator"
        r"|\bstarter|\bsolenoid",
        ("wiring", "Wiring: unplug and lift it 300 mm clear, welding blanket over it."),
    ),
    (
        r"\bsrs\b|\bpretension\w*|\bclock ?-?spring|\binflator"
        r"|\b(side|curtain|steering|knee|passenger|driver)(s|'s)?( wheel)?[ -]air[ -]?bags?"
        r"|\bair[ -]?bag (module|sensor|control|unit|inflator)",
        _AIRBAG,
    ),
    (
        r"\bair[ -]suspension( air[ -]?bags?)?|\b(air )?bellows\b|\bair[ -]springs?\b"
        r"|\bair[ -]?bags?[ -](suspension|spring)s?|\b(suspension|helper|coil|load)[ -]air[ -]?bags?",
        _AIR_SUSPENSION,
    ),
    (r"\bbatter", ("battery", "Battery: out and 3 m away, crosswind of the arc.")),
    (
        r"\bgas[ -](spring|strut|shock)|\bshock|\bdamper|\baccumulator",
        ("gas spring", "Gas spring, shock or accumulator: off the vehicle; heat bursts it."),
    ),
    (
        r"\bair[ -](tank|receiver|reservoir|line|hose|strut|compressor)",
        ("air under pressure", "Air tank or line: let all the air out, then move it clear; heat bursts it."),
    ),
    (
        r"\b(gas|propane|butane)\b.{0,8}\b(bottle|cylinder|tank|canister)|\blpg\b|\bpropane|\bbutane|\bextinguisher"
        r"|\baerosol|\bspray can",
        ("gas bottle", "Gas bottle or can: shut, off the vehicle and far upwind, never vented there; heat bursts it."),
    ),
    (
        r"\bair ?-?con|\brefrigerant|\ba/c\b",
        (
            "refrigerant",
            "Refrigerant: pipes stay shut and cool, else do not weld there; they burst, and the arc makes poison.",
        ),
    ),
    (
        r"\bhoses?\b|\boil\b|\bgrease|\bundersea|\bcarpet|\bupholster|\btrim\b|\bfoam|\bplastic|\brubber|\binsulation"
        r"|\bsound.?deaden|\btyres?\b|\btires?\b|\bgrass|\bwood\b|\btimber",
        (
            "what burns",
            "What burns: out of the way or off the steel 300 mm each way, wet cloth behind, somebody watching.",
        ),
    ),
)


def dangers(words: str) -> list[tuple[str, str]]:
    """What burns, bursts, fires or is live in somebody's words, each with what to do; for a bare "air bag" both kinds.

    >>> [danger for danger, _ in dangers("air bag suspension mount, wiring")], [d for d, _ in dangers("airbag")]
    (['wiring', 'air suspension'], ['airbag', 'air suspension'])
    """
    left, found = words.casefold(), []
    for pattern, danger in _DANGERS:
        if re.search(pattern, left):
            found.append(danger)
        if danger in (_AIRBAG, _AIR_SUSPENSION):
            left = re.sub(pattern, " ", left)
    if _AIR_BAG_SAID.search(left):
        found += [danger for danger in (_AIRBAG, _AIR_SUSPENSION) if danger not in found]
    return found


def check(case: Case) -> Iterator[Gap]:
    """A gap for each repair with a danger behind it, saying what to do about each.

    Its subject names the dangers: who took on a brake line has not taken on the fuel line that is found later.
    """
    trip = case.trip
    for outlook in case.outlook.repairs:
        found = dangers(outlook.repair.behind)
        if found and outlook.repair_class is not RepairClass.NEVER:
            name = outlook.repair.name
            yield Gap(
                subject=f"{', '.join(danger for danger, _ in found)} behind {name}",
                what=f"Behind {name}: {outlook.repair.behind}",
                remedy=" ".join(do for _, do in found),
                command=f"kitlist accept danger-behind-the-weld --for {quoted(trip.name)} --by NAME "
                f'--reason "WHAT IS DONE ABOUT IT" --until {trip.ends_on.isoformat()}',
            )


RULE = Rule(
    name="danger-behind-the-weld",
    title="Something behind the weld that burns or bursts",
    severity=Severity.FIX,
    doing=Doing.MEND,
    why="What is behind the weld is forgotten the moment the helmet comes down.",
    remedy="Move it, drain it, disconnect it, or do not weld there; then accept the gap with what is done about it.",
    sources=(
        PRACTICE,
        Source(Tag.PRACTICE, "collision-repair guidance: modules within 300 mm out, airbag supply off, negative first"),
    ),
    check=check,
    good=lambda: example.with_repair(behind="a bare cross-member"),
    bad=lambda: example.with_repair(behind="brake line"),
)
