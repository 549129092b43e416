"""The current chart: what two, three and four batteries like the chosen ones would give, against the packed rods."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from kitlist.base.errors import PrintError
from kitlist.faces.paper import chart
from kitlist.faces.paper.build_words import COUNTS
from kitlist.faces.paper.charts import Chart, ChartBar
from kitlist.outlook.bank import BankOutlook
from kitlist.physics.bank.band import Band, current_band
from kitlist.readiness import Readiness

COUNTED = (2, 3, 4)
SVG_MM = 160.0


def build_chart(readiness: Readiness) -> Chart | None:
    """The chart of the trip's bank; None where its current cannot be predicted or no rod's range is known."""
    bank = readiness.outlook.bank
    ranges = {rod.words: rod.range for rod in readiness.outlook.rods if rod.range}
    if bank is None or bank.rig is None or not ranges:
        return None
    banks = tuple(_bars(bank))
    chosen = next((bar for bar in banks if bar.chosen), banks[0])
    return Chart(
        title="Current of the bank against the rods' ranges",
        summary=f"{chosen.label}: {chosen.low_a:.0f} to {chosen.high_a:.0f} A.",
        banks=banks,
        rods=tuple(ChartBar(label=words, low_a=r.low_a, high_a=r.high_a) for words, r in ranges.items()),
    )


def _bars(bank: BankOutlook) -> Iterator[ChartBar]:
    """Two, three and four in series of the bank's own batteries, repeated where there are too few."""
    if bank.rig is None:
        return
    parallel = len(bank.rig.groups) > 1
    if parallel and (own := bank.band(None)):
        yield _bar("As chosen", own, chosen=True)
    members = bank.rig.groups[0]
    for count in COUNTED:
        as_chosen = count == len(members) and not parallel
        group = tuple(members[place % len(members)] for place in range(count))
        band = bank.band(None) if as_chosen else current_band(replace(bank.rig, groups=(group,)))
        if band is not None:
            yield _bar(f"{COUNTS[count].capitalize()} in series", band, chosen=as_chosen)


def _bar(label: str, band: Band, *, chosen: bool) -> ChartBar:
    return ChartBar(label=label, low_a=band.low_a, high_a=band.high_a, best_a=band.middle_a, chosen=chosen)


def chart_svg(readiness: Readiness) -> str:
    """The chart as an SVG file. Raises PrintError where there is none."""
    from kitlist.faces.paper.html import standalone_svg

    built = build_chart(readiness)
    if built is None:
        raise PrintError("there is no current to draw", hint="kitlist ready says what is missing.")
    return standalone_svg(chart.draw(built, width_mm=SVG_MM))
