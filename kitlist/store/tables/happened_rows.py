"""Rows of what happened: to a packet of rods, on a check-off, on a trip, at the printer."""

from datetime import date

from pydantic import NaiveDatetime
from sqlmodel import Field, SQLModel


class RodEventRow(SQLModel, table=True):
    """Something that happened to a packet of rods."""

    __tablename__ = "rod_event"

    id: int | None = Field(default=None, primary_key=True)
    rod: str = Field(foreign_key="rod.name")
    what: str
    happened_on: date
    count: int | None = None
    note: str


class CheckOffRow(SQLModel, table=True):
    """One answer of going through the bags."""

    __tablename__ = "check_off"

    id: int | None = Field(default=None, primary_key=True)
    trip: str = Field(foreign_key="trip.name")
    kind: str
    thing: str
    answer: str
    count: int
    expected: int
    checked_by: str
    checked_at: NaiveDatetime
    superseded: bool = False
    undone_at: NaiveDatetime | None = None


class TripUseRow(SQLModel, table=True):
    """What a trip took of one thing, and whether it was put back."""

    __tablename__ = "trip_use"

    id: int | None = Field(default=None, primary_key=True)
    trip: str = Field(foreign_key="trip.name")
    kind: str
    thing: str
    used: float
    put_back: float
    unit: str
    used_on: date
    back_on: date | None = None
    said: float
    said_by: str = "used"


class LinkedBatteryRow(SQLModel, table=True):
    """A battery that was linked to weld on a day of a trip."""

    __tablename__ = "linked_battery"

    trip: str = Field(primary_key=True, foreign_key="trip.name")
    battery: str = Field(primary_key=True, foreign_key="battery.name")
    linked_on: date = Field(primary_key=True)
    strings: int


class SheetItemRow(SQLModel, table=True):
    """The thing behind a number of a printed sheet."""

    __tablename__ = "sheet_item"

    content_hash: str = Field(primary_key=True)
    number: int = Field(primary_key=True)
    trip: str = Field(foreign_key="trip.name")
    kind: str
    thing: str


class PrintedRow(SQLModel, table=True):
    """A paper that was printed."""

    __tablename__ = "printed"

    id: int | None = Field(default=None, primary_key=True)
    paper: str
    trip: str = Field(foreign_key="trip.name")
    content_hash: str
    revision: int
    printed_on: date
    bank: str
    basis: str
    lines: str


class PocketTakenRow(SQLModel, table=True):
    """The word of an entry that came from a phone, so that it counts once."""

    __tablename__ = "pocket_taken"

    word: str = Field(primary_key=True)
    kind: str
    taken_at: NaiveDatetime


class GuideAnswerRow(SQLModel, table=True):
    """One question of the guided start that was answered or passed over."""

    __tablename__ = "guide_answer"

    position: int = Field(primary_key=True)
    question: str
    answer: str


class PhonePortRow(SQLModel, table=True):
    """The port of the phone page's last run; one row."""

    __tablename__ = "phone_port"

    id: int = Field(default=1, primary_key=True)
    port: int


class SettingRow(SQLModel, table=True):
    """What the owner has set for all commands; one row, or none where everything is as a store begins."""

    __tablename__ = "setting"

    id: int = Field(default=1, primary_key=True)
    units: str
    paper: str
    given_by: str
