"""Pens and marks: how metres become lines on the paper.

Every drawing is one line of SVG text without ids, scripts, styles or outside references. Colours
are CSS variables that the page sets; without them the page's own text colour is used.
"""

from dataclasses import dataclass
from html import escape
from math import hypot

import numpy as np

INK = "var(--sz-ink, currentColor)"
PENCIL = "var(--sz-pencil, color-mix(in srgb, currentColor 38%, transparent))"
WOOD = "var(--sz-wood, currentColor)"
WATER = "var(--sz-water, currentColor)"
BODY = "var(--sz-body, currentColor)"
PAPER = "var(--sz-paper, transparent)"

_ROUND = 'fill="none" stroke-linejoin="round" stroke-linecap="round"'
INK_LINE = f'class="sz-ink" {_ROUND} stroke="{INK}" stroke-width="1.5"'
FINE_LINE = INK_LINE.replace('"1.5"', '"1.2"')
THIN_LINE = f'class="sz-thin" {_ROUND} stroke="{INK}" stroke-width="0.8"'
SIZE_LINE = THIN_LINE.replace("sz-thin", "sz-dimension")
CENTRE_LINE = (f'class="sz-centre" {_ROUND} stroke="{INK}" stroke-width="0.7" '
               'stroke-opacity="0.55" stroke-dasharray="9 3 2 3"')
EXTENSION_LINE = (f'class="sz-extension" {_ROUND} stroke="{INK}" stroke-width="0.6" '
                  'stroke-opacity="0.5"')
PENCIL_LINE = f'class="sz-pencil" {_ROUND} stroke="{PENCIL}" stroke-width="1.1"'
WOOD_LINE = f'class="sz-wood" {_ROUND} stroke="{WOOD}" stroke-width="0.9"'
WOOD_EDGE = WOOD_LINE.replace('"0.9"', '"2.5"')  # a board seen on edge
WOOD_DOT = WOOD_LINE.replace('"0.9"', '"4"')  # a stick seen end on
WOOD_BLOCK = (f'class="sz-wood" fill="{WOOD}" fill-opacity="0.3" stroke="{WOOD}" '
              'stroke-width="0.9" stroke-linejoin="round"')
WATER_TONE = f'class="sz-water" fill="{WATER}" fill-opacity="0.16" stroke="none"'
WET_TONE = f'class="sz-wet" fill="{WATER}" fill-opacity="0.24" stroke="none"'
WATER_LINE = f'class="sz-waterline" {_ROUND} stroke="{WATER}" stroke-width="1.1"'
BODY_SHAPE = (f'class="sz-body" fill="{BODY}" fill-opacity="0.1" stroke="{BODY}" '
              'stroke-width="1.2" stroke-linejoin="round" stroke-linecap="round"')
BODY_FILL = f'class="sz-body" fill="{BODY}" fill-opacity="0.1" stroke="none"'
BODY_LINE = f'class="sz-body" {_ROUND} stroke="{BODY}" stroke-width="1.2"'
BODY_BAR = f'class="sz-bar" fill="none" stroke="{BODY}" stroke-width="3.5"'
BODY_HIDDEN = (f'class="sz-body" fill="{BODY}" fill-opacity="0.07" stroke="{BODY}" '
               'stroke-width="0.9" stroke-dasharray="4 3" stroke-linejoin="round"')
WIDE, NARROW = 860.0, 360.0  # widths of a picture for a desk and for a phone
TEXT = 13.0  # text height in both, so that a phone shows it at 11 px or more
STATUS_MARK = 13.0  # size of a status shape in a picture
TICK = 4.0  # half a dimension tick's reach, in picture units
CURVE_STEPS = 6  # straight pieces from one point of a smooth outline to the next
_STATUS_SHAPES = {  # said in full, and drawn
    "pass": ("passes", "M2.5 8.5L6.5 12.5L13.5 4"),
    "caution": ("caution", "M8 2L14.5 13.5L1.5 13.5ZM8 6.2L8 9.6M8 11.4L8 11.6"),
    "fail": ("does not pass", "M2.5 2.5L13.5 2.5L13.5 13.5L2.5 13.5ZM5 5L11 11M11 5L5 11"),
}


@dataclass(frozen=True)
class View:
    """Where metres fall on the paper: `across_m`, `up_m` lands at `left`, `top`."""

    across_m: float
    up_m: float
    left: float
    top: float
    scale: float  # picture units a metre

    def at(self, across_m, up_m):
        """Picture coordinates of points in m. Returns (n, 2)."""
        across, up = np.broadcast_arrays(np.asarray(across_m, float), np.asarray(up_m, float))
        return np.stack([self.left + (across - self.across_m) * self.scale,
                         self.top + (self.up_m - up) * self.scale], axis=-1)


