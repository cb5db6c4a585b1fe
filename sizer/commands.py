"""What each command does with its options: reads, calls the engine, prints one JSON object."""

import json
import math
import sys
from pathlib import Path

import numpy as np

from sizer.build import checked_out, write_folder
from sizer.design.library import read_base
from sizer.errors import BadInput, Fault
from sizer.export.answer import (
    full_answer,
    particulars_answer,
    righting_answer,
    sections_answer,
)
from sizer.export.numbers import json_text
from sizer.export.water_answer import bags_answer, drag_answer, flooded_answer
from sizer.fit.mishaps import aboard_of
from sizer.fit.request import drawn_request, read_request
from sizer.fit.study import study
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
from sizer.hydro.ends import End
from sizer.hydro.flooded import flooded
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import water_at
from sizer.job import run
from sizer.shop.scarfs import STOCK_M
from sizer.units import MM_PER_M

EXAMPLE_REQUEST = (
    '{"base": "day-boat", "use": "coastal-day", "paddler": '
    '{"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}')
MOST_REQUEST_BYTES = 1_000_000
MOST_BAG_L = 1000.0  # beyond any kayak; what fits the ends is checked with the boat
CLOTH_MM = (500.0, 5000.0)  # widths of cloth that are woven, generously; our judgement
SHEET_MM = (300.0, 5000.0)  # sides of a sheet of plywood, generously; our judgement
DRAG_VCG_MM = 280.0  # of a paddled boat, about; our judgement


def wizard_command(given):
    from sizer.web.serve import serve  # the web stack loads only where it is wanted

    return serve(given.port, not given.no_browser, given.network)


def fit_command(given):
    job = job_of(given.request)
    print(json_text(full_answer(job, study(job.fitted.assessed, job.mishaps.rigid))))
    return 1 if job.fitted.status == "fail" else 0


def float_command(given):
    faults = []
    load, water = _load(given, faults)
    heels = [number_of(part, "--heel-deg", -180.0, 180.0, "degrees", faults)
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


def build_command(given):
    # the writers of DXF and PDF load only where they are wanted
    from sizer.export.package import parts
    from sizer.shop.bench import bench_of, bench_status

    faults = []
    out = refusals(lambda: checked_out(given.out, given.force), faults)
    stock = number_of(given.stock_mm, "--stock-mm", *(side * MM_PER_M for side in STOCK_M), "mm",
                    faults)
    cloth = number_of(given.cloth_width_mm, "--cloth-width-mm", *CLOTH_MM, "mm", faults)
    sheet = [number_of(side, "--sheet-mm", *SHEET_MM, "mm", faults)
             for side in given.sheet_mm.split(",")]
    if len(sheet) != 2:
        faults.append(Fault("--sheet-mm", repr(given.sheet_mm), "two lengths such as 2440,1220"))
    if faults:
        raise BadInput(faults)
    job = job_of(given.request)
    bench = bench_of(job, stock / MM_PER_M, cloth / MM_PER_M,
                     tuple(side / MM_PER_M for side in sorted(sheet, reverse=True)))
    files = dict(parts(job, bench))
    write_folder(files, out)
    status = bench_status(job, bench)
    print(json_text({"out": str(out), "files": list(files), "status": status,
                     "fit_status": job.fitted.status, "pattern_status": bench.pattern_status,
                     "fairness_status": bench.fairness_status, "cautions": list(job.cautions)}))
    return 1 if status == "fail" else 0


def refusals(check, faults):
    """What a check gives; None and its faults where it refuses."""
    try:
        return check()
    except BadInput as error:
        faults += error.faults
        return None


def _load(given, faults):
    """Load and Water of the options; None and faults where they are wrong."""
    mass = number_of(given.mass_kg, "--mass-kg", 0.1, 5000.0, "kg", faults)
    lcg = number_of(given.lcg_mm, "--lcg-mm", -1000.0, 11_000.0, "mm", faults)
    vcg = number_of(given.vcg_mm, "--vcg-mm", -1000.0, 3000.0, "mm", faults)
    temperature = number_of(given.temperature_c, "--temperature-c", 0.0, 30.0, "°C", faults)
    if given.water not in ("fresh", "salt"):
        faults.append(Fault("--water", repr(given.water), "fresh or salt"))
    if faults:
        return None, None
    return Load(mass, lcg / 1000.0, vcg / 1000.0), water_at(given.water, temperature)


def drag_command(given):
    faults = []
    load, water = _load(given, faults)
    speeds = [number_of(part, "--speeds-mps", SLOWEST_MPS, FASTEST_MPS, "m/s", faults)
              for part in given.speeds_mps.split(",")]
    if faults:
        raise BadInput(faults)
    boat = _boat(given.design)
    hull = wetted(drag_sections(boat), float_upright(boat.sections, load, water), water)
    print(json_text({"drag": drag_answer(drag_curve(hull, speeds)), "note": NOTE}))
    return 0


def flood_command(given):
    faults = []
    bags = [number_of(text, place, 0.0, MOST_BAG_L, "litres", faults)
            for text, place in ((given.bow_bag_l, "--bow-bag-l"),
                                (given.stern_bag_l, "--stern-bag-l"))]
    if given.paddler not in ("in", "out"):
        faults.append(Fault("--paddler", repr(given.paddler), "in or out"))
    if faults:
        raise BadInput(faults)
    job = _job_or_drawn(given.design)
    assessed = job.fitted.assessed
    found = flooded(assessed.boat, assessed.weight, aboard_of(assessed, given.paddler == "in"),
                    *(End(litres) for litres in bags), assessed.person.water)
    print(json_text({"flooded": flooded_answer(found),
                     "float_bags": bags_answer(job.mishaps.bags),
                     "cautions": list(job.cautions)}))
    return 0


def sections_command(given):
    faults = []
    count = given.count and number_of(given.count, "--count", 3, 2001, "sections", faults)
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


def number_of(text, place, low, high, unit, faults):
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
        return job_of(design).fitted.assessed.boat
    return scaled_boat(fair_lines(read_base(design)), Scaling())


def _job_or_drawn(design):
    """The job of a request, or of a base's own paddler with nothing scaled."""
    if design == "-" or design.endswith(".json"):
        return job_of(design)
    lines = fair_lines(read_base(design))
    return run(drawn_request(design, lines), lines)


def job_of(path):
    """The job of a request file, or of standard input for "-"."""
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
