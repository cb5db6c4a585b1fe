"""The command line: JSON on standard output, one line a fault on standard error.

Exit 0: answered, every check passes or cautions. 1: answered, but a check fails. 2: bad input,
nothing on standard output.
"""

import argparse
import json
import math
import sys
from pathlib import Path

import numpy as np

from sizer.design.library import read_base, shipped_names
from sizer.errors import BadInput, Fault, SizerError
from sizer.export.answer import (
    drag_answer,
    job_answer,
    json_text,
    particulars_answer,
    righting_answer,
    sections_answer,
)
from sizer.fit.request import read_request
from sizer.hull.boat import scaled_boat, sections_at
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.hydro.drag import (
    FASTEST_MPS,
    NOTE,
    SLOWEST_MPS,
    drag_curve,
    drag_sections,
    wetted,
)
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import water_at
from sizer.job import run

EXAMPLE_REQUEST = (
    '{"base": "day-boat", "use": "coastal-day", "paddler": '
    '{"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}')
MOST_REQUEST_BYTES = 1_000_000
DRAG_VCG_MM = 280.0  # of a paddled boat, about; our judgement


class _Parser(argparse.ArgumentParser):
    """Says what is wrong in one line, in the same form as every other fault."""

    def error(self, message):
        raise BadInput([Fault("command line", message, f"see {self.prog} --help")])


def main(arguments=None):
    """Runs one command; returns the exit code."""
    try:
        given = _parser().parse_args(arguments)
        return given.run(given)
    except BadInput as error:
        for fault in error.faults:
            print(fault, file=sys.stderr)
        return 2
    except SizerError as error:
        print(error, file=sys.stderr)
        return 2


def _parser():
    parser = _Parser(
        prog="python -m sizer",
        description="Fits a skin-on-frame kayak to its paddler. Without a command, opens the "
        "wizard in the browser, on this machine only.",
        epilog="Shipped base designs: " + ", ".join(shipped_names())
        + ". Figures are calculated, not a trial; every answer carries its cautions.")
    parser.add_argument("--port", type=int, help="port of the wizard; a free one if not given")
    parser.add_argument("--no-browser", action="store_true", help="do not open a browser window")
    parser.set_defaults(run=_wizard)
    commands = parser.add_subparsers(metavar="COMMAND", parser_class=_Parser)

    fit = _command(commands, "fit", _fit, "fit a base design to a paddler",
                   f"example: echo '{EXAMPLE_REQUEST}' | python -m sizer fit -")
    fit.add_argument("request", metavar="REQUEST.json", help="a file, or - for standard input")

    afloat = _command(
        commands, "float", _float, "float a boat under a load",
        "example: python -m sizer float day-boat --mass-kg 110 --lcg-mm 2330 --vcg-mm 280 "
        "--water salt --heel-deg 0,10,20")
    _add_design(afloat)
    _add_load(afloat)
    afloat.add_argument("--vcg-mm", required=True, help="its centre, above the baseline")
    afloat.add_argument("--heel-deg", default="", help="angles for righting arms, such as 0,10,20")

    drag = _command(
        commands, "drag", _drag, "estimate the drag of a boat against speed",
        "example: python -m sizer drag day-boat --mass-kg 110 --lcg-mm 2330 "
        "--speeds-mps 1,1.5,2")
    _add_design(drag)
    _add_load(drag)
    drag.add_argument("--vcg-mm", default=str(DRAG_VCG_MM),
                      help=f"its centre, above the baseline (default: {DRAG_VCG_MM:g}; it hardly "
                      "moves the drag)")
    drag.add_argument("--speeds-mps", required=True, help="speeds such as 1,1.5,2")

    sections = _command(commands, "sections", _sections, "closed outlines of a boat's sections",
                        "example: python -m sizer sections day-boat --count 101")
    _add_design(sections)
    sections.add_argument("--count", help="this many, evenly spaced; without it, the sections that "
                          "the flotation uses, which stand wherever a stringer begins or ends")
    return parser


def _command(commands, name, run_it, words, example):
    command = commands.add_parser(name, help=words, description=words.capitalize() + ".",
                                  epilog=example)
    command.set_defaults(run=run_it)
    return command


def _add_design(command):
    command.add_argument("design", metavar="DESIGN",
                         help="a shipped base, a .toml design file, or a request .json (or -) for "
                         "its fitted boat")


