"""The store's tables as SQLModel classes: typed rows, one class a table.

The schema itself is owned by `migrations/`; a test holds these classes, the tables and the kit's dataclasses to
the same columns. Rows hold plain values and are not validated: outside data comes in through `kitlist.kit.entry`.
"""

from datetime import date

from pydantic import NaiveDatetime
from sqlmodel import Field, SQLModel


class BagRow(SQLModel, table=True):
    """A bag."""

    __tablename__ = "bag"

    name: str = Field(primary_key=True)
    place: str
    walk_order: int
    note: str
    removed_at: str | None = None


class VehicleRow(SQLModel, table=True):
    """A vehicle."""

    __tablename__ = "vehicle"

    name: str = Field(primary_key=True)
    crank_a: float | None = None
    driven_at: NaiveDatetime | None = None
    guest_of: str = ""
    note: str
    removed_at: str | None = None


class BatteryRow(SQLModel, table=True):
    """A battery."""

    __tablename__ = "battery"

    name: str = Field(primary_key=True)
    vehicle: str | None = Field(default=None, foreign_key="vehicle.name")
    place: str
    chemistry: str
    built_in_cutoff: bool | None = None
    condition: str
    c20_ah: float | None = None
    cranking_a: float | None = None
    cranking_standard: str
    tester_mohm: float | None = None
    terminals: str
    in_service_since: date | None = None
    stays_connected: bool | None = None
    mass_kg: float | None = None
    bag: str | None = Field(default=None, foreign_key="bag.name")
    note: str
    removed_at: str | None = None


class LeadRow(SQLModel, table=True):
    """A lead."""

    __tablename__ = "lead"

    name: str = Field(primary_key=True)
    use: str
    end_a: str
    end_b: str
    pattern_a: str
    pattern_b: str
    area_mm2: float | None = None
    length_m: float | None = None
    conductor: str
    insulation_limit_c: float | None = None
    mark: str
    measured_mohm: float | None = None
    rating_a: float | None = None
    count: int
    bag: str | None = Field(default=None, foreign_key="bag.name")
    note: str
    removed_at: str | None = None


class ClampRow(SQLModel, table=True):
    """A clamp."""

    __tablename__ = "clamp"

    name: str = Field(primary_key=True)
    what: str
    joins_a: str | None = None
    joins_b: str | None = None
    pattern_a: str
    pattern_b: str
    rating_a: float | None = None
    insulated: bool | None = None
    count: int
    bag: str | None = Field(default=None, foreign_key="bag.name")
    note: str
    removed_at: str | None = None


class RodRow(SQLModel, table=True):
    """A rod."""

    __tablename__ = "rod"

    name: str = Field(primary_key=True)
    designation: str
    diameter_mm: float
    length_mm: float
    count: int
    storage: str
    opened_on: date | None = None
    exposed_h: float | None = None
    condition: str
    bakes: int
    bag: str | None = Field(default=None, foreign_key="bag.name")
    note: str
    removed_at: str | None = None


class GearRow(SQLModel, table=True):
    """A piece of protective equipment."""

    __tablename__ = "gear"

    name: str = Field(primary_key=True)
    what: str
    shade: float | None = None
    protection: str
    lowest_c: float | None = None
    tested_on: date | None = None
    cell_changed_on: date | None = None
    sound: bool | None = None
    expires_on: date | None = None
    count: int
    bag: str | None = Field(default=None, foreign_key="bag.name")
    note: str
    removed_at: str | None = None


class ToolRow(SQLModel, table=True):
    """A tool."""

    __tablename__ = "tool"

    name: str = Field(primary_key=True)
    what: str
    count: int
    rating_a: float | None = None
    rating_v: float | None = None
    accuracy_ratio: float | None = None
    agent: str | None = None
    amount_kg: float | None = None
    volume_l: float | None = None
    thickness_mm: float | None = None
    insulating: bool | None = None
    checked_on: date | None = None
    expires_on: date | None = None
    bag: str | None = Field(default=None, foreign_key="bag.name")
    note: str
    removed_at: str | None = None


class ItemRow(SQLModel, table=True):
    """Something of the owner's own that must be carried."""

    __tablename__ = "item"

    name: str = Field(primary_key=True)
    must_carry: int
    count: int
    expires_on: date | None = None
    bag: str | None = Field(default=None, foreign_key="bag.name")
    note: str
    removed_at: str | None = None


class AcceptanceRow(SQLModel, table=True):
    """A gap that somebody took on for one trip."""

    __tablename__ = "acceptance"

    name: str = Field(primary_key=True)
    rule: str
    subject: str
    severity: str
    trip: str = Field(foreign_key="trip.name")
    accepted_by: str
    reason: str
    accepted_on: date
    until: date
    short_by: float | None = None
    note: str
    removed_at: str | None = None


class RepairRow(SQLModel, table=True):
    """A repair."""

    __tablename__ = "repair"

    name: str = Field(primary_key=True)
    part: str
    vehicle: str | None = Field(default=None, foreign_key="vehicle.name")
    steel: str
    thickness_mm: float | None = None
    joint: str
    position: str
    weld_length_mm: float | None = None
    leg_mm: float | None = None
    load_bearing: bool | None = None
    behind: str = ""
    note: str
    removed_at: str | None = None


