"""Reads lines, windows and words back from a PDF page, in mm from its lower left corner."""

import io
import re
from collections import namedtuple
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np
from pypdf import PdfReader

MM_PER_PT = 25.4 / 72.0
LARGE_PT = 40.0  # letters of 14 mm, which are stamped across a page
CUT_PT = 0.35 / MM_PER_PT  # what saw lines are drawn with
DRAWN = re.compile(rb"(?m)^n (?!.* W).*$")  # a path, on a line of its own, but for windows
LINE = re.compile(rb"(?m)^n( [-.\d]+ [-.\d]+ m(?: [-.\d]+ [-.\d]+ l)*)( h)?$")  # one polyline
ESCAPED = re.compile(rb"\\([0-7]{1,3}|.)", re.S)
CONTROLS = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}
TOKEN = re.compile(rb"\((?:\\.|[^\\()])*\)|<\w*>|[][]|[^][\s()<>]+", re.S)
PAINTED = (b"S", b"s", b"n", b"f", b"f*", b"B", b"B*", b"b", b"b*")  # what ends a path


@dataclass
class Drawn:
    """What one page draws."""

    size_mm: tuple
    paths: list = field(default_factory=list)  # (points, closed, line width in pt, window or None)
    words: list = field(default_factory=list)  # (text, x, y)
    sizes: list = field(default_factory=list)  # of the letters of each, in pt
    text: str = ""  # as `one_line`

    def word_at(self, pattern):
        return {text: np.array([x, y]) for text, x, y in self.words if pattern.fullmatch(text)}


# A string as a page shows it: its letters; its Font and size in points; where it begins, by two
# matrices of six numbers; the window it is shown through; whether it goes on the one before it
Shown = namedtuple("Shown", "text font size tm cm window follows long_pt")
Font = namedtuple("Font", "name letters widths")  # by code; widths in thousandths of the size
_FONTS = {}  # by id: the object that it was read of, its Font


def shown(page):
    """Every Shown string of a page in the order of its contents."""
    fonts = {name: one.get_object() for name, one in page["/Resources"]["/Font"].items()}
    data = DRAWN.sub(b"", page.get_contents().get_data())
    here = line = place = 1.0, 0.0, 0.0, 1.0, 0.0, 0.0
    window, stack, rect, follows, font, size, leading = None, [], None, False, None, 0.0, 0.0
    for operands, operator in operations(data):
        if operator == b"Tj":
            codes = _string(operands[0])
            long = sum(map(font.widths.get, codes)) * size / 1000.0
            yield Shown("".join(map(font.letters.get, codes)), font, size, place, here, window,
                        follows, long)
            place, follows = times((1.0, 0.0, 0.0, 1.0, long, 0.0), place), True
        elif operator == b"q":
            stack.append((here, window))
        elif operator == b"Q":
            here, window = stack.pop()
        elif operator == b"cm":
            here = times(tuple(map(float, operands)), here)
        elif operator == b"re":
            x, y, across, up = map(float, operands)
            rect = _on((x, y), here) + _on((x + across, y + up), here)
        elif operator in (b"W", b"W*"):
            window = rect
        elif operator in (b"BT", b"Tm", b"Td", b"T*"):
            line = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0) if operator == b"BT" else times(
                (1.0, 0.0, 0.0, 1.0, 0.0, -leading), line) if operator == b"T*" else times(
                (1.0, 0.0, 0.0, 1.0, *map(float, operands)), line) if operator == b"Td" else tuple(
                map(float, operands))
            place, follows = line, False
        elif operator == b"Tf":
            font, size = _font(fonts[operands[0].decode()]), float(operands[1])
        elif operator == b"TL":
            leading = float(operands[0])


def _font(found):
    """The Font of one of a file's; of one that is declared and not used none is asked for."""
    if id(found) not in _FONTS:
        if "/ToUnicode" not in found:
            return None
        table = found["/ToUnicode"].get_data().decode("latin-1")
        letters = {int(code, 16): chr(int(to, 16)) for code, to in re.findall(
            r"<(\w+)> <(\w+)>\s", table[table.index("beginbfchar"):])}
        widths = {code: float(one) for code, one in enumerate(
            found["/Widths"], start=int(found["/FirstChar"]))}
        _FONTS[id(found)] = found, Font(str(found["/BaseFont"]), letters, widths)
    return _FONTS[id(found)][1]


