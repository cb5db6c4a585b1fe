"""A range of sizes on paper: the table of sizes, the table of people, and a map of the people."""

import textwrap
from xml.sax.saxutils import escape

import numpy as np

from sizer.crowd.finished import title_of, titles_of
from sizer.export.range_answer import ended_by, size_answer
from sizer.fit.cautions import cautions_for
from sizer.fit.sizes import SIZES
from sizer.spreadsheet import csv_text, safe_cell
from sizer.units import MM_PER_M

# One colour and one shape for each size: outlines in a unit square round 0, told apart without
# the colour. Our choice; the colours keep their order of darkness in black and white.
MARKS = (
    ("#1f3f66", "M-.5-.5h1v1h-1z"),
    ("#b8541a", "M0-.62L.6.45H-.6z"),
    ("#2f7d5b", "M-.5 0a.5.5 0 1 0 1 0a.5.5 0 1 0-1 0"),
    ("#7a3b78", "M0-.7L.5 0 0 .7-.5 0z"),
    ("#8a7410", "M-.18-.6h.36v.42h.42v.36h-.42v.42h-.36v-.42h-.42v-.36h.42z"),
    ("#4d4d4d", "M0 .62L.6-.45H-.6z"),
)
LEFT_OUT = ("#000000", "M-.55-.55L.55.55M-.55.55L.55-.55")
WIDTH_MM, PLOT_MM = 190.0, (18.0, 14.0, 184.0, 134.0)  # left, top, right, bottom
MARK_MM, LEGEND_MARK_MM, PEN_MM = 1.7, 3.0, 0.3
MOST_MARKS = 1500  # more hide each other; all who are left out are drawn
WORDS_MM, LINE_MM = 3.0, 4.6
LETTERS = 92  # in a line of words
FONT = 'font-family="DejaVu Sans, Verdana, sans-serif"'


def sizes_csv(found, choice):
    """The table of sizes; lines beginning with # say what it is, the shares and the cautions."""
    rows = [[
        one["name"], *(f"{one['size'][key]:.0f}" for key in SIZES),
        f"{one['boat_kg']:.1f}", one["people"], f"{100.0 * one['share']:.1f}",
        one["people_without_caution"], *_spans(one["paddlers"]),
        "; ".join(f"{name}: {people}" for name, people in one["cautions_by_check"].items())]
        for one in (size_answer(found, choice, index) for index in range(len(choice.sizes)))]
    return csv_text(_lead(found, choice), [
        "size", *(key.replace("_", " ") for key in SIZES), "boat kg", "people", "share %",
        "people without a caution", "weight from kg", "weight to kg", "stature from mm",
        "stature to mm", "hips from mm", "hips to mm", "people with a caution"], rows)


def people_csv(found, choice, rows):
    """The table of people: the size to take, and for who stands between sizes the other too.

    "to spare" counts just-noticeable changes at the tightest check.
    """
    table = []
    for person, row in enumerate(rows):
        one, taken = choice.verdicts[person], int(choice.taken[person])
        spare = choice.spare[person].copy()
        spare[max(taken, 0)] = -np.inf
        other = int(np.argmax(spare))
        also = [choice.sizes[other].name, f"{spare[other]:.1f}"] if np.isfinite(
            spare[other]) else ["", ""]
        table.append([
            row.number, safe_cell(row.label), choice.sizes[taken].name if taken >= 0 else "none",
            title_of(one.tightest), f"{one.spare:.1f}" if np.isfinite(one.spare) else "",
            "; ".join(titles_of(one.fails)), "; ".join(titles_of(one.cautions)), *also])
    return csv_text(_lead(found, choice), [
        "row", "label", "size to take", "tightest check", "to spare there", "fails", "cautions",
        "also served by", "to spare in that"], table)


def _spans(paddlers):
    for span in paddlers.values():
        yield from (f"{value:.0f}" for value in span) if span else ("", "")


def _lead(found, choice):
    setting, count = found.setting, len(found.measured)
    yield (f"Sizes of {setting.lines.design.name} for {setting.use}, gear {setting.gear_kg:g} kg: "
           f"{choice.served} of {count} people served, {choice.clean} without a caution; "
           f"{count - choice.served} left out")
    for key, people in ended_by(choice).items():
        yield f"Left out by {title_of(key)}: {people}"
    for caution in cautions_for(setting.water):
        yield f"CAUTION: {caution}"


