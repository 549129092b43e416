"""Every command that a gap prints, its blanks filled in as somebody would who has done it, takes the gap away."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from test_traps import ALL

from kitlist.kit import KINDS, PLURALS, Trip
from kitlist.readiness import Readiness, assess
from kitlist.rules import RULES, Example, Gap, Rule
from kitlist.store import Store, jsonfile
from kitlist.store.importing import import_file
from kitlist.store.snapshot import snapshot
from running import kitlist

BLANKS = frozenset(
    [
        "AMPS",
        "ANSWER",
        "AREA",
        "BAG",
        "CAPACITY",
        "CELSIUS",
        "CLASS",
        "DATE",
        "DAYS",
        "DEGREES",
        "FIRST",
        "FITTING",
        "HOURS",
        "HOW",
        "KG",
        "KIND",
        "LENGTH",
        "LITRES",
        "MARK",
        "METAL",
        "METRES",
        "MILLIOHM",
        "MM",
        "NAME",
        "NUMBER",
        "PART",
        "PERCENT",
        "REASON",
        "SECOND",
        "STEEL",
        "TERMINAL",
        "THICKNESS",
        "THIRD",
        "VOLTS",
        "WHERE",
        "WIDTH",
        "WORD",
        "WORDS",
    ]
)
USUAL = {
    "NAME": "Ada",
    "DATE": "2026-11-20",
    "NUMBER": "3",
    "BAG": "Red bag",
    "WHAT IS DONE ABOUT IT": "lifted out",
    "REASON": "later",
}
FILLED: dict[str, dict[str, str]] = {
    "fire-rules-not-asked": {"ANSWER": "allowed", "DATE": "2027-03-03"},
    "auto-darkening-doubtful": {"DATE": "2026-12-20"},
    "implant-near-the-arc": {"ANSWER": "10 m, Dr Rose"},
    "clothing-class-too-low": {"CLASS": "ISO 11611 class 2"},
    "mask-missing": {"CLASS": "FFP2"},
    "bag-stays-home": {"WHERE": "North, tray"},
    "help-distance-not-known": {"DAYS": "1"},
    "no-bank-chosen": {"FIRST": "north-main", "SECOND": "north-second", "THIRD": "south-second"},
    "battery-not-looked-at": {"WORD": "sound"},
    "coldest-not-known": {"CELSIUS": "5"},
    "spring-clamp-in-circuit": {"FITTING": "post-clamp"},
    "circuit-does-not-join": {"AREA": "35mm2", "NAME": "new"},
    "polarity-not-marked": {"MARK": "minus"},
    "mark-against-rods": {"MARK": "plus"},
    "lead-spliced": {"METRES": "4"},
    "fuse-missing": {"VOLTS": "80"},
    "voltmeter-underrated": {"VOLTS": "60"},
    "meter-accuracy-not-known": {"PERCENT": "0.5%"},
    "spanner-bare": {"ANSWER": "yes"},
    "rod-not-known": {"WORDS": "E6013", "MM": "4"},
    "rod-polarity-not-known": {"WORDS": "E6013"},
    "mend-not-settled": {"HOW": "replaced", "DATE": "2027-03-01"},
    "repair-not-known": {"STEEL": "mild", "MM": "8"},
    "behind-the-weld-not-asked": {"WORDS": "nothing"},
    "behind-the-weld-not-read": {"WORDS": "nothing"},
    "danger-behind-the-weld": {"WORDS": "brake line"},
    "trips-overlap": {"DATE": "2027-03-10"},
    "starting-batteries-not-clear": {"HOW": "single"},
}
ELSEWHERE = {  # why its command cannot be followed in a store of the example alone
    "short-arc-only": "a practice bead has to be welded first",
    "joint-drop-too-high": "measured again at the lead: tests/outlook has it",
    "four-without-ballast": "a strip of known ohms has to be made first",
    "starting-batteries-not-clear": "which batteries start it, its own tests follow",
    "current-not-known": "any of leads and batteries may lack a figure",
    "date-in-the-future": "the day of the example is after the day of the command",
}
CLOSING = ("edit", "add", "accept", "remove")


def printed(rule: Rule) -> Gap | None:
    """The gap of the rule's bad example that prints a command by which it is closed."""
    bad = rule.bad()
    gaps = [gap for gap in assess(bad.kit, bad.trip, on=bad.on).gaps if gap.rule == rule.name and gap.command]
    gap = gaps[0] if gaps else None
    words = shlex.split(gap.command) if gap else []
    return gap if words[1:2] == ["accept"] or (words[2:3] and words[2] in CLOSING) else None


def kept(store: Store, example: Example, folder: Path) -> None:
    """The example as a store has it."""
    things = {kind: getattr(example.kit, PLURALS[kind]) for kind in KINDS}
    others: list[Trip] = [trip for trip in things["trip"] if trip.name != example.trip.name]
    things["trip"] = (*others, example.trip)
    path = folder / "example.json"
    with path.open("w", encoding="utf-8") as file:
        jsonfile.write(((kind, ((thing, None) for thing in found)) for kind, found in things.items()), file)
    import_file(store, path)


def judged(store: Store, example: Example) -> Readiness:
    kit = snapshot(store, trip=example.trip.name)
    trip = next(trip for trip in kit.trips if trip.name == example.trip.name)
    return assess(kit, trip, on=example.on)


