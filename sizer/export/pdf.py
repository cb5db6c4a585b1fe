"""Patterns as PDF at true size: one large page a drawing, or A4 or Letter pages to join.

Every page carries a 100 mm bar to measure, the imprint and the cautions.
"""

from dataclasses import dataclass, replace

import numpy as np
from reportlab.lib.units import mm
from shapely.geometry import LineString
from shapely.geometry import box as shapely_box
from shapely.ops import unary_union

from sizer.drawing.record import Drawing, Text
from sizer.export.pdf_canvas import (
    BOLD,
    FACE,
    cautions_text,
    draw,
    paragraph,
    scale_bar,
    write,
)
from sizer.export.pdf_head import finished, head_mm, new_canvas, write_head
from sizer.export.tiles import OVERLAP_MM, PAPERS_MM, Tiling, tiling
from sizer.stamp import Imprint
from sizer.units import MM_PER_M

MARGIN_MM = 8.0  # that most printers can leave white; our drawing
PAD_MM = 3.0  # round a drawing
FOOT_PT, NOTES_PT = 6.2, 10.0
BAR_ROOM_MM = 7.0
LARGE_FOOT_PT = 9.0
LEAST_PAGE_MM = 260.0  # width of a large page, for the bar and the words
WORDS_IN_M = 0.002  # of words moved in from the pages' edges; our drawing
MARK_MM = 3.0  # radius of a joining mark's circle
TILE = "tile {} of {}, row {}, column {}"


@dataclass(frozen=True)
class _Page:
    """A tile page's paper and where the window stands on it."""

    size_mm: tuple[float, float]
    left_mm: float
    bottom_mm: float
    window_mm: tuple[float, float]
    foot_rows: list[str]
    imprint: Imprint


def sheet_pdf(title, drawings, imprint):
    """Each drawing on one page as large as it needs, at true size.

    Parameters
    ----------
    title : of the document, written on every page
    drawings : list of sizer.drawing.record.Drawing
    imprint : Imprint

    Returns
    -------
    bytes, the same for the same content
    """
    canvas, stream = new_canvas(title, imprint)
    for drawing in drawings:
        _large_page(canvas, title, drawing, imprint)
    return finished(canvas, stream)


def _large_page(canvas, title, drawing, imprint):
    width = max(drawing.width_m * MM_PER_M + 2.0 * (MARGIN_MM + PAD_MM), LEAST_PAGE_MM)
    inner = width - 2.0 * MARGIN_MM
    notes, notes_mm = paragraph(drawing.notes, NOTES_PT, inner)
    foot, foot_mm = paragraph([cautions_text(imprint.cautions)], LARGE_FOOT_PT, inner)
    below = MARGIN_MM + foot_mm + BAR_ROOM_MM + notes_mm + 2.0 * PAD_MM
    head = f"{title}: {drawing.name}, true size"
    height = (below + drawing.height_m * MM_PER_M + head_mm(head, imprint, inner) + 2.0 * PAD_MM
              + MARGIN_MM)
    canvas.setPageSize((width * mm, height * mm))
    write_head(canvas, head, imprint, (width, height), MARGIN_MM)
    left, bottom = (MM_PER_M * side for side in drawing.box_m[:2])
    middle = (width - drawing.width_m * MM_PER_M) / 2.0
    draw(canvas, drawing, (middle - left, below - bottom))
    write(canvas, notes, MARGIN_MM, MARGIN_MM + foot_mm + BAR_ROOM_MM + notes_mm + PAD_MM,
          NOTES_PT)
    scale_bar(canvas, MARGIN_MM, MARGIN_MM + foot_mm + 3.0, LARGE_FOOT_PT)
    write(canvas, foot, MARGIN_MM, MARGIN_MM + foot_mm, LARGE_FOOT_PT)
    canvas.showPage()


def tiled_pdf(title, drawings, imprint, paper="A4"):
    """Each drawing at true size over tiles to join, led by a page that shows how they lie.

    Pages that no saw line crosses are left out.

    Parameters and returns as `sheet_pdf`; `paper` is "A4" or "Letter". Pages stand upright or
    lie, whichever takes fewer of them.
    """
    canvas, stream = new_canvas(title, imprint)
    for whole in drawings:
        head = f"{title}: {whole.name}, "
        page, tiles = min((_divided(head, whole, imprint, size) for size in (
            PAPERS_MM[paper], PAPERS_MM[paper][::-1])), key=lambda pair: len(pair[1].tiles))
        drawing = _with_whole_words(whole, tiles)
        _map_page(canvas, f"{head}how the tiles lie", drawing, page, tiles)
        for number, tile in enumerate(tiles.tiles, start=1):
            where = TILE.format(number, len(tiles.tiles), tile.row + 1, tile.column + 1)
            _tile_page(canvas, head + where, drawing, page, tiles, tile)
    return finished(canvas, stream)


def _divided(head, drawing, imprint, size_mm):
    inner = size_mm[0] - 2.0 * MARGIN_MM
    rows, foot_mm = paragraph([cautions_text(imprint.cautions)], FOOT_PT, inner)
    bottom = MARGIN_MM + foot_mm + BAR_ROOM_MM
    widest = head + TILE.format(99, 99, 99, 99)
    window = (inner, size_mm[1] - bottom - head_mm(widest, imprint, inner) - MARGIN_MM)
    sawn = drawing.on("cut")
    left, low, right, top = (side * MM_PER_M for side in sawn.box_m)
    box = (left - PAD_MM, low - PAD_MM, right + PAD_MM, top + PAD_MM)
    shown = unary_union([LineString(np.vstack([one.points_m, one.points_m[:int(one.closed)]])
                                    * MM_PER_M) for one in sawn.strokes])
    tiles = tiling(box, window).only(lambda tile: shown.intersects(shapely_box(
        *tile.box_mm(window))))
    return _Page(size_mm, MARGIN_MM, bottom, window, rows, imprint), tiles


