"""The trade words that have a fixed list of values. One list, used by the kit, the store and the faces."""

from __future__ import annotations

from enum import StrEnum


class Chemistry(StrEnum):
    """What is inside a 12 V battery. `flooded` is the antimony or low-antimony kind with open caps."""

    FLOODED = "flooded"
    CALCIUM = "calcium"
    EFB = "efb"
    AGM = "agm"
    GEL = "gel"
    LITHIUM = "lithium"
    UNKNOWN = "unknown"

    @property
    def words(self) -> str:
        """As people write it."""
        return self.upper() if self in (Chemistry.EFB, Chemistry.AGM) else str(self)


class CrankingStandard(StrEnum):
    """The test behind a cranking rating; the same battery has a different number under each."""

    SAE = "sae"
    EN = "en"
    EN2 = "en2"
    DIN = "din"
    IEC = "iec"
    MCA = "mca"
    JIS = "jis"
    UNKNOWN = "unknown"


class Condition(StrEnum):
    """What the eye sees on a battery."""

    SOUND = "sound"
    CRACKED = "cracked"
    LEAKING = "leaking"
    SWOLLEN = "swollen"
    FROZEN = "frozen"
    UNKNOWN = "unknown"


DAMAGED = (Condition.CRACKED, Condition.LEAKING, Condition.SWOLLEN, Condition.FROZEN)


class Terminal(StrEnum):
    """The terminals of a battery."""

    POST = "post"
    STUD_M6 = "stud-m6"
    STUD_M8 = "stud-m8"
    STUD_M10 = "stud-m10"
    POST_AND_STUD = "post-and-stud"
    SIDE = "side"
    UNKNOWN = "unknown"


class Conductor(StrEnum):
    """What a lead is made of."""

    COPPER = "copper"
    TINNED_COPPER = "tinned-copper"
    ALUMINIUM = "aluminium"
    COPPER_CLAD = "copper-clad"
    UNKNOWN = "unknown"


class BallastMetal(StrEnum):
    """What a ballast strip is made of: austenitic stainless (304 and its like), or plain mild steel."""

    STAINLESS = "stainless"
    MILD = "mild"

    @classmethod
    def _missing_(cls, value: object) -> BallastMetal | None:
        return {"304": cls.STAINLESS, "steel": cls.MILD, "mild-steel": cls.MILD}.get(str(value))


class Fitting(StrEnum):
    """What is on the end of a lead; also the kinds of joint that a current crosses."""

    LUG_M6 = "lug-m6"
    LUG_M8 = "lug-m8"
    LUG_M10 = "lug-m10"
    POST_CLAMP = "post-clamp"
    SPRING_CLAMP = "spring-clamp"
    SPRING_CLAMP_BONDED = "spring-clamp-bonded"
    PLUG = "plug"
    HOLDER = "holder"
    WORK_CLAMP = "work-clamp"
    BARE = "bare"


class Covering(StrEnum):
    """The covering family of a stick electrode."""

    CELLULOSIC = "cellulosic"
    RUTILE = "rutile"
    RUTILE_IRON_POWDER = "rutile-iron-powder"
    IRON_OXIDE = "iron-oxide"
    BASIC = "basic"
    STAINLESS = "stainless"


class Polarity(StrEnum):
    """Polarity, named from the rod. `words` is the only form that may be printed alone."""

    DCEP = "DCEP"
    DCEN = "DCEN"

    @property
    def words(self) -> str:
        """Both ends, from the rod."""
        return {
            Polarity.DCEP: "HOLDER TO +, WORK CLAMP TO −",
            Polarity.DCEN: "HOLDER TO −, WORK CLAMP TO +",
        }[self]


class BatteryPlace(StrEnum):
    """What a battery does where it lives."""

    START = "start"
    SECOND = "second"
    LOOSE = "loose"


class BatterySite(StrEnum):
    """Where in a vehicle a battery sits: how far its leads must reach, and where its gas goes."""

    BONNET = "bonnet"
    TRAY = "tray"
    CHASSIS = "chassis"
    BOOT = "boot"
    CABIN = "cabin"
    UNDER_SEAT = "under-seat"
    UNKNOWN = "unknown"

    @property
    def words(self) -> str:
        """Where that is, in a sentence."""
        return {
            BatterySite.BONNET: "under the bonnet",
            BatterySite.TRAY: "in the tray",
            BatterySite.CHASSIS: "on the chassis",
            BatterySite.BOOT: "in the boot",
            BatterySite.CABIN: "in the cabin",
            BatterySite.UNDER_SEAT: "under a seat",
            BatterySite.UNKNOWN: "nobody has said where",
        }[self]

    @property
    def inside(self) -> bool:
        """Whether people breathe where it gasses."""
        return self in (BatterySite.BOOT, BatterySite.CABIN, BatterySite.UNDER_SEAT)


class StartBatteries(StrEnum):
    """How a vehicle's starting batteries are joined: `pair` is the two halves of 24 V under a bridge."""

    SINGLE = "single"
    TWIN = "twin"
    PAIR = "pair"

    @property
    def how_many(self) -> int:
        """How many batteries that is; all of them start the engine."""
        return 1 if self is StartBatteries.SINGLE else 2


