"""The order of work as a checklist: what to do, what to measure, why, where the danger is."""

from reportlab.lib.colors import HexColor, black, lightgrey
from reportlab.lib.units import mm
from reportlab.platypus import Table

from sizer.drawing.marks import box
from sizer.drawing.record import Drawing
from sizer.export.feet import MADE_BY
from sizer.export.launch_answer import SWAMP_SO
from sizer.export.launch_sheet import trial_tick_words, trial_weights_words, weight_off_words
from sizer.export.pages import Picture, words
from sizer.export.pdf_canvas import BOLD
from sizer.export.tiles import sheet_name
from sizer.shop.cost import cost_of
from sizer.shop.deep import clear_words
from sizer.shop.money import USUAL
from sizer.shop.said import listed
from sizer.shop.work import MARKED, filled, waits_h
from sizer.shop.work_figures import figures
from sizer.shop.work_room import hand_frames
from sizer.units import MM_PER_M

WORK = "Order of work"  # its title
SHARES = (0.95, 20.95)  # of the width: number and box, what is told
BODY_PT = 7.5
ACT_BOX_MM, ACT_NUMBER_MM = 3.0, 9.0  # widths of an act's box and number; our drawing
PADS_MM = 6.0 / mm  # of a cell, left and right
BOX_MM, ACT_MM = 4.0, 2.6  # side of the box to tick, and of that of one act of a step
PAD = (("LEFT", 2.0), ("RIGHT", 4.0), ("TOP", 0.2), ("BOTTOM", 0.4))
DANGER = HexColor("#e8e8e8")


def told_figures(job, bench):
    """{name: words} of every {name} in the steps, the launch sheet's among them."""
    return {**figures(job, bench), "trial_weights": trial_weights_words(job),
            "deep": clear_words(job.fitted.assessed), "swamp_so": SWAMP_SO,
            "weight_off": weight_off_words(job),
            "ticks": _ticks(job)}


def _ticks(job):
    """What is marked on the deck: where hands go, where one sits who slides in, and where a trial's
    weight lies."""
    beside, behind = hand_frames(job)
    hands = listed([one.name for one in (*beside, behind)])
    slid = job.fitted.assessed.boat.design.cockpit.entry != "sit"
    return "; ".join([f"the gunwales over {hands}, for hands in getting in",
                      *([f"the deck's middle at {behind.name}, to sit on then"] if slid else []),
                      *trial_tick_words(job)])


def work_sheet(on, bench):
    """The checklist of a job."""
    files = {f"{one.replace('-', '_')}_file": on.job.stamp.named(sheet_name(one, on.paper))
             for one in ("launch", "dry-fit")}
    steps = filled({name: on.read(said) for name, said in {
        **told_figures(on.job, bench), **files}.items()})
    hours = cost_of(bench, USUAL[1])
    rows = [[words(text, BODY_PT, BOLD) for text in (
        "", "do; then, by the box, check before you go on, and why")]]
    style = [("BACKGROUND", (0, 0), (-1, 0), lightgrey), ("VALIGN", (0, 0), (-1, -1), "TOP"),
             *((f"{side}PADDING", (0, 0), (-1, -1), pad) for side, pad in PAD)]
    for number, step in enumerate(steps, start=1):
        first = len(rows)
        rows += _rows(number, step, hours.hours[number - 1].hours,
                      SHARES[1] / sum(SHARES) * on.inner_mm - PADS_MM)
        style += [("LINEABOVE", (0, first), (-1, first), 0.6, black),
                  ("NOSPLIT", (0, first), (-1, len(rows) - 1))]
        if step.danger:
            style.append(("BACKGROUND", (1, first + 1), (-1, first + 1), DANGER))
    marks = "; ".join(f"{mark} {what}" for mark, what in MARKED.items())
    return on.titled(WORK).sheet(
        words(f"Step by step from the first board to the first launch. Tick a box when its check "
              "holds. Figures are this boat's, in mm and in inches, as the cover tells. Hours are "
              f"an estimate, about {hours.total_h:.0f} in all, for one pair of hands that has "
              "built before: invented, put your own in their place; waits to cure and "
              f"dry, one after the other, about {waits_h() / 24.0:.0f} days besides. {marks}.",
              9.0), words(MADE_BY, 9.0),
        Table(rows, colWidths=[share / sum(SHARES) * on.inner_mm * mm for share in SHARES],
              repeatRows=1, style=style))


def _rows(number, step, hours, wide_mm):
    """Title; the danger where there is one, before the act; what to do, so wide; check and why by
    the step's box."""
    helpers = f", {step.helpers} helper{'s' * (step.helpers > 1)}" if step.helpers else ""
    yield [words(str(number), BODY_PT + 1.3, BOLD), words(
        f"{step.title} (about {hours:.1f} h{helpers})", BODY_PT + 1.3, BOLD)]
    if step.danger:
        yield ["", words(f"DANGER. {step.danger}", BODY_PT, BOLD)]
    yield ["", _acts(number, step.acts, wide_mm)]
    yield [_square(BOX_MM), words(f"CHECK. {step.check} Why: {step.why}", BODY_PT)]


def _square(side_mm):
    """A box to tick."""
    tick = side_mm / MM_PER_M
    return Picture(Drawing("box", (box("ink", 0.0, 0.0, tick, tick),)), 1.0)


def _acts(number, acts, wide_mm):
    """What to do in a step; where that is more than one act, each numbered and with its own box."""
    if len(acts) == 1:
        return words(acts[0], BODY_PT)
    return Table([[_square(ACT_MM), words(f"{number}.{row}", BODY_PT), words(act, BODY_PT)]
                  for row, act in enumerate(acts, start=1)],
                 colWidths=[wide * mm for wide in (
                     ACT_BOX_MM, ACT_NUMBER_MM, wide_mm - ACT_BOX_MM - ACT_NUMBER_MM)],
                 style=[("VALIGN", (0, 0), (-1, -1), "TOP"),
                        *((f"{side}PADDING", (0, 0), (-1, -1), 0.0) for side, _ in PAD)])
