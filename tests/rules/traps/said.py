"""What somebody wrote in other words than a label has: notes, names, answers, slips of the pen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

from kitlist.base.terms import Extinguishant, FireRules, GearKind, Steel, ToolKind
from kitlist.rules import Example, Severity
from kitlist.rules.example import (
    BAG,
    rod,
    tool,
    whole,
    with_battery,
    with_gear,
    with_kit,
    with_lead,
    with_reading,
    with_repair,
    with_tool,
    with_trip,
    without_tool,
)
from traps import Trap

STOP, FIX, NOTE = Severity.STOP, Severity.FIX, Severity.NOTE
Group = tuple[str | None, Severity | None, str, tuple[str, ...]]
DANGER, PACK, NOT_READ = "danger-behind-the-weld", "pack-behind-the-weld", "behind-the-weld-not-read"
NEVER, ASK = "repair-never", "repair-not-vouched-for"

BEHIND: tuple[Group, ...] = (
    (
        DANGER,
        STOP,
        "fuel or gas in other words",
        (
            "gasoline vapour hose",
            "breather of the fuel tank",
            "heater's diesel feed",
            "feul line",
            "disel return",
            "two-stroke mix",
            "white spirit bottle",
            "starting fluid",
            "ether",
            "avgas drum",
            "LPG changeover valve",
            "acetylene hose",
            "a jerry of unleaded",
            "tank breather",
            "camp fuel",
            "rifle rounds",
        ),
    ),
    (
        DANGER,
        STOP,
        "what bursts or fires",
        (
            "inner tubes",
            "nitrogen shock",
            "A/C pipes",
            "a.c. hose",
            "beer keg",
            "curtain airbags",
            "side air bag",
            "pretensoiner",
            "aircon condenser",
            "tipper's hydraulic ram",
        ),
    ),
    (
        DANGER,
        STOP,
        "a hazard that is said to be there still",
        (
            "fuel line not removed",
            "tank NOT drained",
            "nothing on the left, tank on the right",
            "nothing but the fuel line",
            "nothing other than a gas bottle",
        ),
    ),
    (PACK, STOP, "lithium or high voltage", ("LTO cells", "li-po pack", "Li-ion house battery", "orange cable")),
    (
        DANGER,
        FIX,
        "shielded or taken out",
        (
            "floor mats",
            "underbody coating",
            "reversing camera",
            "wheel speed sensor",
            "hollow section, closed",
            "red lead primer",
            "nothing save the loom",
            "nothing besides a brake hose",
            "no fuel line, brake pipe unclipped",
        ),
    ),
    (
        NOT_READ,
        FIX,
        "no outright nothing, all round",
        (
            "nothing flammable",
            "nothing visible",
            "nothing dangerous",
            "nothing on this side",
            "nothing?",
            "nothing within reach",
            "bare steel",
            "nothing within 100 mm",
            "nothing within 20 cm",
            "nothing for 0.2 m",
            "nada",
            "Bremsleitung",
            "all clear",
            "checked twice",
            "not nothing",
            "open air",
        ),
    ),
    (
        None,
        None,
        "an outright nothing, and how it was looked for",
        (
            "nil",
            "nothing - looked with a mirror",
            "nothing (seen from both sides)",
            "nothing, checked by Jo",
            "nothing, 28 Feb",
            "nothing within 300 mm on either side",
            "nothing for 0.5 m all round",
            "nothing; open air",
            "nothing whatsoever",
            "nothing, I looked",
            "nothing, bare steel",
            "no, nothing",
        ),
    ),
)
PARTS: tuple[Group, ...] = (
    (
        NEVER,
        STOP,
        "a piece of a part is that part",
        ("trailer coupling head", "recovery loop", "child seat anchor loop", "fuel cap", "roll hoop foot", "jack foot"),
    ),
    (
        ASK,
        FIX,
        "steering, or nobody knows the word",
        ("wheel bearing carrier", "tension rod bush housing", "tipper pivot", "grab handle"),
    ),
    (
        NEVER,
        STOP,
        "hands a load on",
        (
            "tipper hinge",
            "bench seat hinge",
            "brake back plate",
            "winch cable bracket",
            "tow rope bracket",
            "brake chamber bracket",
        ),
    ),
    (
        None,
        None,
        "a bracket of what takes no load",
        (
            "handbrake cable bracket",
            "steering damper bracket",
            "tow light bracket",
            "brake pedal switch bracket",
            "hydraulic pipe clip",
            "roof tent hinge",
            "coupling plug bracket",
            "winch isolator bracket",
            "recovery track holder",
            "idler pulley bracket",
            "bullbar upright",
            "coil seat",
            "driveshaft loop",
        ),
    ),
)
CLEARED: tuple[tuple[str, str, str, Severity, str], ...] = (
    ("fuel line", "not the fuel line", "Jo", STOP, "denied"),
    ("fuel line", "fuel line still there", "Jo", STOP, "denied"),
    ("fuel line", "will remove the fuel line", "Jo", STOP, "still to come"),
    ("airbag", "airbag to be unplugged", "Jo", STOP, "still to come"),
    ("fuel line", "fuel line shielded with a wet rag", "Jo", STOP, "shielded is not away"),
    ("fuel tank", "fuel tank drained", "Jo", STOP, "its vapour explodes"),
    ("gas bottle", "gas bottle turned off", "Jo", STOP, "it still bursts"),
    ("fuel line, fuel tank", "fuel line off", "Jo", STOP, "the tank is there"),
    ("fuel line", "fuel line", "nobody", STOP, "nobody did it"),
    ("fuel line", "fuel line", "-", STOP, "no name"),
    ("fuel line", "fuel line", "to be named", STOP, "no name yet"),
    ("strut", "strut unbolted, still hanging there", "Jo", STOP, "it is there"),
    ("tyre", "tyre wetted", "Jo", STOP, "it is there"),
    ("jerrycan", "jerry can moved 15 m away", "Jo", NOTE, "away"),
    ("tensioner", "belt tensioner unplugged", "Jo", NOTE, "unplugged"),
    ("fuel lines", "fuel line", "Jo", NOTE, "one of many"),
    ("airbag", "airbag no longer there", "Jo", NOTE, "away"),
    ("fuel tank", "fuel tank drained and taken out", "Jo", NOTE, "away"),
    ("gas bottle", "gas bottle off and carried away", "Jo", NOTE, "away"),
    ("petrol tank", "the tank", "Jo", NOTE, "the same thing"),
    ("tires", "tyres off", "Jo", NOTE, "the same thing in another spelling"),
)
BATTERY: tuple[Group, ...] = (
    (
        "battery-refused",
        STOP,
        "its own words speak of lithium or electronics",
        ("LFP 100 Ah, smart", "has a BMS", "bluetooth app"),
    ),
    (
        "battery-refused",
        STOP,
        "its own words speak of damage",
        ("case bulges a little", "leaks at the post", "froze last winter", "dropped in May", "one cell low"),
    ),
    ("battery-not-looked-at", FIX, "another kind by its note", ("gel by its label", "flooded", "Ca/Ca label", "EFB")),
    ("battery-inside", FIX, "people breathe there", ("sits behind the driver's seat", "in the boot, vented box")),
    (
        None,
        None,
        "nothing of the kind",
        (
            "charged by a lithium-ready charger",
            "no BMS",
            "not lithium",
            "AGM start-stop",
            "not gel",
            "charged by a gel charger",
            "does not leak",
            "no cracks, no leaks",
            "under the bonnet, left",
            "replaced the old one that leaked",
        ),
    ),
)
LEAD: tuple[Group, ...] = (
    (
        "lead-spliced",
        FIX,
        "a join or a worn spot, how near nobody has said",
        ("scuffed to the strands", "crimped join in the middle", "patched with tape", "insulation gone at one spot"),
    ),
    (None, None, "whole", ("no splices, one length", "red tape marks plus", "not cut, not joined", "crimped lugs")),
)
CLOTH: tuple[Group, ...] = (
    ("clothing-synthetic", STOP, "melts", ("leather, nylon lining", "65/35 polyester cotton", "synthetics")),
    (None, None, "does not melt", ("cotton, no synthetics", "boiled wool", "hi-vis, flame resistant cotton")),
)
CLASS: tuple[Group, ...] = (
    ("clothing-synthetic", FIX, "synthetic or thin as a rule", ("hi-vis vest", "rain jacket", "tracksuit top")),
)
GLOVES: tuple[Group, ...] = (
    (
        "gear-unsound",
        FIX,
        "its note against its tick",
        ("hole in the right thumb", "torn seam, seam open", "oil soaked"),
    ),
    (None, None, "sound", ("no holes", "in a bag with a hole", "new in May")),
)
RODS: tuple[Group, ...] = (
    ("rod-not-tested", FIX, "its note against its condition", ("covering flaked off", "got wet in May", "rusty ends")),
    (None, None, "sound", ("never wet", "not cracked, rings bright", "kept beside the chipping hammer")),
)
FIRE: tuple[Group, ...] = (
    (
        "fire-ban",
        STOP,
        "a ban in other words",
        (
            "No hot works until further notice",
            "you may not weld in the open",
            "fire danger extreme, no open-air welding",
            "Feuerverbot",
            "total fire ban over Easter",
            "the ban has not been lifted",
            "ban until lifted",
            "no welding before 1 April",
        ),
    ),
    (
        "fire-rules-not-asked",
        FIX,
        "no answer yet",
        ("nobody answered", "rang, no reply", "left a message", "?", "to be confirmed"),
    ),
    (
        None,
        None,
        "no ban, or one that is over or of other fires",
        (
            "not on total fire ban days",
            "welding allowed outside total fire ban days",
            "no welding after noon",
            "welding prohibited outside the cleared area",
            "no welding within 20 m of scrub",
            "ban on campfires only, welding allowed on bare ground",
            "not under any fire ban",
            "the fire ban ended on 1 March",
        ),
    ),
)
STEEL: tuple[Group, ...] = (
    (
        "repair-not-known",
        FIX,
        "its words say another steel",
        ("aluminium bracket", "boron steel sill bracket", "cast bracket", "leaf spring", "bronze bracket"),
    ),
    (None, None, "nothing else said", ("steel bracket", "mild steel bracket")),
)
CREW: tuple[Group, ...] = (
    ("implant-near-the-arc", FIX, "an implant in other words", ("Bo (ICD)", "Lee: insulin pump", "Kim, cochlear")),
    (None, None, "none that current passes", ("two, nobody with implants", "Bo (hip implant)", "no pacemakers")),
)
READ: tuple[Group, ...] = (
    (
        "charge-not-known",
        STOP,
        "no battery at rest",
        ("engine running", "lights on", "on the charger", "10 min after the drive", "fridge running"),
    ),
    (
        None,
        None,
        "at rest",
        (
            "engine off, lights off",
            "not on charge",
            "charged overnight, stood since Monday",
            "headlights on for 5 min first",
        ),
    ),
)
TOOL: tuple[Group, ...] = (
    ("gear-unsound", FIX, "it may do nothing", ("gauge in the red", "half discharged in May", "pin missing")),
    (None, None, "sound", ("gauge in the green", "never used", "not broken")),
)


def _water_extinguisher(amount_kg: float, expires_on: date) -> Example:
    """A water extinguisher of so many kilograms in place of the pump."""
    water = tool("water", ToolKind.EXTINGUISHER, agent=Extinguishant.WATER, amount_kg=amount_kg, expires_on=expires_on)
    return without_tool(ToolKind.WATER, also=(water,))


def _bag(place: str) -> Example:
    return with_kit(bags=tuple(replace(bag, place=place) if bag.name == BAG else bag for bag in whole().kit.bags))


def _powder_past_its_date() -> Example:
    shown = with_tool(ToolKind.EXTINGUISHER, expires_on=date(2026, 1, 31))
    co2 = tool("co2", ToolKind.EXTINGUISHER, agent=Extinguishant.CO2, amount_kg=2, expires_on=date(2029, 1, 31))
    return replace(shown, kit=replace(shown.kit, tools=(*shown.kit.tools, co2)))


def _of(kind: str, groups: tuple[Group, ...], build: Callable[[str], Example]) -> tuple[Trap, ...]:
    return tuple(
        Trap(f"{kind}: {words}", lambda words=words: build(words), rule, severity, why)  # type: ignore[misc]
        for rule, severity, why, many in groups
        for words in many
    )


def _cleared(behind: str, cleared: str, by: str) -> Callable[[], Example]:
    return lambda: with_repair(behind=behind, cleared=cleared, cleared_by=by)


TRAPS = (
    *_of("said behind", BEHIND, lambda words: with_repair(behind=words)),
    *_of("said part", PARTS, lambda words: with_repair(part=words)),
    *_of("battery note", BATTERY, lambda words: with_battery("north-second", note=words)),
    *_of("lead note", LEAD, lambda words: with_lead("holder lead", note=words)),
    *_of("cloth", CLOTH, lambda words: with_gear(GearKind.JACKET, note=words)),
    *_of("gloves note", GLOVES, lambda words: with_gear(GearKind.GLOVES, note=words)),
    *_of("rods note", RODS, lambda words: with_kit(rods=(rod("x", note=words),))),
    *_of("fire answer", FIRE, lambda words: with_trip(fire_rules=FireRules.ALLOWED, fire_answer=words)),
    *_of("steel words", STEEL, lambda words: with_repair(part=words, steel=Steel.MILD)),
    *(
        Trap(f"cleared: {behind}: {cleared} by {by}", _cleared(behind, cleared, by), DANGER, severity, why)
        for behind, cleared, by, severity, why in CLEARED
    ),
    *_of("cloth class", CLASS, lambda words: with_gear(GearKind.JACKET, protection=words)),
    Trap(
        "a link worn to the copper",
        lambda: with_lead("link", note="copper showing at one end"),
        "lead-spliced",
        FIX,
        "a bare spot on steel is a short",
    ),
    Trap(
        "a link whose worn spot is insulated",
        lambda: with_lead("link", note="was chafed at one spot", splice_insulated=True),
        None,
        None,
        "insulated like the cable",
    ),
    Trap(
        "drinking water in a can",
        lambda: with_tool(ToolKind.WATER, note="drinking water, jerrycan"),
        "fire-water-short",
        FIX,
        "a can throws nothing",
    ),
    Trap(
        "a water extinguisher of 9 L in date",
        lambda: _water_extinguisher(9, date(2029, 1, 31)),
        None,
        None,
        "stored pressure of 9 L throws it as a pump does",
    ),
    Trap(
        "a water extinguisher of 9 L past its date",
        lambda: _water_extinguisher(9, date(2027, 3, 8)),
        "fire-water-short",
        FIX,
        "it may throw nothing",
    ),
    Trap(
        "a water extinguisher of 6 L",
        lambda: _water_extinguisher(6, date(2029, 1, 31)),
        "fire-water-short",
        FIX,
        "9 L at the least",
    ),
    Trap(
        "gloves EN12477 A",
        lambda: with_gear(GearKind.GLOVES, protection="EN12477 A"),
        None,
        None,
        "the same type in other letters",
    ),
    Trap(
        "gloves EN 12477 A/B",
        lambda: with_gear(GearKind.GLOVES, protection="EN 12477 A/B"),
        "gloves-not-for-stick",
        FIX,
        "which of the two?",
    ),
    *_of("crew's line", CREW, lambda words: with_trip(crew=words)),
    Trap(
        "whom to ask about bans",
        lambda: with_trip(fire_authority="Total Fire Ban hotline"),
        None,
        None,
        "a telephone number is no ban",
    ),
    Trap(
        "a can with a pump",
        lambda: with_tool(ToolKind.WATER, note="can with a stirrup pump"),
        None,
        None,
        "it throws",
    ),
    Trap(
        "a battery of half the weight",
        lambda: with_battery("north-second", mass_kg=9),
        "battery-not-looked-at",
        FIX,
        "lead weighs more",
    ),
    Trap("a battery of lead's weight", lambda: with_battery("north-second", mass_kg=21), None, None, "as lead weighs"),
    Trap(
        "a pacemaker in the crew's line",
        lambda: with_trip(crew="Bo and Lee (ICD)"),
        "implant-near-the-arc",
        FIX,
        "whoever wrote it down there is near the arc too",
    ),
    Trap(
        "glasses beside a pacemaker",
        lambda: with_trip(keep_away="Kim: glasses; Lee: pacemaker"),
        "implant-near-the-arc",
        FIX,
        "the glasses do not undo it",
    ),
    Trap(
        "a physician not asked yet",
        lambda: with_trip(keep_away="Kim: insulin pump", keep_away_asked="not asked yet"),
        "implant-near-the-arc",
        FIX,
        "that is no answer",
    ),
    Trap("a dental implant", lambda: with_trip(crew="Kim, dental implant"), None, None, "no current passes it"),
    Trap(
        "vouched for by nobody",
        lambda: with_repair(part="gizmo", allowed_by="nobody yet"),
        ASK,
        FIX,
        "that is no name",
    ),
    Trap(
        "a leaf spring of mild steel",
        lambda: with_repair(part="main leaf", steel=Steel.MILD),
        "repair-not-known",
        FIX,
        "leaves are spring steel",
    ),
    Trap(
        "an isolator for AC",
        lambda: with_tool(ToolKind.ISOLATOR, rating_v=400, note="400 V AC switch"),
        "isolator-underrated",
        FIX,
        "an AC switch holds a DC arc",
    ),
    Trap(
        "an isolator for AC and DC",
        lambda: with_tool(ToolKind.ISOLATOR, rating_v=60, note="230 V AC, 60 V DC"),
        None,
        None,
        "its DC volts are said",
    ),
    Trap(
        "a fuse for AC",
        lambda: with_tool(ToolKind.FUSE, rating_v=250, note="250 V AC"),
        "fuse-missing",
        NOTE,
        "arcs on",
    ),
    *_of("reading note", READ, lambda words: with_reading("north-second", note=words)),
    Trap("a bag in the garage", lambda: _bag("garage shelf"), "bag-stays-home", FIX, "it is in no vehicle"),
    Trap("a bag in a motorhome", lambda: _bag("motorhome, left locker"), None, None, "a vehicle by another word"),
    Trap(
        "powder past its date beside CO2 in date",
        _powder_past_its_date,
        "extinguisher-out-of-date",
        FIX,
        "the one that counts is past its date",
    ),
    *_of("extinguisher note", TOOL, lambda words: with_tool(ToolKind.EXTINGUISHER, note=words)),
    Trap(
        "a fuse of 32 V and 100 A",
        lambda: with_tool(ToolKind.FUSE, rating_v=32, rating_a=100),
        "fuse-missing",
        NOTE,
        "both faults at once",
    ),
)
