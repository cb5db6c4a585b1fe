"""Drawings and words on a PDF page: millimetres in, black on white.

The typeface is the one that reportlab ships: its built-in ones draw a black box for every letter
outside Latin-1.
"""

import re
from functools import cache, lru_cache

import numpy as np
from reportlab.lib.colors import HexColor, black
from reportlab.lib.rl_accel import fp_str
from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.pathobject import PDFPathObject

from sizer.drawing.pens import PENS
from sizer.drawing.record import CAP_HEIGHT, Circle, Path
from sizer.units import MM_PER_M, unbroken

FACE = "Vera"
BOLD = "VeraBd"
LEADING = 1.3  # of lines, over the font size
BESIDE_MM = 0.8  # of the upright bar from the margin's edge; our drawing
OUTWARD_MM = 0.8  # of its ticks: many printers drop the last quarter inch


@cache
def register_faces():
    """Makes the typeface known to reportlab, once: reading it takes longer than most pages."""
    pdfmetrics.registerFont(TTFont(FACE, "Vera.ttf"))
    pdfmetrics.registerFont(TTFont(BOLD, "VeraBd.ttf"))


def draw(canvas, drawing, origin_mm, scale=1.0):
    """Draws all strokes, the drawing's origin at a place on the page; `scale` 1 is true size.

    Line widths and dashes do not scale; letters do.
    """
    def place(points_m):
        return ((np.asarray(origin_mm) + scale * MM_PER_M * np.asarray(points_m)) * mm)

    for stroke in drawing.strokes:
        line_pt, colour, dashes, alpha, how = _drawn_with(stroke.pen)
        canvas.setLineWidth(line_pt)
        canvas.setStrokeColor(colour)
        canvas.setDash(dashes)
        canvas.setFillAlpha(alpha)
        if isinstance(stroke, Path):
            _polyline(canvas, place(stroke.points_m), stroke.closed, how)
        elif isinstance(stroke, Circle):
            canvas.circle(*place(stroke.centre_m).tolist(),
                          scale * stroke.radius_m * MM_PER_M * mm, **how)
        else:
            _turned_words(canvas, stroke, place(stroke.at_m).tolist(), scale)
    canvas.setDash()
    canvas.setStrokeColor(black)
    canvas.setFillAlpha(1.0)


@cache
def _drawn_with(name):
    """Line width, colour, dashes and opacity of a pen of PENS on a page, and what it draws."""
    pen = PENS[name]
    return (pen.paper_mm * mm, HexColor(pen.paper), [dash * mm for dash in pen.dashes],
            pen.fill or 1.0, {"stroke": int(pen.width > 0.0), "fill": int(pen.fill > 0.0)})


def _polyline(canvas, points, closed, how):
    """All its corners are written at once: one by one takes longer than all else of a page."""
    figures = iter(fp_str(points.ravel().tolist()).split(" "))
    first, *others = (f"{right} {up}" for right, up in zip(figures, figures, strict=True))
    canvas.drawPath(PDFPathObject([f"n {first} m", *(f"{other} l" for other in others),
                                   *(["h"] if closed else [])]), **how)


def _turned_words(canvas, text, at, scale):
    height = scale * text.height_m * MM_PER_M * mm
    canvas.saveState()
    canvas.translate(*at)
    canvas.rotate(text.angle_deg)
    canvas.setFont(FACE, height / CAP_HEIGHT)
    written = {"start": canvas.drawString, "middle": canvas.drawCentredString,
               "end": canvas.drawRightString}[text.anchor]
    written(0.0, -height / 2.0, text.text)
    canvas.restoreState()


def wrapped(line, size_pt, width_mm, face=FACE):
    """A line of words broken to a width."""
    return list(_wrapped(line, size_pt, width_mm, face))


@lru_cache(maxsize=1024)  # the head and the foot of a document are on every page of it
def _wrapped(line, size_pt, width_mm, face):
    rows = [""]
    for word in filter(None, re.split(r"[ \n]+", unbroken(line))):
        longer = f"{rows[-1]} {word}" if rows[-1] else word
        if rows[-1] and stringWidth(longer, face, size_pt) > width_mm * mm:
            rows.append(word)
        else:
            rows[-1] = longer
    return rows


def paragraph(lines, size_pt, width_mm):
    """Many lines broken to a width, and the height they take in mm."""
    rows = [row for line in lines for row in wrapped(line, size_pt, width_mm)]
    return rows, len(rows) * size_pt * LEADING / mm


def write(canvas, rows, left_mm, top_mm, size_pt, face=FACE):
    """Rows of words downwards from a top edge; returns the height of the lower edge."""
    canvas.setFont(face, size_pt)
    for number, row in enumerate(rows):
        canvas.drawString(left_mm * mm, top_mm * mm - (number * LEADING + 1.0) * size_pt, row)
    return top_mm - len(rows) * size_pt * LEADING / mm


def scale_bar(canvas, left_mm, up_mm, size_pt, bar):
    """A Bar with its ticks, another up the margin, and what they are."""
    canvas.setLineWidth(0.8)
    canvas.setDash()
    beside_mm = left_mm - BESIDE_MM
    canvas.line(left_mm * mm, up_mm * mm, (left_mm + bar.long_mm) * mm, up_mm * mm)
    canvas.line(beside_mm * mm, up_mm * mm, beside_mm * mm, (up_mm + bar.long_mm) * mm)
    for tick in range(bar.ticks + 1):
        at_mm = tick * bar.long_mm / bar.ticks
        long_mm = 3.0 if tick % (bar.ticks // 2) == 0 else 1.8
        right, up = (left_mm + at_mm) * mm, (up_mm + at_mm) * mm
        canvas.line(right, up_mm * mm, right, (up_mm + long_mm) * mm)
        canvas.line(beside_mm * mm, up, (beside_mm - OUTWARD_MM) * mm, up)
    canvas.setFont(FACE, size_pt)
    canvas.drawString((left_mm + bar.long_mm + 3.0) * mm, up_mm * mm,
                      f"{bar.said}, up the margin too. Print at 100 %, actual size.")


# At the foot of pages that are all alike.
READ_LAST = ("CAUTION. Calculated, not a trial. Read every caution on the last page before you "
             "cut, and again before you launch.")


def cautions_text(cautions):
    """All cautions in one paragraph, for the foot of a page."""
    return "CAUTION. " + " ".join(cautions)
