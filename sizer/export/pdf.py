"""Patterns as PDF at true size, one large page a drawing.

Every page carries a 100 mm bar to measure, the imprint and the cautions.
"""


from reportlab.lib.units import mm

from sizer.drawing.true_size import LARGE_BAR
from sizer.export.pdf_canvas import cautions_text, draw, paragraph, scale_bar, write
from sizer.export.pdf_head import finished, head_mm, new_canvas, write_head
from sizer.units import MM_PER_M

MARGIN_MM = 8.0  # that most printers can leave white; our drawing
PAD_MM = 3.0  # round a drawing
FOOT_PT, NOTES_PT = 9.0, 10.0
BAR_ROOM_MM = 7.0
LEAST_PAGE_MM = 260.0  # width of a large page, for the bar and the words


def sheet_pdf(title, drawings, imprint):
    """Each Drawing on one page as large as it needs, at true size, the title on every page; bytes,
    the same for the same content."""
    canvas, stream = new_canvas(title, imprint)
    for drawing in drawings:
        _large_page(canvas, title, drawing, imprint)
    return finished(canvas, stream)


def _large_page(canvas, title, drawing, imprint):
    width = max(drawing.width_m * MM_PER_M + 2.0 * (MARGIN_MM + PAD_MM), LEAST_PAGE_MM)
    inner = width - 2.0 * MARGIN_MM
    notes, notes_mm = paragraph(drawing.notes, NOTES_PT, inner)
    foot, foot_mm = paragraph([cautions_text(imprint.cautions)], FOOT_PT, inner)
    below = MARGIN_MM + foot_mm + BAR_ROOM_MM + notes_mm + 2.0 * PAD_MM
    head = f"{title}: {drawing.name}, true size"
    height = (below + drawing.height_m * MM_PER_M + head_mm(head, imprint, inner) + 2.0 * PAD_MM
              + MARGIN_MM)
    canvas.setPageSize((width * mm, height * mm))
    write_head(canvas, head, imprint, (width, height), MARGIN_MM)
    left, bottom = (MM_PER_M * side for side in drawing.box_m[:2])
    middle = (width - drawing.width_m * MM_PER_M) / 2.0
    draw(canvas, drawing, (middle - left, below - bottom))
    write(canvas, notes, MARGIN_MM, MARGIN_MM + foot_mm + BAR_ROOM_MM + notes_mm + PAD_MM,
          NOTES_PT)
    scale_bar(canvas, MARGIN_MM, MARGIN_MM + foot_mm + 3.0, FOOT_PT, LARGE_BAR)
    write(canvas, foot, MARGIN_MM, MARGIN_MM + foot_mm, FOOT_PT)
    canvas.showPage()
