"""How a piece lies on tiles of a home printer's paper, and what surrounds every tile."""

from dataclasses import dataclass, replace

import numpy as np
from reportlab.lib.units import mm

from sizer.drawing.record import Circle, Drawing
from sizer.drawing.true_size import BAR
from sizer.export.pdf import MARGIN_MM
from sizer.export.pdf_canvas import READ_LAST, paragraph, scale_bar, write
from sizer.export.pdf_head import head_mm, write_head
from sizer.export.tile_checks import CheckLength, check_lengths, with_checks
from sizer.export.tile_ways import best_way
from sizer.export.tile_words import whole_guides, whole_words
from sizer.export.tiles import Tiling, marks_clear, unit_read
from sizer.stamp import Imprint
from sizer.units import MM_PER_M

FOOT_PT = 8.0
BAR_ROOM_MM = 6.0
# Of what is on pages without a piece, from the margin: the bar up beside it, ticks and all, stays
# 12 mm off the paper's edge, which some printers leave white; our drawing
INSET_MM = 6.0
TILE = "tile {} of {}, row {}, column {}"


@dataclass(frozen=True)
class TilePage:
    """A tile page's paper and where the window stands on it."""

    size_mm: tuple[float, float]
    left_mm: float
    bottom_mm: float
    window_mm: tuple[float, float]
    foot_rows: list[str]
    imprint: Imprint

    @property
    def unit(self):
        """What its readers measure in."""
        return unit_read(self.size_mm)


@dataclass(frozen=True)
class Laid:
    """A piece on its tiles."""

    drawing: Drawing  # as it lies
    page: TilePage
    tiles: Tiling
    checks: tuple[CheckLength, ...]  # over its joints


def tile_page(widest, imprint, size_mm):
    """The TilePage of a paper, under a head as wide as `widest`."""
    inner = size_mm[0] - 2.0 * MARGIN_MM
    rows, foot_mm = paragraph([READ_LAST], FOOT_PT, inner)
    bottom = MARGIN_MM + foot_mm + BAR_ROOM_MM
    window = (inner, size_mm[1] - bottom - head_mm(widest, imprint, inner) - MARGIN_MM)
    return TilePage(size_mm, MARGIN_MM, bottom, window, rows, imprint)


def words_page(title, imprint, size_mm):
    """The TilePage of a page of words or maps, whose bars are the ones to measure."""
    page = tile_page(title, imprint, size_mm)
    wide, high = page.window_mm
    return replace(page, left_mm=page.left_mm + INSET_MM, window_mm=(wide - INSET_MM, high))


def laid(title, drawing, imprint, size_mm):
    """The piece on as few tiles as it takes, with check lengths over its joints and every word
    whole."""
    widest = f"{title}: {drawing.name}, {TILE.format(99, 99, 99, 99)}"
    pages = [tile_page(widest, imprint, size) for size in (size_mm, size_mm[::-1])]
    lying, page, tiles = best_way(drawing, pages)
    tiles = marks_clear(tiles, [np.multiply(one.centre_m, MM_PER_M) for one in lying.strokes
                                if isinstance(one, Circle)])
    lying = whole_guides(lying.read(page.unit), tiles)
    checks = check_lengths(lying, tiles, page.unit)
    return Laid(whole_words(with_checks(lying, checks), tiles), page, tiles, checks)


def surround(canvas, head, page):
    """Page size, head, bar and cautions."""
    canvas.setPageSize((page.size_mm[0] * mm, page.size_mm[1] * mm))
    write_head(canvas, head, page.imprint, page.size_mm, MARGIN_MM)
    scale_bar(canvas, page.left_mm, page.bottom_mm - BAR_ROOM_MM + 2.5, FOOT_PT, BAR[page.unit])
    write(canvas, page.foot_rows, MARGIN_MM, page.bottom_mm - BAR_ROOM_MM, FOOT_PT)