def typed(command: str, filled: dict[str, str]) -> list[str]:
    """The words of a command with every blank filled in."""
    values = USUAL | filled
    either = "|".join(sorted(map(re.escape, values), key=len, reverse=True))
    return [re.sub(rf"\b(?:{either})\b", lambda found: values[found[0]], word) for word in shlex.split(command)[1:]]


@pytest.mark.parametrize("rule", [rule for rule in RULES if rule.name not in ELSEWHERE], ids=lambda rule: rule.name)
def test_following_what_a_gap_prints_takes_it_away(rule: Rule, store: Store, tmp_path: Path) -> None:
    example, gap = rule.bad(), printed(rule)
    if gap is None:
        return  # it prints no line that could close it
    kept(store, example, tmp_path)
    before = next(g for g in judged(store, example).gaps if (g.rule, g.subject) == (rule.name, gap.subject))
    done = kitlist(*typed(gap.command, FILLED.get(rule.name, {})), store=store.path)
    assert done.returncode == 0, done.stderr
    after = [g for g in judged(store, example).gaps if (g.rule, g.subject) == (rule.name, gap.subject)]
    assert not after or after[0].weight.rank > before.weight.rank, after[0].what


SAID = (  # what is wrong by somebody's words, and the words that put it right
    ("battery-refused", "battery note: has a BMS", {"WORDS": "no BMS, read off its label"}),
    ("battery-refused", "battery note: leaks at the post", {"WORDS": "dry, looked at by Jo"}),
    ("battery-not-looked-at", "a battery of half the weight", {"KG": "22kg"}),
    ("battery-not-looked-at", "battery note: gel by its label", {"KIND": "agm", "WORDS": "agm by its label"}),
    ("lead-spliced", "lead note: crimped join in the middle", {"METRES": "4m", "ANSWER": "no"}),
    ("lead-spliced", "a link worn to the copper", {"ANSWER": "yes"}),
    ("clothing-synthetic", "cloth class: hi-vis vest", {"CLASS": "ISO 11611 class 2"}),
    ("gear-unsound", "gloves note: hole in the right thumb", {"ANSWER": "yes", "WORDS": "new pair"}),
    ("gear-unsound", "extinguisher note: gauge in the red", {"WORDS": "gauge in the green"}),
    ("rod-not-tested", "rods note: rusty ends", {"WORD": "dry", "WORDS": "bright"}),
    ("fire-ban", "fire answer: ban until lifted", {"ANSWER": "allowed", "WORDS": "ban lifted on Monday"}),
    ("fire-rules-not-asked", "fire answer: rang, no reply", {"WORDS": "no ban until the 16th"}),
    ("repair-not-known", "steel words: aluminium bracket", {"PART": "bracket", "STEEL": "mild"}),
    ("repair-not-known", "a leaf spring of mild steel", {"PART": "spring hanger", "STEEL": "mild"}),
    ("implant-near-the-arc", "glasses beside a pacemaker", {"ANSWER": "10 m, Dr Rose"}),
    ("implant-near-the-arc", "a pacemaker in the crew's line", {"ANSWER": "10 m, Dr Rose"}),
    ("danger-behind-the-weld", "cleared: fuel line: not the fuel line by Jo", {"WORDS": "fuel line"}),
    ("danger-behind-the-weld", "said behind: feul line", {"WORDS": "feul"}),
    ("behind-the-weld-not-read", "said behind: nothing visible", {"WORDS": "nothing"}),
    ("repair-not-vouched-for", "vouched for by nobody", {}),
    ("bag-stays-home", "a bag in the garage", {"WHERE": "North, tray"}),
    ("fuse-missing", "a fuse of 32 V and 100 A", {"VOLTS": "80", "AMPS": "300"}),
    ("fuse-missing", "a fuse for AC", {"VOLTS": "80", "WORDS": "80 V DC"}),
    ("isolator-underrated", "an isolator for AC", {"VOLTS": "60", "AMPS": "2000", "WORDS": "60 V DC"}),
)


@pytest.mark.parametrize(("rule", "change", "filled"), SAID, ids=lambda value: value if isinstance(value, str) else "")
def test_following_it_mends_what_words_gave_away(
    rule: str, change: str, filled: dict[str, str], store: Store, tmp_path: Path
) -> None:
    example = next(trap for trap in ALL if trap.change == change).build()
    kept(store, example, tmp_path)
    before = next(gap for gap in judged(store, example).gaps if gap.rule == rule)
    done = kitlist(*typed(before.command, filled), store=store.path)
    assert done.returncode == 0, done.stderr
    after = [g for g in judged(store, example).gaps if (g.rule, g.subject) == (rule, before.subject)]
    assert not after or after[0].weight.rank > before.weight.rank, after[0].what


def test_a_printed_command_holds_no_word_in_capitals_that_is_no_blank() -> None:
    unknown = {
        word
        for rule in RULES
        if (gap := printed(rule)) is not None
        for word in re.findall(r"=([A-Z]{3,})\b", gap.command)
        if word not in BLANKS
    }
    assert unknown == set()


def test_most_remedies_are_followed() -> None:
    assert sum(1 for rule in RULES if rule.name not in ELSEWHERE and printed(rule)) >= 35
