"""What people and labels call the trade words of `kitlist.base.terms`.

A word stands here when it can mean one thing only. One that can mean two is answered with how to tell them apart: which
of two batteries it is decides how full 12.6 V is, so nothing is guessed. The usage is common practice.
"""

from __future__ import annotations

import re
from enum import StrEnum
from functools import cache

from kitlist.base.errors import BadData
from kitlist.base.terms import (
    BatteryPlace,
    BatterySite,
    Chemistry,
    ClampKind,
    Condition,
    Conductor,
    CrankingStandard,
    Extinguishant,
    FireRules,
    Fitting,
    GearKind,
    Joint,
    LeadUse,
    Mark,
    Paper,
    Position,
    RodCondition,
    RodStorage,
    StartBatteries,
    Steel,
    Terminal,
    ToolKind,
    Units,
)

NOT_KNOWN = frozenset(("?", "unknown", "not known", "not-known", "dont know", "don't know", "no idea"))
"""What stands for a value that nobody has looked up."""

_SAME: dict[type[StrEnum], dict[StrEnum, str]] = {
    Chemistry: {
        Chemistry.FLOODED: "flooded lead acid, open, antimony, low antimony, caps, open caps",
        Chemistry.CALCIUM: "ca, ca/ca, calcium calcium, lead calcium, silver calcium, ca/ag",
        Chemistry.EFB: "enhanced flooded, enhanced flooded battery",
        Chemistry.AGM: "absorbed glass mat, glass mat, absorbent glass mat",
        Chemistry.GEL: "gel cell, gelled",
        Chemistry.LITHIUM: "lifepo4, life, lfp, li-ion, lithium ion, lithium iron, lithium iron phosphate, li",
    },
    CrankingStandard: {
        CrankingStandard.SAE: "cca, bci, sae j537, cold cranking amps",
        CrankingStandard.EN: "en1, en 50342, en50342",
        CrankingStandard.MCA: "ca, marine, marine cranking amps, cranking amps",
    },
    Condition: {
        Condition.SOUND: "ok, good, fine, whole, no damage",
        Condition.CRACKED: "crack, split, broken",
        Condition.LEAKING: "leaks, leak, wet outside",
        Condition.SWOLLEN: "bulged, bulging, swelled, puffed",
    },
    BatteryPlace: {
        BatteryPlace.START: "starter, starting, crank, cranking, main, engine",
        BatteryPlace.SECOND: "house, aux, auxiliary, leisure, camp, secondary, dual",
        BatteryPlace.LOOSE: "spare, by itself, in a bag",
    },
    BatterySite: {
        BatterySite.BONNET: "under the bonnet, engine bay, under the hood",
        BatterySite.TRAY: "ute tray, tub, load bed",
        BatterySite.BOOT: "trunk, cargo area",
        BatterySite.CABIN: "cab, inside",
        BatterySite.UNDER_SEAT: "under a seat, under the seat",
    },
    StartBatteries: {
        StartBatteries.SINGLE: "one, 1, 12, 12 v, 12v",
        StartBatteries.TWIN: "two, 2, twins, parallel, two in parallel, dual",
        StartBatteries.PAIR: "24, 24 v, 24v, series, two in series",
    },
    Terminal: {
        Terminal.POST: "posts, round posts, sae, tapered posts, post terminals",
        Terminal.STUD_M6: "m6, m6 stud, 6 mm stud",
        Terminal.STUD_M8: "m8, m8 stud, 8 mm stud",
        Terminal.STUD_M10: "m10, m10 stud, 10 mm stud",
        Terminal.POST_AND_STUD: "both, post + stud, posts and studs",
        Terminal.SIDE: "side terminal, side terminals, side post",
    },
    Conductor: {
        Conductor.COPPER: "cu, bare copper, plain copper",
        Conductor.TINNED_COPPER: "tin, tinned, tinned cu",
        Conductor.ALUMINIUM: "al, aluminum, alu",
        Conductor.COPPER_CLAD: "cca, copper clad aluminium, copper clad aluminum, clad",
    },
    Fitting: {
        Fitting.LUG_M6: "m6, m6 lug, 6 mm lug, m6 eyelet, m6 ring",
        Fitting.LUG_M8: "m8, m8 lug, 8 mm lug, m8 eyelet, m8 ring",
        Fitting.LUG_M10: "m10, m10 lug, 10 mm lug, m10 eyelet, m10 ring",
        Fitting.POST_CLAMP: "battery clamp, terminal clamp, battery terminal, post terminal",
        Fitting.SPRING_CLAMP: "crocodile, crocodile clip, croc clip, alligator clip, spring clip, jumper clamp",
        Fitting.PLUG: "socket, connector, coupling",
        Fitting.HOLDER: "electrode holder, rod holder, stinger",
        Fitting.WORK_CLAMP: "earth clamp, ground clamp, earth, ground, return clamp, work",
        Fitting.BARE: "bare end, cut, cut end, stripped, nothing",
    },
    LeadUse: {
        LeadUse.LINK: "series link, battery link, bridge, strap",
        LeadUse.HOLDER: "electrode, electrode lead, holder lead, stinger, rod lead",
        LeadUse.WORK: "earth, ground, return, work lead, earth lead, ground lead, return lead",
        LeadUse.JUMPER: "jump lead, jump leads, jumper lead, jumper cables, booster cables",
    },
    Mark: {
        Mark.PLUS: "+, red, positive, pos",
        Mark.MINUS: "-, −, black, blue, negative, neg",
        Mark.BOTH_ENDS: "both, both ends marked",
        Mark.NONE: "no, unmarked, not marked",
    },
    ClampKind: {
        ClampKind.POST_CLAMP: "battery clamp, terminal clamp, battery terminal",
        ClampKind.SPRING_CLAMP: "crocodile clip, croc clip, alligator clip, jumper clamp",
        ClampKind.WORK_CLAMP: "earth clamp, ground clamp, earth, ground, return clamp",
        ClampKind.HOLDER: "electrode holder, rod holder, stinger",
        ClampKind.ADAPTOR: "adapter",
    },
    RodStorage: {
        RodStorage.SEALED: "unopened, never opened, vacuum pack, new",
        RodStorage.DRY_TUBE: "tube, rod tube, sealed tube, canister",
        RodStorage.CARTON: "box, cardboard, packet, cardboard box",
        RodStorage.LOOSE: "open, in the open, in a bag",
    },
    RodCondition: {RodCondition.DAMAGED: "chipped, flaking, broken, bent", RodCondition.DAMP: "moist"},
    GearKind: {
        GearKind.HELMET: "welding helmet, welding mask, fixed helmet, passive helmet",
        GearKind.HELMET_AUTO: "auto helmet, auto darkening, auto darkening helmet, automatic helmet",
        GearKind.HAND_SHIELD: "shield, hand screen",
        GearKind.SPARE_FILTER: "filter, spare lens, spare glass, filter plate",
        GearKind.SAFETY_GLASSES: "glasses, safety specs, specs, spectacles",
        GearKind.GLOVES: "gauntlets, welding gloves, welding gauntlets",
        GearKind.JACKET: "welding jacket, leathers",
        GearKind.HEAD_COVER: "cap, welding cap, balaclava",
        GearKind.MASK: "respirator, fume mask, p2, ffp2, ffp3, n95",
        GearKind.EAR_PLUGS: "ear plug, earplugs",
    },
    ToolKind: {
        ToolKind.VOLTMETER: "multimeter, multi meter, meter, dmm, volt meter",
        ToolKind.CLAMP_METER: "current clamp, amp clamp, tong meter",
        ToolKind.ISOLATOR: "isolating switch, battery switch, battery isolator, kill switch, isolator switch",
        ToolKind.SPANNER: "wrench, spanners, wrenches",
        ToolKind.POST_BRUSH: "terminal brush, battery brush",
        ToolKind.BATTERY_COVER: "terminal cover, post cover, covers",
        ToolKind.EXTINGUISHER: "fire extinguisher",
        ToolKind.WATER: "fire water",
        ToolKind.STUB_TIN: "tin, tin for stubs, stub can",
        ToolKind.CHIPPING_HAMMER: "slag hammer, chipper",
        ToolKind.GRINDER: "angle grinder",
        ToolKind.DISC: "disk, cutting disc, grinding disc, discs",
        ToolKind.HACKSAW: "hack saw, saw",
        ToolKind.CLAMPS: "g clamp, g clamps, c clamp, c clamps, vice grips, locking pliers",
        ToolKind.SCRAP_PLATE: "scrap, test plate, practice plate",
        ToolKind.STOCK_FLAT: "flat, flat bar, strap",
        ToolKind.STOCK_ANGLE: "angle, angle iron",
        ToolKind.STANDS: "axle stands, jack stands, stand",
        ToolKind.CHOCKS: "wheel chocks, chock",
        ToolKind.FIRST_AID_BURNS: "burns kit, burn kit, burn gel, burns dressing",
        ToolKind.EYE_WASH: "eyewash, saline",
        ToolKind.CALL_FOR_HELP: "radio, hf radio, satellite phone, sat phone, beacon, distress beacon",
    },
    Extinguishant: {
        Extinguishant.POWDER: "dry powder, abc, abe, bc, dry chemical",
        Extinguishant.FOAM: "afff",
        Extinguishant.CO2: "carbon dioxide",
    },
    FireRules: {
        FireRules.NOT_ASKED: "no answer, not yet",
        FireRules.ALLOWED: "yes, ok, permitted, allowed",
        FireRules.WITH_CONDITIONS: "conditions, conditional, permit",
        FireRules.BANNED: "no, ban, fire ban, total fire ban, forbidden",
    },
    Position: {
        Position.FLAT: "pa, 1f, 1g, down hand, downhand",
        Position.HORIZONTAL_FILLET: "pb, 2f",
        Position.HORIZONTAL: "pc, 2g",
        Position.VERTICAL: "pf, 3f, 3g, vertical up, uphill, upwards",
        Position.VERTICAL_DOWN: "pg, downhill, downwards",
        Position.OVERHEAD: "pd, pe, 4f, 4g",
    },
    Joint: {Joint.FILLET: "t joint, tee, corner", Joint.SQUARE_BUTT: "butt", Joint.SINGLE_V: "v, v butt, vee"},
    Steel: {
        Steel.MILD: "mild steel, ms, plain, structural, black steel",
        Steel.STAINLESS: "stainless steel, ss, inox",
        Steel.GALVANISED: "gal, galv, galvanized, zinc, zinc plated",
        Steel.CAST_IRON: "cast, iron",
        Steel.ALUMINIUM: "aluminum, alu, al",
        Steel.HIGH_STRENGTH: "high tensile, hss, chassis rail",
        Steel.SPRING: "spring steel, leaf spring",
    },
    Paper: {Paper.LETTER: "us letter, american"},
    Units: {Units.IMPERIAL: "inches, feet, fahrenheit, awg, us", Units.METRIC: "mm, celsius, si"},
}
_SEALED_BATTERY = "write agm, gel or calcium: the label or the maker's leaflet says which"
_TWO: dict[type[StrEnum], dict[str, str]] = {
    Chemistry: {
        "wet": "write flooded where its caps open, calcium where it is sealed or marked Ca",
        "lead acid": "write flooded (caps open), calcium (sealed or marked Ca), efb, agm or gel",
        **dict.fromkeys(("sealed", "sla", "vrla", "mf", "smf", "maintenance free", "deep cycle"), _SEALED_BATTERY),
    },
    RodStorage: {"tin": "write sealed for a tin never opened, dry-tube for one that shuts tight, else carton"},
    RodCondition: dict.fromkeys(("ok", "good", "fine"), "write dry, damp, wet or damaged: bend one and tap two"),
    GearKind: {"hood": "write helmet for eyes and face, head-cover for the hair"},
    ToolKind: {
        "brush": "write wire-brush for steel, post-brush for battery posts",
        "tube": "write rod-tube for rods, stock-tube for steel tube",
        "hammer": "write chipping-hammer, or other",
        "switch": "write isolator where it breaks the whole bank, else other",
    },
    Fitting: {
        "clamp": "write post-clamp, spring-clamp or work-clamp",
        "lug": "write lug-m6, lug-m8 or lug-m10: the bolt that it takes",
        "ring": "write lug-m6, lug-m8 or lug-m10: the bolt that it takes",
        "eyelet": "write lug-m6, lug-m8 or lug-m10: the bolt that it takes",
    },
    ClampKind: {"clamp": "write post-clamp, spring-clamp or work-clamp"},
    Terminal: {"stud": "write stud-m6, stud-m8 or stud-m10"},
}


