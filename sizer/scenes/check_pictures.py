"""What each check measures: one small line drawing, shared by checks about the same thing.

Each yields its strokes, back to front, for the paper that stands beside it in the table.
"""

from functools import cache, partial

import numpy as np

from sizer.drawing.marks import OVER, box, line, picture, size_line, smooth, words
from sizer.drawing.record import Path
from sizer.fit.checks import BY_KEY
from sizer.scenes.check_shapes import (
    AFLOAT_M,
    BOTTOM,
    DECK,
    FLAT,
    GUNWALE,
    HALF,
    MIDDLE,
    RIM,
    SEAT_M,
    SEATED,
    TURN,
    WIDE_HALF,
    WIDTH,
    across,
    arc,
    arrow,
    block,
    dot,
    hips,
    level,
    long_view,
    on_long,
    opening,
    over,
    seated,
    section,
    top_view,
)

SIDES = (1.0, -1.0)


@cache
def check_picture(key):
    """What the check of this key measures. Raises KeyError for a key that no check has."""
    paper, draw, sentence = _BY_KEY[key]
    return picture(f"Check: {BY_KEY[key].title}", sentence, [paper.on_paper(draw(paper))])


def _along(x, to, height, paper):
    return size_line((x, height), (to, height), paper.unit_m)


def _upright(x, low, high, paper):
    return size_line((x, low), (x, high), paper.unit_m)


def _hips(paper):
    yield hips()
    yield from (block((side * 0.255, 0.13), paper) for side in SIDES)
    yield section()
    yield from (_along(side * 0.185, side * 0.262, SEAT_M + 0.10, paper) for side in SIDES)


def _legs(paper):
    yield from seated()
    yield line("extension", (-0.66, 0.0), (-0.1, 0.0))
    yield from (_upright(-x, 0.0, 0.25, paper) for x in (0.45, 0.62))


def _leg_frames(paper):
    yield from seated()
    for x, high in ((-0.42, 0.035), (-0.72, 0.075)):
        yield line("edge", (x, -0.04), (x, 0.0))
        yield _upright(x, 0.0, high, paper)


def _seat_on_sticks(paper):
    yield section()
    yield from (block(place, paper) for place in ((0.178, 0.062), (-0.178, 0.062), (0.0, 0.014)))
    yield line("edge", (-0.17, 0.075), (-0.012, 0.030), (0.012, 0.030), (0.17, 0.075))


def _seat_clear(paper):
    yield from _seat_on_sticks(paper)
    yield _upright(0.09, 0.019, 0.053, paper)


def _seat_bears(paper):
    yield from _seat_on_sticks(paper)
    yield from (arrow((side * 0.065, 0.20), (side * 0.065, 0.055), paper) for side in SIDES)


def _suits(paper):
    yield from long_view()
    yield Path("waterline", smooth([
        (16.0, 50.0), (46.0, 62.0), (76.0, 50.0), (106.0, 62.0), (136.0, 50.0), (166.0, 62.0),
        (204.0, 50.0)], closed=False))
    yield from (line("waterline", (x, 24.0), (x + 22.0, 24.0))
                for x in (18.0, 58.0, 98.0, 138.0, 178.0))
    yield words((110.0, 6.0), "calm water or waves?", paper.unit_m)


def _feet(paper):
    yield from seated()
    yield _upright(-1.05, -0.04, 0.245, paper)


def _feet_wide(paper):
    for side in SIDES:
        shoe = np.stack([104.0 + 34.0 * np.cos(TURN), MIDDLE + side * 17.0 + 13.0 * np.sin(TURN)],
                        axis=1)
        yield Path("body", shoe, closed=True)
        for pen, fore, aft in (("ink", 34.0, 50.0), ("wood", 28.0, 44.0)):
            yield line(pen, (20.0, MIDDLE + side * fore), (200.0, MIDDLE + side * aft))
    yield line("edge", (70.0, 26.0), (70.0, 94.0))
    yield line("centre", (12.0, MIDDLE), (208.0, MIDDLE))
    yield _upright(150.0, 22.0, 98.0, paper)


def _brace(paper):
    yield from seated()
    yield _along(-1.24, -1.06, -0.10, paper)
    yield _along(-1.06, -0.82, -0.10, paper)


