"""clothing-synthetic: a garment for welding that is synthetic."""

from __future__ import annotations

from collections.abc import Iterator

from kitlist.base.noted import noted
from kitlist.base.sources import PRACTICE
from kitlist.base.terms import GearKind
from kitlist.rules import example
from kitlist.rules.core import Case, Gap, Rule, Severity, quoted
from kitlist.rules.doing import Doing
from kitlist.rules.packing import gear

_GARMENTS = (GearKind.JACKET, GearKind.APRON, GearKind.SLEEVES, GearKind.HEAD_COVER)


def check(case: Case) -> Iterator[Gap]:
    """A gap for each packed garment whose label or note names a synthetic cloth."""
    for garment in gear(case.kit, *_GARMENTS):
        said = (garment.protection, garment.note, garment.name)
        if found := noted("melts", *said):
            yield Gap(
                subject=garment.name,
                what=f"{garment.name} is {found}: it melts into the skin",
                remedy="Leave it at home; leather, wool or heavy cotton only, the layer beneath too.",
            )
        elif found := noted("may melt", ", ".join(said).replace(",", " ")):
            yield Gap(
                subject=garment.name,
                what=f"{garment.name} is '{found}', which is synthetic or thin as a rule; its cloth is not known",
                remedy="Read its label: leather, wool or heavy cotton, or leave it at home; then write the cloth down.",
                command=f"kitlist gear edit {quoted(garment.name)} protection=CLASS",
                known=False,
                severity=Severity.FIX,
            )


RULE = Rule(
    name="clothing-synthetic",
    title="Clothing that melts",
    severity=Severity.STOP,
    doing=Doing.GET,
    why="Synthetic cloth does not burn away: it melts and sticks, and takes the skin with it.",
    remedy="Leather, wool or heavy cotton, to the skin.",
    sources=(PRACTICE,),
    check=check,
    good=lambda: example.with_gear(GearKind.JACKET, note="heavy cotton"),
    bad=lambda: example.with_gear(GearKind.JACKET, note="polyester lining"),
)