def people_svg(found, choice):
    """The people, weight against stature, a shape and a colour for each size; cautions below."""
    stature = np.array([one.stature_m for one in found.measured]) * MM_PER_M
    weight = np.array([one.weight_kg for one in found.measured])
    x_axis, y_axis = _axis(stature, 100.0), _axis(weight, 20.0)
    x = np.interp(stature, x_axis[[0, -1]], (PLOT_MM[0], PLOT_MM[2]))
    y = np.interp(weight, y_axis[[0, -1]], (PLOT_MM[3], PLOT_MM[1]))
    drawn = (np.arange(stature.size) % -(-stature.size // MOST_MARKS) == 0) | (choice.taken < 0)
    groups = [_marks(mark, x[here], y[here]) for mark, here in (
        *((MARKS[index], drawn & (choice.taken == index)) for index in range(len(choice.sizes))),
        (LEFT_OUT, choice.taken < 0))]
    words = _wrapped([*_key_words(found, drawn), *_lead(found, choice)])
    legend_top = PLOT_MM[3] + 14.0
    words_top = legend_top + LINE_MM * (len(choice.sizes) + 1) + 3.0
    height = words_top + LINE_MM * len(words) + 4.0
    title = f"Who takes which size: {found.setting.lines.design.name}"
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH_MM:g}mm" height="{height:.1f}mm" '
        f'viewBox="0 0 {WIDTH_MM:g} {height:.1f}" role="img" {FONT} font-size="{WORDS_MM:g}">\n'
        f"<title>{escape(title)}</title>\n"
        f'<rect width="100%" height="100%" fill="#fff"/>\n'
        f'<text x="{PLOT_MM[0]:g}" y="8" font-size="4.4">{escape(title)}</text>\n'
        + _grid(x_axis, y_axis) + "\n".join(groups) + "\n"
        + _legend(found, choice, legend_top) + "".join(
            f'<text x="{PLOT_MM[0]:g}" y="{words_top + LINE_MM * row:.1f}">{escape(line)}</text>\n'
            for row, line in enumerate(words)) + "</svg>\n")


def _axis(values, step):
    """Round numbers from below the least to above the most value."""
    return np.arange(np.floor(values.min() / step), np.ceil(values.max() / step + 1e-9) + 1) * step


def _marks(mark, x, y, size_mm=MARK_MM):
    colour, shape = mark
    uses = "".join(f'<path d="{shape}" transform="translate({one:.2f} {two:.2f})'
                   f'scale({size_mm:g})"/>' for one, two in zip(x, y, strict=True))
    return (f'<g fill="none" stroke="{colour}" stroke-width="{PEN_MM / size_mm:.3f}">{uses}</g>')


def _grid(x_axis, y_axis):
    left, top, right, bottom = PLOT_MM
    parts = []
    for value in x_axis:
        x = np.interp(value, x_axis[[0, -1]], (left, right))
        parts.append(f'<path d="M{x:.2f} {top}V{bottom}"/><text x="{x:.2f}" y="{bottom + 4.5}" '
                     f'text-anchor="middle" stroke="none" fill="#000">{value:.0f}</text>')
    for value in y_axis:
        y = np.interp(value, y_axis[[0, -1]], (bottom, top))
        parts.append(f'<path d="M{left} {y:.2f}H{right}"/><text x="{left - 1.5}" y="{y + 1.1:.2f}" '
                     f'text-anchor="end" stroke="none" fill="#000">{value:.0f}</text>')
    return (f'<g stroke="#bbb" stroke-width="0.15" fill="none">{"".join(parts)}</g>\n'
            f'<text x="{(left + right) / 2}" y="{bottom + 9}" text-anchor="middle">stature, mm'
            f'</text>\n<text transform="translate(6 {(top + bottom) / 2}) rotate(-90)" '
            'text-anchor="middle">weight, kg</text>\n')


def _legend(found, choice, top_mm):
    lines = [(MARKS[index], f"{one['name']}: {one['size']['length_mm']:.0f} x "
              f"{one['size']['beam_mm']:.0f} x {one['size']['depth_mm']:.0f} mm, "
              f"{100.0 * one['share']:.1f} % of the people")
             for index, one in enumerate(size_answer(found, choice, index)
                                         for index in range(len(choice.sizes)))]
    count = len(found.measured)
    left_out = 100.0 * (count - choice.served) / count
    lines.append((LEFT_OUT, f"left out: {left_out:.1f} %"))
    return "".join(
        _marks(mark, [PLOT_MM[0] + 2.0], [top_mm + LINE_MM * row - 1.0], LEGEND_MARK_MM)
        + f'<text x="{PLOT_MM[0] + 6.0:g}" y="{top_mm + LINE_MM * row:.1f}">'
        f"{escape(words)}</text>\n"
        for row, (mark, words) in enumerate(lines))


def _key_words(found, drawn):
    if not drawn.all():
        yield (f"{int(drawn.sum())} of {len(found.measured)} people are drawn, an even sample and "
               "all who are left out; the shares count everybody")


def _wrapped(lines):
    return [row for line in lines for row in textwrap.wrap(line, LETTERS)]
