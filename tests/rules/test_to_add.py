"""What a gap gives to type does what it promises: typed in, it closes the circuit or fills the bag."""

from __future__ import annotations

import shlex
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from kitlist.base.terms import ClampKind, Fitting, LeadUse, Terminal
from kitlist.kit import Clamp, Lead
from kitlist.readiness import assess
from kitlist.rules import Example, Gap
from kitlist.rules.example import BAG, lead, whole, with_battery, with_kit, with_lead, with_trip


def circuit_gaps(example: Example) -> list[Gap]:
    found = assess(example.kit, example.trip, on=example.on).gaps
    return [gap for gap in found if gap.rule == "circuit-does-not-join"]


def typed(example: Example, command: str) -> Example:
    """The kit after the command, its blanks filled in."""
    noun, fields = shlex.split(command)[1], dict(word.split("=") for word in shlex.split(command)[4:])
    if noun == "lead":
        length_m = float(fields["length"].removesuffix("m")) if fields["length"] != "LENGTH" else 4.0
        ends: dict[str, Any] = {"end_a": Fitting(fields["end-a"]), "end_b": Fitting(fields["end-b"])}
        new = replace(lead("new", LeadUse(fields["use"]), ends["end_b"], length_m=length_m), **ends)
        return replace(example, kit=replace(example.kit, leads=(*example.kit.leads, new)))
    clamp = Clamp(
        name="new",
        what=ClampKind(fields["what"]),
        joins_a=Fitting(fields["joins-a"]),
        joins_b=Fitting(fields["joins-b"]),
        bag=BAG,
    )
    return replace(example, kit=replace(example.kit, clamps=(*example.kit.clamps, clamp)))


def _links(*made: Lead) -> Example:
    return with_kit(leads=(*(x for x in whole().kit.leads if x.use is not LeadUse.LINK), *made))


@pytest.mark.parametrize(
    ("build", "noun"),
    [
        (lambda: with_trip(parked_apart_m=4), "lead"),  # the links are 3 m long, and 5 m are asked for
        (lambda: _links(lead("a", LeadUse.LINK, Fitting.POST_CLAMP), lead("b", LeadUse.LINK, Fitting.LUG_M8)), "clamp"),
        (lambda: with_battery("north-main", terminals=Terminal.STUD_M8), "clamp"),
        (lambda: with_lead("holder lead", end_b=Fitting.LUG_M8), "clamp"),
    ],
)
def test_typing_what_the_gaps_say_closes_the_circuit(build: Callable[[], Example], noun: str) -> None:
    example = build()
    assert circuit_gaps(example)[0].command.startswith(f"kitlist {noun} add NAME ")
    while gaps := circuit_gaps(example):
        before = len(gaps)
        example = typed(example, gaps[0].command)
        assert len(circuit_gaps(example)) < before


def test_a_link_too_short_offers_a_link_of_the_length_that_is_asked_for() -> None:
    (gap,) = circuit_gaps(with_trip(parked_apart_m=4))
    assert "one link short: 5 m or longer" in gap.what
    assert "use=link end-a=post-clamp end-b=post-clamp length=5m" in gap.command