def _string(token):
    """The codes of a string as it stands in a page's contents."""
    if token[:1] == b"<":
        return bytes.fromhex(token[1:-1].decode())
    return token[1:-1] if b"\\" not in token else ESCAPED.sub(
        lambda found: bytes([int(found[1], 8)]) if found[1][:1].isdigit()
        else CONTROLS.get(found[1], found[1]), token[1:-1])


def times(one, other):
    """Two matrices of six numbers, the one that is applied first before the other."""
    a, b, c, d, e, f = one
    p, q, r, s, t, u = other
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t,
            e * q + f * s + u)


def _on(point, matrix):
    x, y = point
    a, b, c, d, e, f = matrix
    return x * a + y * c + e, x * b + y * d + f


def joined(strings):
    """What some Shown say in one line; each that goes on no other stands apart."""
    return " ".join("".join(one.text if one.follows else f"\n{one.text}"
                            for one in strings).split())


def one_line(page):
    """All words of a page in one line."""
    return joined(shown(page))


@lru_cache(maxsize=64)
def said_by_page(data):
    """(all words in one line, those of letters of LARGE_PT and more) of every page of a PDF."""
    pages = map(list, map(shown, PdfReader(io.BytesIO(data)).pages))
    return [(joined(page), {one.text.strip() for one in page if one.size > LARGE_PT})
            for page in pages]


def words_by_page(data):
    """All words of every page of a PDF, each page's in one line."""
    return [text for text, _ in said_by_page(data)]


def words_of(data):
    """The same of all its pages together."""
    return " ".join(words_by_page(data))


def read_page(page, words=True):
    """Its Drawn, without the words where they are not asked for."""
    box = page.mediabox
    drawn = Drawn((float(box.width) * MM_PER_PT, float(box.height) * MM_PER_PT))
    matrix, width, window, stack, current = np.eye(3), 1.0, None, [], []
    lines = []

    def kept(found):
        points = np.array(found[1].translate(None, b"ml").split(), float).reshape(-1, 2)
        lines.append(np.vstack([points, points[:1]]) if found[2] else points)
        return b"%d line" % (len(lines) - 1)

    for operands, operator in operations(LINE.sub(kept, page.get_contents().get_data())):
        if operator == b"q":
            stack.append((matrix, width, window))
        elif operator == b"Q":
            matrix, width, window = stack.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = map(float, operands)
            matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
        elif operator == b"w":
            width = float(operands[0])
        elif operator == b"line":
            current.append(lines[int(operands[0])])
        elif operator == b"m":
            current.append([_point(operands)])
        elif operator in (b"l", b"c"):
            current[-1].append(_point(operands[-2:]))
        elif operator == b"re":
            x, y, across, up = map(float, operands)
            current.append([(x, y), (x + across, y), (x + across, y + up), (x, y + up)])
        elif operator in (b"W", b"W*"):
            window = _at(current[-1], matrix)
        elif operator in PAINTED:
            drawn.paths += [(path, closed(path, operator), width, window)
                            for path in (_at(one, matrix) for one in current)
                            if operator != b"n"]
            current = []
        elif operator == b"h":
            current[-1].append(current[-1][0])
    if words:
        said = list(shown(page))
        for one in said:
            if one.text.strip():
                x, y = _on(one.tm[4:], one.cm)
                drawn.words.append((one.text.strip(), x * MM_PER_PT, y * MM_PER_PT))
                drawn.sizes.append(one.size)
        drawn.text = joined(said)
    return drawn


def operations(data):
    """(operands, operator) of a page's contents, as bytes: what pypdf finds too, in a quarter of
    the time."""
    given = []
    for token in TOKEN.findall(data):
        if token[:1] in b"([</-.0123456789":
            given.append(token)
        elif token != b"]":
            yield given, token
            given = []


def closed(path, operator):
    return operator in (b"s", b"b", b"b*") or (
        len(path) > 3 and bool(np.allclose(path[0], path[-1])))


def _point(operands):
    return tuple(map(float, operands))


def _at(points, matrix):
    return np.column_stack([points, np.ones(len(points))]) @ matrix[:, :2] * MM_PER_PT
