"""Small work on polygons that several patterns need."""

from shapely.affinity import scale
from shapely.geometry import MultiPolygon
from shapely.ops import unary_union


def both_sides(shape):
    """A shape and its mirror image, as one."""
    return unary_union([shape, scale(shape, xfact=-1.0, origin=(0.0, 0.0))])


def largest(shape):
    """The largest piece of a shape that fell apart."""
    if isinstance(shape, MultiPolygon):
        return max(shape.geoms, key=lambda piece: piece.area)
    return shape
