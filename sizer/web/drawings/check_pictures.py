"""What each check measures: one small line drawing, shared by checks about the same thing."""

from functools import cache

import numpy as np

from sizer.fit.checks import BY_KEY
from sizer.web.drawings.check_shapes import (
    AFLOAT_M,
    BOTTOM,
    DECK,
    DEEP,
    GUNWALE,
    HALF,
    HEIGHT,
    LONG,
    MIRROR,
    RIM,
    SEAT_M,
    SIDE,
    TURN,
    WIDE_HALF,
    WIDTH,
    across,
    arc,
    arrow,
    block,
    both_sides,
    dot,
    heeled,
    hips,
    long_view,
    on_long,
    opening,
    seated,
    section,
    top_view,
    water,
)
from sizer.web.drawings.marks import (
    BODY_SHAPE,
    CENTRE_LINE,
    EXTENSION_LINE,
    INK_LINE,
    PENCIL_LINE,
    SIZE_LINE,
    THIN_LINE,
    WATER_LINE,
    WATER_TONE,
    WOOD_BLOCK,
    WOOD_EDGE,
    WOOD_LINE,
    dimension,
    drawing,
    path,
    paths,
    smooth,
    words,
)


@cache
def check_svg(key):
    """What the check of this key measures. Raises KeyError for a key that no check has."""
    draw, sentence = _BY_KEY[key]
    return drawing(WIDTH, HEIGHT, f"Check: {BY_KEY[key].title}", sentence, draw())


def _hips():
    view = across()
    level = SEAT_M + 0.10
    ends = view.at(np.array([-0.262, -0.185, 0.185, 0.262]), level)
    sticks = [block(view.at(side * 0.255, 0.13)) for side in (1.0, -1.0)]
    return [path(hips(view), BODY_SHAPE), *sticks, section(view),
            dimension(ends[0], ends[1]), dimension(ends[2], ends[3])]


def _legs():
    view, parts = seated()
    marks = [dimension(*view.at(-x, np.array([0.0, 0.25]))) for x in (0.45, 0.62)]
    seat = view.at(np.array([-0.66, -0.1]), 0.0)
    return [*parts, path(seat, EXTENSION_LINE), *marks]


def _leg_frames():
    view, parts = seated()
    frames = [view.at(-x, np.array([-0.04, 0.0])) for x in (0.42, 0.72)]
    return [*parts, paths(frames, WOOD_EDGE),
            *(dimension(*view.at(-x, np.array([0.0, over]))) for x, over in (
                (0.42, 0.035), (0.72, 0.075)))]


def _seat_clear():
    view = across(low=112.0)
    seat = view.at(np.array([-0.17, -0.012, 0.012, 0.17]), np.array([0.075, 0.030, 0.030, 0.075]))
    sticks = [block(view.at(side * 0.178, 0.062)) for side in (1.0, -1.0)]
    return [section(view), *sticks, block(view.at(0.0, 0.014)), path(seat, WOOD_EDGE),
            dimension(*view.at(0.09, np.array([0.019, 0.053])))]


def _suits():
    calm = [np.array([(18.0 + 40.0 * step, 96.0), (40.0 + 40.0 * step, 96.0)]) for step in range(5)]
    waves = [smooth([(16.0, 70.0), (46.0, 58.0), (76.0, 70.0), (106.0, 58.0), (136.0, 70.0),
                     (166.0, 58.0), (204.0, 70.0)], closed=False)]
    return [long_view(), paths(waves, WATER_LINE), paths(calm, WATER_LINE),
            words((110.0, 114.0), "calm water or waves?")]


def _feet():
    view, parts = seated()
    return [*parts, dimension(*view.at(-1.05, np.array([-0.04, 0.245])))]


