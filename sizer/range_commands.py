"""The commands `range` and `who-fits`: a set of sizes for a crowd, and who fits one boat."""

import sys
from contextlib import nullcontext
from pathlib import Path

from sizer.build import checked_out, write_folder
from sizer.commands import job_of, number_of, refusals
from sizer.crowd.finished import finished
from sizer.crowd.people import BadRow, read_people, request_of, text_lines
from sizer.crowd.region import who_fits
from sizer.crowd.sizes import MOST_SIZES, size_range
from sizer.design.library import read_base
from sizer.errors import BadInput, Fault
from sizer.export.numbers import json_text
from sizer.export.range_answer import range_answer, region_answer
from sizer.fit.request import DEFAULT_WATER, MOST_GEAR_KG, read_request
from sizer.fit.uses import USES
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.hydro.water import water_at

OWN = ("gear_kg", "use", "base")  # of a row, which a range for all cannot follow
COLD_C, WARM_C = 0.0, 30.0


def range_command(given):
    faults = []
    out = refusals(lambda: checked_out(given.out, given.force), faults) if given.out else None
    sizes = number_of(given.sizes, "--sizes", 1, MOST_SIZES, "sizes", faults)
    if sizes is not None and sizes != int(sizes):
        faults.append(Fault("--sizes", repr(given.sizes), "a whole number"))
    use, gear, water = _use(given.use, given, faults)
    lines = refusals(lambda: fair_lines(read_base(given.base)), faults)
    people = refusals(lambda: _people(given.people), faults)
    if faults:
        raise BadInput(faults)
    rows = [row for row in people if not isinstance(row, BadRow)]
    bad = [row for row in people if isinstance(row, BadRow)]
    if not rows:
        raise BadInput([Fault("people", f"none of {len(bad)} rows can be used", str(reason))
                        for row in bad[:1] for reason in row.reasons]
                       or [Fault("people", "no rows", "give one person or more")])
    measured = [read_request(request_of(_bare(row), given.base, use)).measured for row in rows]
    found = size_range(measured, lines, given.base, use, water, gear, int(sizes), _shown(given))
    choice = found.choices[-1]
    answer = range_answer(found, choice, rows, bad, _notes(rows, use, gear))
    if out:
        files = _files(found, choice, rows, answer, _shown(given))
        write_folder(files, out)
        answer |= {"out": str(out), "files": list(files)}
    print(json_text(answer))
    return 0


def who_fits_command(given):
    faults = []
    if given.design == "-" or given.design.endswith(".json"):
        job = job_of(given.design)
        base, lines, scaling = job.request.base, job.lines, job.fitted.assessed.boat.scaling
        use, gear, water = _use(given.use or job.request.use, given, faults, job.request)
    else:
        base, lines, scaling = given.design, fair_lines(read_base(given.design)), Scaling()
        use, gear, water = _use(given.use or lines.design.drawn_for.use, given, faults)
    if faults:
        raise BadInput(faults)
    found = who_fits(finished(lines, scaling), base, use, water, gear, _shown(given))
    print(json_text(region_answer(found)))
    return 0 if found.statures.rows else 1


