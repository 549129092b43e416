"""The rulebook's figures as they ship, for those who need them without a kit; rules read `case.limits` instead."""

from __future__ import annotations

from kitlist.base.sources import Figure, Source, Tag
from kitlist.kit.limits import standard

SPARE_LINKS = standard().figure("spare_links")
WET_LIMIT_V = standard().figure("wet_limit_v")
COLD_BELOW_C = standard().figure("cold_below_c")
LEAST_REST_H = Figure("rest before a reading tells the charge", 2, "h", Source(Tag.PRACTICE, "2 to 3 h at the least"))
GOOD_REST_H = Figure("rest before a reading is good", 6, "h", Source(Tag.PRACTICE, "6 h or more, 24 h best"))
SETTLED_H = Figure(
    "rest before volts over those of a full battery count",
    24,
    "h",
    Source(Tag.PRACTICE, "within a day of charge they are surface charge"),
)
