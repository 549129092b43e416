"""Questions at a terminal: one line an answer. `<` goes back one, `stop`, Ctrl-C or an end of input ends."""

from __future__ import annotations

import io
import os
import sys
import textwrap
from collections.abc import Callable, Mapping
from typing import TypeVar

import typer

from kitlist.base.errors import BadData, KitlistError
from kitlist.faces.cli.talk import say, width

T = TypeVar("T")
YES_OR_NO = ("y", "yes", "n", "no")
WAYS = (
    "Enter alone: not known, or what stands in brackets. < back one question, ? more about it, stop ends; answers stay."
)


class BackOne(Exception):
    """The question before is to be asked again."""


class Stopped(Exception):
    """Somebody ends the questions; what was answered is kept."""


def at_terminal() -> bool:
    """Whether there is somebody to ask."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def ask(question: str, *, more: str = "") -> str:
    """One line, without the blanks round it. Raises BackOne and Stopped; `more` is what `?` shows."""
    lines = textwrap.wrap(question, min(width(), 100) - 2, break_on_hyphens=False)
    while True:
        try:
            for line in lines[:-1]:
                say(line)
            typer.echo(f"{lines[-1]} ", err=True, nl=False)
            line = _line()
        except KeyboardInterrupt:  # in the midst of the question too
            line = ""
        if not line:
            say("")
            raise Stopped
        answer = line.strip()
        if answer == "<" or answer.casefold() == "back":
            raise BackOne
        if answer.casefold() in ("stop", "quit"):
            raise Stopped
        if answer == "?":
            say_wrapped(more or WAYS)
            continue
        return answer


def _line() -> str:
    """One line, and not a byte more: what is typed ahead is for the next question, which may read single keys."""
    try:
        fd = sys.stdin.fileno()
    except io.UnsupportedOperation:
        return sys.stdin.readline()
    read = b""
    while not read.endswith(b"\n"):
        byte = os.read(fd, 1)
        if not byte:
            return ""
        read += byte
    return read.decode(sys.stdin.encoding or "utf-8", "replace")


def ask_until(question: str, take: Callable[[str], T], *, more: str = "") -> T:
    """Ask until an answer can be taken; what is wrong with one is said at once."""
    while True:
        try:
            return take(ask(question, more=more))
        except KitlistError as error:
            say_wrong(error.message, error.hint)


def ask_yes(question: str, *, more: str = "") -> bool | None:
    """Yes, no, or None for Enter alone."""
    while True:
        answer = ask(f"{question} y or n:", more=more).casefold()
        if answer in YES_OR_NO or not answer:
            return answer.startswith("y") if answer else None
        say("y or n, or Enter alone.")


def say_wrong(message: str, hint: str) -> None:
    """What is wrong with an answer, and how to give it."""
    say_wrapped(f"{message[:1].upper()}{message[1:]}{'' if message[-1:] in '.?!' else '.'}")
    if hint:
        say_wrapped(f"{hint[:1].upper()}{hint[1:]}")


def in_words(error: KitlistError, called: Mapping[str, str]) -> str:
    """What is wrong with an answer, in the words of the question: `called` has them by field."""
    from kitlist.kit.entry import BadEntry

    if not isinstance(error, BadEntry):
        return error.message
    sentences = []
    for problem in error.problems:
        words = called.get(problem.field, "")
        said = problem.sentence
        for own in (f"{problem.field} = ", f"{problem.field.replace('_', '-')} = "):
            said = f"{words}: {said.removeprefix(own)}" if words and said.startswith(own) else said
        sentences.append(said)
    return "; ".join(sentences)


def a_name(text: str, *, of: str) -> str:
    """The answer as a name. Raises BadData for yes, no and what else answers another question."""
    if text.casefold() in (*YES_OR_NO, "none", "-", "help"):
        raise BadData(f"{text!r} is no name for {of}", hint="Type the name itself, or Enter alone.")
    return text


def say_wrapped(text: str, *, indent: str = "") -> None:
    """Talk, wrapped to the terminal."""
    for paragraph in text.split("\n"):
        wrapped = textwrap.wrap(
            paragraph, min(width(), 100), initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False
        )
        say("\n".join(wrapped))
