"""What each check measures: one small line drawing, shared by checks about the same thing."""

from functools import cache

import numpy as np

from sizer.drawing.marks import picture, size_line, smooth, words
from sizer.drawing.record import Path
from sizer.fit.checks import BY_KEY
from sizer.scenes.check_shapes import (
    ACROSS_MIRROR,
    AFLOAT_M,
    BOTTOM,
    DECK,
    FLAT,
    GUNWALE,
    HALF,
    MIDDLE,
    RIM,
    SEAT_M,
    TURN,
    WIDE_HALF,
    WIDTH,
    across,
    arc,
    arrow,
    block,
    dot,
    heeled,
    hips,
    level,
    long_view,
    on_long,
    opening,
    seated,
    section,
    top_view,
    water,
)


@cache
def check_picture(key):
    """What the check of this key measures. Raises KeyError for a key that no check has."""
    draw, sentence = _BY_KEY[key]
    return picture(f"Check: {BY_KEY[key].title}", sentence, [draw()])


def _size(start, end, unit=1.0):
    return size_line(start, end, unit)


def _upright(x, low, high, unit=1.0):
    return size_line((x, low), (x, high), unit)


def _hips():
    paper, high = across(), SEAT_M + 0.10
    sides = (1.0, -1.0)
    return paper.on_paper([
        hips(), *(block((side * 0.255, 0.13), paper.unit_m) for side in sides), section(),
        *(_size((side * 0.185, high), (side * 0.262, high), paper.unit_m) for side in sides)])


def _legs():
    paper, strokes = seated()
    seat = np.array([(-0.66, 0.0), (-0.1, 0.0)])
    return paper.on_paper([*strokes, Path("extension", seat),
                           *(_upright(-x, 0.0, 0.25, paper.unit_m) for x in (0.45, 0.62))])


def _leg_frames():
    paper, strokes = seated()
    for x, over in ((-0.42, 0.035), (-0.72, 0.075)):
        strokes += [Path("edge", np.array([(x, -0.04), (x, 0.0)])),
                    _upright(x, 0.0, over, paper.unit_m)]
    return paper.on_paper(strokes)


def _seat_clear():
    paper = across(low=112.0)
    seat = np.array([(-0.17, 0.075), (-0.012, 0.030), (0.012, 0.030), (0.17, 0.075)])
    sticks = ((0.178, 0.062), (-0.178, 0.062), (0.0, 0.014))
    return paper.on_paper([section(), *(block(place, paper.unit_m) for place in sticks),
                           Path("edge", seat), _upright(0.09, 0.019, 0.053, paper.unit_m)])


def _suits():
    calm = [Path("waterline", np.array([(18.0 + 40.0 * step, 24.0), (40.0 + 40.0 * step, 24.0)]))
            for step in range(5)]
    waves = smooth([(16.0, 50.0), (46.0, 62.0), (76.0, 50.0), (106.0, 62.0), (136.0, 50.0),
                    (166.0, 62.0), (204.0, 50.0)], closed=False)
    return FLAT.on_paper([*long_view(), Path("waterline", waves), *calm,
                          words((110.0, 6.0), "calm water or waves?", 1.0)])


def _feet():
    paper, strokes = seated()
    return paper.on_paper([*strokes, _upright(-1.05, -0.04, 0.245, paper.unit_m)])


def _feet_wide():
    strokes = []
    for side in (1.0, -1.0):
        shoe = np.stack([104.0 + 34.0 * np.cos(TURN), side * 17.0 + 13.0 * np.sin(TURN)], axis=1)
        strokes.append(Path("body", np.add(shoe, (0.0, MIDDLE)), closed=True))
        for pen, half in (("ink", (34.0, 50.0)), ("wood", (28.0, 44.0))):
            strokes.append(Path(pen, np.array([(20.0, MIDDLE + side * half[0]),
                                               (200.0, MIDDLE + side * half[1])])))
    return FLAT.on_paper([*strokes, Path("edge", np.array([(70.0, 26.0), (70.0, 94.0)])),
                          _middle_line(), _upright(150.0, 22.0, 98.0)])


