"""The foot of every page of a document: the danger in one line, and whether the boat passes.

The cautions stand whole once in the document; a page's foot says where.
"""

from dataclasses import dataclass, replace
from functools import lru_cache, partial

from sizer.drawing.told import read
from sizer.export import pages
from sizer.export.tiles import PAPERS_MM, USUAL_PAPER, unit_read
from sizer.job import Job

MADE_BY = f"These papers made by (name, how to reach them): {36 * '_'}"  # filled in by hand
CAUTIONS_PT = (pages.BODY_PT, 9.5, 9.0, 8.5, 8.0)  # of their letters, tried in order; our drawing
COVER, LAST = "on the cover", "at the end"
BOTH_TIMES = "before you cut, and again before you launch"
PASSES = {"pass": "This boat passes all its checks.",
          "caution": "This boat passes its checks with caution.",
          "fail": "THIS BOAT DOES NOT PASS ITS CHECKS: do not build it."}


def foot(job, where=COVER, when=BOTH_TIMES):
    """The words at the foot of a Job's pages, whose cautions stand whole at COVER or LAST and are
    read then."""
    return (f"CAUTION. Calculated, not a trial. {PASSES[job.status]} Read every caution "
            f"{where} {when}. Wear a fastened PFD (buoyancy "
            "aid), dress for the water, practise wet exits, float bags tied in at both ends.")


@dataclass(frozen=True, eq=False)
class Ground:
    """What a Job's sheets on pages of one size stand on."""

    job: Job
    size_mm: tuple[float, float]  # width, height of a page
    foot: str
    what: str = ""  # that a sheet is

    @property
    def boat(self):
        return self.job.fitted.assessed.boat

    @property
    def title(self):
        """A sheet's, with the boat's name."""
        return f"{self.what}: {self.boat.design.name}"

    @property
    def paper(self):
        """Which of PAPERS_MM its pages are, upright or lying."""
        return next((name for name, sides in PAPERS_MM.items()
                     if sorted(sides) == sorted(self.size_mm)), USUAL_PAPER)

    @property
    def inner_mm(self):
        """Width between the margins."""
        return self.size_mm[0] - 2.0 * pages.MARGIN_MM

    @property
    def room_mm(self):
        """Width and height between head and foot."""
        return pages.room_mm(self.title, self.foot, self.size_mm, self.job.imprint)

    def pictured(self, scene, *given, share=1.0, less_mm=0.0, **more):
        """As `scaled_picture`, of a scene with what it is given before its letters' height, in the
        width of a page and that share of its height, less so many mm."""
        width, height = self.room_mm
        return self.scaled(partial(_drawn, scene, *given),
                           (width - 1.0, share * height - less_mm), **more)

    @property
    def unit(self):
        """What its readers measure in."""
        return unit_read(self.size_mm)

    def read(self, text):
        return read(text, self.unit)

    def scaled(self, drawn, room, *how, **more):
        return pages.scaled_picture(lambda letters: drawn(letters).read(self.unit), room, *how,
                                    **more)

    def titled(self, what):
        return replace(self, what=what)

    def sheet(self, *blocks):
        return pages.Sheet(self.title, blocks, self.size_mm, self.foot)


@lru_cache(maxsize=192)  # a job's, at the scales tried, for pages of every size
def _drawn(scene, *given):
    return scene(*given)


def on_one_page(job, spare_mm, sheets):
    """The first of some Sheets that goes on one page and leaves so much of it, else the last."""
    for sheet in sheets:
        width, height = pages.room_mm(sheet.title, sheet.foot, sheet.size_mm, job.imprint)
        if pages.height_mm(sheet.blocks, width) + spare_mm <= height:
            break
    return sheet


def ground(job, paper, where=LAST, lying=False, when=BOTH_TIMES):
    """The Ground of one of PAPERS_MM, upright or lying; cautions stand whole at COVER or LAST."""
    return Ground(job, PAPERS_MM[paper][::-1 if lying else 1], foot(job, where, when))


def alone(job, sheet, *between, when=BOTH_TIMES, cautions=None):
    """The PDF of a Sheet by itself, its foot that of LAST; after it its Job's cautions whole, or
    those given, in letters of the first of CAUTIONS_PT that leave them on one page."""
    blocks_of = partial(cautions_blocks, cautions or job.cautions, when=when)
    width, height = pages.room_mm(sheet.title, sheet.foot, sheet.size_mm, job.imprint)
    said = next((some for some in map(blocks_of, CAUTIONS_PT)
                 if pages.height_mm(some, width) <= height), blocks_of())
    blocks = (*sheet.blocks, *between, *said)
    return pages.sheets_pdf(sheet.title, [replace(sheet, blocks=blocks)], job.imprint)


def cautions_blocks(cautions, size_pt=pages.BODY_PT, when=BOTH_TIMES):
    """Cautions, to be read then, none divided over two pages."""
    return [*pages.heading(f"Cautions: read {when}"),
            *(pages.undivided(f"- {caution}", size_pt) for caution in cautions)]