def _add_load(command):
    command.add_argument("--mass-kg", required=True, help="everything afloat, the boat included")
    command.add_argument("--lcg-mm", required=True, help="its centre, aft of the foremost point")
    command.add_argument("--water", default="fresh", help="fresh or salt (default: fresh)")
    command.add_argument("--temperature-c", default="10", help="of the water (default: 10)")


def _wizard(given):
    from sizer.web.serve import serve  # the web stack loads only where it is wanted

    return serve(given.port, not given.no_browser)


def _fit(given):
    job = _job(given.request)
    print(json_text(job_answer(job)))
    return 1 if job.fitted.status == "fail" else 0


def _float(given):
    faults = []
    load, water = _load(given, faults)
    heels = [_number(part, "--heel-deg", -180.0, 180.0, "degrees", faults)
             for part in given.heel_deg.split(",") if given.heel_deg.strip()]
    if faults:
        raise BadInput(faults)
    sections = _boat(given.design).sections
    answer = {"flotation": particulars_answer(float_upright(sections, load, water), water),
              "righting": []}
    if heels:
        answer["righting"] = righting_answer(
            sections, float_at(sections, load, water, np.array(heels)))
    print(json_text(answer))
    return 0


def _load(given, faults):
    """Load and Water of the options; None and faults where they are wrong."""
    mass = _number(given.mass_kg, "--mass-kg", 0.1, 5000.0, "kg", faults)
    lcg = _number(given.lcg_mm, "--lcg-mm", -1000.0, 11_000.0, "mm", faults)
    vcg = _number(given.vcg_mm, "--vcg-mm", -1000.0, 3000.0, "mm", faults)
    temperature = _number(given.temperature_c, "--temperature-c", 0.0, 30.0, "°C", faults)
    if given.water not in ("fresh", "salt"):
        faults.append(Fault("--water", repr(given.water), "fresh or salt"))
    if faults:
        return None, None
    return Load(mass, lcg / 1000.0, vcg / 1000.0), water_at(given.water, temperature)


def _drag(given):
    faults = []
    load, water = _load(given, faults)
    speeds = [_number(part, "--speeds-mps", SLOWEST_MPS, FASTEST_MPS, "m/s", faults)
              for part in given.speeds_mps.split(",")]
    if faults:
        raise BadInput(faults)
    boat = _boat(given.design)
    hull = wetted(drag_sections(boat), float_upright(boat.sections, load, water), water)
    print(json_text({"drag": drag_answer(drag_curve(hull, speeds)), "note": NOTE}))
    return 0


def _sections(given):
    faults = []
    count = given.count and _number(given.count, "--count", 3, 2001, "sections", faults)
    if count and count != int(count):
        faults.append(Fault("--count", given.count, "a whole number"))
    if faults:
        raise BadInput(faults)
    boat = _boat(given.design)
    sections = boat.sections
    if count:
        sections = sections_at(boat, np.linspace(0.0, boat.length_m, int(count)))
    print(json_text(sections_answer(sections)))
    return 0


def _number(text, place, low, high, unit, faults):
    """A finite number in range; otherwise None, and a fault."""
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if low <= value <= high:
        return value
    faults.append(Fault(place, repr(text), f"a number from {low:g} to {high:g} {unit}"))
    return None


def _boat(design):
    """The base's own boat, or the fitted boat of a request."""
    if design == "-" or design.endswith(".json"):
        return _job(design).fitted.assessed.boat
    return scaled_boat(fair_lines(read_base(design)), Scaling())


def _job(path):
    request = read_request(_json(path))
    return run(request, fair_lines(read_base(request.base)))


def _json(path):
    try:
        if path == "-":
            raw = sys.stdin.buffer.read(MOST_REQUEST_BYTES + 1)
        else:
            with Path(path).open("rb") as file:
                raw = file.read(MOST_REQUEST_BYTES + 1)
    except OSError as error:
        raise BadInput([Fault("request", path, f"cannot be read: {error.strerror}")]) from error
    if len(raw) > MOST_REQUEST_BYTES:
        raise BadInput([Fault("request", "over 1 MB", "a request is a few hundred bytes of JSON")])
    if not raw.strip():
        raise BadInput([Fault("request", "empty", f"JSON such as {EXAMPLE_REQUEST}")])
    try:
        return json.loads(raw)
    except UnicodeDecodeError as error:
        raise BadInput([Fault("request", "not UTF-8 text", "save it as UTF-8 JSON")]) from error
    except (ValueError, RecursionError) as error:
        raise BadInput([Fault("request", f"not JSON: {error}", "mend that place")]) from error