class LeadUse(StrEnum):
    """What a lead does in the circuit."""

    LINK = "link"
    HOLDER = "holder"
    WORK = "work"
    JUMPER = "jumper"
    EXTENSION = "extension"


class Mark(StrEnum):
    """How a lead's polarity is marked."""

    PLUS = "plus"
    MINUS = "minus"
    BOTH_ENDS = "both-ends"
    NONE = "none"


class ClampKind(StrEnum):
    """What a loose fitting is."""

    POST_CLAMP = "post-clamp"
    SPRING_CLAMP = "spring-clamp"
    WORK_CLAMP = "work-clamp"
    HOLDER = "holder"
    ADAPTOR = "adaptor"


class RodStorage(StrEnum):
    """How a packet of rods is kept."""

    SEALED = "sealed"
    DRY_TUBE = "dry-tube"
    CARTON = "carton"
    LOOSE = "loose"
    UNKNOWN = "unknown"


class RodCondition(StrEnum):
    """What bending, tapping and looking say of a packet of rods."""

    DRY = "dry"
    DAMP = "damp"
    WET = "wet"
    DAMAGED = "damaged"
    UNKNOWN = "unknown"


class GearKind(StrEnum):
    """Protective equipment by what it does."""

    HELMET = "helmet"
    HELMET_AUTO = "helmet-auto-darkening"
    HAND_SHIELD = "hand-shield"
    GOGGLES = "goggles"
    SPARE_FILTER = "spare-filter"
    SAFETY_GLASSES = "safety-glasses"
    GLOVES = "gloves"
    JACKET = "jacket"
    APRON = "apron"
    SLEEVES = "sleeves"
    HEAD_COVER = "head-cover"
    MASK = "mask"
    EAR_PLUGS = "ear-plugs"
    BOOTS = "boots"


class ToolKind(StrEnum):
    """Tools, meters, consumables and fire gear by what they do."""

    VOLTMETER = "voltmeter"
    CLAMP_METER = "clamp-meter"
    ISOLATOR = "isolator"
    FUSE = "fuse"
    BALLAST_STRIP = "ballast-strip"
    SPANNER = "spanner"
    POST_BRUSH = "post-brush"
    BATTERY_COVER = "battery-cover"
    EXTINGUISHER = "extinguisher"
    WATER = "water"
    FIRE_BLANKET = "fire-blanket"
    SHOVEL = "shovel"
    TIMER = "timer"
    STUB_TIN = "stub-tin"
    WIRE_BRUSH = "wire-brush"
    CHIPPING_HAMMER = "chipping-hammer"
    GRINDER = "grinder"
    DISC = "disc"
    FILE = "file"
    HACKSAW = "hacksaw"
    DRILL = "drill"
    CLAMPS = "clamps"
    SCRAP_PLATE = "scrap-plate"
    STOCK_FLAT = "stock-flat"
    STOCK_ANGLE = "stock-angle"
    STOCK_TUBE = "stock-tube"
    JACK = "jack"
    STANDS = "stands"
    CHOCKS = "chocks"
    ROD_TUBE = "rod-tube"
    FIRST_AID_BURNS = "first-aid-burns"
    EYE_WASH = "eye-wash"
    CALL_FOR_HELP = "call-for-help"
    HEATER = "heater"
    THERMOMETER = "thermometer"
    CHARGER = "charger"
    SOLAR_PANEL = "solar-panel"
    OTHER = "other"


class Extinguishant(StrEnum):
    """What an extinguisher throws."""

    POWDER = "powder"
    WATER = "water"
    FOAM = "foam"
    CO2 = "co2"


class FireRules(StrEnum):
    """What the fire authority answered for the trip's area and days."""

    NOT_ASKED = "not-asked"
    ALLOWED = "allowed"
    WITH_CONDITIONS = "with-conditions"
    BANNED = "banned"


class Position(StrEnum):
    """How the weld lies when it is run."""

    FLAT = "flat"
    HORIZONTAL = "horizontal"
    HORIZONTAL_FILLET = "horizontal-fillet"
    VERTICAL = "vertical"
    VERTICAL_DOWN = "vertical-down"
    OVERHEAD = "overhead"


class Joint(StrEnum):
    """How the two parts meet."""

    FILLET = "fillet"
    LAP = "lap"
    SQUARE_BUTT = "square-butt"
    SINGLE_V = "single-v"
    PLUG = "plug"


class Steel(StrEnum):
    """What the broken part is made of. `galvanised` is mild steel under zinc."""

    MILD = "mild"
    HIGH_STRENGTH = "high-strength"
    SPRING = "spring"
    HARDENED = "hardened"
    STAINLESS = "stainless"
    GALVANISED = "galvanised"
    CAST_IRON = "cast-iron"
    ALUMINIUM = "aluminium"
    UNKNOWN = "unknown"


class Settled(StrEnum):
    """How a repair made in the field came to its end."""

    REPAIRED = "repaired"
    REPLACED = "replaced"


class Paper(StrEnum):
    """The size of the paper: every paper is made for both."""

    A4 = "A4"
    LETTER = "letter"


class Units(StrEnum):
    """The units that lists, gaps and papers show: metric, or the imperial ones beside them. All is kept metric."""

    METRIC = "metric"
    IMPERIAL = "imperial"
