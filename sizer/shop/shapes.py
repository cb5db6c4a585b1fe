"""Small work on polygons that several patterns need."""

import numpy as np
import shapely
from shapely.geometry import LineString
from shapely.ops import unary_union

from sizer.drawing.record import Path


def both_sides(shape):
    """A shape and its mirror image, as one."""
    return unary_union([shape, mirrored(shape)])


def mirrored(shape):
    """A shape on the other side of the boat."""
    return shapely.transform(shape, lambda spots: spots * (-1.0, 1.0))


def largest(shape):
    """The largest piece of a shape that fell apart."""
    return max(getattr(shape, "geoms", [shape]), key=lambda piece: piece.area, default=shape)


def thickest_bar_m(shapes, fine_m):
    """Thickness of the thickest round bar, to a tolerance, that goes into any of some polygons; 0
    where there are none. One that is narrower than a bar found is not looked at."""
    most = sorted(((_widest_m(one), index) for index, one in enumerate(shapes)), reverse=True)
    thick = 0.0
    for widest, index in most:
        if widest > thick:
            thick = max(thick, 2.0 * float(shapely.maximum_inscribed_circle(
                shapes[index], tolerance=fine_m).length))
    return thick


def _widest_m(shape):
    """No round bar as thick as this goes into a polygon."""
    left, low, right, high = shape.bounds
    return min(right - left, high - low, 2.0 * np.sqrt(shape.area / np.pi))


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


def length_on(lines, edge, off):
    """Of each of some straight lines (n, 2, 2), the length that lies on a polygon's edge, itself a
    line or lines: no farther `off` it than told, nor off its end."""
    rings = [shapely.get_coordinates(one) for one in getattr(edge, "geoms", [edge])]
    pieces = np.concatenate([np.stack([one[:-1], one[1:]], axis=1) for one in rings])
    (start_y, start_z), (end_y, end_z) = np.transpose(lines, (1, 2, 0))[..., None, None]
    run_y, run_z = end_y - start_y, end_z - start_z
    long = np.hypot(run_y, run_z)
    run_y, run_z = run_y / long, run_z / long
    right, up = pieces[..., 0] - start_y, pieces[..., 1] - start_z
    line, piece = np.nonzero((np.abs(right * run_z - up * run_y) <= off).all(axis=-1))
    along = (right * run_y + up * run_z)[line, piece]
    first = np.maximum(along.min(axis=-1) - off, 0.0).tolist()
    last = np.minimum(along.max(axis=-1) + off, long[line, 0, 0]).tolist()
    found, reached = np.zeros(len(long)), {}
    for row, low, high in sorted(zip(line.tolist(), first, last, strict=True)):
        found[row] += max(0.0, high - max(low, reached.get(row, 0.0)))
        reached[row] = max(high, reached.get(row, 0.0))
    return found
