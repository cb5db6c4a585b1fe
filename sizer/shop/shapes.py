"""Small work on polygons that several patterns need."""

import numpy as np
from shapely.affinity import scale
from shapely.geometry import LineString, MultiPolygon
from shapely.ops import unary_union


def both_sides(shape):
    """A shape and its mirror image, as one."""
    return unary_union([shape, scale(shape, xfact=-1.0, origin=(0.0, 0.0))])


def largest(shape):
    """The largest piece of a shape that fell apart."""
    if isinstance(shape, MultiPolygon):
        return max(shape.geoms, key=lambda piece: piece.area)
    return shape


def line_pieces(shape, longer_m=0.0):
    """The lines that are left of a cut line, (n, 2) each, where longer than told."""
    return [np.asarray(piece.coords) for piece in getattr(shape, "geoms", [shape])
            if isinstance(piece, LineString) and piece.length > longer_m]
