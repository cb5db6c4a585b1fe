"""A range of sizes as a picture: the people, weight against stature, by the size they take."""

from dataclasses import dataclass, replace

import numpy as np

from sizer.drawing.record import CAP_HEIGHT, Circle, Drawing, Path, Text
from sizer.export.range_answer import size_answer
from sizer.units import KG_PER_MASS_UNIT, MM_PER_LENGTH_UNIT, MM_PER_M, length_text

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
KEY_MM = {"mm": 14.0, "cm": 14.0, "in": 14.0 + LINE_MM}  # under the plot: its axis has two lines
EDGE_MM = 2.0  # of paper round all that is drawn
STEPS = {"mm": 100.0, "cm": 10.0, "in": 4.0, "kg": 20.0, "lb": 50.0, "st": 3.0}  # of the axes


@dataclass(frozen=True, eq=False)
class WhoTakesWhich:
    """What a map shows. Arrays are (n_people,)."""

    design: str
    stature_mm: np.ndarray
    weight_kg: np.ndarray
    taken: np.ndarray  # as of a Choice
    sizes: tuple[dict, ...]  # as `size_answer`


def who_takes_which(found, choice):
    """The WhoTakesWhich of a SizeRange with one of its choices."""
    return WhoTakesWhich(
        found.setting.lines.design.name,
        np.array([one.stature_m for one in found.measured]) * MM_PER_M,
        np.array([one.weight_kg for one in found.measured]), choice.taken,
        tuple(size_answer(found, choice, index) for index in range(len(choice.sizes))))


def size_map(shown, length_unit="mm", mass_unit="kg"):
    """The Drawing of a WhoTakesWhich, in metres of paper: a shape and a pen a size, and a key."""
    stature = shown.stature_mm / MM_PER_LENGTH_UNIT[length_unit]
    weight = shown.weight_kg / KG_PER_MASS_UNIT[mass_unit]
    x_axis, y_axis = _axis(stature, STEPS[length_unit]), _axis(weight, STEPS[mass_unit])
    left, bottom, right, top = PLOT_MM
    places = np.column_stack([np.interp(stature, x_axis[[0, -1]], (left, right)),
                              np.interp(weight, y_axis[[0, -1]], (bottom, top))])
    drawn = (np.arange(stature.size) % -(-stature.size // MOST_MARKS) == 0) | (shown.taken < 0)
    title = f"Who takes which size: {shown.design}"
    strokes = [*_grid(x_axis, y_axis, length_unit, mass_unit),
               _text((left, top + 6.0), title, TITLE_MM, "start"),
               *(_mark(taken, place, MARK_MM)
                 for taken, place in zip(shown.taken[drawn], places[drawn], strict=True)),
               *_key(shown, length_unit, bottom - KEY_MM[length_unit])]
    notes = () if drawn.all() else (
        f"{int(drawn.sum())} of {drawn.size} people are drawn, an even sample and all who are left "
        "out; the shares count everybody",)
    drawing = Drawing(title, tuple(strokes), notes)
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


def _grid(x_axis, y_axis, length_unit, mass_unit):
    """Lines, numbers and titles of both axes; lengths in inches as these are read, with mm under
    them."""
    left, bottom, right, top = PLOT_MM
    inches = length_unit == "in"
    for value in x_axis:
        x = float(np.interp(value, x_axis[[0, -1]], (left, right)))
        yield Path("grid", np.array([(x, bottom), (x, top)]))
        mm = value * MM_PER_LENGTH_UNIT[length_unit]
        both = length_text(mm, "in"), f"({length_text(mm, 'mm')})"
        for row, words in enumerate(both if inches else (f"{value:.0f}",)):
            yield _text((x, bottom - 3.4 - LINE_MM * row), words)
    for value in y_axis:
        y = float(np.interp(value, y_axis[[0, -1]], (bottom, top)))
        yield Path("grid", np.array([(left, y), (right, y)]))
        yield _text((left - 1.5, y), f"{value:.0f}", anchor="end")
    below = bottom - 8.0 - LINE_MM * inches
    yield _text((0.5 * (left + right), below),
                "stature" if inches else f"stature, {length_unit}")
    yield _text((left - 12.0, 0.5 * (bottom + top)), f"weight, {mass_unit}", angle=90.0)


def _key(shown, unit, top_mm):
    """What each mark stands for, with the size's dimensions and how many people take it."""
    many = shown.taken.size
    lines = [f"{one['name']}: {_sizes(one['size'], unit)}, {round(one['share'] * many)} of {many} "
             "people" for one in shown.sizes]
    lines.append(f"left out: {np.sum(shown.taken < 0)}")
    for row, line in enumerate(lines):
        y = top_mm - LINE_MM * row
        yield _mark(row if row < len(shown.sizes) else -1, (2.0, y), KEY_MARK_MM)
        yield _text((6.0, y), line, anchor="start")


def _sizes(size, unit):
    """Length, beam and depth, the unit once where it is the same for all."""
    said = [length_text(size[key], unit) for key in ("length_mm", "beam_mm", "depth_mm")]
    if unit != "in":
        said[:-1] = [one.removesuffix(f" {unit}") for one in said[:-1]]
    return " x ".join(said)