def _middle_line(pen="centre"):
    return Path(pen, np.array([(12.0, MIDDLE), (208.0, MIDDLE)]))


def _brace():
    paper, strokes = seated()
    return paper.on_paper([*strokes, *(_size((x, -0.10), (to, -0.10), paper.unit_m)
                                       for x, to in ((-1.24, -1.06), (-1.06, -0.82)))])


def _opening():
    return FLAT.on_paper([*top_view(), opening(), _size((82.0, MIDDLE), (142.0, MIDDLE)),
                          _upright(118.0, 40.0, 80.0)])


def _freeboard():
    paper, (out, high) = across(low=104.0), HALF[GUNWALE]
    return paper.on_paper([*water(paper, AFLOAT_M), section(),
                           Path("extension", np.array([(out, high), (out + 0.08, high)])),
                           _upright(out + 0.06, AFLOAT_M, high, paper.unit_m)])


def _rim():
    rim, top = on_long((0.58, 0.92)), level(0.45)
    at = rim[0] + 10.0
    return FLAT.on_paper([*water(FLAT, top), *long_view(),
                          Path("extension", np.array([rim, (at + 6.0, rim[1])])),
                          _upright(at, rim[1], top)])


def _lines():
    top, drawn = level(0.58), level(0.36)
    return FLAT.on_paper([*water(FLAT, top), *long_view(), _right_across(drawn),
                          _upright(24.0, top, drawn)])


def _right_across(height):
    return Path("centre", np.array([(6.0, height), (214.0, height)]))


def _trim():
    turn, middle = np.radians(5.0), np.array([WIDTH / 2.0, 50.0])
    tilt = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    axis = np.array([(26.0, 50.0), (204.0, 50.0)])
    tilted = [(line - middle) @ tilt.T + middle for line in (on_long(BOTTOM), on_long(DECK), axis)]
    return FLAT.on_paper([
        *water(FLAT, 50.0), *(Path("ink", line) for line in tilted[:2]),
        Path("centre", tilted[2]), Path("dimension", arc(middle, 84.0, 0.0, 5.0)),
        words((110.0, 96.0), "trim", 1.0)])


def _gm():
    paper, heel = across(220.0, low=116.0), 12.0
    low, high, mass, meet = heeled([(0.0, 0.0), (0.0, 0.48), (0.0, 0.25), (0.0, 0.42)], heel)
    lift = np.array([(meet[0], paper.at(0.0, 112.0)[1]), meet])
    beside = np.array([12.0 * paper.unit_m, 0.0])
    return paper.on_paper([
        *water(paper, AFLOAT_M), section(heel), Path("centre", np.array([low, high])),
        Path("extension", lift), *dot(mass, "G", paper.unit_m), *dot(meet, "M", paper.unit_m),
        _size(mass + beside, meet + beside, paper.unit_m)])


def _reserve():
    box = np.array([(146.0, 104.0), (176.0, 104.0), (176.0, 82.0), (146.0, 82.0)])
    return FLAT.on_paper([*water(FLAT, level(0.40)), *long_view(), _right_across(level(0.62)),
                          Path("block", box, closed=True), words((161.0, 89.0), "kg", 1.0),
                          arrow((116.0, 102.0), (116.0, 76.0))])


def _over(heel, *more):
    """The boat heeled in its water, with the angle."""
    paper = across(190.0, low=92.0)
    axes = [Path("centre", heeled([(0.0, 0.0), (0.0, 0.42)], at)) for at in (0.0, heel)]
    angle = arc((0.0, AFLOAT_M), 56.0 * paper.unit_m, 90.0, 90.0 - heel)
    return paper.on_paper([*water(paper, AFLOAT_M), section(heel), *axes,
                           Path("dimension", angle), *more])


def _range():
    return _over(55.0)