def _feet_wide():
    shoes = [np.stack([104.0 + 34.0 * np.cos(TURN), 60.0 + side * 17.0 + 13.0 * np.sin(TURN)],
                      axis=1) for side in (1.0, -1.0)]
    sides = [np.array([(20.0, 60.0 + side * 34.0), (200.0, 60.0 + side * 50.0)])
             for side in (1.0, -1.0)]
    rest = np.array([(70.0, 26.0), (70.0, 94.0)])
    return [*(path(shoe, BODY_SHAPE, closed=True) for shoe in shoes), path(rest, WOOD_EDGE),
            paths(sides, INK_LINE), paths([line + np.sign(60.0 - line[:, 1:]) * (0.0, 6.0)
                                           for line in sides], WOOD_LINE),
            path(np.array([(12.0, 60.0), (208.0, 60.0)]), CENTRE_LINE),
            dimension((150.0, 22.0), (150.0, 98.0))]


def _brace():
    view, parts = seated()
    at = view.at(np.array([-1.24, -1.06, -0.82]), -0.10)
    return [*parts, dimension(at[0], at[1]), dimension(at[1], at[2])]


def _opening():
    return [top_view(), opening(),
            dimension((82.0, 60.0), (142.0, 60.0)), dimension((118.0, 40.0), (118.0, 80.0))]


def _freeboard():
    view = across(low=104.0)
    top = float(view.at(0.0, AFLOAT_M)[1])
    deck = view.at(HALF[GUNWALE, 0] + 0.06, np.array([AFLOAT_M, HALF[GUNWALE, 1]]))
    out = view.at(HALF[GUNWALE, 0] + np.array([0.0, 0.08]), HALF[GUNWALE, 1])
    return [*water(top), section(view), path(out, EXTENSION_LINE), dimension(*deck)]


def _rim():
    rim, top = on_long([(0.58, 0.92)])[0], float(SIDE.at(0.0, 0.45 * DEEP)[1])
    at = rim[0] + 10.0
    return [*water(top), long_view(), path(np.array([rim, (at + 6.0, rim[1])]), EXTENSION_LINE),
            dimension((at, rim[1]), (at, top))]


def _lines():
    top, drawn = (float(SIDE.at(0.0, share * DEEP)[1]) for share in (0.58, 0.36))
    line = np.array([(6.0, drawn), (214.0, drawn)])
    return [*water(top), long_view(), path(line, CENTRE_LINE),
            dimension((24.0, top), (24.0, drawn))]


def _trim():
    turn = np.radians(5.0)
    tilt = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    middle = np.array([WIDTH / 2.0, 70.0])
    tilted = [(on_long(line) - middle) @ tilt.T + middle for line in (BOTTOM, DECK)]
    axis = np.array([(26.0, 70.0), (204.0, 70.0)])
    along = (axis - middle) @ tilt.T + middle
    return [*water(70.0), paths(tilted, INK_LINE), path(along, CENTRE_LINE),
            path(arc((110.0, 70.0), 84.0, 0.0, 5.0), SIZE_LINE), words((110.0, 24.0), "trim")]


def _gm():
    view = across(220.0, low=116.0)
    heel = 12.0
    top = float(view.at(0.0, AFLOAT_M)[1])
    points = view.at(*heeled([(0.0, 0.0), (0.0, 0.48), (0.0, 0.25), (0.0, 0.42)], heel).T)
    lift = np.array([(points[3, 0], 112.0), points[3]])
    return [*water(top), section(view, heel), path(points[:2], CENTRE_LINE),
            path(lift, EXTENSION_LINE), dot(points[2], "G"), dot(points[3], "M"),
            dimension(points[2] + (12.0, 0.0), points[3] + (12.0, 0.0))]


def _reserve():
    top = float(SIDE.at(0.0, 0.40 * DEEP)[1])
    deep = float(SIDE.at(0.0, 0.62 * DEEP)[1])
    box = np.array([(146.0, 16.0), (176.0, 16.0), (176.0, 38.0), (146.0, 38.0)])
    return [*water(top), long_view(), path(np.array([(6.0, deep), (214.0, deep)]), CENTRE_LINE),
            path(box, WOOD_BLOCK, closed=True), words((161.0, 31.0), "kg"),
            arrow((116.0, 18.0), (116.0, 44.0))]


