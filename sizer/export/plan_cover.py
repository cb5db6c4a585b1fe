"""The cover of a plan set: the boat, for whom, whether it passes, every caution, the sheets."""

from sizer.export.customer import load_words, overall_words, size_words
from sizer.export.pages import (
    MARGIN_MM,
    Picture,
    Sheet,
    fitting_scale,
    heading,
    words,
)
from sizer.export.pdf_canvas import BOLD
from sizer.scenes.long_views import owners_drawing

PICTURE_MM = 58.0  # height of the drawing
SMALL_PT = 8.5
FOOT = "CAUTION. Calculated, not a trial: the cautions of this page are part of every sheet."


def cover(job, bench, sheets, page_mm):
    """The Sheet that leads a plan set.

    Parameters
    ----------
    job : Job
    bench : Bench of it
    sheets : the Sheets that follow
    page_mm : width, height
    """
    assessed = job.fitted.assessed
    boat, stamp = assessed.boat, job.stamp
    one_to, drawing = fitting_scale(
        lambda _: owners_drawing(boat, assessed.particulars),
        (page_mm[0] - 2.0 * MARGIN_MM - 1.0, PICTURE_MM))
    revision = (f"Revision {stamp.revision} of {stamp.date}" if stamp.revision
                else f"Printed {stamp.date}, not issued as a revision")
    return Sheet(f"Plans: {boat.design.name}", (
        words(boat.design.name, 20.0, BOLD), words(f"{boat.design.character}"),
        words(f"{revision}. Made with the shop's settings: sheets "
              f"{' x '.join(f'{side * 1000:.0f}' for side in bench.shop.sheet_m)} mm, timber "
              f"{', '.join(f'{one * 1000:.0f}' for one in bench.shop.stock_lengths_m)} mm, cloth "
              f"{', '.join(f'{one * 1000:.0f}' for one in bench.shop.cloth_widths_m)} mm wide.",
              SMALL_PT),
        Picture(drawing, 1.0 / one_to),
        words(f"Scale 1 : {one_to}. Toned: the water with the load below.", SMALL_PT),
        words(overall_words(job.fitted), face=BOLD),
        *map(words, size_words(boat)), *map(words, load_words(job)), words(_whom(job)),
        *heading("Sheets"),
        words("; ".join(f"{number} {sheet.title.split(':')[0]}"
                        for number, sheet in enumerate(sheets, start=2)) + ". Frames and stems at "
              "true size are in the patterns' own file.", SMALL_PT + 0.5),
        *heading("Read first, and again before the first launch"),
        *(words(f"- {caution}", SMALL_PT) for caution in job.cautions)), page_mm, FOOT)


def _whom(job):
    design = job.fitted.assessed.boat.design
    drawn = design.drawn_for
    return (f"For one paddler: the one of this job. For another, lighter or heavier, longer or "
            f"shorter, fit the boat again. The base was drawn for {drawn.weight_kg:.0f} kg, "
            f"{drawn.stature_m * 1000:.0f} mm tall, {drawn.hip_width_m * 1000:.0f} mm hips.")