def _opening(paper):
    yield from (*top_view(), opening())
    yield _along(82.0, 142.0, MIDDLE, paper)
    yield _upright(118.0, 40.0, 80.0, paper)


def _freeboard(paper):
    out, high = HALF[GUNWALE]
    yield from (*paper.water(AFLOAT_M), section())
    yield line("extension", (out, high), (out + 0.08, high))
    yield _upright(out + 0.06, AFLOAT_M, high, paper)


def _rim(paper):
    (x, high), top = on_long((0.58, 0.92)), level(0.45)
    yield from (*paper.water(top), *long_view())
    yield line("extension", (x, high), (x + 16.0, high))
    yield _upright(x + 10.0, high, top, paper)


def _lines(paper):
    top, drawn = level(0.58), level(0.36)
    yield from (*paper.water(top), *long_view())
    yield line("centre", (6.0, drawn), (214.0, drawn))
    yield _upright(24.0, top, drawn, paper)


def _trim(paper):
    turn, middle = np.radians(5.0), np.array([WIDTH / 2.0, 50.0])
    tilt = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    yield from paper.water(middle[1])
    for pen, points in (("ink", on_long(BOTTOM)), ("ink", on_long(DECK)),
                        ("centre", np.array([(26.0, 50.0), (204.0, 50.0)]))):
        yield Path(pen, (points - middle) @ tilt.T + middle)
    yield Path("dimension", arc(middle, 84.0, 0.0, 5.0))
    yield words((110.0, 96.0), "trim", paper.unit_m)


def _gm(paper):
    low, high, mass, meet = over([(0.0, 0.0), (0.0, 0.48), (0.0, 0.25), (0.0, 0.42)], 12.0)
    beside = np.array([12.0 * paper.unit_m, 0.0])
    yield from (*paper.water(AFLOAT_M), section(12.0), line("centre", low, high))
    yield line("extension", (meet[0], paper.at(0.0, 112.0)[1]), meet)
    yield from (*dot(mass, "G", paper.unit_m), *dot(meet, "M", paper.unit_m))
    yield size_line(mass + beside, meet + beside, paper.unit_m)


def _reserve(paper):
    yield from (*paper.water(level(0.40)), *long_view())
    yield line("centre", (6.0, level(0.62)), (214.0, level(0.62)))
    yield from (box("block", 146.0, 82.0, 176.0, 104.0), words((161.0, 89.0), "kg", paper.unit_m))
    yield arrow((116.0, 102.0), (116.0, 76.0), paper)


def _over(paper, heel):
    """The boat heeled in its water, with the angle."""
    yield from (*paper.water(AFLOAT_M), section(heel))
    yield from (Path("centre", over([(0.0, 0.0), (0.0, 0.42)], at)) for at in (0.0, heel))
    yield Path("dimension", arc((0.0, AFLOAT_M), 56.0 * paper.unit_m, 90.0, 90.0 - heel))


def _rim_under(paper):
    heel = 45.0  # brings the rim of this section down to the water
    rim, away = over(HALF[RIM], heel), np.array([(30.0, 24.0), (4.0, 3.0)]) * paper.unit_m
    yield from (*_over(paper, heel), arrow(*(rim + away), paper))


def _flooded(paper):
    top, (x, high) = level(0.66), on_long((0.58, 0.92))
    inside = on_long([(0.30, 0.66), (0.70, 0.66), (0.70, 0.03), (0.30, 0.03)])
    bag = on_long(smooth([(0.08, 0.60), (0.17, 0.78), (0.27, 0.74), (0.29, 0.4), (0.27, 0.10),
                          (0.17, 0.12)]))
    yield from (*paper.water(top), *2 * [Path("water", inside, closed=True)])
    yield from (Path("block", one, closed=True)
                for one in (bag, bag * OVER + (WIDTH, 0.0)))
    yield from (*long_view(), _upright(x + 8.0, high, top, paper))


def _swamped_out(paper):
    yield from _gm(paper)
    side = HALF[GUNWALE::-1]
    round_it = np.vstack([side * OVER, side[-2::-1]])
    many = np.linspace(0.0, len(round_it) - 1.0, 200)
    hull = over(np.stack([np.interp(many, np.arange(len(round_it)), one)
                            for one in round_it.T], axis=1), 12.0)
    yield Path("water", hull[hull[:, 1] <= AFLOAT_M], closed=True)  # inside as high as outside


