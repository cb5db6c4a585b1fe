"""Patterns laid out on plywood sheets: a place for each without overlap, and how many sheets.

Pieces are packed by the rectangles round them, turned a quarter where that helps; small pieces are
not nested into the openings of larger ones, so a patient hand may save plywood.
"""

from dataclasses import dataclass

import numpy as np
import rectpack

from sizer.drawing.pens import WORK_PENS
from sizer.drawing.record import Drawing, Path, Text, joined
from sizer.errors import BadInput, Fault
from sizer.units import MM_PER_M

SHEET_M = (2.440, 1.220)  # the usual plywood sheet, 8 by 4 ft
GAP_M = 0.008  # between pieces and to the sheet's edges: saw or cutter and a finger; our judgement
FINE_M = 1e-5  # packing counts in steps of this
TITLE_M = 0.012  # letters of a sheet's name beside it; our drawing


@dataclass(frozen=True)
class Placement:
    """One piece on one sheet."""

    piece: str
    sheet: int  # from 0, among the sheets of its thickness
    left_m: float  # of the rectangle round the piece, from the sheet's lower left corner
    bottom_m: float
    width_m: float  # of that rectangle as it lies
    height_m: float
    turned: bool  # a quarter turn to the left


@dataclass(frozen=True, eq=False)
class Layout:
    """All pieces of one thickness on their sheets."""

    thickness_m: float
    sheet_m: tuple[float, float]  # length, width
    count: int  # of sheets
    placements: tuple[Placement, ...]
    sheets: tuple[Drawing, ...]


def layouts(pieces, sheet_m=SHEET_M, gap_m=GAP_M):
    """A Layout for each thickness, thinnest first.

    Parameters
    ----------
    pieces : list of (Drawing, thickness in m)
    sheet_m : length and width of a plywood sheet
    gap_m : least between pieces and from a piece to the sheet's edge

    Raises
    ------
    BadInput, where a piece is larger than the sheet.
    """
    bare = [(one.on(*WORK_PENS), thickness) for one, thickness in pieces]
    faults = [Fault(f"sheet for {one.name}",
                    f"{sheet_m[0] * MM_PER_M:.0f} x {sheet_m[1] * MM_PER_M:.0f} mm",
                    f"more than {one.width_m * MM_PER_M:.0f} x {one.height_m * MM_PER_M:.0f} mm "
                    f"with {gap_m * MM_PER_M:.0f} mm all round")
              for one, _ in bare if not _goes_on(one, sheet_m, gap_m)]
    if faults:
        raise BadInput(faults)
    return tuple(_layout([one for one, own in bare if own == thickness], thickness, sheet_m, gap_m)
                 for thickness in sorted({thickness for _, thickness in bare}))


def _goes_on(piece, sheet_m, gap_m):
    size = sorted((piece.width_m + 2.0 * gap_m, piece.height_m + 2.0 * gap_m))
    return all(side <= room for side, room in zip(size, sorted(sheet_m), strict=True))


def _layout(pieces, thickness_m, sheet_m, gap_m):
    """Packs the rectangles with a gap on their right and upper side into the sheet less one gap."""
    packer = rectpack.newPacker(sort_algo=rectpack.SORT_SSIDE, rotation=True)
    for index, piece in enumerate(pieces):
        packer.add_rect(_steps(piece.width_m + gap_m), _steps(piece.height_m + gap_m), index)
    room = [int((side - gap_m) / FINE_M) for side in sheet_m]
    packer.add_bin(*room, count=len(pieces))
    packer.pack()
    placements = []
    for sheet, left, bottom, width, _, index in packer.rect_list():
        piece = pieces[index]
        turned = width != _steps(piece.width_m + gap_m)
        size = (piece.height_m, piece.width_m) if turned else (piece.width_m, piece.height_m)
        placements.append((index, Placement(piece.name, sheet, left * FINE_M + gap_m,
                                            bottom * FINE_M + gap_m, *size, turned)))
    placements.sort(key=lambda pair: (pair[1].sheet, pair[0]))
    count = 1 + max(place.sheet for _, place in placements)
    sheets = tuple(_sheet(number, count, thickness_m, sheet_m,
                          [(pieces[index], place) for index, place in placements
                           if place.sheet == number]) for number in range(count))
    return Layout(thickness_m, sheet_m, count, tuple(place for _, place in placements), sheets)


def _steps(length_m):
    return int(np.ceil(length_m / FINE_M))


def _sheet(number, count, thickness_m, sheet_m, placed):
    """The drawing of one sheet, its lower left corner at the origin."""
    title = (f"{thickness_m * MM_PER_M:g} mm plywood, {sheet_m[0] * MM_PER_M:.0f} x "
             f"{sheet_m[1] * MM_PER_M:.0f} mm, sheet {number + 1} of {count}")
    length, width = sheet_m
    edge = np.array([(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)])
    frame = Drawing("sheet", (Path("guide", edge, closed=True),
                              Text("guide", (length / 2.0, width + 1.5 * TITLE_M), TITLE_M, title)))
    moved = []
    for piece, place in placed:
        turned = piece.moved((0.0, 0.0), place.turned)
        moved.append(turned.moved((place.left_m - turned.box_m[0],
                                   place.bottom_m - turned.box_m[1])))
    return joined(title, [frame, *moved])
