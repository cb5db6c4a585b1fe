"""The order of work as a checklist: what to do, what to measure, why, where the danger is."""

from reportlab.lib.colors import black, lightgrey
from reportlab.lib.units import mm
from reportlab.platypus import Table

from sizer.drawing.marks import box
from sizer.drawing.record import Drawing
from sizer.export.pages import MARGIN_MM, Picture, Sheet, words
from sizer.export.pdf_canvas import BOLD
from sizer.shop.work import MARKED, filled
from sizer.shop.work_figures import figures

SHARES = (1.3, 8.4, 7.4, 4.9)  # of the width: number and box, do, check, why
BODY_PT = 8.2
BOX_MM = 4.0  # side of the box to tick
PAD = (("LEFT", 2.0), ("RIGHT", 2.0), ("TOP", 1.0), ("BOTTOM", 2.0))


def work_sheet(job, bench, page_mm, foot):
    """The checklist of a job."""
    inner = page_mm[0] - 2.0 * MARGIN_MM
    steps = filled(figures(job, bench))
    rows = [[words(text, BODY_PT, BOLD) for text in ("", "do", "check before you go on", "why")]]
    rows += [_row(number, step) for number, step in enumerate(steps, start=1)]
    marks = "; ".join(f"{mark} {what}" for mark, what in MARKED.items())
    return Sheet(f"Order of work: {job.fitted.assessed.boat.design.name}", (
        words(f"Step by step from the first board to the first launch. Tick a box when its check "
              f"holds. Figures are this boat's, in mm and in feet, inches, sixteenths. {marks}.",
              9.0),
        Table(rows, colWidths=[share / sum(SHARES) * inner * mm for share in SHARES],
              repeatRows=1, style=[
                  ("LINEBELOW", (0, 0), (-1, -1), 0.4, black),
                  ("BACKGROUND", (0, 0), (-1, 0), lightgrey), ("VALIGN", (0, 0), (-1, -1), "TOP"),
                  *((f"{side}PADDING", (0, 0), (-1, -1), pad) for side, pad in PAD)])),
        page_mm, foot)


def _row(number, step):
    tick = BOX_MM / 1000.0
    square = Picture(Drawing("box", (box("ink", 0.0, 0.0, tick, tick),)), 1.0)
    do = [words(step.title, BODY_PT + 1.3, BOLD), words(step.do, BODY_PT)]
    if step.wait_h:
        do.append(words(f"Then wait {step.wait_h:.0f} hours, or as its maker says. [j]", BODY_PT))
    if step.danger:
        do.append(words(f"DANGER. {step.danger}", BODY_PT, BOLD))
    return [[words(str(number), BODY_PT + 1.3, BOLD), square], do, words(step.check, BODY_PT),
            words(step.why, BODY_PT)]
