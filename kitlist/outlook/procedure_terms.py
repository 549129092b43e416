"""The words of the procedure as fixed lists: phases, things to do, hazards, troubles, reasons not to link.

Each is worded once, in `seed_data/words/procedure.toml`, under its value.
"""

from __future__ import annotations

from enum import StrEnum


class Phase(StrEnum):
    """What a crew is about to do; each begins a face of the card."""

    MAKE_SAFE = "make-safe"
    READ = "isolate-and-read"
    LINK = "link"
    ARC = "at-the-arc"
    UNDO = "undo-and-move"
    AFTER = "after"
    WRONG = "when-it-goes-wrong"


class Task(StrEnum):
    """One thing to do."""

    ASK_HOT_WORK = "ask-hot-work"
    DRY = "dry"
    NAME_WATCHER = "name-watcher"
    WATCH_ALONE = "watch-alone"
    WATER_AT_PART = "water-at-part"
    BARE_EARTH = "bare-earth"
    ENGINES_OFF = "engines-off"
    FEEDS_OUT = "feeds-out"
    SURFACE_LOAD = "surface-load"
    SURFACE_LOOSE = "surface-loose"
    SURFACE_WAIT = "surface-wait"
    STANDS = "stands"
    LOOK_BEHIND = "look-behind"
    KEYS_OUT = "keys-out"

    GOGGLES = "goggles"
    FREE = "free"
    FREE_WELDED = "free-welded"
    FREE_BRIDGE = "free-bridge"
    FREE_BRIDGE_WELDED = "free-bridge-welded"
    COVER = "cover"
    READ = "read"
    READ_ALL = "read-all"
    LOOK_UP_RODS = "look-up-rods"

    OPEN_ISOLATOR = "open-isolator"
    PART_PLUG = "part-plug"
    PART_WORK_PLUG = "part-work-plug"
    FUSE_IN = "fuse-in"
    CLAMP_WORK = "clamp-work"
    LINK = "link"
    TIE_MINUS = "tie-minus"
    METER_TIE = "meter-tie"
    TIE_PLUS = "tie-plus"
    BALLAST = "ballast"
    JOIN_WORK = "join-work"
    JOIN_HOLDER = "join-holder"
    READ_PACKET = "read-packet"

    POLARITY = "polarity"
    HELMETS = "helmets"
    HELMET_ALONE = "helmet-alone"
    WATCHER_AT_ISOLATOR = "watcher-at-isolator"
    WATCHER_AT_PLUG = "watcher-at-plug"
    ISOLATOR_IN_REACH = "isolator-in-reach"
    PLUG_IN_REACH = "plug-in-reach"
    ROD_IN = "rod-in"
    SAY_CLOSE = "say-close"
    SAY_CLOSE_PLUG = "say-close-plug"
    CLOSE_ALONE = "close-alone"
    PLUG_ALONE = "plug-alone"
    SCRAP = "scrap"
    NEW_ROD = "new-rod"
    NEW_ROD_ALONE = "new-rod-alone"
    REST = "rest"

    SAY_OPEN = "say-open"
    OPEN_ALONE = "open-alone"
    UNPLUG_ALONE = "unplug-alone"
    ROD_OUT = "rod-out"
    START_WATCH = "start-watch"
    START_WATCH_ALONE = "start-watch-alone"
    LEADS_OFF = "leads-off"
    UNTIE = "untie"
    UNLINK = "unlink"
    PUT_BACK = "put-back"
    REJOIN_BRIDGE = "rejoin-bridge"
    WAIT_AFTER = "wait-after"
    READ_AFTER = "read-after"
    READ_AFTER_ALL = "read-after-all"
    CHARGE_LOW = "charge-low"
    START_ENGINES = "start-engines"

    CHIP = "chip"
    LOOK_FOR_CRACKS = "look-for-cracks"
    CLIP_BACK = "clip-back"
    END_WATCH = "end-watch"
    LOOK_AGAIN = "look-again"
    WALKING_PACE = "walking-pace"
    LOOK_ON_THE_WAY = "look-on-the-way"
    CHARGE_ALONE = "charge-alone"


class Hazard(StrEnum):
    """What can hurt; each is a warning with its result and how to avoid it."""

    ALONE = "alone"
    FALLS = "falls"
    LEFT_ON = "left-on"
    GAS = "gas"
    ARC_LIGHT = "arc-light"
    LINK_LEFT_ON = "link-left-on"
    WELD_BREAKS = "weld-breaks"


class Trouble(StrEnum):
    """What can go wrong, in the order in which it is looked up: what cannot wait comes first."""

    STUCK = "stuck"
    STUCK_THEN_PLUG = "stuck-then-plug"
    STUCK_THEN_FUSE = "stuck-then-fuse"
    STUCK_NO_SECOND_WAY = "stuck-no-second-way"
    STUCK_PLUG = "stuck-plug"
    BATTERY = "battery"
    GROUND_FIRE = "ground-fire"
    FUEL_FIRE = "fuel-fire"
    WIRING_FIRE = "wiring-fire"
    CLOTHES_FIRE = "clothes-fire"
    NO_ARC = "no-arc"
    BURNS_THROUGH = "burns-through"
    SHOCK = "shock"
    ACID = "acid"
    ARC_EYE = "arc-eye"
    BURN = "burn"
    HELP = "help"

    @property
    def is_stuck(self) -> bool:
        """Whether it is one of the ways to free a stuck rod, of which one kit has one."""
        return self in _STUCK

    @property
    def is_of_the_weld(self) -> bool:
        """Whether it is looked up while welding goes on, beside the rods."""
        return self in (Trouble.NO_ARC, Trouble.BURNS_THROUGH)

    @property
    def is_first_aid(self) -> bool:
        """Whether it is about somebody who is hurt."""
        return self in (Trouble.SHOCK, Trouble.ACID, Trouble.ARC_EYE, Trouble.BURN, Trouble.HELP)


_STUCK = frozenset(
    {
        Trouble.STUCK,
        Trouble.STUCK_THEN_PLUG,
        Trouble.STUCK_THEN_FUSE,
        Trouble.STUCK_NO_SECOND_WAY,
        Trouble.STUCK_PLUG,
    }
)


class Barred(StrEnum):
    """Why a bank may not be linked at all, whatever its batteries read."""

    ONE = "one"
    AWAY = "away"
    REFUSED = "refused"
    NOTHING_OPENS = "nothing-opens"
    WET = "wet"
    FOUR = "four"
    APART = "apart"
    NO_ARC = "no-arc"
