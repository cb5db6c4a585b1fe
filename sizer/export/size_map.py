"""A range of sizes as a picture: the people, weight against stature, by the size they take."""

from dataclasses import replace

import numpy as np

from sizer.drawing.record import CAP_HEIGHT, Circle, Drawing, Path, Text
from sizer.export.range_answer import size_answer
from sizer.units import MM_PER_M

# One shape and one pen for each size: corners in a unit square round 0, told apart without the
# pen's colour; None is a ring. Our choice.
SHAPES = (
    ((-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)),
    ((0.0, 0.62), (0.6, -0.45), (-0.6, -0.45)),
    None,
    ((0.0, 0.7), (0.5, 0.0), (0.0, -0.7), (-0.5, 0.0)),
    ((-0.18, 0.6), (0.18, 0.6), (0.18, 0.18), (0.6, 0.18), (0.6, -0.18), (0.18, -0.18),
     (0.18, -0.6), (-0.18, -0.6), (-0.18, -0.18), (-0.6, -0.18), (-0.6, 0.18), (-0.18, 0.18)),
    ((0.0, -0.62), (0.6, 0.45), (-0.6, 0.45)),
)
LEFT_OUT = ((-0.55, -0.55), (0.55, 0.55), (0.0, 0.0), (-0.55, 0.55), (0.55, -0.55))
PLOT_MM = (0.0, 0.0, 166.0, 120.0)  # left, bottom, right, top
MARK_MM, KEY_MARK_MM = 1.7, 3.0
MOST_MARKS = 1500  # more hide each other; all who are left out are drawn
WORDS_MM, TITLE_MM = 3.0 * CAP_HEIGHT, 4.4 * CAP_HEIGHT  # heights of capitals
LINE_MM = 4.6
EDGE_MM = 2.0  # of paper round all that is drawn


def size_map(found, choice):
    """The Drawing, in metres of paper: a shape and a pen for each size, and their key below."""
    stature = np.array([one.stature_m for one in found.measured]) * MM_PER_M
    weight = np.array([one.weight_kg for one in found.measured])
    x_axis, y_axis = _axis(stature, 100.0), _axis(weight, 20.0)
    left, bottom, right, top = PLOT_MM
    places = np.column_stack([np.interp(stature, x_axis[[0, -1]], (left, right)),
                              np.interp(weight, y_axis[[0, -1]], (bottom, top))])
    drawn = (np.arange(stature.size) % -(-stature.size // MOST_MARKS) == 0) | (choice.taken < 0)
    title = f"Who takes which size: {found.setting.lines.design.name}"
    strokes = [*_grid(x_axis, y_axis),
               _text((left, top + 6.0), title, TITLE_MM, "start"),
               *(_mark(taken, place, MARK_MM)
                 for taken, place in zip(choice.taken[drawn], places[drawn], strict=True)),
               *_key(found, choice, bottom - 14.0)]
    drawing = Drawing(title, tuple(strokes), tuple(_sample_words(found, drawn)))
    low_x, low_y, high_x, high_y = drawing.box_m
    paper = low_x - EDGE_MM, low_y - EDGE_MM, high_x + EDGE_MM, high_y + EDGE_MM
    return replace(drawing, frame_m=paper).scaled(1.0 / MM_PER_M)


def _axis(values, step):
    """Round numbers from below the least to above the most value."""
    return np.arange(np.floor(values.min() / step), np.ceil(values.max() / step + 1e-9) + 1) * step


def _mark(taken, place, size_mm):
    """The mark of the size with this index, or of who is left out (-1)."""
    pen = f"size-{taken + 1}" if taken >= 0 else "left-out"
    shape = SHAPES[taken] if taken >= 0 else LEFT_OUT
    if shape is None:
        return Circle(pen, tuple(map(float, place)), 0.5 * size_mm)
    return Path(pen, np.array(shape) * size_mm + place, closed=taken >= 0)


def _text(place, words, height=WORDS_MM, anchor="middle", angle=0.0):
    return Text("text", place, height, words, angle, anchor)


def _grid(x_axis, y_axis):
    """Lines and numbers of both axes."""
    left, bottom, right, top = PLOT_MM
    for value in x_axis:
        x = float(np.interp(value, x_axis[[0, -1]], (left, right)))
        yield Path("grid", np.array([(x, bottom), (x, top)]))
        yield _text((x, bottom - 3.4), f"{value:.0f}")
    for value in y_axis:
        y = float(np.interp(value, y_axis[[0, -1]], (bottom, top)))
        yield Path("grid", np.array([(left, y), (right, y)]))
        yield _text((left - 1.5, y), f"{value:.0f}", anchor="end")
    yield _text((0.5 * (left + right), bottom - 8.0), "stature, mm")
    yield _text((left - 12.0, 0.5 * (bottom + top)), "weight, kg", angle=90.0)


def _key(found, choice, top_mm):
    """What each mark stands for, with the size's dimensions and its share of the people."""
    sizes = [size_answer(found, choice, index) for index in range(len(choice.sizes))]
    lines = [f"{one['name']}: {one['size']['length_mm']:.0f} x {one['size']['beam_mm']:.0f} x "
             f"{one['size']['depth_mm']:.0f} mm, {100.0 * one['share']:.1f} % of the people"
             for one in sizes]
    count = len(found.measured)
    lines.append(f"left out: {100.0 * (count - choice.served) / count:.1f} %")
    for row, line in enumerate(lines):
        y = top_mm - LINE_MM * row
        yield _mark(row if row < len(sizes) else -1, (2.0, y), KEY_MARK_MM)
        yield _text((6.0, y), line, anchor="start")


def _sample_words(found, drawn):
    if not drawn.all():
        yield (f"{int(drawn.sum())} of {len(found.measured)} people are drawn, an even sample and "
               "all who are left out; the shares count everybody")
