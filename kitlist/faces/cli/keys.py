"""Single keys at a terminal. What is typed ahead between two questions is not lost."""

from __future__ import annotations

import codecs
import io
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import typer

STOP = "\x04"  # what an end of input reads as
_ENTER = ("\r", "\n")
_BACK = ("\x7f", "\b")


@contextmanager
def single_keys() -> Iterator[Callable[[], str]]:
    """A reader of one key at a time, in lower case; the terminal is as it was when the block ends."""
    try:
        import termios

        fd = sys.stdin.fileno()
    except (ImportError, io.UnsupportedOperation):  # no such terminals on this platform, or no file behind the input
        yield _getchar
        return
    before = termios.tcgetattr(fd)
    now = termios.tcgetattr(fd)
    now[3] &= ~(termios.ICANON | termios.ECHO | termios.ISIG)  # Ctrl-C is a key: nothing is cut short by it
    now[6][termios.VMIN], now[6][termios.VTIME] = 1, 0
    decoder = codecs.getincrementaldecoder("utf-8")("replace")

    def key() -> str:
        while True:
            read = os.read(fd, 1)
            if not read:
                return STOP
            if text := decoder.decode(read):
                return text.casefold()

    termios.tcsetattr(fd, termios.TCSADRAIN, now)
    try:
        yield key
    finally:
        termios.tcsetattr(fd, termios.TCSADRAIN, before)


def _getchar() -> str:
    try:
        return (typer.getchar() if sys.stdin.isatty() and os.name == "nt" else sys.stdin.read(1)).casefold()[:1] or STOP
    except (EOFError, KeyboardInterrupt):
        return STOP


def number_from(first: str, key_after: Callable[[], str]) -> int | None:
    """A count from its first digit on, shown as it is typed, ended with Enter; None when it was rubbed out."""
    digits = first
    typer.echo(first, err=True, nl=False)
    while (key := key_after()) not in _ENTER:
        if key in _BACK:
            digits = digits[:-1]
            typer.echo("\b \b", err=True, nl=False)
        elif key.isascii() and key.isdigit() and len(digits) < 4:
            digits += key
            typer.echo(key, err=True, nl=False)
        elif key in (STOP, "\x03", "q") or not digits:
            digits = ""
        if not digits:
            typer.echo(err=True)
            return None
    typer.echo(err=True)
    return int(digits)
