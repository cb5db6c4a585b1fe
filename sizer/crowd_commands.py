"""The commands `batch` and `population`: a list of people fitted, and a list to try it on."""

import hashlib
import os
import shutil
import sys
import tempfile
import time
from collections import Counter
from contextlib import ExitStack, closing, nullcontext
from itertools import chain
from pathlib import Path

from sizer.commands import number_of
from sizer.crowd.batch import fitted_rows
from sizer.crowd.fitted_row import Wish
from sizer.crowd.people import read_people, text_lines
from sizer.crowd.population import Recipe, population_lines
from sizer.crowd.results import GOOD, STATUSES, lead_text, result_line, whole_rows
from sizer.design.library import read_base, shipped_folder, shipped_names
from sizer.errors import BadInput, Fault
from sizer.fit.cautions import cautions_for
from sizer.fit.request import DEFAULT_WATER
from sizer.fit.uses import USES
from sizer.hydro.water import water_at

KINDS = {".csv": "csv", ".jsonl": "jsonl"}
MOST_WORKERS = 256
SHOWN_EVERY_S = (0.5, 30.0)  # on a terminal, and elsewhere
INTERRUPTED = 130  # exit code, as shells have it for Ctrl-C
NOTE = ("Statuses are those of a full fit; fit one row by itself for its righting curve, the size "
        "of its float bags and its patterns.")


def batch_command(given):
    wish, water, workers = _wish(given)
    kind = "jsonl" if given.people == "-" else _kind(given.people, "people")
    out_kind = _kind(given.out, "--out") if given.out else "jsonl"
    if given.resume and not given.out:
        raise BadInput([Fault("--resume", "without --out", "name the results file to go on with")])
    with ExitStack() as stack:
        people = _seekable(given.people, stack)
        digest, total = _digest(people)
        rows = read_people(text_lines(people), kind)
        first = next(rows, None)
        if first is None:
            raise BadInput([Fault("people", "no rows", "give one person or more")])
        rows = chain([first], rows)
        lead = lead_text(out_kind, {
            "people": digest, "base": wish.base, "base_file": _base_digest(wish.base),
            "use": wish.use, "water": wish.water, "temperature_c": wish.temperature_c,
        }, (NOTE, *cautions_for(water)))
        statuses = Counter()
        write = _writer(given, stack, out_kind, lead, rows, statuses)
        done = statuses.total()
        results = stack.enter_context(closing(fitted_rows(rows, wish, workers)))
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


def population_command(given):
    faults = []
    recipe = Recipe(
        _parsed(int, given.count, "--count", faults), _parsed(int, given.seed, "--seed", faults),
        *(_parsed(float, getattr(given, key), f"--{key.replace('_', '-')}", faults)
          for key in ("share_women", "weight_shift_kg", "weight_spread")))
    if faults:
        raise BadInput(faults)
    for line in population_lines(recipe):
        print(line)
    return 0


def add_parsers(commands, command):
    """Adds both commands to a parser's; `command` makes one, as in `sizer.cli`."""
    batch = command(commands, "batch", batch_command, "fit every row of a list of people",
                    "example: python -m sizer batch people.csv --base day-boat --use coastal-day "
                    "--out results.csv. Exit 0: every row passes or cautions; 1: a row fails or "
                    "cannot be fitted; 2: bad input.")
    batch.add_argument("people", metavar="PEOPLE.csv",
                       help="CSV with columns weight_kg, stature_mm, hip_width_mm and, if you "
                       "like, name, id, hip_measured, inseam_mm, sitting_height_mm, "
                       "foot_length_mm, shoe_length_mm, shoulder_width_mm, gear_kg, use, base "
                       "(a shipped one); or the same keys as JSON lines (.jsonl, or - for "
                       "standard input)")
    batch.add_argument("--base", required=True, help="a shipped base, or a .toml design file")
    batch.add_argument("--use", required=True, help=", ".join(USES))
    batch.add_argument("--out", metavar="RESULTS.csv",
                       help="a new .csv or .jsonl file; without it, JSON lines on standard output")
    batch.add_argument("--resume", action="store_true",
                       help="go on with a results file of the same people and options")
    batch.add_argument("--water", default=DEFAULT_WATER[0], help="fresh or salt (default: fresh)")
    batch.add_argument("--temperature-c", default=f"{DEFAULT_WATER[1]:g}",
                       help="of the water (default: 10)")
    batch.add_argument("--workers", help="processes at work (default: one for each core)")
    batch.add_argument("--progress", action="store_true",
                       help="say twice a second how far it is, on standard error")
    crowd = command(commands, "population", population_command,
                    "draw a list of people from the body survey",
                    "example: python -m sizer population --count 1500 --seed 1 > people.csv")
    crowd.add_argument("--count", required=True, help="how many people")
    crowd.add_argument("--seed", required=True, help="a whole number; the same gives the same")
    crowd.add_argument("--share-women", default="0.5", help="from 0 to 1 (default: 0.5)")
    crowd.add_argument("--weight-shift-kg", default="0",
                       help="heavier than surveyed by this (default: 0)")
    crowd.add_argument("--weight-spread", default="1",
                       help="factor on the survey's spread of weights (default: 1)")


