"""Patterns laid out on plywood sheets: a place for each, how many sheets, and what is left over.

Parts are nested by their true outlines, also into the openings of larger ones. The last sheet of a
thickness is a part sheet where its parts go on a half or a quarter.
"""

from dataclasses import dataclass

import numpy as np
from shapely.ops import unary_union

from sizer.drawing.pens import WORK_PENS
from sizer.drawing.record import Drawing, Path, Text, joined
from sizer.errors import BadInput, Fault
from sizer.shop.labels import numbered
from sizer.shop.nesting import QUARTERS, fits, laid, nested
from sizer.shop.plywood import taken
from sizer.shop.relief import outlines, routed
from sizer.shop.said import both, listed
from sizer.shop.settings import SHOP
from sizer.shop.trade_sizes import SHEET_FT, foot_board_ft, foot_sheet_m
from sizer.units import MM_PER_M

TITLE_M = 0.012  # letters of a sheet's name beside it; our drawing
PART_SHEETS = (  # (name, share of the length, of the width), the smallest first
    ("quarter sheet", 0.5, 0.5), ("half sheet", 0.5, 1.0), ("half sheet, lengthwise", 1.0, 0.5))
WHOLE = "sheet"
GRAINS = ("from left to right", "up and down")  # how a sheet's runs in its drawing
FACE_GRAIN = ("A whole sheet's face grain runs along its length, a part is cut so that it runs by "
              "the arrow; spacers lie along it, frames, stems and the outfit's boards either way.")
PLATES_GRAIN = ("A seat plate's runs athwart in the boat, as marked on it: on a part cut the other "
                "way turn it a quarter.")


@dataclass(frozen=True)
class Placement:
    """One piece on one sheet."""

    piece: str
    sheet: int  # from 0, among the sheets of its thickness
    left_m: float  # of the rectangle round the piece, from the sheet's lower left corner
    bottom_m: float
    width_m: float  # of that rectangle as it lies
    height_m: float
    turn_deg: float  # to the left, quarters


@dataclass(frozen=True, eq=False)
class Sheet:
    """One sheet, or part of one, with its parts."""

    kind: str  # WHOLE or a name of PART_SHEETS
    size_m: tuple[float, float]  # length, width
    placements: tuple[Placement, ...]
    parts_m2: float  # of the parts, without their openings
    drawing: Drawing  # with the sheet's edge as a guide, its lower left corner at the origin
    grain_up: bool  # whether its face grain runs up and down in the drawing

    @property
    def grain(self):
        """How its face grain runs, in words."""
        return GRAINS[self.grain_up]

    @property
    def used_share(self):
        """Of the sheet, what becomes parts."""
        return self.parts_m2 / (self.size_m[0] * self.size_m[1])

    @property
    def reach_m(self):
        """How far the parts go along the sheet and across it, from its lower left corner."""
        return (max(one.left_m + one.width_m for one in self.placements),
                max(one.bottom_m + one.height_m for one in self.placements))

    @property
    def offcut_m(self):
        """Length of the strip, as wide as the sheet, that is left beyond the last part."""
        return self.size_m[0] - self.reach_m[0]


@dataclass(frozen=True, eq=False)
class Layout:
    """All pieces of one thickness on their sheets."""

    thickness_m: float  # that it is sold under
    true_m: float
    sheets: tuple[Sheet, ...]

    @property
    def count(self):
        """Of sheets, a part sheet counted as one."""
        return len(self.sheets)

    @property
    def placements(self):
        return tuple(one for sheet in self.sheets for one in sheet.placements)

    @property
    def used_share(self):
        """Of all that is bought, what becomes parts."""
        return (sum(one.parts_m2 for one in self.sheets)
                / sum(one.size_m[0] * one.size_m[1] for one in self.sheets))


def layouts(pieces, shop=SHOP, numbers=None, athwart=(), along=()):
    """A Layout for each thickness, thinnest first; inner corners have the shop's relief. BadInput
    where a piece is larger than the sheet.

    Parameters
    ----------
    pieces : list of (Drawing, nominal thickness in m)
    numbers : {piece's name: its number in the list of parts}, written before the name
    athwart, along : names of those whose face grain runs upright, or level, as drawn; others lie
        either way"""
    bare = [(routed(one.on(*WORK_PENS), shop), thickness) for one, thickness in pieces]
    faults = [fault for one, _ in bare for fault in _too_large(one, shop)]
    if faults:
        raise BadInput(faults)
    found = taken(shop.plywoods, [thickness for _, thickness in bare])
    upright = {**dict.fromkeys(along, False), **dict.fromkeys(athwart, True)}
    return tuple(_layout([one for one, own in bare if own == thickness],
                         (thickness, found.true_m(thickness)), shop, numbers or {}, upright)
                 for thickness in found.sold_m)


