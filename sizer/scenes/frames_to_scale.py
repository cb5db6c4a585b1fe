"""All frames and both stems to scale in rows, with their sizes: what the true patterns show."""

from functools import lru_cache

from sizer.drawing.marks import size_line, unit_of
from sizer.drawing.measured import both_text_short, label, measured
from sizer.drawing.record import Drawing, Path, in_rows, side_by_side
from sizer.drawing.told import Told, in_tenths, told
from sizer.shop.spacers import spacer_boards
from sizer.units import MARK_PARTS, MM_PER_IN, MM_PER_M, tape_text

GAP = 2.0  # between two pieces, over the letters' height


def pieces_to_scale(bench, numbers, letters_m, in_a_row):
    """The Drawing of a Bench's frames, then its stems, as seen on their patterns, so many in a row;
    `numbers` are {name: part number}."""
    views = [_piece(one, numbers[one.name], letters_m) for one in bench.drawings]
    return in_rows("pieces", views, in_a_row, GAP * letters_m, 1.5 * letters_m)


def spacers_to_scale(made, numbers, letters_m):
    """The Drawing of a boat's Spacers with every size, bow on the left; None where it has none."""
    views = [_spacer(one, board, numbers, letters_m)
             for one, board in zip(made, spacer_boards(made)[::2], strict=True)]
    return side_by_side("spacers", views, 5.0 * letters_m) if views else None


def _spacer(one, board, numbers, letters):
    low, high, name = -0.5 * one.high_m, 0.5 * one.high_m, one.name
    (fore, tall), (aft, other) = one.tenons_m
    under, right = low - 1.2 * letters, one.between_m
    lower, tall_at = under - 2.6 * letters, 0.25 * right
    return Drawing(name, (
        *board.on("cut").strokes,
        *measured((-fore, lower), (right + aft, lower), letters,
                  lambda _: _over_all((fore, one.between_m, aft)), -1.2),
        *measured((0.0, under), (right, under), letters, in_tenths, -1.2),
        size_line((tall_at, low), (tall_at, high), unit_of(letters)),
        label((tall_at + letters, 0.0), in_tenths(one.high_m), letters, pen="size"),
        label((-fore, high + 2.6 * letters), _tenon(one.fore, fore, tall), letters),
        label((right + aft, high + letters), _tenon(one.aft, aft, other), letters, "end"),
        label((0.5 * right, high + 4.2 * letters), f"{numbers[name]}: {name}", letters, "middle"),
        label((-fore - letters, 0.0), one.fore, letters, "end"),
        label((right + aft + letters, 0.0), one.aft, letters)))


def _over_all(parts_m):
    """The length of a Spacer's parts together; in inches what they add up to as they are told."""
    whole = sum(round(float(one) * MM_PER_M / MM_PER_IN * MARK_PARTS) for one in parts_m)
    return Told(in_tenths(sum(parts_m)), tape_text(whole / MARK_PARTS * MM_PER_IN))


def _tenon(frame, long_m, high_m):
    return told("{} tenon {} x {}", frame, in_tenths(long_m), in_tenths(high_m))


@lru_cache(maxsize=256)  # a job's pieces at the scales tried, however many in a row
def _piece(drawing, number, letters):
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
              f"{number}: {drawing.name}", letters, "middle")))
