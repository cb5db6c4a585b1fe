"""The seat's sheet as PDF: plan and section to scale, what it takes, where everything stands."""

from collections import Counter
from functools import partial

import numpy as np

from sizer.drawing.told import UNIT, WHOLE, Told, in_tenths, row_of, size, told
from sizer.export.feet import alone, ground
from sizer.export.fit_words import CHECKS_WORDS, capital
from sizer.export.lengths import in_of, marked, mm_of
from sizer.export.pages import MARGIN_MM, heading, table, words
from sizer.export.pdf_canvas import BOLD
from sizer.export.tiles import PAPERS_MM, USUAL_PAPER
from sizer.hull.seat import SIT_APART_M
from sizer.scenes.seat_views import seat_detail, seat_views
from sizer.shop.lashing import HOLE_M
from sizer.shop.outfit import ELASTIC_TIED, SHEET
from sizer.shop.said import listed
from sizer.shop.seat import edges_m, places
from sizer.shop.work_risers import seat_later
from sizer.units import MM_PER_M, tape_text

INNER_MM = PAPERS_MM[USUAL_PAPER][0] - 2.0 * MARGIN_MM
ROOM_MM = (INNER_MM - 1.0, 80.0)  # for the picture
LETTERS_MM = 2.4  # of the picture's words on paper; our drawing
DETAIL_MM = (INNER_MM - 1.0, 46.0)  # for the section drawn large
DETAIL_SMALL_MM, DETAIL_LEAST_MM = 36.0, 30.0  # its height where room is short; our drawing
TEXT_PT = 8.5
PLACES_PT = 8.0  # of the table of places
LISTED = ("All of it is in the plan set's sheet What to buy too, the waxed cord in one line with "
          "all other: it is bought once.")
SAME_M = 1e-4  # nearer in width both ends of a board are told as one
SCALES = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20)  # one to so many


def seat_pdf(job, bench, paper=USUAL_PAPER):
    """The sheet of a job on "A4" or "Letter"; bytes, the same for the same job."""
    return alone(job, seat_sheet(ground(job, paper), bench))


def seat_sheet(on, bench, high_mm=ROOM_MM[1], items=True, detail_mm=DETAIL_MM[1],
               text_pt=TEXT_PT):
    """The same as a Sheet with a foot of its own, its pictures at most so high, and with or without
    the checks' verdict and the list of what it takes, which a plan set has elsewhere."""
    on, job, seat = on.titled("Seat"), on.job, bench.seat
    one_to, picture = on.scaled(partial(seat_views, seat, on.boat), (ROOM_MM[0], high_mm),
                                LETTERS_MM, SCALES)
    return on.sheet(
        *([words(f"The boat's checks: {CHECKS_WORDS[job.status]}.", face=BOLD)] if items else ()),
        picture,
        words(f"1 : {one_to}, {on.read(WHOLE)}. Left: from above, bow on the left; over all at the "
              "undersides, where they are widest. Right: the section under the sitting bones, from "
              "astern.", text_pt),
        *_detail(on, bench, detail_mm, text_pt),
        *(words(on.read(text), text_pt) for text in (*seat.says, *seat_later(bench))),
        *heading("Where it stands"), _places(on, seat),
        words(on.read(_height(job, seat)), text_pt),
        *heading("Backband and footbrace"),
        *(words(on.read(text), text_pt) for text in _outfit(seat)),
        *((*heading("What it takes"), _items(seat), words(LISTED, text_pt))
          if items else ()),
         words(" ".join([*([] if items else [_cut(seat)]), *map(on.read, _pieces(seat))]), 8.0))


def _detail(on, bench, high_mm, text_pt):
    """The section drawn large, with what its figures are."""
    seat, up = bench.seat, on.job.setting_up.baseline_height_m
    drawn = partial(seat_detail, seat, on.boat, bench.frames, up, on.unit)
    if drawn(LETTERS_MM / MM_PER_M) is None:
        return
    one_to, picture = on.scaled(drawn, (DETAIL_MM[0], high_mm), LETTERS_MM, SCALES)
    where, ties, bevels = {
        "panel": ("under the sitting bones", "through the holes listed below",
                  "; its edges before they are bevelled"),
        "slats": ("on the frames as sawn", "round the floors", "")}[seat.kind]
    yield picture
    yield words(
        f"1 : {one_to}, to starboard from astern, {where}. "
        f"Figures of the {seat.board_name}s' tops, {on.read(UNIT)}: off the centre line, up over "
        f"the strongback. Thin: the lashings, {ties}{bevels}.", text_pt)


