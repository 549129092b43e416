"""Rows of the journal: a command that changed the store, and the rows that it changed."""

from sqlmodel import Field, SQLModel


class JournalRow(SQLModel, table=True):
    """A command that changed something."""

    __tablename__ = "journal"

    id: int | None = Field(default=None, primary_key=True)
    at: str
    words: str
    who: str
    undoes: int | None = None
    undone_by: int | None = None
    lasting: bool = False
    size: int = 0


class JournalChangeRow(SQLModel, table=True):
    """A row that a command changed, or a span of rows that it inserted together."""

    __tablename__ = "journal_change"

    id: int | None = Field(default=None, primary_key=True)
    journal: int = Field(foreign_key="journal.id")
    what: str
    before: str | None = None
    after: str | None = None
    first_row: int | None = None
    last_row: int | None = None
