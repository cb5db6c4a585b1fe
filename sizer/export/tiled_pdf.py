"""Patterns as PDF at true size over A4 or Letter pages to join.

The first pages show how the tiles of every piece lie and say its notes; what several pieces share
is said once. Every page has a 100 mm bar, the imprint and a word of caution; the last one has all
cautions, to read at arm's length.
"""

from dataclasses import replace
from itertools import product

import numpy as np
from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from shapely.geometry import box as shapely_box

from sizer.drawing.record import Text
from sizer.export.pdf_canvas import FACE, draw, paragraph, write
from sizer.export.pdf_head import finished, new_canvas
from sizer.export.tile_layout import TILE, laid, surround, words_page
from sizer.export.tile_maps import map_pages
from sizer.export.tile_words import saw_lines
from sizer.export.tiles import PAPERS_MM, SAME_MM, USUAL_PAPER
from sizer.units import MM_PER_M

MARK_MM = 3.0  # radius of a joining mark's circle
NAME_PT, NAME_HIGH_MM = 7.5, 2.0  # of a mark's name, and its capitals
NAME_ASIDE_MM = 0.5  # of it from the cross's upright line: no page ends within it; our drawing
NAME_UP_MM = (3.6, -5.6)  # of its base line, tried in order on the right, then left; our drawing
CAUTIONS_PT = (11.0, 10.0, 9.0, 8.0, 7.0)
MAPS = "how the tiles lie"


def tiled_pdf(title, drawings, imprint, paper=USUAL_PAPER):
    """Each Drawing at true size over tiles of one of PAPERS_MM to join, led by pages that show how
    they lie; bytes, the same for the same content.

    Pages stand upright or lie, and pieces are turned, whichever takes fewer; those that no saw line
    crosses are left out.
    """
    canvas, stream = new_canvas(title, imprint)
    pieces = [laid(title, drawing, imprint, PAPERS_MM[paper]) for drawing in drawings]
    plain = words_page(title, imprint, PAPERS_MM[paper])
    map_pages(canvas, f"{title}: {MAPS}", pieces, plain)
    for one in pieces:
        names = _mark_names(one)
        for number, tile in enumerate(one.tiles.tiles, start=1):
            where = TILE.format(number, len(one.tiles.tiles), tile.row + 1, tile.column + 1)
            _tile_page(canvas, f"{title}: {one.drawing.name}, {where}", one, tile, names)
    _last_pages(canvas, f"{title}: cautions", plain)
    return finished(canvas, stream)


def _tile_page(canvas, head, piece, tile, names):
    page, tiles = piece.page, piece.tiles
    surround(canvas, head, page)
    origin = (page.left_mm - tile.left_mm, page.bottom_mm - tile.bottom_mm)
    canvas.saveState()
    window = canvas.beginPath()
    window.rect(page.left_mm * mm, page.bottom_mm * mm, *(side * mm for side in page.window_mm))
    canvas.clipPath(window, stroke=0, fill=0)
    box = tile.box_mm(page.window_mm)
    draw(canvas, _whole(piece.drawing, np.array(box) / MM_PER_M), origin)
    _joins(canvas, origin, tiles, box, names)
    canvas.restoreState()
    canvas.setLineWidth(0.3)
    canvas.rect(page.left_mm * mm, page.bottom_mm * mm, *(side * mm for side in page.window_mm))
    canvas.showPage()


def _whole(drawing, box_m):
    """What of a Drawing is on a page: no words that its edge would cut through."""
    shown = drawing.touching(box_m)
    inside = ((shown.boxes_m[:, :2] >= box_m[:2]) & (shown.boxes_m[:, 2:] <= box_m[2:])).all(axis=1)
    return replace(shown, strokes=tuple(one for one, whole in zip(
        shown.strokes, inside, strict=True) if whole or not isinstance(one, Text)))


def _joins(canvas, origin, tiles, box, names):
    """Lines where this page meets others, and the crosses to lay on each other."""
    left, bottom, right_end, top = box
    marks = [mark for mark in tiles.marks
             if left < mark.right_mm < right_end and bottom < mark.up_mm < top]
    canvas.setLineWidth(0.4)
    canvas.setDash(8, 3)
    for right in tiles.upright_joins_mm:
        if any(abs(mark.right_mm - right) < SAME_MM for mark in marks):
            canvas.line((origin[0] + right) * mm, (origin[1] + bottom) * mm,
                        (origin[0] + right) * mm, (origin[1] + top) * mm)
    for up in tiles.level_joins_mm:
        if any(abs(mark.up_mm - up) < SAME_MM for mark in marks):
            canvas.line((origin[0] + left) * mm, (origin[1] + up) * mm,
                        (origin[0] + right_end) * mm, (origin[1] + up) * mm)
    canvas.setDash()
    canvas.setFont(FACE, NAME_PT)
    for mark in marks:
        x, y = (origin[0] + mark.right_mm) * mm, (origin[1] + mark.up_mm) * mm
        reach = 1.6 * MARK_MM * mm
        canvas.circle(x, y, MARK_MM * mm)
        canvas.line(x - reach, y, x + reach, y)
        canvas.line(x, y - reach, x, y + reach)
        right, up = names[mark]
        canvas.drawString(x + right * mm, y + up * mm, mark.name)


def _mark_names(piece):
    """{JoinMark: where its name stands from its middle, mm}: the first place clear of saw lines."""
    saws, found = saw_lines(piece.drawing), {}
    for mark in piece.tiles.marks:
        at, long = np.array([mark.right_mm, mark.up_mm]), stringWidth(mark.name, FACE, NAME_PT) / mm
        places = list(product((NAME_ASIDE_MM, -NAME_ASIDE_MM - long), NAME_UP_MM))
        found[mark] = next((beside for beside in places if not saws.query(
            shapely_box(*(np.concatenate([at + beside, at + beside + (long, NAME_HIGH_MM)])
                          / MM_PER_M)), predicate="intersects").size), places[0])
    return found


def _last_pages(canvas, head, page):
    """Every caution, in letters as large as let all of them stand on one page, or on more."""
    width, height = page.window_mm
    for size_pt in CAUTIONS_PT:
        rows, tall_mm = paragraph([f"- {caution}" for caution in page.imprint.cautions], size_pt,
                                  width)
        if tall_mm <= height:
            break
    on_one = max(1, int(len(rows) * height / max(tall_mm, height)))
    for start in range(0, len(rows), on_one):
        surround(canvas, head, page)
        write(canvas, rows[start:start + on_one], page.left_mm, page.bottom_mm + height, size_pt)
        canvas.showPage()
