"""The condition of a packet of rods by covering family, and what to do with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from kitlist.base.errors import OutOfRange
from kitlist.base.sources import PRACTICE, Source, Tag, sourced, table
from kitlist.base.terms import RodCondition, RodStorage
from kitlist.welding.designation.designation import StorageFamily

D1_1 = Source(Tag.READ, "AWS D1.1:2015 5.3.2")
ANNEX = Source(Tag.MEMORY, "AWS A5.1 annex")
HUMID_H = 2.0
"""Exposure of a basic rod without the R mark when it is humid, or when nobody can say. Common practice."""
MOST_BAKES = 1
OLD_YEARS = 3.0
"""Boxed rutile or cellulosic rods older than this are tested before they are trusted. Common practice."""


class Fitness(StrEnum):
    """What is to be done with a packet."""

    GOOD = "good"
    TEST = "test first"
    DRY = "dry first"
    BAKE = "bake first"
    SCRAP = "scrap"


@dataclass(frozen=True, slots=True)
class PacketVerdict:
    """What one packet is fit for, why, and what to do; `exposed_h` against `limit_h` where a limit counts."""

    fitness: Fitness
    why: str
    remedy: str
    source: Source
    exposed_h: float | None = None
    limit_h: float | None = None

    @property
    def usable(self) -> bool:
        """Fit to weld with as it is."""
        return self.fitness is Fitness.GOOD


@dataclass(frozen=True, slots=True, kw_only=True)
class Packet:
    """What is known of a packet. `open_h` counts from opening, or from baking if that came later; `exposed_h`, if
    somebody kept count, is the part of it spent in open air. `humid` None: nobody can say."""

    family: StorageFamily
    storage: RodStorage = RodStorage.UNKNOWN
    condition: RodCondition = RodCondition.UNKNOWN
    open_h: float | None = None
    exposed_h: float | None = None
    humid: bool | None = None
    moisture_resistant: bool = False
    bakes: int = 0
    age_years: float | None = None


def _row(family: StorageFamily) -> Mapping[str, str]:
    return next(row for row in table("rod_storage") if row["family"] == family)


def time_words(hours: float) -> str:
    """Hours as people say them: from three days on in days.

    >>> time_words(9.5), time_words(4560)
    ('9.5 h', '190 days')
    """
    return f"{hours:g} h" if hours < 72 else f"{hours / 24:.0f} days"


def exposure_limit_h(family: StorageFamily, *, moisture_resistant: bool, humid: bool | None) -> float | None:
    """Hours of open air that a rod may have before it is baked; None where the family has no limit.

    Basic rods: 4 h; 9 h with the R mark (which is tested in humid air) and for E7018M; without R, 2 h when it is humid
    or nobody can say.

    >>> exposure_limit_h(StorageFamily.BASIC, moisture_resistant=False, humid=False)
    4.0
    """
    row = _row(family)
    if not row["exposure_h"]:
        return None
    if moisture_resistant or family is StorageFamily.BASIC_MILITARY:
        return float(row["exposure_r_h"])
    return float(row["exposure_h"]) if humid is False else HUMID_H


@sourced(D1_1, ANNEX, PRACTICE)
def judge_packet(packet: Packet) -> PacketVerdict:
    """What a packet of rods is fit for, and what to do with it.

    Wet rods and rods whose covering cracks or lifts are scrap, whatever the family. Not known is never good.

    >>> left_open = Packet(family=StorageFamily.BASIC, storage=RodStorage.CARTON, open_h=30.0, humid=False)
    >>> judge_packet(left_open).fitness, judge_packet(left_open).limit_h
    (<Fitness.BAKE: 'bake first'>, 4.0)
    """
    for name, value in (("open_h", packet.open_h), ("exposed_h", packet.exposed_h), ("bakes", packet.bakes)):
        if value is not None and value < 0:
            raise OutOfRange(f"{name} is {value:g}: 0 or more was expected")
    if packet.condition is RodCondition.WET:
        source = D1_1 if _is_basic(packet) else PRACTICE
        return PacketVerdict(
            Fitness.SCRAP, "They have been wet.", "Scrap them: no drying makes wet rods sound.", source
        )
    if packet.condition is RodCondition.DAMAGED:
        return PacketVerdict(
            Fitness.SCRAP, "The covering is cracked, lifting or powdery.", "Scrap them; pack fresh ones.", PRACTICE
        )
    if _is_basic(packet):
        return _basic(packet)
    if packet.family is StorageFamily.CELLULOSIC:
        return _cellulosic(packet)
    if packet.family is StorageFamily.STAINLESS:
        return _other(packet, "Dry them as their packet says, or pack fresh ones.", PRACTICE)
    return _other(
        packet,
        "Dry them at 100 to 135 °C for 1 h (a camp oven or a warm manifold does), then strike one on scrap.",
        ANNEX,
    )


def _is_basic(packet: Packet) -> bool:
    return packet.family in (StorageFamily.BASIC, StorageFamily.BASIC_MILITARY)


def _basic(packet: Packet) -> PacketVerdict:
    limit_h = exposure_limit_h(packet.family, moisture_resistant=packet.moisture_resistant, humid=packet.humid)
    exposed_h = packet.exposed_h if packet.exposed_h is not None else packet.open_h
    baked = packet.bakes >= MOST_BAKES
    if packet.bakes > MOST_BAKES:
        return PacketVerdict(
            Fitness.SCRAP, f"They have been baked {packet.bakes} times; once is the most.", "Scrap them.", D1_1
        )
    if packet.condition is RodCondition.DAMP:
        return _spent("They are damp.", baked, exposed_h, limit_h)
    if packet.storage is RodStorage.SEALED:
        return PacketVerdict(
            Fitness.GOOD, "The seal is whole.", "Open it at the job, and use it up that day.", D1_1, 0.0, limit_h
        )
    if exposed_h is None:
        since = "baked" if packet.bakes else "opened"
        return PacketVerdict(
            Fitness.TEST,
            f"Nobody knows how long they have been in open air since they were {since}.",
            "Find out when, else count them as over their limit: pack a sealed packet instead.",
            D1_1,
            None,
            limit_h,
        )
    assert limit_h is not None
    if exposed_h <= limit_h:
        return PacketVerdict(
            Fitness.GOOD,
            f"{time_words(exposed_h)} in open air of {limit_h:g} h allowed.",
            "Use them first. Held at 120 °C for 4 h within the limit, the count begins again.",
            D1_1,
            exposed_h,
            limit_h,
        )
    why = f"{time_words(exposed_h)} in open air; {limit_h:g} h is the limit"
    unsure = limit_h == HUMID_H and packet.humid is None
    return _spent(why + (" when nobody can say how humid it was." if unsure else "."), baked, exposed_h, limit_h)


def _spent(why: str, baked: bool, exposed_h: float | None, limit_h: float | None) -> PacketVerdict:
    """Basic rods over their limit or damp: one bake, and then scrap."""
    if baked:
        return PacketVerdict(
            Fitness.SCRAP,
            f"{why} They have been baked once, which is the most.",
            "Scrap them; pack a sealed packet.",
            D1_1,
            exposed_h,
            limit_h,
        )
    return PacketVerdict(
        Fitness.BAKE,
        why,
        "Bake them once at home, 2 h at 350 to 370 °C: no track oven gets there. Or pack a sealed packet.",
        Source(Tag.MEMORY, "AWS D1.1:2015 5.3.2.4: 260 to 430 °C, at least 2 h; 350 to 370 °C is common practice"),
        exposed_h,
        limit_h,
    )


def _cellulosic(packet: Packet) -> PacketVerdict:
    if packet.bakes:
        return PacketVerdict(
            Fitness.SCRAP,
            "They have been baked: the covering needs its 3 to 7 % moisture.",
            "Scrap them; cellulosic rods are never baked.",
            ANNEX,
        )
    return _other(
        packet, "Never bake them. Lay them open in a dry room, warmed to 70 °C at most, and strike one on scrap.", ANNEX
    )


def _other(packet: Packet, if_damp: str, source: Source) -> PacketVerdict:
    """Families without an exposure limit: what looking says, where they are kept, how old they are."""
    test = "Tap, bend and look at one, strike it on scrap, and record what you find."
    if packet.condition is RodCondition.DAMP:
        return PacketVerdict(Fitness.DRY, "They are damp.", if_damp, source)
    if packet.condition is RodCondition.DRY:
        return PacketVerdict(Fitness.GOOD, "Tested dry.", "Keep them in a screw-top tube with desiccant.", source)
    if packet.age_years is not None and packet.age_years > OLD_YEARS:
        years = f"{packet.age_years:.0f} years"
        return PacketVerdict(
            Fitness.TEST,
            f"They are {years} old; over {OLD_YEARS:.0f} years they are not taken on trust.",
            test,
            PRACTICE,
        )
    if packet.storage is RodStorage.SEALED:
        return PacketVerdict(Fitness.GOOD, "The packet is sealed.", "Once open, into a screw-top tube.", source)
    if packet.storage is RodStorage.DRY_TUBE:
        return PacketVerdict(Fitness.GOOD, "Kept in a dry tube.", "Tap one before the trip.", PRACTICE)
    where = {RodStorage.CARTON: "in an open carton", RodStorage.LOOSE: "loose"}.get(packet.storage, "nobody knows how")
    return PacketVerdict(Fitness.TEST, f"Kept {where}, and not tested.", test, PRACTICE)
