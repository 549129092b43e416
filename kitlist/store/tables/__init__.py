"""The store's tables as SQLModel classes: typed rows, one class a table. Every row is written as one of them.

The schema itself is owned by `migrations/`; a test holds these classes, the tables and the kit's dataclasses to
the same columns. Rows hold plain values and are not validated: outside data comes in through `kitlist.kit.entry`.
This is the one room that loads sqlmodel, and it is loaded when something is written: judging needs none of it.
"""

from sqlmodel import SQLModel as Row

from kitlist.store.tables.happened_rows import (
    CheckOffRow,
    GuideAnswerRow,
    LinkedBatteryRow,
    PhonePortRow,
    PocketTakenRow,
    PrintedRow,
    RodEventRow,
    SettingRow,
    SheetItemRow,
    TripUseRow,
)
from kitlist.store.tables.journal_rows import JournalChangeRow, JournalRow
from kitlist.store.tables.owned_rows import (
    BagRow,
    BallastRow,
    BatteryRow,
    ClampRow,
    GearRow,
    ItemRow,
    LeadRow,
    ReadingRow,
    RodRow,
    ToolRow,
    VehicleRow,
)
from kitlist.store.tables.planned_rows import (
    AcceptanceRow,
    BeadBatteryRow,
    BeadRow,
    MendBatteryRow,
    MendRow,
    RepairRow,
    TripBatteryRow,
    TripRepairRow,
    TripRow,
    TripVehicleRow,
    WeldBatteryRow,
    WeldRow,
)

__all__ = [
    "ALL",
    "LISTS",
    "ROWS",
    "CheckOffRow",
    "GuideAnswerRow",
    "LinkedBatteryRow",
    "PhonePortRow",
    "PocketTakenRow",
    "PrintedRow",
    "ReadingRow",
    "RodEventRow",
    "Row",
    "SettingRow",
    "SheetItemRow",
    "TripUseRow",
]

ROWS: dict[str, type[Row]] = {
    str(row.__tablename__): row
    for row in (
        BagRow,
        VehicleRow,
        BatteryRow,
        LeadRow,
        BallastRow,
        ClampRow,
        RodRow,
        GearRow,
        ToolRow,
        ItemRow,
        RepairRow,
        TripRow,
        AcceptanceRow,
        BeadRow,
        MendRow,
        WeldRow,
        ReadingRow,
    )
}
"""The row class of each kind, by the kind's word."""

LISTS: dict[str, dict[str, type[Row]]] = {
    "trip": {"vehicles": TripVehicleRow, "repairs": TripRepairRow, "bank": TripBatteryRow},
    "bead": {"bank": BeadBatteryRow},
    "mend": {"bank": MendBatteryRow},
    "weld": {"bank": WeldBatteryRow},
}
"""The row class behind each list of a kind, by kind and field; its columns are the kind, a position and the member."""

ALL: tuple[type[Row], ...] = (
    *ROWS.values(),
    *(table for lists in LISTS.values() for table in lists.values()),
    RodEventRow,
    CheckOffRow,
    TripUseRow,
    LinkedBatteryRow,
    SheetItemRow,
    PrintedRow,
    JournalRow,
    JournalChangeRow,
    PocketTakenRow,
    GuideAnswerRow,
    PhonePortRow,
    SettingRow,
)
"""Every row class, in an order in which each comes after those that it refers to."""
