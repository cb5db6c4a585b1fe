"""Every word of a PDF page where it stands: its turned box by the font's own widths, in points."""

from dataclasses import dataclass

import numpy as np
import shapely
from pdf_reading import shown, times
from shapely.geometry import Polygon

RISE, DROP = 0.73, 0.0  # of a line of capitals and figures over its base line, of the font's size


@dataclass(frozen=True)
class Word:
    """One string as it is drawn."""

    text: str
    size_pt: float
    box: Polygon
    clip: tuple | None  # left, low, right, top of the window it is drawn through


def page_words(page):
    """All Words of a page."""
    found = [one for one in shown(page) if one.text.strip()]
    places = np.array([times(one.tm, one.cm) for one in found]).reshape(-1, 3, 2)
    sizes = np.array([one.size for one in found])
    scales = np.sqrt(np.abs(np.linalg.det(places[:, :2])))
    long = np.array([one.long_pt for one in found])
    low, high, none = DROP * sizes, RISE * sizes, np.zeros(len(found))
    corners = np.stack([none, low, long, low, long, high, none, high], axis=1).reshape(-1, 4, 2)
    boxes = shapely.polygons(corners @ places[:, :2] + places[:, None, 2])
    return [Word(one.text, size, box, one.window) for one, size, box in zip(
        found, (scales * sizes).tolist(), boxes, strict=True)]
