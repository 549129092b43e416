"""The thresholds that rules compare with: one figure each, with its unit and source."""

from __future__ import annotations

from kitlist.sources import PRACTICE, Figure, Source, Tag

STALE_AFTER_DAYS = Figure("a reading counts for a departure within", 7, "days", PRACTICE)
LEAST_REST_H = Figure("rest before a reading tells the charge", 2, "h", Source(Tag.PRACTICE, "2 to 3 h at the least"))
GOOD_REST_H = Figure("rest before a reading is good", 6, "h", Source(Tag.PRACTICE, "6 h or more, 24 h best"))
SPARE_LINKS = Figure("links beyond those in use", 1, "links", PRACTICE)
WET_LIMIT_V = Figure(
    "most rested volts in the wet, sweaty or cramped", 35, "V", Source(Tag.SECOND_HAND, "AS 1674.2:2003, category C")
)
COLD_BELOW_C = Figure("the cold reserve holds below", 0, "°C", PRACTICE)