class TripRow(SQLModel, table=True):
    """A trip."""

    __tablename__ = "trip"

    name: str = Field(primary_key=True)
    starts_on: date
    ends_on: date
    crew: str
    people: int | None = None
    coldest_c: float | None = None
    hottest_c: float | None = None
    days_from_help: float | None = None
    wet: bool | None = None
    parked_apart_m: float | None = None
    bank_strings: int
    fire_rules: str
    fire_rules_asked_on: date | None = None
    fire_authority: str = ""
    fire_answer: str = ""
    note: str
    removed_at: str | None = None


class ReadingRow(SQLModel, table=True):
    """A reading."""

    __tablename__ = "reading"

    id: int | None = Field(default=None, primary_key=True)
    battery: str = Field(foreign_key="battery.name")
    volts_v: float
    taken_at: NaiveDatetime
    rested_h: float | None = None
    battery_temp_c: float | None = None
    load_a: float | None = None
    charging: bool
    quick_load: bool
    meter_accuracy_ratio: float | None = None
    note: str
    removed_at: str | None = None


class TripVehicleRow(SQLModel, table=True):
    """A vehicle of a trip, in order."""

    __tablename__ = "trip_vehicle"

    trip: str = Field(primary_key=True, foreign_key="trip.name")
    position: int = Field(primary_key=True)
    vehicle: str = Field(foreign_key="vehicle.name")


class TripRepairRow(SQLModel, table=True):
    """A repair of a trip, in order."""

    __tablename__ = "trip_repair"

    trip: str = Field(primary_key=True, foreign_key="trip.name")
    position: int = Field(primary_key=True)
    repair: str = Field(foreign_key="repair.name")


class TripBatteryRow(SQLModel, table=True):
    """A battery of a trip, in order."""

    __tablename__ = "trip_battery"

    trip: str = Field(primary_key=True, foreign_key="trip.name")
    position: int = Field(primary_key=True)
    battery: str = Field(foreign_key="battery.name")


class BeadRow(SQLModel, table=True):
    """A practice weld."""

    __tablename__ = "bead"

    name: str = Field(primary_key=True)
    welded_on: date
    bank_strings: int
    rod: str | None = Field(default=None, foreign_key="rod.name")
    rest_v: float
    bank_v: float
    current_a: float
    holder_v: float | None = None
    meter_accuracy_ratio: float | None = None
    clamp_accuracy_ratio: float | None = None
    note: str
    removed_at: str | None = None


class BeadBatteryRow(SQLModel, table=True):
    """A battery of a practice weld's bank, in order."""

    __tablename__ = "bead_battery"

    bead: str = Field(primary_key=True, foreign_key="bead.name")
    position: int = Field(primary_key=True)
    battery: str = Field(foreign_key="battery.name")


class MendRow(SQLModel, table=True):
    """A repair that was made in the field."""

    __tablename__ = "mend"

    name: str = Field(primary_key=True)
    part: str
    welded_on: date
    vehicle: str | None = Field(default=None, foreign_key="vehicle.name")
    spot: str = ""
    trip: str | None = Field(default=None, foreign_key="trip.name")
    rod: str | None = Field(default=None, foreign_key="rod.name")
    current_a: float | None = None
    photo: str = ""
    sound_at_5_km: bool | None = None
    sound_at_50_km: bool | None = None
    sound_after_a_day: bool | None = None
    settled: str | None = None
    settled_on: date | None = None
    settled_by: str = ""
    note: str
    removed_at: str | None = None


class MendBatteryRow(SQLModel, table=True):
    """A battery that a repair was welded from, in order."""

    __tablename__ = "mend_battery"

    mend: str = Field(primary_key=True, foreign_key="mend.name")
    position: int = Field(primary_key=True)
    battery: str = Field(foreign_key="battery.name")


class RodEventRow(SQLModel, table=True):
    """Something that happened to a packet of rods."""

    __tablename__ = "rod_event"

    id: int | None = Field(default=None, primary_key=True)
    rod: str = Field(foreign_key="rod.name")
    what: str
    happened_on: date
    count: int | None = None
    note: str


ROWS: dict[str, type[SQLModel]] = {
    str(row.__tablename__): row
    for row in (
        BagRow,
        VehicleRow,
        BatteryRow,
        LeadRow,
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
        ReadingRow,
    )
}
"""The row class of each kind, by the kind's word."""

LISTS: dict[str, dict[str, type[SQLModel]]] = {
    "trip": {"vehicles": TripVehicleRow, "repairs": TripRepairRow, "bank": TripBatteryRow},
    "bead": {"bank": BeadBatteryRow},
    "mend": {"bank": MendBatteryRow},
}
"""The row class behind each list of a kind, by kind and field; its columns are the kind, a position and the member."""

MEMBERS = {"vehicles": "vehicle", "repairs": "repair", "bank": "battery"}
"""The column of the member in the rows behind each list."""
