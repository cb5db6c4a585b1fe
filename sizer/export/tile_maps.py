"""The pages that lead patterns to join: how each piece's tiles lie, its notes, where to find it."""

from collections import Counter

import numpy as np
from reportlab.lib.units import mm

from sizer.drawing.told import read, size, told
from sizer.drawing.true_size import BARS
from sizer.export.pdf import NOTES_PT, PAD_MM
from sizer.export.pdf_canvas import BOLD, FACE, draw, paragraph, wrapped, write
from sizer.export.tile_checks import CHECKED, checks_text
from sizer.export.tile_layout import surround
from sizer.export.tiles import OVERLAP_MM
from sizer.units import MM_PER_M

BESIDE_PT, CROSS_PT = 8.5, 7.0
CROSS_MM = 1.5  # of a check length's letter from the map's edge, at least; our drawing
MAP_MM = (56.0, 48.0)  # of a small map of the tiles, at most; our drawing
MOST_PAGES = 9999  # for room alone
JOIN = told(
    "Measure {}. Neighbouring tiles overlap by {}: cut one of the two along the dashed line, lay "
    "it on the other so that the crosses of one name meet, and tape. A piece is turned where that "
    "takes fewer pages. CL: centre line; P: port, the left side of one who sits in the boat and "
    "looks to the bow; S: starboard, the right side.", BARS, size(OVERLAP_MM / MM_PER_M))


def map_pages(canvas, head, laid, page):
    """Draws each Laid piece, several to a page under one head; the tiles follow in the same order.
    `page` is the TilePage of an upright paper."""
    width, height = page.window_mm
    aside = width - MAP_MM[0] - 2.0 * PAD_MM
    lead, lead_mm = paragraph([read(JOIN, page.unit), CHECKED, *_shared(laid)], BESIDE_PT, width)
    notes = [paragraph([*("" for _ in _where_rows(one, MOST_PAGES, aside)),
                        *checks_text(one.checks), *_own_notes(one, laid)],
                       BESIDE_PT, aside) for one in laid]
    tall = [lead_mm + PAD_MM, *(max(MAP_MM[1], own_mm) + 2.0 * PAD_MM for _, own_mm in notes)]
    on = _flowed(tall, height)
    first = on[-1] + 2
    for index, number in enumerate(on):
        if index == 0 or number != on[index - 1]:
            if index:
                canvas.showPage()
            surround(canvas, head, page)
            low = page.bottom_mm + height
        if index == 0:
            write(canvas, lead, page.left_mm, low, BESIDE_PT)
        else:
            one, beside = laid[index - 1], page.left_mm + width - aside
            write(canvas, _where_rows(one, first, aside), beside, low, BESIDE_PT, BOLD)
            write(canvas, notes[index - 1][0], beside, low, BESIDE_PT)
            _map(canvas, one, (page.left_mm, low))
            first += len(one.tiles.tiles)
        low -= tall[index]
    canvas.showPage()


def _flowed(tall_mm, height_mm):
    """The page, from 0, of each block of a height, one under the other."""
    on, used = [], 0.0
    for tall in tall_mm:
        over = used > 0.0 and used + tall > height_mm
        used = tall if over else used + tall
        on.append((on[-1] if on else 0) + over)
    return on


def _where_rows(one, first, width_mm):
    """On which pages a piece's tiles are, broken to a width."""
    count = len(one.tiles.tiles)
    pages = f"page {first}" if count == 1 else f"pages {first} to {first + count - 1}"
    return wrapped(f"{one.drawing.name}: {count} tile{'s' * (count > 1)}, {pages}", BESIDE_PT,
                   width_mm, BOLD)


def _shared(laid):
    """Notes that several pieces share, each once, led by whose they are."""
    of = {}
    for one in laid:
        for note in one.drawing.notes:
            of.setdefault(note, []).append(one.drawing.name)
    return [f"{', '.join(names)}: {note}" for note, names in of.items() if len(names) > 1]


def _own_notes(one, laid):
    told = Counter(note for other in laid for note in set(other.drawing.notes))
    return [note for note in one.drawing.notes if told[note] == 1]


def _map(canvas, one, corner_mm):
    """A piece's tiles with their numbers, small, its upper left corner at a place."""
    window, tiles = one.tiles.window_mm, one.tiles.tiles
    boxes = np.array([tile.box_mm(window) for tile in tiles])
    low, size = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0) - boxes[:, :2].min(axis=0)
    scale = float(min(np.array(MAP_MM) / size))
    origin = (corner_mm[0] - scale * low[0], corner_mm[1] - scale * (size[1] + low[1]))
    draw(canvas, one.drawing.on("cut"), origin, scale)
    canvas.setLineWidth(0.4)
    canvas.setFont(BOLD, NOTES_PT)
    for number, tile in enumerate(tiles, start=1):
        x, y = origin[0] + scale * tile.left_mm, origin[1] + scale * tile.bottom_mm
        width, height = (scale * side for side in window)
        canvas.rect(x * mm, y * mm, width * mm, height * mm)
        canvas.drawCentredString((x + width / 2.0) * mm, (y + height / 2.0) * mm, str(number))
    canvas.setFont(FACE, CROSS_PT)
    inset = CROSS_MM / scale
    for check in one.checks:
        for name, end in zip(check.names, check.ends_mm, strict=True):
            x, y = origin + scale * np.clip(end, low + inset, low + size - inset)
            canvas.drawCentredString(x * mm, y * mm - 0.4 * CROSS_PT, name)
