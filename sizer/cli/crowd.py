"""The commands `batch` and `population`: a list of people fitted, and a list to try it on."""

import hashlib
import shutil
import sys
import tempfile
import time
from collections import Counter
from contextlib import ExitStack, closing, suppress
from itertools import chain
from pathlib import Path

from sizer.cli.folder import unwritten
from sizer.cli.inputs import BASE, opened, unread
from sizer.cli.options import (
    STAMP,
    USE,
    WATER,
    Command,
    Option,
    counted,
    needed,
    stamp_of,
    switch,
    water_of,
)
from sizer.crowd.batch import MOST_WORKERS, fitted_rows, pace_words
from sizer.crowd.crew import cores
from sizer.crowd.people import COLUMNS_SAID, read_people, text_lines
from sizer.crowd.population import LIMITS, Recipe, population_lines
from sizer.crowd.results import GOOD, STATUSES, batch_lead, result_line, whole_rows
from sizer.errors import BadInput, Fault, file_trouble
from sizer.fit.request import Trip

KINDS = {".csv": "csv", ".jsonl": "jsonl"}
SHOWN_EVERY_S = (0.5, 30.0)  # on a terminal, and elsewhere
INTERRUPTED = 130  # exit code, as shells have it for Ctrl-C


def batch(given):
    """Fits every row of a list, writing each at once; returns 1 where one fails or has no fit."""
    water = water_of(given)
    trip = Trip(given.base.base, given.use, water)
    out_kind = _kind(given.out) if given.out else "jsonl"
    with ExitStack() as stack:
        people = _seekable(given.people, stack)
        digest, total = _digest(people)
        rows = read_people(text_lines(people), _kind(given.people))
        first = next(rows, None)
        if first is None:
            raise BadInput([Fault("people", "no rows", "give one person or more")])
        rows = chain([first], rows)
        lead = batch_lead(out_kind, digest, trip, stamp_of(given))
        statuses = Counter()
        write = _writer(given, stack, out_kind, lead, rows, statuses)
        done = statuses.total()
        results = stack.enter_context(closing(fitted_rows(rows, trip, given.workers or cores())))
        try:
            for result in _watched(results, done, total, given.progress):
                write(result_line(out_kind, result))
                statuses[result["status"]] += 1
        except KeyboardInterrupt:
            print(f"\nstopped after {statuses.total()} rows; --resume goes on from there",
                  file=sys.stderr)
            return INTERRUPTED
    print(f"{statuses.total()} rows: " + ", ".join(
        f"{statuses[one]} {one}" for one in STATUSES if statuses[one]), file=sys.stderr)
    return 0 if all(one in GOOD for one in statuses) else 1


def population(given):
    for line in population_lines(Recipe(**vars(given))):
        print(line)


def _kind(path):
    return "jsonl" if path == "-" else KINDS.get(Path(path).suffix.lower())


def _of_a_kind(text, place, _given):
    if _kind(text) is None or (text, place) == ("-", "--out"):
        raise BadInput([Fault(place, text, "a file that ends in " + " or ".join(KINDS))])
    return text


def _list(text, place, given):
    path = _of_a_kind(text, place, given)
    try:
        if path != "-":
            Path(path).stat()
    except OSError as error:
        raise unread(place, path, error) from error
    return path


def _resumed(resume, place, given):
    if resume and not given.out:
        raise BadInput([Fault(place, "without --out", "name the results file to go on with")])
    return resume


def _seekable(path, stack):
    """The list as a binary file; what cannot be read twice is kept in a temporary file."""
    try:
        file = stack.enter_context(opened(path))
        if path != "-" and file.seekable():
            return file
        kept = stack.enter_context(tempfile.TemporaryFile())  # noqa: SIM115, the stack closes it
        shutil.copyfileobj(file, kept)
    except OSError as error:
        raise unread("people", path, error) from error
    return kept


def _digest(file):
    """SHA-256 of a file, and how many lines it has; left at its start."""
    file.seek(0)
    digest, lines = hashlib.sha256(), 0
    while block := file.read(1 << 20):
        digest.update(block)
        lines += block.count(b"\n")
    file.seek(0)
    return digest.hexdigest(), lines


