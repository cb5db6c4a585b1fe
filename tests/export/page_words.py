"""Every word of a PDF page where it stands: its turned box by the font's own widths, in points."""

import re
from dataclasses import dataclass

import numpy as np
from pdf_reading import without_paths
from pypdf.generic import ContentStream
from shapely.geometry import Polygon

RISE, DROP = 0.73, 0.0  # of a line of capitals and figures over its base line, of the font's size


@dataclass(frozen=True)
class Word:
    """One string as it is drawn."""

    text: str
    size_pt: float
    box: Polygon
    clip: tuple | None  # left, low, right, top of the window it is drawn through


def page_words(page, reader):
    """All Words of a page."""
    fonts = {name: _font(one.get_object())
             for name, one in page["/Resources"]["/Font"].items()
             if "/ToUnicode" in one.get_object()}  # the others are declared and not used
    matrix, clip, stack, found, rect, leading = np.eye(3), None, [], [], None, 0.0
    for operands, operator in ContentStream(without_paths(page), reader).operations:
        if operator == b"q":
            stack.append((matrix, clip))
        elif operator == b"Q":
            matrix, clip = stack.pop()
        elif operator == b"cm":
            matrix = _matrix(operands) @ matrix
        elif operator == b"re":
            x, y, across, up = map(float, operands)
            rect = _at(np.array([(x, y), (x + across, y + up)]), matrix)
        elif operator in (b"W", b"W*"):
            clip = tuple(rect.ravel().tolist())
        elif operator == b"BT":
            line = place = np.eye(3)
        elif operator == b"Tm":
            line = place = _matrix(operands)
        elif operator == b"Tf":
            font, size = fonts.get(operands[0]), float(operands[1])
        elif operator == b"TL":
            leading = float(operands[0])
        elif operator == b"Td":
            line = place = _matrix([1, 0, 0, 1, *operands]) @ line
        elif operator == b"T*":
            line = place = _matrix([1, 0, 0, 1, 0, -leading]) @ line
        elif operator == b"Tj":
            found.append(_word(operands[0], font, size, place @ matrix, clip))
            place = _matrix([1, 0, 0, 1, _long(operands[0], font, size), 0]) @ place
    return [one for one in found if one.text.strip()]


def _font(font):
    table = font["/ToUnicode"].get_data().decode("latin-1")
    letters = {int(code, 16): chr(int(to, 16)) for code, to in re.findall(
        r"<(\w+)> <(\w+)>\s", table[table.index("beginbfchar"):])}
    first = int(font["/FirstChar"])
    return letters, {code: float(one) for code, one in enumerate(font["/Widths"], start=first)}


def _codes(text):
    return getattr(text, "original_bytes", None) or bytes(text)


def _long(text, font, size):
    return sum(font[1][code] for code in _codes(text)) * size / 1000.0


def _word(text, font, size, place, clip):
    long = _long(text, font, size)
    corners = _at(np.array([(0.0, DROP * size), (long, DROP * size), (long, RISE * size),
                            (0.0, RISE * size)]), place)
    scale = float(np.sqrt(abs(np.linalg.det(place[:2, :2]))))
    told = "".join(font[0].get(code, "?") for code in _codes(text))
    return Word(told, scale * size, Polygon(corners), clip)


def _matrix(values):
    a, b, c, d, e, f = map(float, values)
    return np.array([[a, b, 0.0], [c, d, 0.0], [e, f, 1.0]])


def _at(points, matrix):
    return (np.column_stack([points, np.ones(len(points))]) @ matrix)[:, :2]