def _over(heel):
    """The boat heeled in its water, with the angle."""
    view = across(190.0, low=92.0)
    middle = view.at(0.0, AFLOAT_M)
    axes = [view.at(*heeled([(0.0, 0.0), (0.0, 0.42)], at).T) for at in (0.0, heel)]
    return view, [*water(float(middle[1])), section(view, heel), paths(axes, CENTRE_LINE),
                  path(arc(middle, 56.0, 90.0, 90.0 - heel), SIZE_LINE)]


def _range():
    return _over(55.0)[1]


def _rim_under():
    heel = 45.0  # brings the rim of this section down to the water
    view, parts = _over(heel)
    rim = view.at(*heeled(HALF[[RIM]], heel).T)[0]
    return [*parts, arrow(np.add(rim, (30.0, -24.0)), np.add(rim, (4.0, -3.0)))]


def _flooded():
    top = float(SIDE.at(0.0, 0.66 * DEEP)[1])
    inside = on_long([(0.30, 0.66), (0.70, 0.66), (0.70, 0.03), (0.30, 0.03)])
    bag = on_long(smooth([(0.08, 0.60), (0.17, 0.78), (0.27, 0.74), (0.29, 0.4), (0.27, 0.10),
                          (0.17, 0.12)]))
    bags = (bag, bag * MIRROR + (WIDTH, 0.0))
    rim = on_long([(0.58, 0.92)])[0]
    return [*water(top), *2 * [path(inside, WATER_TONE, closed=True)],
            *(path(one, WOOD_BLOCK, closed=True) for one in bags),
            long_view(), dimension((rim[0] + 8.0, rim[1]), (rim[0] + 8.0, top))]


def _length():
    short = [SIDE.at(10.0 + line[:, 0] * (LONG - 20.0), line[:, 1] * DEEP)
             for line in (BOTTOM, DECK)]
    return [paths(short, PENCIL_LINE), long_view(), dimension((12.0, 106.0), (208.0, 106.0))]


def _beam():
    return [top_view(WIDE_HALF - 8.0, PENCIL_LINE), top_view(), opening(),
            dimension((170.0, 60.0 - WIDE_HALF), (170.0, 60.0 + WIDE_HALF)),
            paths([np.array([(110.0, 60.0 + side * WIDE_HALF), (176.0, 60.0 + side * WIDE_HALF)])
                   for side in (1.0, -1.0)], EXTENSION_LINE)]


def _depth():
    view = across(260.0)
    ends = view.at(0.35, np.array([0.0, HALF[GUNWALE, 1]]))
    out = [view.at(np.array([x, 0.37]), z) for x, z in ((0.0, 0.0), HALF[GUNWALE])]
    return [both_sides(view, HALF * (1.0, 0.84), pen=PENCIL_LINE), section(view),
            paths(out, EXTENSION_LINE), dimension(*ends)]


def _crown():
    view = across(260.0, low=110.0)
    half = np.vstack([HALF[:GUNWALE + 1], (0.0, 0.36)])
    before = np.array([HALF[GUNWALE], (0.0, 0.31)])
    level = view.at(np.array([-0.29, 0.29]), HALF[GUNWALE, 1])
    return [both_sides(view, before, pen=PENCIL_LINE), both_sides(view, half),
            path(level, EXTENSION_LINE), dimension(*view.at(0.0, np.array([0.24, 0.36])))]


def _bend():
    middle = (110.0, 196.0)
    stick = np.concatenate([arc(middle, 166.0, 125.0, 55.0), arc(middle, 158.0, 55.0, 125.0)])
    return [path(stick, WOOD_BLOCK, closed=True), arrow((110.0, 114.0), (110.0, 38.0)),
            words((118.0, 84.0), "radius", "start")]


def _side_deck():
    return [top_view(), opening(),
            dimension((112.0, 40.0), (112.0, 60.0 - WIDE_HALF)),
            dimension((112.0, 80.0), (112.0, 60.0 + WIDE_HALF))]


