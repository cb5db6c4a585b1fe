"""A list of a document's sheets with the pages they turn out to be on."""

from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Flowable

from sizer.export.pdf_canvas import FACE, LEADING


class SheetPages(Flowable):
    """A list of sheets with the pages they turn out to be on (reportlab asks for a class)."""

    def __init__(self, numbered, width_mm, size_pt, columns=3):
        super().__init__()
        self.numbered, self.size_pt, self.columns = tuple(numbered), size_pt, columns
        self.width = width_mm * mm
        self.height = LEADING * size_pt * -(-len(self.numbered) // columns)

    def wrap(self, _width, _height):
        """What room it takes, in points."""
        return self.width, self.height

    def draw(self):
        """Writes titles column by column; the canvas adds the pages when all are known."""
        in_one = -(-len(self.numbered) // self.columns)
        left, low = self.canv.absolutePosition(0.0, 0.0)
        for place, (number, title) in enumerate(self.numbered):
            across = place // in_one * self.width / self.columns
            up = self.height - (place % in_one + 0.8) * LEADING * self.size_pt
            told = f"{number} {title}, page "
            self.canv.setFont(FACE, self.size_pt)
            self.canv.drawString(across, up, told)
            self.canv.pages_at.append((left + across + stringWidth(told, FACE, self.size_pt),
                                       low + up, self.size_pt, number))
