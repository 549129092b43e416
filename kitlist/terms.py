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
