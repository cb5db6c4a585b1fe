"""All frames and both stems to scale in rows, with their sizes: what the true patterns show."""

from sizer.drawing.measured import both_text_short, label, measured
from sizer.drawing.record import Drawing, Path, joined, side_by_side

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