def _cut(seat):
    """What is cut for the seat itself, in one line; alike pieces together."""
    alike = Counter()
    for one in seat.items:
        if one.size_m and "footbrace" not in one.what:
            sizes = " x ".join(f"{mm_of(size)} mm ({inches})" for size, inches in zip(
                one.size_m, one.inches(tape_text, '"'), strict=True))
            alike[one.what, sizes] += round(one.quantity)
    return "Cut: " + "; ".join(f"{what}, {sizes}, {count} off"
                               for (what, sizes), count in alike.items()) + "."


def _pieces(seat):
    """Each board that is bored or no rectangle: its sides and its holes, alike ones once."""
    alike = {}
    for number, one in enumerate(seat.boards, start=1):
        long = float(one.flat_m[:, 0].max())
        front, back = (float(np.ptp(one.flat_m[np.isclose(one.flat_m[:, 0], x), 1]))
                       for x in (0.0, long))
        if one.holes_m:
            wide = "" if abs(front - back) < SAME_M else told(
                "{} wide in front, {} behind; ", in_tenths(front), in_tenths(back))
            text = told("{}holes {}, aft / out from its inner front corner{}: {}", wide,
                        size(HOLE_M), Told(", mm", ""), row_of([
                            told("{} / {}", *map(in_tenths, hole)) for hole in one.holes_m]))
            alike.setdefault(text, []).append(number)
    name = capital(seat.board_name)
    yield from (told("{}, each side: {}.", name if len(seat.boards) == 1 else
                     f"{name} {listed(list(map(str, numbers)))}", text)
                for text, numbers in alike.items())


def _places(on, seat):
    """Marks that stand beside a tape in both units, others in that of who reads the sheet."""
    up, unit = on.job.setting_up, on.unit
    base, start = up.baseline_height_m, up.strongback_start_x_m
    own = in_of if unit == "in" else mm_of
    rows = [(name, own(x), mm_of(x - start), in_of(x - start), *(
        ("", "", "") if z is None else (own(z), mm_of(z + base), in_of(z + base))))
            for name, x, z in sorted(places(seat, on.boat), key=lambda one: one[1])]
    return table(("place", f"from the bow, {unit}", "tape, mm", "tape, in",
                  f"over baseline, {unit}", "over strongback, mm", "over strongback, in"), rows,
                 (8.4, 3.0, 2.6, 2.6, 3.3, 3.8, 3.6), INNER_MM, PLACES_PT)


def _height(job, seat):
    """At which half-breadth the seat's height holds, and where its top goes from there."""
    inner, outer = edges_m(seat)
    base = job.setting_up.baseline_height_m
    level = abs(outer[1] - seat.top_m) < SAME_M and abs(inner[1] - seat.top_m) < SAME_M
    return told("The top's height there is that {} off the centre line, port and starboard: {}",
                marked(SIT_APART_M), "it lies level there." if level else told(
                    "{} over the strongback at its inner edge, {} off the centre line, and {} at "
                    "its outer edge, {} off.", marked(inner[1] + base), _tenths(inner[0]),
                    marked(outer[1] + base), _tenths(outer[0])))


def _tenths(value_m):
    return size(value_m, form=in_tenths)


def _outfit(seat):
    band, brace = seat.backband, seat.footbrace
    yield told("The backband ({}) stands {} over the seat, tied to its loops on the gunwales ahead "
               "of {}, {} farther forward and {} off the centre line: leaning back pulls it. A "
               "light elastic cord round {}'s {} keeps it up.", SHEET, marked(band.over_seat_m),
               band.frame, _tenths(band.x_m - band.loop_x_m), _tenths(band.tie_half_breadth_m),
               band.behind, ELASTIC_TIED)
    yield told("The footbrace is set {} ahead of the back of the buttocks, and goes from {} to {}, "
               "by the holes that the plans' footbrace sheet tells, no other. Its rails run from "
               "{} to {}, {} long.", *map(marked, (brace.set_m, brace.nearest_m, brace.farthest_m)),
               brace.fore_frame, brace.aft_frame, _tenths(brace.rail_m))


def _items(seat):
    rows = [(one.what, " ".join(one.bought("mm")),
             " x ".join(mm_of(size) for size in one.size_m),
             " x ".join(one.inches(tape_text, '"')), one.allowance)
            for one in seat.items]
    return table(("part", "how many", "size, mm", "feet, inches", "note"), rows,
                 (7.0, 2.6, 3.8, 4.2, 5.0), INNER_MM)
