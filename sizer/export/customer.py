"""The sheet that goes to the boat's owner as PDF: size, drawing, load, checks, bags, cautions.

It holds the load but no body measure, so the checks of room show their word alone.
"""

from sizer.export.pages import (
    MARGIN_MM,
    Picture,
    document,
    fitting_scale,
    heading,
    table,
    whole,
    words,
)
from sizer.export.tiles import PAPERS_MM
from sizer.fit.checks import BODY_SOURCE
from sizer.shop.bench import bags_l
from sizer.shop.boat_drawing import boat_drawing
from sizer.units import KG_PER_LB, MM_PER_M, feet_inches_text, inches_text

PAGE_MM = PAPERS_MM["A4"]
INNER_MM = PAGE_MM[0] - 2.0 * MARGIN_MM
CHECKS_PT = 8.5
ROOM_MM = (INNER_MM - 1.0, 90.0)  # for the picture
STATUS = {"fail": "X  does not pass", "caution": "!  caution", "pass": "passes"}
ORDER = tuple(STATUS)
FOOT = ("Calculated, not a trial. The cautions at the end are part of this sheet: keep its pages "
        "together. Wear a fastened PFD, dress for the water, practise wet exits, float bags in "
        "both ends.")


def customer_pdf(job, bench):
    """The sheet of a job; bytes, the same for the same job."""
    assessed = job.fitted.assessed
    one_to, drawing = fitting_scale(
        lambda _: boat_drawing(assessed.boat, assessed.particulars), ROOM_MM)
    return document(
        f"{assessed.boat.design.name}, fitted",
        [Picture(drawing, 1.0 / one_to),
         words(f"Scale 1 : {one_to}. Broken line: the water with the load below."),
         *heading("Size"), *map(words, _size(assessed.boat)),
         *heading("Fitted for"), *map(words, _load(job)),
         *heading("Float bags"), words(_bags(job)),
         *heading("Checks"), _checks(job),
         *heading("Read before the first launch"),
         *(whole(words(f"- {caution}")) for caution in job.cautions)],
        FOOT, PAGE_MM)


def _size(boat):
    yield (f"Length {_feet(boat.length_m)}, beam {_inches(boat.beam_m)}, depth "
           f"{_inches(boat.depth_m)}. Cockpit opening {_inches(boat.opening.length_m)} long and "
           f"{_inches(boat.opening.width_m)} wide.")


def _load(job):
    load, water = job.fitted.assessed.loading, job.person.water
    afloat = job.fitted.assessed.particulars
    yield (f"{job.request.use.replace('-', ' ').capitalize()}, {water.kind} water at "
           f"{water.temperature_c:g} °C.")
    yield (f"Load {_mass(load.paddler_kg + load.gear_kg)}: the paddler dressed for the water, and "
           f"all gear. The boat itself {_mass(load.boat_kg)}.")
    yield (f"So loaded it draws {_inches(afloat.draft_m)}, and the lowest side deck stands "
           f"{_inches(afloat.freeboard_m)} over calm water.")


def _bags(job):
    bow, stern = bags_l(job.mishaps.bags)
    return (f"At least {bow:.0f} litres in the bow and {stern:.0f} in the stern, tied in. "
            f"{job.mishaps.bags.says}")


def _checks(job):
    """All checks, those that do not pass first."""
    checks = sorted(job.fitted.checks, key=lambda one: ORDER.index(one.status))
    rows = [(one.name, *_figures(one), STATUS[one.status],
             "" if one.status == "pass" else one.meaning) for one in checks]
    return table(("check", "this boat", "asked for", "result", "what it means"), rows,
                 (4.8, 4.4, 3.0, 3.0, 6.4), INNER_MM, CHECKS_PT)


def _figures(check):
    if check.source == BODY_SOURCE:
        return "", "your measures"
    digits = 3 if check.unit == "of the base" else 1
    return f"{check.value:.{digits}f} {check.unit}", f"{check.sense} {check.limit:.{digits}f}"


def _inches(value_m):
    return f"{value_m * MM_PER_M:.0f} mm ({inches_text(value_m * MM_PER_M)} in)"


def _feet(value_m):
    return f"{value_m * MM_PER_M:.0f} mm ({feet_inches_text(value_m * MM_PER_M)})"


def _mass(value_kg):
    return f"{value_kg:.1f} kg ({value_kg / KG_PER_LB:.0f} lb)"
