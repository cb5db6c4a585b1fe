"""All frames and both stems to scale in rows, with their sizes: what the true patterns show."""

from dataclasses import replace

from sizer.drawing.marks import box
from sizer.drawing.measured import both_text_short, label, measured, mm_text
from sizer.drawing.record import Drawing, Path, joined, side_by_side
from sizer.units import MM_PER_M

GAP = 2.0  # between two pieces, over the letters' height


def pieces_to_scale(bench, numbers, letters_m, in_a_row):
    """The Drawing of a Bench's frames, then its stems, as seen on their patterns.

    Parameters
    ----------
    bench : Bench
    numbers : {name: part number}
    letters_m : height of the letters in the boat's metres
    in_a_row : pieces in a row
    """
    views = [_piece(one, numbers, letters_m) for one in bench.drawings]
    rows, low = [], 0.0
    for start in range(0, len(views), in_a_row):
        row = side_by_side("row", views[start:start + in_a_row], GAP * letters_m)
        low -= row.height_m + 1.5 * letters_m
        rows.append(row.moved((0.0, low)))
    return joined("pieces", rows)


def sheets_to_scale(layouts, numbers, letters_m):
    """The Drawing of all sheets of plywood side by side, each part with its number."""
    return side_by_side("sheets", [_sheet(layout, sheet, numbers, letters_m)
                                   for layout in layouts for sheet in layout.sheets],
                        3.0 * letters_m)


def _sheet(layout, sheet, numbers, letters):
    long, wide = sheet.size_m
    marks = [label((one.left_m + 0.5 * one.width_m, one.bottom_m + 0.5 * one.height_m),
                   str(numbers[one.piece]), letters, "middle", pen="number")
             for one in sheet.placements]
    heights = _apart(marks, letters)
    return Drawing(sheet.kind, (
        box("guide", 0.0, 0.0, long, wide), *sheet.drawing.on("cut").strokes, *heights,
        label((0.0, wide + 2.4 * letters), f"{layout.thickness_m * MM_PER_M:g} mm, {sheet.kind},",
              letters),
        label((0.0, wide + letters), f"{mm_text(long)} x {mm_text(wide)}", letters)))


def _apart(marks, letters):
    """Labels that stand in one another's place, moved apart: a part may lie in another's opening"""
    placed = []
    for one in marks:
        right, up = one.at_m
        while any(abs(right - other.at_m[0]) < 2.2 * letters and abs(up - other.at_m[1])
                  < 1.3 * letters for other in placed):
            up += 1.3 * letters
        placed.append(replace(one, at_m=(right, up)))
    return placed


def _piece(drawing, numbers, letters):
    sawn = drawing.on("cut", "drill")
    left, low, right, high = drawing.on("cut").box_m
    lines = [one for one in drawing.strokes if one.pen == "mark" and isinstance(one, Path)]
    return Drawing(drawing.name, (
        *sawn.strokes, *lines,
        *measured((left, low - 1.5 * letters), (right, low - 1.5 * letters), letters,
                  both_text_short, -1.2),
        *measured((right + 1.2 * letters, low), (right + 1.2 * letters, high), letters,
                  both_text_short, -1.2),
        label((0.5 * (left + right), high + 1.2 * letters),
              f"{numbers[drawing.name]}: {drawing.name}", letters, "middle")))