def _writer(given, stack, kind, lead, rows, statuses):
    """A function that writes a line at once; rows already in the file are taken off `rows`."""
    if not given.out:
        sys.stdout.write(lead)

        def put(line):
            sys.stdout.write(line)
            sys.stdout.flush()

        return put
    file = _results_file(given.out, given.resume)
    stack.callback(_closed, file)
    for number, status in whole_rows(file, kind, lead):
        row = next(rows, None)
        if row is None or row.number != number:
            raise BadInput([Fault("--out", f"row {number}", "rows in the order of the list; the "
                                  "file was changed, so take a new one")])
        statuses[status] += 1
    file.truncate()
    if not file.tell():
        file.write(lead.encode())

    def write(line):
        try:
            file.write(line.encode())
            file.flush()
        except OSError as error:
            raise _unwritten(given.out, error) from error

    return write


def _closed(file):
    with suppress(OSError):  # told already: every line was flushed at once
        file.close()


def _results_file(path, resume):
    try:
        if resume and Path(path).exists():
            return Path(path).open("r+b")
        return Path(path).open("x+b")
    except FileExistsError as error:
        raise BadInput([Fault("--out", path, "is there already: name a new file, or say --resume "
                              "to go on with this one")]) from error
    except OSError as error:
        raise unwritten(path, error) from error


def _unwritten(path, error):
    return BadInput([Fault("--out", path, f"cannot be written: {file_trouble(error)}; what is in "
                           "it stands, and --resume goes on from there")])


def _watched(results, done, total, often):
    """The same results; says now and then on standard error how far it is and what is left."""
    terminal = sys.stderr.isatty()
    every = SHOWN_EVERY_S[0 if terminal or often else 1]
    begun = shown = time.monotonic()
    for count, result in enumerate(results, start=1):
        yield result
        now = time.monotonic()
        if now - shown >= every:
            shown = now
            print(f"{done + count} of about {total} rows, "
                  + pace_words(count, total - done - count, now - begun),
                  end="  \r" if terminal else "\n", file=sys.stderr, flush=True)
    if terminal:
        print(file=sys.stderr)


def _part(flag, words, kind, default=None):
    """An Option of `population`, by a field of Recipe."""
    read = counted(kind, *LIMITS[flag.lstrip("-").replace("-", "_")])
    return (needed(flag, words, read) if default is None
            else Option(flag, words, read, {"default": default}))


COMMANDS = (
    Command("batch", batch, "fit every row of a list of people",
            "%(prog)s people.csv --base day-boat --use coastal-day --out results.csv. Exit 0: "
            "every row passes or cautions; 1: a row fails or cannot be fitted; 2: bad input.", (
                Option("people", "a .csv, or the same keys as JSON lines (.jsonl, or - for "
                       f"standard input). {COLUMNS_SAID} A base is a shipped one", _list,
                       {"metavar": "PEOPLE.csv"}),
                BASE, USE, *STAMP,
                Option("--out", "a new .csv or .jsonl file; without it, JSON lines on standard "
                       "output", _of_a_kind, {"metavar": "RESULTS.csv"}),
                switch("--resume", "go on with a results file of the same people and options",
                       _resumed),
                *WATER,
                Option("--workers", "processes at work (default: one for each core)",
                       counted(int, 1, MOST_WORKERS)),
                switch("--progress", "say twice a second how far it is, on standard error"))),
    Command("population", population, "draw a list of people from the body survey",
            "%(prog)s --count 1500 --seed 1 > people.csv", (
                _part("--count", "how many people", int),
                _part("--seed", "a whole number; the same gives the same", int),
                _part("--share-women", "from 0 to 1 (default: 0.5)", float, "0.5"),
                _part("--weight-shift-kg", "heavier than surveyed by this (default: 0)", float,
                      "0"),
                _part("--weight-spread", "factor on the survey's spread of weights (default: 1)",
                      float, "1"))),
)