def serving_words(laid, shop):
    """What is sold by the foot and serves for Layouts and the boards of a shop as well; "" where
    nothing does. On a sheet the cutter goes round every part within its wood."""
    sides = [(reach, own * foot / whole) for layout in laid for sheet in layout.sheets
             for reach, own, foot, whole in _by_foot(sheet, shop)]
    found = []
    if all(reach + shop.cutter_m <= side for reach, side in sides):
        left = min(side - reach for reach, side in sides)
        long, wide = SHEET_FT
        found.append(f"sheets of {wide} x {long} ft and their halves and quarters (the parts as "
                     f"laid out end {both(left)} or more inside their edges)")
    boards = {foot_board_ft(one) for one in shop.stock_lengths_m} - {None}
    if boards:
        found.append(f"boards of {listed([str(one) for one in sorted(boards)])} ft")
    return f" Laid out for these; {listed(found)} serve as well." if found else ""


def _by_foot(sheet, shop):
    """(how far parts go, the sheet's side, a foot sheet's side, the whole sheet's) of both ways."""
    turned = sheet.grain_up
    whole, foot = ((one[::-1] if turned else one) for one in (shop.sheet_m, foot_sheet_m()))
    return zip(sheet.reach_m, sheet.size_m, foot, whole, strict=True)


def _too_large(piece, shop):
    if not fits(_shape(piece), shop.sheet_m, shop.gap_m):
        yield Fault(f"sheet for {piece.name}",
                    f"{shop.sheet_m[0] * MM_PER_M:.0f} x {shop.sheet_m[1] * MM_PER_M:.0f} mm",
                    f"more than {piece.width_m * MM_PER_M:.0f} x "
                    f"{piece.height_m * MM_PER_M:.0f} mm with {shop.gap_m * MM_PER_M:.0f} mm and "
                    "a little more all round")


def _shape(piece):
    """What a piece takes of a sheet; one drawn of several parts stays together."""
    return unary_union(outlines(piece))


def _layout(pieces, sold_true_m, shop, numbers, grains):
    thickness_m, true_m = sold_true_m
    shapes = [_shape(piece) for piece in pieces]
    upright = [grains.get(piece.name) for piece in pieces]
    spots = nested(shapes, shop.sheet_m, shop.gap_m, turns=_turns(upright))
    count = 1 + max(spot.sheet for spot in spots)
    sheets = []
    for number in range(count):
        rows = [row for row, spot in enumerate(spots) if spot.sheet == number]
        found = WHOLE, shop.sheet_m, [spots[row] for row in rows], False
        if number == count - 1:
            found = _part_sheet([shapes[row] for row in rows], shop,
                                [upright[row] for row in rows]) or found
        kind, size, own, grain_up = found
        title = (f"{thickness_m * MM_PER_M:g} mm plywood, {size[0] * MM_PER_M:.0f} x "
                 f"{size[1] * MM_PER_M:.0f} mm, {kind} {number + 1} of {count}, face grain "
                 f"{GRAINS[grain_up]}")
        sheets.append(_sheet(title, kind, size, number, grain_up,
                             [(pieces[row], shapes[row], spot)
                              for row, spot in zip(rows, own, strict=True)], numbers))
    return Layout(thickness_m, true_m, tuple(sheets))


def _turns(upright, along=True):
    """Of each part the quarter turns that lay its grain, upright as drawn, level, or None where it
    does not matter, along the sheet's: from left to right, or not `along`, where a part sheet is
    turned, up and down."""
    return [QUARTERS if one is None else QUARTERS[int(one == along)::2] for one in upright]


def _part_sheet(shapes, shop, upright):
    """(name, size, Spots, whether its grain runs up and down) of the smallest part of a sheet that
    takes some parts, None where none."""
    for name, *shares in PART_SHEETS:
        cut = [side * share for side, share in zip(shop.sheet_m, shares, strict=True)]
        size = tuple(sorted(cut, reverse=True))
        grain_up = size[0] != cut[0]
        spots = nested(shapes, size, shop.gap_m, 1, _turns(upright, not grain_up))
        if spots is not None:
            return name, size, spots, grain_up
    return None


def _sheet(title, kind, size_m, number, grain_up, placed, numbers):
    """The Sheet with its drawing; `placed` are (piece, its outline, its Spot)."""
    placements, moved = [], []
    for piece, shape, spot in placed:
        left, low, right, high = laid(shape, spot).bounds
        placements.append(Placement(piece.name, number, left, low, right - left, high - low,
                                    90.0 * spot.quarters))
        piece = numbered(piece, shape, numbers)
        for _ in range(spot.quarters):
            piece = piece.moved((0.0, 0.0), turned=True)
        moved.append(piece.moved(spot.shift_m))
    length, width = size_m
    edge = np.array([(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)])
    frame = Drawing("sheet", (Path("guide", edge, closed=True),
                              Text("guide", (length / 2.0, width + 1.5 * TITLE_M), TITLE_M, title)))
    return Sheet(kind, size_m, tuple(placements), sum(shape.area for _, shape, _ in placed),
                 joined(title, [frame, *moved]), grain_up)