def _rim_under():
    heel, unit = 45.0, across(190.0).unit_m  # brings the rim of this section down to the water
    rim = heeled(HALF[RIM], heel)
    return _over(heel, arrow(rim + np.array([30.0, 24.0]) * unit,
                             rim + np.array([4.0, 3.0]) * unit, unit))


def _flooded():
    top, rim = level(0.66), on_long((0.58, 0.92))
    inside = on_long([(0.30, 0.66), (0.70, 0.66), (0.70, 0.03), (0.30, 0.03)])
    bag = on_long(smooth([(0.08, 0.60), (0.17, 0.78), (0.27, 0.74), (0.29, 0.4), (0.27, 0.10),
                          (0.17, 0.12)]))
    return FLAT.on_paper([
        *water(FLAT, top), *2 * [Path("water", inside, closed=True)],
        *(Path("block", one, closed=True) for one in (bag, bag * ACROSS_MIRROR + (WIDTH, 0.0))),
        *long_view(), _upright(rim[0] + 8.0, rim[1], top)])


def _length():
    return FLAT.on_paper([*long_view("pencil", 10.0), *long_view(),
                          _size((12.0, 14.0), (208.0, 14.0))])


def _beam():
    sides = MIDDLE - WIDE_HALF, MIDDLE + WIDE_HALF
    return FLAT.on_paper([
        *top_view(WIDE_HALF - 8.0, "pencil"), *top_view(), opening(), _upright(170.0, *sides),
        *(Path("extension", np.array([(110.0, side), (176.0, side)])) for side in sides)])


def _depth():
    paper = across(260.0)
    return paper.on_paper([
        section(0.0, HALF * (1.0, 0.84), "pencil"), section(),
        *(Path("extension", np.array([(x, z), (0.37, z)])) for x, z in ((0.0, 0.0), HALF[GUNWALE])),
        _upright(0.35, 0.0, HALF[GUNWALE, 1], paper.unit_m)])


def _crown():
    paper, high = across(260.0, low=110.0), HALF[GUNWALE, 1]
    before = [Path("pencil", np.array([HALF[GUNWALE], (0.0, 0.31), HALF[GUNWALE] * ACROSS_MIRROR]))]
    half = np.vstack([HALF[:GUNWALE + 1], (0.0, 0.36)])
    return paper.on_paper([*before, section(0.0, half),
                           Path("extension", np.array([(-0.29, high), (0.29, high)])),
                           _upright(0.0, 0.24, 0.36, paper.unit_m)])


def _bend():
    middle = (110.0, -76.0)
    stick = np.concatenate([arc(middle, 166.0, 125.0, 55.0), arc(middle, 158.0, 55.0, 125.0)])
    return FLAT.on_paper([Path("block", stick, closed=True), arrow((110.0, 6.0), (110.0, 82.0)),
                          words((118.0, 36.0), "radius", 1.0, "start")])


def _side_deck():
    return FLAT.on_paper([*top_view(), opening(), *(
        _upright(112.0, MIDDLE + side * 20.0, MIDDLE + side * WIDE_HALF) for side in (1.0, -1.0))])


def _frames():
    frames = [Path("edge", np.array([(x, MIDDLE - half), (x, MIDDLE + half)]))
              for x, half in ((64.0, 30.0), (162.0, 28.0))]
    return FLAT.on_paper([*top_view(), *frames, opening(), _size((64.0, MIDDLE), (82.0, MIDDLE)),
                          _size((142.0, MIDDLE), (162.0, MIDDLE))])


def _deck_sticks():
    stick = smooth([(30.0, 8.0), (76.0, 20.0), (112.0, 26.0), (190.0, 12.0)], closed=False)
    sides = (1.0, -1.0)
    return FLAT.on_paper([
        *top_view(), *(Path("edge", stick * (1.0, side) + (0.0, MIDDLE)) for side in sides),
        opening(), _middle_line("thin"),
        *(_upright(112.0, MIDDLE + side * 20.0, MIDDLE + side * 26.0) for side in sides)])


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