def _frames():
    frames = [np.array([(x, 60.0 - half), (x, 60.0 + half)]) for x, half in ((64, 30), (162, 28))]
    return [top_view(), paths(frames, WOOD_EDGE), opening(),
            dimension((64.0, 60.0), (82.0, 60.0)), dimension((142.0, 60.0), (162.0, 60.0))]


def _deck_sticks():
    stick = smooth([(30.0, 8.0), (76.0, 20.0), (112.0, 26.0), (190.0, 12.0)], closed=False)
    sticks = [stick * (1.0, side) + (0.0, 60.0) for side in (1.0, -1.0)]
    return [top_view(), paths(sticks, WOOD_EDGE), opening(),
            path(np.array([(12.0, 60.0), (208.0, 60.0)]), THIN_LINE),
            dimension((112.0, 80.0), (112.0, 86.0)), dimension((112.0, 40.0), (112.0, 34.0))]


_PICTURES = (
    (_hips, "Across the boat at the seat: the gap between hips and stringers on each side.",
     ("hips",)),
    (_legs, "From the side: the height from seat to deck beam over the thighs and the knees.",
     ("thighs", "knees")),
    (_feet, "From the side: the height from floor to deck beam where the shod feet stand.",
     ("feet",)),
    (_feet_wide, "From above: two shoes side by side, and the clear width between the stringers.",
     ("feet-wide",)),
    (_brace, "From the side: how far the footbrace goes either way from where the soles rest.",
     ("brace-far", "brace-near")),
    (_opening, "From above: length and width of the opening that the body passes through.",
     ("way-out-long", "way-out-wide")),
    (_freeboard, "Across the boat afloat: the height of the side deck over the water.",
     ("freeboard",)),
    (_rim, "From the side, afloat: the lower end of the cockpit rim over the water.",
     ("rim",)),
    (_lines, "From the side: the water's surface as it is, and the dashed line it was drawn to.",
     ("lines",)),
    (_trim, "From the side: the boat's tilt from level, bow or stern deeper.", ("trim",)),
    (_gm, "Across the boat, heeled: M, where the buoyancy's line meets the middle; G, the mass.",
     ("gm", "gm-tall")),
    (_reserve, "From the side: what can still be loaded until the side deck is near the water.",
     ("reserve",)),
    (_reserve, "From the side: everything aboard, against what the whole closed hull displaces.",
     ("load",)),
    (_leg_frames, "From the side: the legs over the floors of the frames that they pass.",
     ("legs",)),
    (_seat_clear, "Across the boat at the seat: a panel on keel and chines, and the skin below it.",
     ("seat-clear",)),
    (_suits, "From the side: the boat on the water that it was drawn for.", ("suits",)),
    (_range, "Across the boat, far over: how far and how hard it can heel and still come back.",
     ("range", "knock")),
    (_rim_under, "Across the boat, heeled: the angle at which water comes over the cockpit rim.",
     ("rim-angle",)),
    (_flooded, "From the side: the cockpit full, float bags in both ends, the rim still clear.",
     ("flooded",)),
    (_length, "From the side: the boat's length against the base design's, in pencil.",
     ("factor-length",)),
    (_beam, "From above: the boat's beam against the base design's, in pencil.", ("factor-beam",)),
    (_depth, "Across the boat: its depth against the base design's, in pencil.", ("factor-depth",)),
    (_crown, "Across the foredeck: how high the deck's ridge stands over the gunwales.",
     ("factor-crown",)),
    (_bend, "A stick bent to its tightest: the radius of the curve over the stick's thickness.",
     ("bend",)),
    (_side_deck, "From above: the deck left between the coaming and the gunwale.",
     ("side-deck",)),
    (_frames, "From above: from the opening's ends to the nearest frame that does not carry it.",
     ("frame-gap",)),
    (_deck_sticks, "From above: from the coaming to the deck stringers that run beside it.",
     ("stringer-gap",)),
)
_BY_KEY = {key: (draw, sentence) for draw, sentence, keys in _PICTURES for key in keys}