def smooth(points, closed=True):
    """A curve through control points: Catmull and Rom's spline, cut into short straight pieces.

    Parameters: points (n, 2). Returns (n * CURVE_STEPS, 2) when closed.
    """
    points = np.asarray(points, float)
    if closed:
        rings = np.concatenate([points[-1:], points, points[:2]])
    else:
        rings = np.concatenate([points[:1], points, points[-1:]])
    t = (np.arange(CURVE_STEPS) / CURVE_STEPS)[None, :, None]
    before, start, end, after = (rings[i:len(rings) - 3 + i, None, :] for i in range(4))
    curve = 0.5 * (2 * start + (end - before) * t
                   + (2 * before - 5 * start + 4 * end - after) * t**2
                   + (3 * start - before - 3 * end + after) * t**3).reshape(-1, 2)
    return curve if closed else np.concatenate([curve, points[-1:]])


def path(points, pen, closed=False):
    """A polyline or closed outline through picture points (n, 2)."""
    return f'<path {pen} d="{path_data(points, closed)}"/>'


def paths(lines, pen):
    """Several open polylines drawn as one path."""
    return f'<path {pen} d="{"".join(path_data(line) for line in lines)}"/>'


def path_data(points, closed=False):
    """The path text of a polyline, coordinates to a tenth of a picture unit."""
    places = np.round(np.asarray(points, float), 1) + 0.0
    return "M" + "L".join(f"{x:g} {y:g}" for x, y in places.tolist()) + ("Z" if closed else "")


def words(place, text, anchor="middle", mark="sz-text", rim=False):
    """Text standing on `place`; a rim of paper keeps the lines behind off it."""
    paper = (f'stroke="{PAPER}" stroke-width="4" stroke-linejoin="round" paint-order="stroke"'
             if rim else 'stroke="none"')
    return (f'<text class="{mark}" x="{place[0]:.1f}" y="{place[1]:.1f}" font-size="{TEXT:g}" '
            f'text-anchor="{anchor}" fill="{INK}" {paper}>{escape(text)}</text>')


def legend(left, top):
    """Says what the pencil lines are."""
    return (path(np.array([(left, top - 4.0), (left + 22.0, top - 4.0)]), PENCIL_LINE)
            + words((left + 28.0, top), "base design", anchor="start"))


def dimension(start, end, text=None, place=None, anchor="middle", rim=False, pen=SIZE_LINE):
    """A dimension line with a slanted tick at each end, and its text at `place`."""
    (x1, y1), (x2, y2) = start, end
    length = hypot(x2 - x1, y2 - y1) or 1.0
    along = np.array([(x2 - x1) / length, (y2 - y1) / length])
    slant = TICK * (along + np.array([along[1], -along[0]])) / 2**0.5
    lines = [np.array([start, end])]
    lines += [np.array([end_point - slant, end_point + slant])
              for end_point in (np.asarray(start), np.asarray(end))]
    drawn = paths(lines, pen)
    return drawn + (words(place, text, anchor, "sz-size", rim) if text else "")


def broken_edge(low, high):
    """The waved line of a part cut off, from one picture point to the other."""
    share = np.linspace(0.0, 1.0, 13)[:, None]
    along = np.asarray(high) - np.asarray(low)
    across = np.array([-along[1], along[0]]) / (hypot(*along) or 1.0)
    return path(np.asarray(low) + share * along + 3.0 * np.sin(2.0 * np.pi * share) * across,
                THIN_LINE)


def drawing(width, height, title, sentence, parts):
    """The whole picture: named, described and as wide as its place on the page."""
    name, label = escape(title), escape(sentence, quote=True)
    return (f'<svg xmlns="http://www.w3.org/2000/svg" class="sz-drawing" role="img" '
            f'aria-label="{label}" viewBox="0 0 {width:g} {round(height, 1):g}" width="100%" '
            f'font-family="inherit"><title>{name}</title>{"".join(parts)}</svg>')


def status_svg(status):
    """A check mark, triangle or crossed square for "pass", "caution" or "fail", as tall as text.

    Drawn in the CSS variable `--sz-` and the status, else in the text's own colour.
    """
    word, shape = _STATUS_SHAPES[status]
    return (f'<svg xmlns="http://www.w3.org/2000/svg" class="sz-shape sz-shape-{status}" '
            f'role="img" aria-label="{word}" viewBox="0 0 16 16" width="1em" height="1em">'
            f'<title>{word}</title><path d="{shape}" {status_pen(status)}/></svg>')


def status_pen(status):
    """The pen of a status, in its colour."""
    return (f'fill="none" stroke="var(--sz-{status}, currentColor)" stroke-width="1.6" '
            'stroke-linejoin="round" stroke-linecap="round"')


def status_mark(place, status):
    """The shape of a status inside a picture, STATUS_MARK square, its lower left on `place`."""
    x, y = place
    scale = STATUS_MARK / 16.0
    return (f'<path class="sz-shape sz-shape-{status}" d="{_STATUS_SHAPES[status][1]}" '
            f'transform="translate({x:.1f} {y - STATUS_MARK:.1f}) scale({scale:g})" '
            f'{status_pen(status)}/>')
