"""Pages of words, tables and scaled drawings as PDF; every page has its head and its cautions."""

import io
from bisect import bisect_left
from dataclasses import dataclass
from functools import cache, lru_cache

from reportlab.lib.colors import black, lightgrey
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.platypus import (
    BaseDocTemplate,
    CondPageBreak,
    Flowable,
    Frame,
    KeepTogether,
    NextPageTemplate,
    PageBreak,
    PageTemplate,
    Paragraph,
    Spacer,
    Table,
)

from sizer.export.pdf_canvas import BOLD, FACE, draw, paragraph, register_faces, write
from sizer.export.pdf_head import NumberedCanvas, head_mm, titled, write_head
from sizer.export.tiles import PAPERS_MM
from sizer.units import MM_PER_M, unbroken

MARGIN_MM = 12.0
INNER_MM = min(wide for wide, _ in PAPERS_MM.values()) - 2.0 * MARGIN_MM  # of either paper
UNDER_HEADING_MM = 28.0  # room with the heading, or it moves on; our drawing
OVER_FOOT_MM = 2.5
AIR_MM = 1.5  # under a picture whose lowest line words would stand on; our drawing
MOST_KEPT = 8192  # paragraphs and their lines: a package's
HIGH_PT = 1e6  # room without end, to ask a block for its height
INSET_PT = 6.0  # that reportlab leaves inside its margins
FOOT_PT, BODY_PT, TABLE_PT = 7.5, 10.0, 9.5
LETTERS_MM = 2.2  # of words and figures in a drawing, on paper; our drawing
# One to so many; what a rule divides by: of whole boats, and of pieces.
SCALES = (8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100)
CLOSE_SCALES = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40)


class Picture(Flowable):
    """A Drawing at a scale, as a block among words (reportlab asks for a class)."""

    def __init__(self, drawing, scale):
        super().__init__()
        self.drawing, self.scale = drawing, scale
        self.width = drawing.width_m * scale * MM_PER_M * mm
        self.height = drawing.height_m * scale * MM_PER_M * mm

    def wrap(self, _width, _height):
        """What room it takes, in points."""
        return self.width, self.height

    def draw(self):
        left, bottom, _, _ = self.drawing.box_m
        draw(self.canv, self.drawing, (-left * self.scale * MM_PER_M,
                                       -bottom * self.scale * MM_PER_M), self.scale)


class _Words(Paragraph):
    """A paragraph that is broken anew only for another width, however often a table asks (reportlab
    asks for a class)."""

    def wrap(self, width, height):
        """What room it takes, in points."""
        if getattr(self, "asked", None) != width or not hasattr(self, "blPara"):
            self.asked, self.taken = width, super().wrap(width, height)
        return self.taken

    def breakLines(self, width):  # noqa: N802, reportlab's name
        """Its lines: those of all paragraphs of the same words in the same letters."""
        alike = getattr(self, "alike", None)
        return super().breakLines(width) if alike is None else _broken(tuple(width), *alike)

    def split(self, width, height):
        """What of it goes on this page and what on the next; nothing, where it is undivided."""
        return super().split(width, height) if getattr(self, "divided", True) else []


@dataclass(frozen=True, eq=False)
class Sheet:
    """What belongs together on pages of one size under one title."""

    title: str
    blocks: tuple  # made by `words`, `heading`, `table` and `Picture`
    size_mm: tuple[float, float]  # width, height of a page
    foot: str  # at the foot of every page
    number: int | None = None  # among its document's sheets, where they are numbered


def document(title, blocks, foot, size_mm, imprint):
    """The PDF of some blocks; parameters as in `Sheet`, returns as `sheets_pdf`."""
    return sheets_pdf(title, [Sheet(title, tuple(blocks), size_mm, foot)], imprint)


def sheets_pdf(title, sheets, imprint):
    """The PDF of some Sheets, each beginning on a new page, an Imprint on each; bytes, the same for
    the same content. The title is that of the document's properties."""
    register_faces()
    templates = [_template(str(number), sheet, imprint) for number, sheet in enumerate(sheets)]
    stream = io.BytesIO()
    laid = BaseDocTemplate(stream, title=titled(title, imprint), invariant=1, pageCompression=1,
                           pageTemplates=templates)
    blocks = list(sheets[0].blocks)
    for number, sheet in enumerate(sheets[1:], start=1):
        blocks += [NextPageTemplate(str(number)), PageBreak(), *sheet.blocks]
    laid.build(blocks, canvasmaker=NumberedCanvas)
    return stream.getvalue()


def _template(key, sheet, imprint):
    """How the pages of a Sheet look round its blocks."""
    (width, height), inner = sheet.size_mm, sheet.size_mm[0] - 2.0 * MARGIN_MM
    rows, foot_mm = paragraph([sheet.foot], FOOT_PT, inner)
    low = (MARGIN_MM + foot_mm + OVER_FOOT_MM) * mm - INSET_PT
    high = (height - MARGIN_MM - head_mm(sheet.title, imprint, inner)) * mm + INSET_PT

    def surround(canvas, _):
        canvas.sheet_number, canvas.pages_at = sheet.number, []
        write_head(canvas, sheet.title, imprint, sheet.size_mm, MARGIN_MM)
        write(canvas, rows, MARGIN_MM, MARGIN_MM + foot_mm, FOOT_PT)

    frame = Frame(MARGIN_MM * mm - INSET_PT, low, inner * mm + 2.0 * INSET_PT, high - low)
    return PageTemplate(key, [frame], onPage=surround, pagesize=(width * mm, height * mm))


