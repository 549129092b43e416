"""The one error tree. Every error carries an exit code and, where there is one, what to type next.

    KitlistError (1)
    ├── UsageError (2)        the command's words are off
    ├── BadData (3)           a value that cannot be taken: what, which value, what was allowed
    │   ├── OutOfRange        a figure outside the range that its source covers
    │   ├── BadDesignation    writing that is no rod designation: where it goes wrong, what is near
    │   └── BadFile           several bad lines of one file, reported together
    ├── NotFound (4)          a name that nothing in the kit has
    │   └── Ambiguous         a name that more than one thing answers to
    ├── StoreError (1)        the store cannot be opened, read or written
    └── PrintError (1)        a paper that cannot be made as it must be

Readiness has exit codes of its own: 0 ready, 10 not ready, 11 ready with gaps (see `kitlist.readiness`).
"""

from __future__ import annotations


class KitlistError(Exception):
    """Something went wrong in a way that a user can be told about in a sentence.

    `hint` says what to do or type next; it is shown on a line of its own.
    """

    exit_code = 1

    def __init__(self, message: str, *, hint: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint


class UsageError(KitlistError):
    """The words of the command do not make a request."""

    exit_code = 2


class BadData(KitlistError):
    """A value that cannot be taken. The message names the value and what was allowed."""

    exit_code = 3


class OutOfRange(BadData):
    """A figure outside the range its source covers: never clamped, never extrapolated in silence."""


class BadDesignation(BadData):
    """Writing that is no rod designation. `position` counts characters from 1; `nearest` are valid ones."""

    def __init__(self, message: str, *, position: int, nearest: tuple[str, ...] = (), hint: str = "") -> None:
        super().__init__(message, hint=hint)
        self.position = position
        self.nearest = nearest


class BadFile(BadData):
    """Every bad line of one file at once; nothing of the file was taken."""

    def __init__(self, message: str, *, lines: tuple[str, ...], hint: str = "") -> None:
        super().__init__(message, hint=hint)
        self.lines = lines


class NotFound(KitlistError):
    """A name that nothing in the kit has; near names are offered in the hint."""

    exit_code = 4


class Ambiguous(NotFound):
    """A short name that more than one thing answers to."""


class StoreError(KitlistError):
    """The store cannot be opened, read or written."""


class PrintError(KitlistError):
    """A paper that cannot be made as it must be: something does not fit or cannot be drawn."""
