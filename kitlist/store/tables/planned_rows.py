"""Rows of what is planned, practised and mended, and of their lists."""

from datetime import date

from sqlmodel import Field, SQLModel


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
    cleared: str = ""
    cleared_by: str = ""
    allowed_by: str = ""
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
    ballast: str | None = Field(default=None, foreign_key="ballast.name")
    fire_rules: str
    fire_rules_asked_on: date | None = None
    fire_authority: str = ""
    fire_answer: str = ""
    keep_away: str = ""
    keep_away_asked: str = ""
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


class AcceptanceRow(SQLModel, table=True):
    """A gap that somebody accepted for one trip."""

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


class BeadRow(SQLModel, table=True):
    """A practice weld."""

    __tablename__ = "bead"

    name: str = Field(primary_key=True)
    welded_on: date
    bank_strings: int
    rod: str | None = Field(default=None, foreign_key="rod.name")
    ballast: str | None = Field(default=None, foreign_key="ballast.name")
    rest_v: float
    bank_v: float
    current_a: float
    holder_v: float | None = None
    meter_accuracy_ratio: float | None = None
    clamp_accuracy_ratio: float | None = None
    note: str
    removed_at: str | None = None
    checksum: int = 0


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


class WeldRow(SQLModel, table=True):
    """A repair welded on a trip."""

    __tablename__ = "weld"

    name: str = Field(primary_key=True)
    welded_on: date
    rods: int
    bank_strings: int = 1
    trip: str | None = Field(default=None, foreign_key="trip.name")
    repair: str | None = Field(default=None, foreign_key="repair.name")
    rod: str | None = Field(default=None, foreign_key="rod.name")
    ballast: str | None = Field(default=None, foreign_key="ballast.name")
    before_v: float | None = None
    after_v: float | None = None
    after_rested_h: float | None = None
    bank_v: float | None = None
    current_a: float | None = None
    holder_v: float | None = None
    note: str
    removed_at: str | None = None
    checksum: int = 0


class WeldBatteryRow(SQLModel, table=True):
    """A battery that a weld was made from, in order."""

    __tablename__ = "weld_battery"

    weld: str = Field(primary_key=True, foreign_key="weld.name")
    position: int = Field(primary_key=True)
    battery: str = Field(foreign_key="battery.name")