def _on_wave(paper):
    x = np.linspace(4.0, 216.0, 60)
    wave = level(0.62) + 16.0 * (1.0 + np.cos(2.0 * np.pi * (x - 12.0) / 196.0)) - 16.0
    yield Path("water", np.vstack([np.stack([x, wave], axis=1), (216.0, 0.0), (4.0, 0.0)]),
               closed=True)
    yield Path("waterline", np.stack([x, wave], axis=1))
    yield from long_view()
    yield _along(12.0, 208.0, 10.0, paper)


def _length(paper):
    yield from (*long_view("pencil", 10.0), *long_view(), _along(12.0, 208.0, 14.0, paper))


def _beam(paper):
    sides = MIDDLE - WIDE_HALF, MIDDLE + WIDE_HALF
    yield from (*top_view(WIDE_HALF - 8.0, "pencil"), *top_view(), opening())
    yield _upright(170.0, *sides, paper)
    yield from (line("extension", (110.0, side), (176.0, side)) for side in sides)


def _depth(paper):
    yield from (section(0.0, HALF * (1.0, 0.84), "pencil"), section())
    yield from (line("extension", (x, z), (0.37, z)) for x, z in ((0.0, 0.0), HALF[GUNWALE]))
    yield _upright(0.35, 0.0, HALF[GUNWALE, 1], paper)


def _crown(paper):
    gunwale = HALF[GUNWALE]
    yield line("pencil", gunwale, (0.0, 0.31), gunwale * OVER)
    yield section(0.0, np.vstack([HALF[:GUNWALE + 1], (0.0, 0.36)]))
    yield line("extension", (-0.29, gunwale[1]), (0.29, gunwale[1]))
    yield _upright(0.0, 0.24, 0.36, paper)


def _bend(paper):
    middle = (110.0, -76.0)
    yield Path("block", np.concatenate([arc(middle, 166.0, 125.0, 55.0),
                                        arc(middle, 158.0, 55.0, 125.0)]), closed=True)
    yield arrow((110.0, 6.0), (110.0, 82.0), paper)
    yield words((118.0, 36.0), "radius", paper.unit_m, "start")


def _fair(paper):
    yield Path("ink", smooth([(14.0, 22.0), (70.0, 74.0), (110.0, 66.0), (150.0, 74.0),
                              (206.0, 22.0)], closed=False))
    yield line("thin", (70.0, 74.0), (150.0, 74.0))
    yield _upright(110.0, 66.0, 74.0, paper)


def _sawn(paper):
    middle = (110.0, 6.0)
    yield Path("block", np.concatenate([arc(middle, 92.0, 172.0, 8.0),
                                        arc(middle, 66.0, 8.0, 172.0)]), closed=True)
    yield _upright(110.0, 72.0, 98.0, paper)


def _together(paper):
    for index in range(50):
        row, column = divmod(index, 10)
        place = arc((20.0 * (column + 1.0), 20.0 * (5 - row) - 4.0), 6.0, 0.0, 360.0)
        yield Path("block" if index < 40 else "edge", place, closed=True)


def _side_deck(paper):
    yield from (*top_view(), opening())
    yield from (_upright(112.0, MIDDLE + side * 20.0, MIDDLE + side * WIDE_HALF, paper)
                for side in SIDES)


def _frames(paper):
    yield from top_view()
    yield from (line("edge", (x, MIDDLE - half), (x, MIDDLE + half))
                for x, half in ((64.0, 30.0), (162.0, 28.0)))
    yield from (opening(), _along(64.0, 82.0, MIDDLE, paper), _along(142.0, 162.0, MIDDLE, paper))


def _deck_sticks(paper):
    stick = smooth([(30.0, 8.0), (76.0, 20.0), (112.0, 26.0), (190.0, 12.0)], closed=False)
    yield from top_view()
    yield from (Path("edge", stick * (1.0, side) + (0.0, MIDDLE)) for side in SIDES)
    yield from (opening(), line("thin", (12.0, MIDDLE), (208.0, MIDDLE)))
    yield from (_upright(112.0, MIDDLE + side * 20.0, MIDDLE + side * 26.0, paper)
                for side in SIDES)


