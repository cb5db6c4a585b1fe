"""An option of the command line, declared once: its flag, its words, and how its text is read.

A reader takes the text, the place to name in a fault, and the texts of the whole call; it gives
the value or raises BadInput. `checked` reads a whole call, so that every fault of it is told.
"""

import argparse
import datetime
import math
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial

from sizer.errors import BadInput, Fault, caught
from sizer.fit.request import DEFAULT_WATER, MOST_GEAR_KG
from sizer.fit.uses import USES
from sizer.hydro.water import HIGHEST_C, KINDS, LOWEST_C, water_at
from sizer.stamp import NO_JOB, Stamp, no_job


@dataclass(frozen=True)
class Option:
    """One option, or, without dashes, one argument that stands by its place."""

    flag: str
    words: str
    read: Callable | None = None  # None: the text as it stands
    more: dict = field(default_factory=dict)  # further keywords of argparse

    @property
    def key(self):
        """Its name among the values of a call."""
        return self.flag.lstrip("-").replace("-", "_")


@dataclass(frozen=True)
class Command:
    """One command; `run` takes the values of `checked` and returns the exit code, None for 0, and
    its example stands for the command itself as %(prog)s."""

    name: str
    run: Callable
    words: str
    example: str
    options: tuple[Option, ...]


@dataclass(frozen=True)
class Group:
    """Commands of one kind under one name, such as those of the book."""

    name: str
    words: str
    example: str
    commands: tuple[Command, ...]


def checked(options, given):
    """The values of a call by `Option.key`, of a Namespace of texts, None where one was not given;
    raises BadInput with every fault of every option."""
    faults, values = [], {}
    for option in options:
        text = values[option.key] = getattr(given, option.key)
        if text is not None and option.read is not None:
            values[option.key] = caught(partial(option.read, text, option.flag, given), faults)
    if faults:
        raise BadInput(faults)
    return argparse.Namespace(**values)


def needed(flag, words, read=None, **more):
    return Option(flag, words, read, {"required": True, **more})


def switch(flag, words, read=None):
    """An Option that is said or not; its value is a bool."""
    return Option(flag, words, read, {"action": "store_true"})


def number(low, high, unit, whole=False):
    """A reader of a finite number in a range; with `whole`, of an int."""
    def read(text, place, _given):
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if not low <= value <= high:
            raise _refused(place, repr(text), f"a number from {low:g} to {high:g} {unit}")
        if whole and value != int(value):
            raise _refused(place, repr(text), "a whole number")
        return int(value) if whole else value

    return read


def numbers(low, high, unit, count=None, example=""):
    """A reader of numbers between commas, as a list; `count` of them, where that is given."""
    one = number(low, high, unit)

    def read(text, place, given):
        faults = []
        values = [caught(partial(one, part, place, given), faults) for part in text.split(",")]
        if count not in (None, len(values)):
            faults.append(Fault(place, repr(text), example))
        if faults:
            raise BadInput(faults)
        return values

    return read


def counted(kind, low, high):
    """A reader of a plain int or float between two limits."""
    def read(text, place, _given):
        try:
            value = kind(text)
        except ValueError as error:
            wanted = "a whole number" if kind is int else "a number"
            raise _refused(place, repr(text), wanted) from error
        if not low <= value <= high:
            raise _refused(place, f"{value:g}", f"{low:g} to {high:g}")
        return value

    return read


def one_of(words, allowed):
    """A reader of one of some words; `allowed` says which, in a fault."""
    def read(text, place, _given):
        if text not in words:
            raise _refused(place, repr(text), allowed)
        return text

    return read


def _refused(place, value, allowed):
    return BadInput([Fault(place, value, allowed)])


A_USE = one_of(USES, "one of " + ", ".join(USES))
USE = needed("--use", "one of " + ", ".join(USES), A_USE)
GEAR = Option("--gear-kg", "carried by everybody (default: the use's own)",
              number(0.0, MOST_GEAR_KG, "kg"))
WATER = (
    Option("--water", f"fresh or salt (default: {DEFAULT_WATER[0]})",
           one_of(KINDS, "fresh or salt")),
    Option("--temperature-c", f"of the water (default: {DEFAULT_WATER[1]:g})",
           number(LOWEST_C, HIGHEST_C, "°C")),
)

MOST_LETTERS = {"code": 24, "mark": 40, "revision": 8}  # of a stamp's parts; our judgement


def line_of(most):
    """A reader of a short text on one line."""
    def read(text, place, _given):
        if not text.strip() or len(text) > most or not text.isprintable():
            raise _refused(place, f"{text!r:.60}", f"1 to {most} letters on one line")
        return " ".join(text.split())

    return read


def named_line_of(most):
    """The same with a letter or a figure in it that a file's name can hold."""
    def read(text, place, given):
        line = line_of(most)(text, place, given)
        if not any(one.isascii() and one.isalnum() for one in line):
            raise _refused(place, f"{text!r:.60}", "at least one of A to Z or 0 to 9")
        return line

    return read


def iso_date(text, place, _given):
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError as error:
        raise _refused(place, f"{text!r:.60}", "a date such as 2026-11-28") from error


STAMP = (
    Option("--code", f"of the job, on every sheet and in every answer (default: {NO_JOB})",
           named_line_of(MOST_LETTERS["code"])),
    Option("--mark", "by which you know the customer; never a body measure (default: none)",
           line_of(MOST_LETTERS["mark"])),
    Option("--rev", "letter of the revision (default: none)",
           named_line_of(MOST_LETTERS["revision"])),
    Option("--date", "of the files, such as 2026-11-28 (default: today)", iso_date),
)


def stamp_of(given):
    """The Stamp of the options STAMP."""
    usual = no_job()
    return Stamp(given.code or usual.code, given.mark or "", given.rev or "",
                 given.date or usual.date, "")


def water_of(given, usual=DEFAULT_WATER):
    """The Water of the options WATER; `usual` is (kind, °C) of what they leave open."""
    return water_at(given.water or usual[0],
                    usual[1] if given.temperature_c is None else given.temperature_c)