def plain(text: str) -> str:
    """Words without what people write differently: case, spaces, hyphens, a small 4.

    >>> plain("LiFePO₄"), plain("Total  fire-ban")
    ('lifepo4', 'total fire ban')
    """
    folded = text.casefold().replace("₄", "4").replace("₂", "2").replace("’", "'").strip()
    return re.sub(r"[\s_-]+", " ", folded) if len(folded) > 1 else folded


def is_not_known(text: str) -> bool:
    """Whether it says that nobody knows."""
    return plain(text) in NOT_KNOWN


def meant(kind: type[StrEnum], text: str) -> StrEnum | None:
    """The member that a word means; None for a word that is none. Raises BadData for one that can mean two.

    >>> meant(Chemistry, "LiFePO4"), meant(Fitting, "earth clamp")
    (<Chemistry.LITHIUM: 'lithium'>, <Fitting.WORK_CLAMP: 'work-clamp'>)
    """
    word = plain(text)
    found = _by_saying(kind).get(word)
    if found is None and (how := _TWO.get(kind, {}).get(word)):
        raise BadData(f"{text!r} can mean two things", hint=how)
    return found


@cache
def _by_saying(kind: type[StrEnum]) -> dict[str, StrEnum]:
    found = {plain(saying): member for member, words in _SAME.get(kind, {}).items() for saying in words.split(", ")}
    if "unknown" in set(kind):
        found |= dict.fromkeys((plain(word) for word in NOT_KNOWN), kind("unknown"))
    return found | {plain(member): member for member in kind}