def room_mm(title, foot, size_mm, imprint):
    """Width and height between head and foot of a page, as `document` lays it."""
    register_faces()
    inner = size_mm[0] - 2.0 * MARGIN_MM
    _, foot_mm = paragraph([foot], FOOT_PT, inner)
    return inner, (size_mm[1] - 2.0 * MARGIN_MM - head_mm(title, imprint, inner) - foot_mm
                   - OVER_FOOT_MM)


def height_mm(blocks, width_mm):
    """What some blocks take of a page, one under the other."""
    return sum(block.wrap(width_mm * mm, HIGH_PT)[1] + block.getSpaceBefore()
               + block.getSpaceAfter() for block in blocks) / mm


def whole(*blocks):
    """The same blocks as one, never divided over two pages."""
    return KeepTogether(list(blocks))


def air(high_mm=AIR_MM):
    return Spacer(0.0, high_mm * mm)


def words(text, size_pt=BODY_PT, face=FACE):
    return _plain(text, face, size_pt, 1.3 * size_pt, 0.0, 0.35 * size_pt)


def led(lead, text, size_pt=BODY_PT):
    """A paragraph that begins with its subject, bold."""
    made = words(f"{lead}: {text}", size_pt)
    _, bold = _style(BOLD, size_pt, 1.3 * size_pt, 0.0, 0.35 * size_pt)
    plain, = made.frags
    return _Words(None, made.style, frags=[bold.clone(text=f"{unbroken(lead)}: "),
                                           plain.clone(text=unbroken(text))])


def undivided(text, size_pt=BODY_PT):
    """A paragraph that no page parts, and that is measured as one."""
    made = words(text, size_pt)
    made.divided = False
    return made


def heading(text, under_mm=UNDER_HEADING_MM):
    """A line over what follows, on the next page where only little of that would stand below it."""
    return [CondPageBreak(under_mm * mm), _plain(text, BOLD, 12.0, 16.0, 8.0, 3.0)]


def _plain(text, *styled):
    """A paragraph of letters as they are, with no markup in them; `styled` as in `_style`."""
    style, letters = _letters(text, *styled)
    made = _Words(None, style, frags=list(letters))
    made.alike = text, *styled
    return made


@lru_cache(maxsize=MOST_KEPT)
def _letters(text, *styled):
    style, letters = _style(*styled)
    return style, ((letters.clone(text=unbroken(text)),) if text else ())


@lru_cache(maxsize=MOST_KEPT)
def _broken(widths, *alike):
    """Lines of a paragraph, kept: sheets are tried in many sizes, and most words come again on the
    other paper and in other documents."""
    style, letters = _letters(*alike)
    return Paragraph(None, style, frags=list(letters)).breakLines(list(widths))


@cache
def _style(face, size_pt, leading_pt, before_pt, after_pt):
    """A style and letters in it, kept: to read it anew takes longer than to set a cell."""
    register_faces()
    style = ParagraphStyle("words", fontName=face, fontSize=size_pt, leading=leading_pt,
                           spaceBefore=before_pt, spaceAfter=after_pt)
    return style, Paragraph("letters", style).frags[0]


def table(header, rows, shares, width_mm, size_pt=TABLE_PT, pad_pt=1.0, together=(), right_pt=2.0):
    """A ruled table, its header repeated on every page.

    Parameters
    ----------
    shares : of the width, one a column
    pad_pt : over and under the letters; more where a hand is to write, each cell ruled round then
    right_pt : at the right of each column; more where a column of words stands beside another
    together : (first, last) rows that no page parts, a heavier rule under each such lot"""
    cells = [[words(text, size_pt, BOLD) for text in header]]
    cells += [[words(text, size_pt) for text in row] for row in rows]
    return Table(cells, colWidths=[share / sum(shares) * width_mm * mm for share in shares],
                 repeatRows=1, style=[
                     ("LINEBELOW", (0, 0), (-1, -1), 0.4, black),
                     ("BACKGROUND", (0, 0), (-1, 0), lightgrey),
                     ("VALIGN", (0, 0), (-1, -1), "TOP"),
                     *([("GRID", (0, 0), (-1, -1), 0.4, black)] if pad_pt > 1.0 else ()),
                     *(("NOSPLIT", (0, first + 1), (-1, last + 1)) for first, last in together),
                     *(("LINEBELOW", (0, last + 1), (-1, last + 1), 1.2, black)
                       for _, last in together),
                     *((f"{side}PADDING", (0, 0), (-1, -1), pad) for side, pad in (
                         ("LEFT", 2.0), ("RIGHT", right_pt), ("TOP", pad_pt),
                         ("BOTTOM", pad_pt + 0.2)))])


def beside(left, right, left_mm, width_mm):
    """Two blocks side by side, tops level, the left one's column so wide of the whole."""
    return Table([[left, right]], colWidths=[left_mm * mm, (width_mm - left_mm) * mm], style=[
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        *((f"{side}PADDING", (0, 0), (-1, -1), 0.0)
          for side in ("LEFT", "RIGHT", "TOP", "BOTTOM"))])


def scaled_picture(drawn, room_mm, letters_mm=LETTERS_MM, scales=CLOSE_SCALES):
    """(one to so many, Picture) at the first scale that goes into a room, (width, height), or the
    last. `drawn` gives the Drawing by the letters' height in the metres of what is drawn; scales
    come the largest drawing first, and what goes in at one goes in at all after it."""
    found = {}

    def goes_in(one_to):
        drawing = found[one_to] = drawn(letters_mm / MM_PER_M / (1.0 / one_to))
        return (drawing.width_m / one_to * MM_PER_M <= room_mm[0]
                and drawing.height_m / one_to * MM_PER_M <= room_mm[1])

    one_to = scales[bisect_left(scales, True, hi=len(scales) - 1, key=goes_in)]
    if one_to not in found:
        goes_in(one_to)
    return one_to, Picture(found[one_to], 1.0 / one_to)
