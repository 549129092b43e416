"""The words of the guided start: what is asked of each kind, what goes on one line, and where to look.

Brackets in a question hold what Enter takes; an example says that it is one.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from kitlist.faces.cli.one_line import Asked


@dataclass(frozen=True, slots=True)
class OneLine:
    """Parts that are read in one place, asked for together; what an answer leaves out is asked for alone."""

    key: str
    leads_in: str
    parts: tuple[Asked, ...]
    passed_over: re.Pattern[str] | None = None
    whole: bool = False  # all parts or none: what is left out would stand there as nobody has read it


ON_EVERY_BATTERY = re.compile(r"(?<![\d.,])12\s?v(?:olts?)?(?![a-z])|\(?\b(?:20\s?h|c20|k20)\b\)?", re.IGNORECASE)
LABEL = OneLine(
    "label",
    "its label",
    (
        Asked("chemistry", "what is inside", "Ca/Ca",
             "what is inside: agm, calcium, flooded, efb, gel, lithium",
             "What is inside is on the top or front label: AGM, Ca or Ca/Ca, EFB, GEL, LiFePO4; caps that open: "
             "flooded."),
        Asked("c20_ah", "capacity", "75Ah",
             "capacity, for example 75Ah",
             "Capacity: as Ah, with 20h, C20 or K20 where the label says more than one."),
        Asked("cranking_a", "cranking amps", "720A EN",
             "cranking amps and their test, for example 680CCA or 640A EN",
             "Cranking amps: CCA, or A with EN, SAE, DIN or JIS beside it."),
    ),
    passed_over=ON_EVERY_BATTERY,
)  # fmt: skip
LOOK = OneLine(
    "look",
    "look at it",
    (
        Asked("condition", "its case", "sound",
             "its case: sound, cracked, leaking, swollen, frozen",
             "Its case: sound, cracked, leaking, swollen or frozen; look at all sides and round the posts."),
        Asked("terminals", "its terminals", "post",
             "its terminals: post, m8, m10, m6, post-and-stud, side",
             "Its terminals, what the cables are on: post, m8, m10, m6, post-and-stud, side."),
        Asked("sits", "where it sits", "bonnet",
             "where it sits: bonnet, tray, chassis, boot, cabin, under-seat",
             "Where the vehicle carries it: bonnet, tray, chassis, boot, cabin, under-seat."),
    ),
)  # fmt: skip
CONNECTED = Asked(
    "stays_connected", "connected between trips", "n", "connected between trips, y or n",
    "Whether a fridge, tracker or the vehicle draws on it.",
)  # fmt: skip
CUTOFF = Asked(
    "built_in_cutoff", "electronics inside", "y", "does electronics inside cut it off, y or n",
    "The leaflet calls it BMS.",
)  # fmt: skip
CABLE = OneLine(
    "cable",
    "one of them",
    (
        Asked("area_mm2", "section", "35mm2",
             "section, for example 35 mm2, 4 AWG, 378x0.3 for strands, or bundle 7.7mm",
             "Section: printed on the cable as 1x35 or 35 mm²; else cut one end back: count the strands and measure "
             "one (378x0.3), or measure the bundle of bare strands (bundle 7.7mm). The outside of the insulation says "
             "nothing."),
        Asked("length_m", "length", "3m", "length end to end, for example 3m",
             "Length of the conductor itself, end to end."),
        Asked("conductor", "metal", "copper", "metal: copper, tinned-copper, aluminium, copper-clad",
             "Metal: copper, tinned-copper, aluminium, copper-clad; scratch a strand: silver all through is "
             "aluminium."),
    ),
)  # fmt: skip
HOW_MANY = Asked(
    "count", "how many", "4", "how many like this are there, 0 for none",
    "Only those with the same ends, section and length.",
)  # fmt: skip
PACKET = OneLine(
    "packet",
    "its packet",
    (
        Asked("designation", "classification", "E6013", "classification, for example E6013",
             "The classification is in large letters: E6013, E7018-1 H4R."),
        Asked("diameter_mm", "diameter", "3.2mm", "diameter, for example 3.2mm or 1/8 in",
             "The diameter is on the packet, or a gauge tells it on the bare end."),
    ),
    whole=True,
)  # fmt: skip
ROD = (
    Asked("count", "how many rods", "28", "how many rods are left", "Count them."),
    Asked("condition", "condition", "dry", "bend one, tap two: dry, damp, wet, damaged",
         "A dry coating rings, a damp one is dull and flakes."),
)  # fmt: skip
TRIP = (
    Asked("people", "people", "2", "how many people go"),
    Asked("coldest_c", "coldest", "-6", "coldest expected, for example -6 or 20F",
         "The coldest hour at the places you sleep: it starts the engines."),
    Asked("hottest_c", "hottest", "24", "hottest expected, for example 24 or 75F"),
    Asked("days_from_help", "days until help", "2", "days until help could come",
         "From the farthest point, with nobody passing by."),
    Asked("wet", "wet", "n", "may the welding be in the wet, sweaty or cramped, y or n",
         "Over 35 V is not for the wet."),
    Asked("parked_apart_m", "how near the vehicles park", "1m", "how near can the vehicles park, for example 1m",
         "From battery to battery the links must reach."),
)  # fmt: skip
VEHICLE = Asked(
    "start_batteries", "starting batteries", "single",
    "starting batteries: single or twin for 12 V, pair for 24 V",
    "Look for two: joined plus to plus they are a twin, bridged plus to minus a pair for 24 V.",
)  # fmt: skip
