"""Drawings as SVG files at true size: one user unit is one millimetre, one group a pen."""

import math
import textwrap
from xml.sax.saxutils import escape, quoteattr

from sizer.drawing.pens import PENS
from sizer.drawing.record import CAP_HEIGHT, LETTER_WIDTH, Circle, Path
from sizer.stamp import APART, REFUSED
from sizer.units import MM_PER_M, plain, unbroken

LETTERS = 'font-family="DejaVu Sans, Verdana, sans-serif"'
MARGIN_MM = 10.0
WORDS_MM = 3.5  # font size of notes and cautions
WORDS_APART = 1.5
WORD_WIDTH = 0.62  # of a letter over the font size, on the generous side
LEAST_WIDTH_MM = 150.0  # of the picture, so that notes have room
ACROSS_SHARE = 0.7  # of the piece's diagonal that the letters across it take; our drawing


def svg_text(drawing, imprint, true_size=True):
    """One Drawing as an SVG document; Imprint, name, notes and cautions stand below it. A piece to
    cut says that it is of true size, a picture gets white paper."""
    left, bottom, right, top = (side * MM_PER_M for side in drawing.box_m)
    width = max(right - left + 2.0 * MARGIN_MM, LEAST_WIDTH_MM)
    scale = [f"{drawing.name}: millimetres, true size"] if true_size else []
    words = _wrapped([*filter(None, [imprint.refusal]), imprint.line, *scale, *drawing.notes,
                      *(f"CAUTION: {caution}" for caution in imprint.cautions)],
                     int((width - 2.0 * MARGIN_MM) / (WORD_WIDTH * WORDS_MM)))
    picture = top - bottom + 2.0 * MARGIN_MM
    height = picture + len(words) * WORDS_MM * WORDS_APART + MARGIN_MM

    def place(point_m):
        return (point_m[0] * MM_PER_M - left + MARGIN_MM,
                top + MARGIN_MM - point_m[1] * MM_PER_M)

    used = {stroke.pen for stroke in drawing.strokes}
    groups = [
        f'<g id="{name}" {_style(pen)}>'
        + "".join(_stroke(one, place) for one in drawing.strokes if one.pen == name) + "</g>"
        for name, pen in PENS.items() if name in used]
    if imprint.refusal:
        groups.append(_across(right - left, top - bottom))
    notes = "".join(
        f'<text x="{MARGIN_MM:g}" y="{picture + (row + 1) * WORDS_MM * WORDS_APART:.2f}">'
        f"{escape(line)}</text>" for row, line in enumerate(words))
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.3f}mm" height="{height:.3f}mm" '
        f'viewBox="0 0 {width:.3f} {height:.3f}" role="img" '
        f"aria-label={quoteattr(drawing.name)}>\n"
        f"<title>{escape(imprint.line + APART + drawing.name)}</title>\n"
        + ("" if true_size else '<rect width="100%" height="100%" fill="#fff"/>\n')
        + "\n".join(groups)
        + f'\n<g id="notes" {LETTERS} '
        f'font-size="{WORDS_MM:g}" fill="#000">{notes}</g>\n</svg>\n')


def _across(wide, high):
    """That the boat does not pass, in outlines from corner to corner of the piece."""
    size = ACROSS_SHARE * math.hypot(wide, high) / (LETTER_WIDTH * len(REFUSED))
    x, y = MARGIN_MM + 0.5 * wide, MARGIN_MM + 0.5 * high
    return (f'<g id="does-not-pass" fill="none" stroke="#c23b3b" stroke-width="0.4">'
            f'<text {LETTERS} font-weight="bold" text-anchor="middle" font-size="{size:.2f}" '
            f'transform="translate({x:.3f} {y:.3f}) '
            f'rotate({-math.degrees(math.atan2(high, wide)):.3f})" '
            f'y="{0.5 * CAP_HEIGHT * size:.3f}">{REFUSED}</text></g>')


def _style(pen):
    filled = f'fill="{pen.paper}" fill-opacity="{pen.fill:g}"' if pen.fill else 'fill="none"'
    if not pen.width:
        return f'{filled} stroke="none"'
    gaps = " ".join(f"{dash:g}" for dash in pen.dashes)
    dashed = f' stroke-dasharray="{gaps}"' if gaps else ""
    return (f'{filled} stroke="{pen.paper}" stroke-width="{pen.paper_mm:g}"{dashed}')


def _stroke(stroke, place):
    if isinstance(stroke, Path):
        tag = "polygon" if stroke.closed else "polyline"
        points = " ".join(f"{x:.4f},{y:.4f}" for x, y in map(place, stroke.points_m))
        return f'<{tag} points="{points}"/>'
    if isinstance(stroke, Circle):
        x, y = place(stroke.centre_m)
        return f'<circle cx="{x:.4f}" cy="{y:.4f}" r="{stroke.radius_m * MM_PER_M:.4f}"/>'
    x, y = place(stroke.at_m)
    height = stroke.height_m * MM_PER_M
    return (f'<text {LETTERS} text-anchor="{stroke.anchor}" fill="#000" stroke="none" '
            f'font-size="{height / CAP_HEIGHT:.3f}" '
            f'transform="translate({x:.4f} {y:.4f}) rotate({-stroke.angle_deg:.4f})" '
            f'y="{height / 2.0:.3f}">{escape(stroke.text)}</text>')


def _wrapped(lines, letters):
    """Lines broken between words at a count of letters."""
    return [plain(row) for line in lines for row in textwrap.wrap(
        unbroken(" ".join(line.split())), letters, break_long_words=False,
        break_on_hyphens=False) or [""]]
