"""Rows of what is owned and measured."""

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
    system_v: int = 12
    start_batteries: str = "single"
    starts_on_one: bool | None = None
    alternator_a: float | None = None
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
    sits: str = "unknown"
    welded_on: date | None = None
    bag: str | None = Field(default=None, foreign_key="bag.name")
    note: str
    removed_at: str | None = None
    checksum: int = 0


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
    splice_m: float | None = None
    splice_insulated: bool | None = None
    plug_breaks_a: float | None = None
    count: int
    bag: str | None = Field(default=None, foreign_key="bag.name")
    note: str
    removed_at: str | None = None
    checksum: int = 0


class BallastRow(SQLModel, table=True):
    """A ballast strip."""

    __tablename__ = "ballast"

    name: str = Field(primary_key=True)
    metal: str | None = None
    width_mm: float | None = None
    thickness_mm: float | None = None
    length_m: float | None = None
    measured_mohm: float | None = None
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
    power_w: float | None = None
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
    checksum: int = 0