def _with_whole_words(drawing, tiles):
    """The drawing with the words beside the saw lines moved in, where they would run off the pages;
    what then lies on none is left out."""
    paper = unary_union([shapely_box(*tile.box_mm(tiles.window_mm)) for tile in tiles.tiles])
    room = np.reshape(paper.bounds, (2, 2)) / MM_PER_M + [[WORDS_IN_M], [-WORDS_IN_M]]
    kept = []
    for stroke in drawing.strokes:
        if isinstance(stroke, Text):
            box = np.reshape(Drawing("", (stroke,)).box_m, (2, 2))
            move = np.maximum(room[0] - box[0], 0.0) + np.minimum(room[1] - box[1], 0.0)
            stroke = replace(stroke, at_m=tuple((np.array(stroke.at_m) + move).tolist()))
            if not paper.covers(shapely_box(*((box + move) * MM_PER_M).ravel())):
                continue
        kept.append(stroke)
    return replace(drawing, strokes=tuple(kept))


def _surround(canvas, head, page):
    """Page size, head, bar and cautions."""
    canvas.setPageSize((page.size_mm[0] * mm, page.size_mm[1] * mm))
    write_head(canvas, head, page.imprint, page.size_mm, MARGIN_MM)
    scale_bar(canvas, MARGIN_MM, page.bottom_mm - BAR_ROOM_MM + 2.5, FOOT_PT)
    write(canvas, page.foot_rows, MARGIN_MM, page.bottom_mm - BAR_ROOM_MM, FOOT_PT)


def _tile_page(canvas, head, drawing, page, tiles: Tiling, tile):
    _surround(canvas, head, page)
    origin = (page.left_mm - tile.left_mm, page.bottom_mm - tile.bottom_mm)
    canvas.saveState()
    window = canvas.beginPath()
    window.rect(page.left_mm * mm, page.bottom_mm * mm, *(side * mm for side in page.window_mm))
    canvas.clipPath(window, stroke=0, fill=0)
    box = tile.box_mm(page.window_mm)
    draw(canvas, drawing.touching([side / MM_PER_M for side in box]), origin)
    _joins(canvas, origin, tiles, box)
    canvas.restoreState()
    canvas.setLineWidth(0.3)
    canvas.rect(page.left_mm * mm, page.bottom_mm * mm, *(side * mm for side in page.window_mm))
    canvas.showPage()


def _joins(canvas, origin, tiles, box):
    """Lines where this page meets others, and the crosses to lay on each other."""
    left, bottom, right_end, top = box
    canvas.setLineWidth(0.4)
    canvas.setDash(8, 3)
    for right in tiles.upright_joins_mm:
        if left < right < right_end:
            canvas.line((origin[0] + right) * mm, (origin[1] + bottom) * mm,
                        (origin[0] + right) * mm, (origin[1] + top) * mm)
    for up in tiles.level_joins_mm:
        if bottom < up < top:
            canvas.line((origin[0] + left) * mm, (origin[1] + up) * mm,
                        (origin[0] + right_end) * mm, (origin[1] + up) * mm)
    canvas.setDash()
    canvas.setFont(FACE, 8.0)
    for mark in tiles.marks:
        if not (left < mark.right_mm < right_end and bottom < mark.up_mm < top):
            continue
        x, y = (origin[0] + mark.right_mm) * mm, (origin[1] + mark.up_mm) * mm
        reach = 1.6 * MARK_MM * mm
        canvas.circle(x, y, MARK_MM * mm)
        canvas.line(x - reach, y, x + reach, y)
        canvas.line(x, y - reach, x, y + reach)
        canvas.drawString(x + 0.3 * MARK_MM * mm, y + 1.2 * MARK_MM * mm, mark.name)


def _map_page(canvas, head, drawing, page, tiles):
    """How the pages lie, the drawing's notes and how to join."""
    _surround(canvas, head, page)
    inner, top = page.window_mm[0], page.bottom_mm + page.window_mm[1]
    words = [*drawing.notes,
             f"{len(tiles.tiles)} tiles follow, of {tiles.rows} down by {tiles.columns} across. "
             f"Check the bar on each. Neighbours overlap by {OVERLAP_MM:.0f} mm: cut one of the "
             "two along the dashed line, lay it on the other so that the crosses of one name "
             "meet, and tape."]
    rows, _ = paragraph(words, NOTES_PT, inner)
    room = write(canvas, rows, MARGIN_MM, top, NOTES_PT) - page.bottom_mm - 2.0 * PAD_MM
    low = [min(getattr(tile, side) for tile in tiles.tiles) for side in ("left_mm", "bottom_mm")]
    across = [tiles.window_mm[0] * tiles.columns, tiles.window_mm[1] * tiles.rows]
    scale = min(inner / across[0], room / across[1])
    origin = (page.left_mm - scale * low[0], page.bottom_mm + PAD_MM - scale * low[1])
    draw(canvas, drawing.on("cut", "guide"), origin, scale)
    canvas.setLineWidth(0.4)
    canvas.setFont(BOLD, 14.0)
    for number, tile in enumerate(tiles.tiles, start=1):
        x, y = origin[0] + scale * tile.left_mm, origin[1] + scale * tile.bottom_mm
        width, height = (scale * side for side in tiles.window_mm)
        canvas.rect(x * mm, y * mm, width * mm, height * mm)
        canvas.drawCentredString((x + width / 2.0) * mm, (y + height / 2.0) * mm, str(number))
    canvas.showPage()