def add_parsers(commands, command):
    """Adds both commands to a parser's; `command` makes one, as in `sizer.cli`."""
    names = ", ".join(USES)
    ranged = command(commands, "range", range_command,
                     "choose the few sizes of a base that serve the most people",
                     "example: python -m sizer range people.csv --base day-boat "
                     "--use coastal-day --sizes 3 --out sizes")
    ranged.add_argument("people", metavar="PEOPLE.csv",
                        help="a list of people, CSV or JSON lines (.jsonl), or - for CSV on "
                        "standard input; columns such as weight_kg, stature_mm, hip_width_mm")
    ranged.add_argument("--base", required=True, help="a shipped base or a .toml design file")
    ranged.add_argument("--use", required=True, help=f"one of {names}")
    ranged.add_argument("--sizes", required=True, help=f"how many, 1 to {MOST_SIZES}")
    ranged.add_argument("--out", metavar="DIR", help="a new or empty folder for the tables, the "
                        "map and every size's shop package; written whole or not at all")
    ranged.add_argument("--force", action="store_true", help="replace an older range there")
    fits = command(commands, "who-fits", who_fits_command,
                   "say who fits one finished boat: only seat, footbrace and padding move",
                   "example: python -m sizer who-fits day-boat --use coastal-day")
    fits.add_argument("design", metavar="DESIGN|REQUEST.json",
                      help="a base as drawn, or a request .json (or -) for its fitted boat")
    fits.add_argument("--use", help=f"one of {names} (default: the request's, or what the base "
                      "was drawn for)")
    for one in (ranged, fits):
        one.add_argument("--gear-kg", help="carried by everybody (default: the use's own)")
        one.add_argument("--water", help="fresh or salt (default: fresh)")
        one.add_argument("--temperature-c", help="of the water (default: 10)")
        one.add_argument("--progress", action="store_true",
                         help="say how far it is, a line at a time, on standard error")


def _use(use, given, faults, request=None):
    """Use, gear and water of the options; what they leave open is the request's or the usual."""
    if use not in USES:
        faults.append(Fault("--use", repr(use), "one of " + ", ".join(USES)))
        return None, None, None
    if given.gear_kg is not None:
        gear = number_of(given.gear_kg, "--gear-kg", 0.0, MOST_GEAR_KG, "kg", faults)
    else:
        gear = request.gear_kg if request and request.use == use else USES[use].gear_kg
    kind, warmth = (request.water.kind, request.water.temperature_c) if request else DEFAULT_WATER
    kind = given.water or kind
    if given.temperature_c is not None:
        warmth = number_of(given.temperature_c, "--temperature-c", COLD_C, WARM_C, "°C", faults)
    if kind not in ("fresh", "salt"):
        faults.append(Fault("--water", repr(kind), "fresh or salt"))
    return use, gear, None if faults else water_at(kind, warmth)


def _people(path):
    """Every row of a list of people, the bad ones too."""
    kind = "jsonl" if path.endswith((".jsonl", ".json")) else "csv"
    try:
        with nullcontext(sys.stdin.buffer) if path == "-" else Path(path).open("rb") as file:
            return tuple(read_people(text_lines(file), kind))
    except OSError as error:
        raise BadInput([Fault("people", path, f"cannot be read: {error.strerror}")]) from error


def _bare(row):
    """The row with its body alone: a range is for one base, use and load."""
    return type(row)(row.number, row.label, {"paddler": row.given["paddler"]}, row.cautions)


def _notes(rows, use, gear_kg):
    """Sentences on what of the list a range cannot follow, and on odd bodies."""
    own = sum(any(key in row.given for key in OWN) for row in rows)
    if own:
        yield (f"{own} rows name a base, a use or gear of their own: a range is for one, so all "
               f"are counted for {use} with {gear_kg:g} kg.")
    for row in rows:
        for caution in row.cautions:
            yield f"row {row.number} {row.label}".strip() + f": {caution}"


def _files(found, choice, rows, answer, shown):
    # the writers of DXF and PDF load only where they are wanted
    from sizer.export.range_package import range_zip
    from sizer.export.range_report import people_csv, people_svg, sizes_csv

    return {"range.json": json_text(answer).encode("utf-8"),
            "sizes.csv": sizes_csv(found, choice).encode("utf-8"),
            "people.csv": people_csv(found, choice, rows).encode("utf-8"),
            "people-map.svg": people_svg(found, choice).encode("utf-8"),
            "size-packages.zip": range_zip(found, choice, shown)}


def _shown(given):
    """What tells on standard error how far it is: on a terminal in one line that is written over,
    with --progress a line each time, otherwise nothing."""
    before, after = ("\r\033[K", "\r") if sys.stderr.isatty() else ("", "\n")

    def show(done, of, words):
        if given.progress or sys.stderr.isatty():
            print(f"{before}{words}: {done} of {of}", end=after, file=sys.stderr, flush=True)

    return show
