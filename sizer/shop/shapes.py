"""Small work on polygons that several patterns need."""

import numpy as np
from shapely.affinity import scale
from shapely.geometry import LineString
from shapely.ops import unary_union

from sizer.drawing.record import Path


def both_sides(shape):
    """A shape and its mirror image, as one."""
    return unary_union([shape, scale(shape, xfact=-1.0, origin=(0.0, 0.0))])


def largest(shape):
    """The largest piece of a shape that fell apart."""
    return max(getattr(shape, "geoms", [shape]), key=lambda piece: piece.area, default=shape)


def ring_path(pen, ring):
    """A polygon's outer or inner ring as a stroke."""
    return Path(pen, np.asarray(ring.coords)[:-1, :2], closed=True)


def cut_paths(wood):
    """The closed saw lines of a polygon, its outside first."""
    return [ring_path("cut", ring) for ring in (wood.exterior, *wood.interiors)]


def along_m(points_m):
    """How far along it each point of a line, (n, 2) or (n, 3), lies from its first: (n,) m."""
    return np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points_m, axis=0), axis=1))])


def line_pieces(shape, longer_m=0.0):
    """The lines that are left of a cut line, (n, 2) each, where longer than told."""
    return [np.asarray(piece.coords) for piece in getattr(shape, "geoms", [shape])
            if isinstance(piece, LineString) and piece.length > longer_m]