_PICTURES = (
    (across(), _hips, ("hips",),
     "Across the boat at the seat: the gap between hips and stringers on each side."),
    (SEATED, _legs, ("thighs", "knees"),
     "From the side: the height from seat to deck beam over the thighs and the knees."),
    (SEATED, _feet, ("feet",),
     "From the side: the height from floor to deck beam where the shod feet stand."),
    (FLAT, _feet_wide, ("feet-wide",),
     "From above: two shoes side by side, and the clear width between the stringers."),
    (SEATED, _brace, ("brace-far", "brace-near"),
     "From the side: how far the footbrace goes either way from where the soles rest."),
    (FLAT, _opening, ("way-out-long", "way-out-wide"),
     "From above: length and width of the opening that the body passes through."),
    (across(low=104.0), _freeboard, ("freeboard",),
     "Across the boat afloat: the height of the side deck over the water."),
    (FLAT, _rim, ("rim",),
     "From the side, afloat: the lower end of the cockpit rim over the water."),
    (FLAT, _lines, ("lines",),
     "From the side: the water's surface as it is, and the dashed line it was drawn to."),
    (FLAT, _trim, ("trim",),
     "From the side: the boat's tilt from level, bow or stern deeper."),
    (across(220.0, 116.0), _gm, ("gm", "gm-bare"),
     "Across the boat, heeled: M, where the buoyancy's line meets the middle; G, the mass."),
    (FLAT, _reserve, ("reserve",),
     "From the side: what can still be loaded until the side deck is near the water."),
    (FLAT, _reserve, ("load",),
     "From the side: everything aboard, against what the whole closed hull displaces."),
    (SEATED, _leg_frames, ("legs",),
     "From the side: the legs over the floors of the frames that they pass."),
    (across(), _seat_clear, ("seat-clear",),
     "Across the boat at the seat: a panel on keel and chines, and the skin below it."),
    (across(), _seat_bears, ("seat-bears",),
     "Across the boat at the seat: the paddler's weight through the seat onto the sticks."),
    (FLAT, _suits, ("suits",),
     "From the side: the boat on the water that it was drawn for."),
    (across(190.0, 92.0), partial(_over, heel=55.0), ("range", "knock"),
     "Across the boat, far over: how far and how hard it can heel and still come back."),
    (across(190.0, 92.0), _rim_under, ("rim-angle",),
     "Across the boat, heeled: the angle at which water comes over the cockpit rim."),
    (FLAT, _flooded, ("flooded",),
     "From the side: the cockpit full, float bags in both ends, the rim still clear."),
    (across(220.0, 116.0), _swamped_out, ("swamped-out",),
     "Across the boat, swamped and heeled, nobody in it: M over G, and it comes back."),
    (FLAT, _on_wave, ("wave",),
     "From the side: the boat in the trough of a wave as long as itself, held by its ends."),
    (FLAT, _length, ("factor-length",),
     "From the side: the boat's length against the base design's, in pencil."),
    (FLAT, _beam, ("factor-beam",),
     "From above: the boat's beam against the base design's, in pencil."),
    (across(260.0), _depth, ("factor-depth",),
     "Across the boat: its depth against the base design's, in pencil."),
    (across(260.0, 110.0), _crown, ("factor-crown",),
     "Across the foredeck: how high the deck's ridge stands over the gunwales."),
    (FLAT, _bend, ("bend",),
     "A stick bent to its tightest: the radius of the curve over the stick's thickness."),
    (FLAT, _fair, ("fair",),
     "A stick along the deck: how deep a hollow lies under the straight line across it."),
    (FLAT, _sawn, ("sawn",),
     "Across the boat at a frame: the plywood that is left of it round its opening."),
    (FLAT, _together, ("together",),
     "A crowd of dots, one a paddler: those that are filled meet every limit that can fail."),
    (FLAT, _side_deck, ("side-deck",),
     "From above: the deck left between the coaming and the gunwale."),
    (FLAT, _frames, ("frame-gap",),
     "From above: from the opening's ends to the nearest frame that is none of the cockpit's own."),
    (FLAT, _deck_sticks, ("stringer-gap",),
     "From above: from the coaming to the deck stringers that run beside it."),
)
_BY_KEY = {key: (paper, draw, sentence) for paper, draw, keys, sentence in _PICTURES
           for key in keys}