def _wish(given):
    """Wish, Water and count of workers; BadInput with every fault."""
    faults = []
    if given.use not in USES:
        faults.append(Fault("--use", repr(given.use), "one of " + ", ".join(USES)))
    try:
        read_base(given.base)
    except BadInput as error:
        faults += error.faults
    if given.water not in ("fresh", "salt"):
        faults.append(Fault("--water", repr(given.water), "fresh or salt"))
    temperature = number_of(given.temperature_c, "--temperature-c", 0.0, 30.0, "°C", faults)
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    workers = _parsed(int, given.workers or str(cores), "--workers", faults)
    if workers is not None and not 1 <= workers <= MOST_WORKERS:
        faults.append(Fault("--workers", repr(given.workers), f"1 to {MOST_WORKERS}"))
    if faults:
        raise BadInput(faults)
    return (Wish(given.base, given.use, given.water, temperature),
            water_at(given.water, temperature), workers)


def _parsed(kind, text, place, faults):
    """An int or a float; otherwise None, and a fault."""
    try:
        return kind(text)
    except ValueError:
        wanted = "a whole number" if kind is int else "a number"
        faults.append(Fault(place, repr(text), wanted))
        return None


def _kind(path, place):
    kind = KINDS.get(Path(path).suffix.lower())
    if kind is None:
        raise BadInput([Fault(place, path, "a file that ends in " + " or ".join(KINDS))])
    return kind


def _seekable(path, stack):
    """The list as a binary file; what cannot be read twice is kept in a temporary file."""
    try:
        file = stack.enter_context(_opened(path))
        if path != "-" and file.seekable():
            return file
        kept = stack.enter_context(_kept())
        shutil.copyfileobj(file, kept)
    except OSError as error:
        raise BadInput([Fault("people", path, f"cannot be read: {error.strerror}")]) from error
    return kept


def _opened(path):
    return nullcontext(sys.stdin.buffer) if path == "-" else Path(path).open("rb")


def _kept():
    return tempfile.TemporaryFile()


def _digest(file):
    """SHA-256 of a file, and how many lines it has; left at its start."""
    file.seek(0)
    digest, lines = hashlib.sha256(), 0
    while block := file.read(1 << 20):
        digest.update(block)
        lines += block.count(b"\n")
    file.seek(0)
    return f"sha256 {digest.hexdigest()}", lines


def _base_digest(base):
    path = shipped_folder() / f"{base}.toml" if base in shipped_names() else Path(base)
    return f"sha256 {hashlib.sha256(path.read_bytes()).hexdigest()}"


def _writer(given, stack, kind, lead, rows, statuses):
    """A function that writes a line at once; rows already in the file are taken off `rows`."""
    if not given.out:
        sys.stdout.write(lead)

        def put(line):
            sys.stdout.write(line)
            sys.stdout.flush()

        return put
    file = stack.enter_context(_results_file(given.out, given.resume))
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


def _results_file(path, resume):
    try:
        if resume and Path(path).exists():
            return Path(path).open("r+b")
        return Path(path).open("x+b")
    except FileExistsError as error:
        raise BadInput([Fault("--out", path, "a new file; or --resume to go on with this one")
                        ]) from error
    except OSError as error:
        raise _unwritten(path, error) from error


def _unwritten(path, error):
    return BadInput([Fault("--out", path, f"cannot be written: {error.strerror}; what is in it "
                           "stands, and --resume goes on from there")])


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
            left = max(total - done - count, 0) * (now - begun) / count
            print(f"{done + count} of about {total} rows, {count / (now - begun):.0f} a second, "
                  f"{_time_words(left)} left", end="  \r" if terminal else "\n", file=sys.stderr,
                  flush=True)
    if terminal:
        print(file=sys.stderr)


def _time_words(seconds):
    if seconds < 90.0:
        return f"{seconds:.0f} s"
    return f"{seconds / 60.0:.0f} min" if seconds < 5400.0 else f"{seconds / 3600.0:.1f} h"
