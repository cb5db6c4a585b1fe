"""The seat's sheet as PDF: plan and section to scale, what it takes, where everything stands."""

from collections import Counter
from dataclasses import replace

import numpy as np

from sizer.export.feet import LAST, cautions_blocks, foot
from sizer.export.pages import (
    MARGIN_MM,
    Picture,
    Sheet,
    fitting_scale,
    heading,
    sheets_pdf,
    table,
    words,
)
from sizer.export.pdf_canvas import BOLD
from sizer.export.setting_up_sheet import WORDS
from sizer.export.tiles import PAPERS_MM
from sizer.scenes.seat_views import seat_views
from sizer.shop.lashing import HOLE_M
from sizer.shop.seat import places
from sizer.shop.seat_drawing import CLEAT_SHARES
from sizer.shop.seat_parts import cleat_long_m
from sizer.shop.work_figures import listed
from sizer.units import MM_PER_M, both_text, mark_figure, mark_text

PAGE_MM = PAPERS_MM["A4"]
INNER_MM = PAGE_MM[0] - 2.0 * MARGIN_MM
ROOM_MM = (INNER_MM - 1.0, 150.0)  # for the picture
LETTERS_MM = 2.4  # of the picture's words on paper; our drawing
SAME_M = 1e-4  # nearer in width both ends of a board are told as one
SCALES = (2, 3, 4, 5, 6, 8, 10, 12, 15)  # one to so many


def seat_pdf(job, bench):
    """The sheet of a job; bytes, the same for the same job."""
    sheet = seat_sheet(job, bench, PAGE_MM, foot(job, LAST))
    blocks = (*sheet.blocks, *cautions_blocks(job))
    return sheets_pdf(sheet.title, [replace(sheet, blocks=blocks)], job.imprint)


def seat_sheet(job, bench, page_mm, foot, high_mm=ROOM_MM[1], items=True):
    """The same as a Sheet with a foot of its own, its picture at most so high, and with or without
    the list of what it takes."""
    boat, seat = job.fitted.assessed.boat, bench.seat
    one_to, drawing = fitting_scale(
        lambda scale: seat_views(seat, boat, LETTERS_MM / MM_PER_M / scale),
        (ROOM_MM[0], high_mm), SCALES)
    return Sheet(f"Seat: {boat.design.name}", (
        words(f"The boat's checks: {WORDS[job.fitted.status]}.", face=BOLD),
        Picture(drawing, 1.0 / one_to),
        words(f"Scale 1 : {one_to}, whole mm. Left: from above, bow on the left. Right: the "
              "section under the sitting bones, seen from astern."),
        *map(words, seat.says),
        *heading("Where it stands"), _places(job, seat),
        *heading("Backband and footbrace"), *map(words, _outfit(seat)),
        *((*heading("What it takes"), _items(seat)) if items else ()),
         words(" ".join([*([] if items else [_cut(seat)]), *_pieces(seat)]), 8.0)),
        page_mm, foot)


def _cut(seat):
    """What is cut for the seat itself, in one line; alike pieces together."""
    alike = Counter()
    for one in seat.items:
        if one.size_m and "footbrace" not in one.what:
            alike[one.what, " x ".join(map(_both, one.size_m))] += round(one.quantity)
    return "Cut: " + "; ".join(f"{what}, {sizes}, {count} off"
                               for (what, sizes), count in alike.items()) + "."


def _pieces(seat):
    """Each board that is bored or no rectangle: its sides and its holes, alike ones once."""
    told = {}
    if seat.kind == "sling":
        ends = " and ".join(_mm(share * cleat_long_m(seat.boards)) for share in CLEAT_SHARES)
        yield (f"Each cleat is bored {HOLE_M * MM_PER_M:g} mm at {ends} mm from its end, midway of "
               "its height.")
    for number, one in enumerate(seat.boards, start=1):
        long = float(one.flat_m[:, 0].max())
        front, back = (float(np.ptp(one.flat_m[np.isclose(one.flat_m[:, 0], x), 1]))
                       for x in (0.0, long))
        if one.holes_m:
            wide = "" if abs(front - back) < SAME_M else (
                f"{_mm(front)} wide in front, {_mm(back)} behind; ")
            text = (f"{wide}holes {HOLE_M * MM_PER_M:g} mm, aft / out from its inner front "
                    "corner, mm: " + ", ".join(
                        f"{_mm(aft)} / {_mm(out)}" for aft, out in one.holes_m))
            told.setdefault(text, []).append(number)
    yield from (f"Board {listed(list(map(str, numbers)))}, each side: {text}."
                for text, numbers in told.items())


def _places(job, seat):
    up = job.setting_up
    base, start = up.baseline_height_m, up.strongback_start_x_m
    rows = [(name, _mm(x), _mm(x - start), _in(x - start), *(
        ("", "", "") if z is None else (_mm(z), _mm(z + base), _in(z + base))))
            for name, x, z in sorted(places(seat, job.fitted.assessed.boat),
                                     key=lambda one: one[1])]
    return table(("place", "from the bow, mm", "tape on the strongback, mm", "in",
                  "over the baseline, mm", "over the strongback, mm", "in"), rows,
                 (6.0, 3.2, 4.1, 3.0, 3.4, 4.1, 2.6), INNER_MM)


def _outfit(seat):
    band, brace = seat.backband, seat.footbrace
    yield (f"The backband stands {_both(band.over_seat_m)} over the seat; tie each end to the "
           f"gunwale at {band.frame}, {_mm(band.tie_x_m - band.x_m)} mm farther aft and "
           f"{_mm(band.tie_half_breadth_m)} mm off the centre line.")
    yield (f"The footbrace is set {_both(brace.set_m)} ahead of the back of the buttocks, and goes "
           f"from {_both(brace.nearest_m)} to {_both(brace.farthest_m)}. Its rails run from "
           f"{brace.fore_frame} to {brace.aft_frame}, {_mm(brace.rail_m)} mm long.")


def _items(seat):
    rows = [(one.what, " ".join(one.bought("mm")),
             " x ".join(_mm(size) for size in one.size_m),
             " x ".join(_in(size) for size in one.size_m), one.allowance)
            for one in seat.items]
    return table(("part", "how many", "size, mm", "size, in", "note"), rows,
                 (7.0, 2.6, 3.8, 4.2, 5.0), INNER_MM)


def _mm(value_m):
    return mark_figure(value_m * MM_PER_M, "mm")


def _in(value_m):
    return mark_figure(value_m * MM_PER_M, "in")


def _both(value_m):
    return both_text(value_m * MM_PER_M, mark_text)
