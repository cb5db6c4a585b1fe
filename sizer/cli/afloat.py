"""The commands `float`, `drag`, `flood` and `sections`: one boat in the water, and its shape."""

from dataclasses import replace

import numpy as np

from sizer.cli.answered import put_answer
from sizer.cli.inputs import DESIGN
from sizer.cli.options import (
    STAMP,
    WATER,
    Command,
    Option,
    needed,
    number,
    numbers,
    one_of,
    stamp_of,
    water_of,
)
from sizer.export.answer import imprint_answer, particulars_answer, righting_answer, sections_answer
from sizer.export.numbers import named
from sizer.export.water_answer import bags_answer, drag_answer, swamped_answer
from sizer.fit.mishaps import aboard_of
from sizer.hull.boat import sections_at
from sizer.hydro.drag import FASTEST_MPS, NOTE, SLOWEST_MPS, drag_curve, drag_sections, wetted
from sizer.hydro.ends import End
from sizer.hydro.flooded import flooded
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.particulars import float_upright
from sizer.units import MM_PER_M

DRAG_VCG_MM = 280.0  # of a paddled boat, about; our judgement
MOST_BAG_L = 1000.0  # beyond any kayak; what fits the ends is checked with the boat
COUNTS = (3, 2001)  # sections
VCG = needed("--vcg-mm", "its centre, above the baseline", number(-1000.0, 3000.0, "mm"))
LOAD = (
    needed("--mass-kg", "everything afloat, the boat included", number(0.1, 5000.0, "kg")),
    needed("--lcg-mm", "its centre, aft of the foremost point",
           number(-1000.0, 11_000.0, "mm")),
    *WATER,
)
_DEGREES = numbers(-180.0, 180.0, "degrees")
_LITRES = number(0.0, MOST_BAG_L, "litres")


def float_(given):
    """Prints how a boat floats under a load, and its righting arms at the angles asked for."""
    load, water = _load(given), water_of(given)
    boat, imprint = given.design.boat(stamp_of(given))
    sections = boat.sections
    answer = {**_lead(imprint), "flotation": particulars_answer(
        float_upright(sections, load, water), water), "righting": []}
    if given.heel_deg:
        answer["righting"] = righting_answer(
            sections, float_at(sections, load, water, np.array(given.heel_deg)))
    put_answer(answer)


def drag(given):
    """Prints the drag of a boat at the speeds asked for."""
    load, water = _load(given), water_of(given)
    boat, imprint = given.design.boat(stamp_of(given))
    hull = wetted(drag_sections(boat), float_upright(boat.sections, load, water), water)
    put_answer({**_lead(imprint),
                "drag": drag_answer(drag_curve(hull, given.speeds_mps)), "note": NOTE})


def flood(given):
    """Prints how a boat lies with its cockpit open to the sea, and the float bags it needs."""
    job = given.design.job().stamped(stamp_of(given))
    assessed = job.fitted.assessed
    found = flooded(assessed.boat, assessed.weight, aboard_of(assessed, given.paddler == "in"),
                    End(given.bow_bag_l), End(given.stern_bag_l), assessed.person.water)
    put_answer({"job": imprint_answer(job.imprint), "flooded": named(found),
                "float_bags": bags_answer(job.mishaps.bags),
                "ends_full": swamped_answer(job.mishaps.swamped),
                "cautions": list(job.cautions)})


def sections(given):
    """Prints closed outlines of a boat's sections."""
    boat, imprint = given.design.boat(stamp_of(given))
    found = boat.sections if given.count is None else sections_at(
        boat, np.linspace(0.0, boat.length_m, given.count))
    put_answer(_lead(imprint) | sections_answer(found))


def _lead(imprint):
    """Whose the boat is, whether it passes, and the cautions."""
    return {"job": imprint_answer(imprint), "cautions": list(imprint.cautions)}


def _load(given):
    return Load(given.mass_kg, given.lcg_mm / MM_PER_M, given.vcg_mm / MM_PER_M)


def _heels(text, place, given):
    return _DEGREES(text, place, given) if text.strip() else []


COMMANDS = (
    Command("float", float_, "float a boat under a load",
            "%(prog)s day-boat --mass-kg 110 --lcg-mm 2330 --vcg-mm 280 --water salt "
            "--heel-deg 0,10,20", (
                DESIGN, *STAMP, *LOAD, VCG,
                Option("--heel-deg", "angles for righting arms, such as 0,10,20", _heels,
                       {"default": ""}))),
    Command("drag", drag, "estimate the drag of a boat against speed",
            "%(prog)s day-boat --mass-kg 110 --lcg-mm 2330 --speeds-mps 1,1.5,2", (
                DESIGN, *STAMP, *LOAD,
                replace(VCG, words=f"{VCG.words} (default: {DRAG_VCG_MM:g}; it hardly moves the "
                        "drag)", more={"default": f"{DRAG_VCG_MM}"}),
                needed("--speeds-mps", "speeds such as 1,1.5,2",
                       numbers(SLOWEST_MPS, FASTEST_MPS, "m/s")))),
    Command("flood", flood, "flood a boat with its cockpit open to the sea",
            "%(prog)s request.json --bow-bag-l 30 --stern-bag-l 30 --paddler in", (
                replace(DESIGN, words="a request .json (or -) for its fitted boat and paddler; a "
                        "base design floats whom it was drawn for",
                        more={"metavar": "DESIGN|REQUEST.json"}),
                *STAMP, Option("--bow-bag-l", "float bag in the bow, litres (default: 0)", _LITRES,
                       {"default": "0"}),
                Option("--stern-bag-l", "in the stern, litres (default: 0)", _LITRES,
                       {"default": "0"}),
                Option("--paddler", "in the seat, or out beside (default: in)",
                       one_of(("in", "out"), "in or out"), {"default": "in"}))),
    Command("sections", sections, "closed outlines of a boat's sections",
            "%(prog)s day-boat --count 101", (
                DESIGN, *STAMP,
                Option("--count", "this many, evenly spaced; without it, the sections that the "
                       "flotation uses, which stand wherever a stringer begins or ends",
                       number(*COUNTS, "sections", whole=True)))),
)
