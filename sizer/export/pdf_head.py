"""The head of a PDF page: what it is, page n of m, the imprint; and the stamp across it.

Across each page of a boat that does not pass stands that it does not, in outlines under all lines.
"""

import io
import math

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from sizer.export.pdf_canvas import BOLD, FACE, LEADING, register_faces, wrapped, write
from sizer.stamp import APART, REFUSED

TITLE_PT, LINE_PT, LEAST_PT = 10.0, 8.0, 5.0
UNDER_HEAD_MM = 2.5
# Letters across a page whose boat does not pass: outlines in a colour of no pen, under all lines.
ACROSS_COLOUR, ACROSS_MM = HexColor("#c23b3b"), 0.25
rl_config.useA85 = 0  # bytes as they are: a fifth fewer, and a tenth of the time to write them
ACROSS_SHARE = 0.7  # of the page's diagonal that they take; our drawing
REASON_SHARE = 0.2  # of those letters' height, at most, for why; our drawing


class NumberedCanvas(Canvas):
    """Writes "page n of m" when all pages are drawn, before it the sheet's number where it has one
    (reportlab asks for a class)."""

    number_at_mm = None  # right and upper edge of those words on the present page
    sheet_number = None  # of the present page
    pages_at = ()  # (right, up, size in points, number of a sheet whose pages are told there)

    def __init__(self, *given, **more):
        super().__init__(*given, **more)
        self._drawn = []

    def showPage(self):  # noqa: N802, reportlab's name
        """Keeps the page until their count is known."""
        self._drawn.append(dict(self.__dict__))
        self._startPage()

    def save(self):
        """Writes all pages with their numbers."""
        pages = {}
        for number, page in enumerate(self._drawn, start=1):
            pages.setdefault(page.get("sheet_number"), []).append(number)
        for number, page in enumerate(self._drawn, start=1):
            self.__dict__.update(page)
            for right, up, size, sheet in self.pages_at:
                first, last = pages[sheet][0], pages[sheet][-1]
                self.setFont(FACE, size)
                self.drawString(right, up, f"{first}" if first == last else f"{first} to {last}")
            right, top = self.number_at_mm
            self.setFont(BOLD, TITLE_PT)
            self.drawRightString(right * mm, top * mm - TITLE_PT,
                                 ("" if self.sheet_number is None else
                                  f"sheet {self.sheet_number}, ")
                                 + f"page {number} of {len(self._drawn)}")
            super().showPage()
        super().save()


def new_canvas(title, imprint):
    """An empty PDF whose bytes depend on its content alone, and the stream it is written to."""
    register_faces()
    stream = io.BytesIO()
    canvas = NumberedCanvas(stream, invariant=1, pageCompression=1)
    canvas.setTitle(titled(title, imprint))
    return canvas, stream


def finished(canvas, stream):
    """The bytes of a PDF whose pages are drawn."""
    canvas.save()
    return stream.getvalue()


def titled(title, imprint):
    """What the whole document is called among its properties."""
    return imprint.line + APART + title


def head_mm(title, imprint, width_mm):
    """Height of a page's head, as `write_head` writes it."""
    return sum(len(rows) * size for rows, size, _ in _blocks(
        title, imprint, width_mm)) * LEADING / mm + UNDER_HEAD_MM


def write_head(canvas, title, imprint, size_mm, margin_mm):
    """A page's title and imprint, room for its number, and the stamp across what does not pass.

    To be called before anything else is drawn, so that the stamp lies under all lines.
    """
    inner, top = size_mm[0] - 2.0 * margin_mm, size_mm[1] - margin_mm
    if imprint.refusal:
        _across(canvas, imprint.refusal, size_mm)
    canvas.number_at_mm = size_mm[0] - margin_mm, top
    for rows, size, face in _blocks(title, imprint, inner):
        widest = max(stringWidth(row, face, size) for row in rows)
        fits = (inner - (_number_mm() if size == TITLE_PT else 0.0)) * mm / max(widest, 1.0)
        write(canvas, rows, margin_mm, top, size * min(1.0, fits), face)  # of a word without end
        top -= len(rows) * size * LEADING / mm


def _blocks(title, imprint, width_mm):
    """(rows, size, face) of the title, the imprint's line and, where there is one, the refusal."""
    yield wrapped(title, TITLE_PT, width_mm - _number_mm(), BOLD), TITLE_PT, BOLD
    yield wrapped(imprint.line, LINE_PT, width_mm), LINE_PT, FACE
    if imprint.refusal:
        yield wrapped(imprint.refusal, LINE_PT, width_mm, BOLD), LINE_PT, BOLD


def _number_mm():
    """Room for a page's number beside the title."""
    return stringWidth(" sheet 99, page 100 of 100", BOLD, TITLE_PT) / mm


def _across(canvas, refusal, size_mm):
    """The refusal from corner to corner: its first words as large as fits, why below them."""
    room = ACROSS_SHARE * math.hypot(*size_mm)
    large = _fitting_pt(REFUSED, math.inf, room)
    why = refusal.removeprefix(REFUSED).lstrip(": ")
    small = _fitting_pt(why, REASON_SHARE * large, room)
    canvas.saveState()
    canvas.setStrokeColor(ACROSS_COLOUR)
    canvas.setLineWidth(ACROSS_MM * mm)
    canvas.translate(*(0.5 * side * mm for side in size_mm))
    canvas.rotate(math.degrees(math.atan2(size_mm[1], size_mm[0])))
    for words, size, up in ((REFUSED, large, 0.0), (why, small, -LEADING * small)):
        text = canvas.beginText(-0.5 * stringWidth(words, BOLD, size), up)
        text.setFont(BOLD, size)
        text.setTextRenderMode(1)  # outlines alone
        text.textOut(words)
        text.setTextRenderMode(0)
        canvas.drawText(text)
    canvas.restoreState()


def _fitting_pt(words, most_pt, width_mm):
    """The largest size at which bold words go into a width, from LEAST_PT to `most_pt`."""
    return max(LEAST_PT, min(most_pt, width_mm * mm / stringWidth(words, BOLD, 1.0)))
