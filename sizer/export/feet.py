"""The foot of every page of a document: the danger in one line, and whether the boat passes.

The cautions stand whole once in the document; a page's foot says where.
"""

from dataclasses import replace

from sizer.export.pages import heading, sheets_pdf, whole, words

COVER, LAST = "on the cover", "at the end"
PASSES = {"pass": "This boat passes all its checks.",
          "caution": "This boat passes its checks with caution.",
          "fail": "THIS BOAT DOES NOT PASS ITS CHECKS: do not build it."}


def foot(job, where=COVER):
    """The words at the foot of a Job's pages, whose cautions stand whole at COVER or LAST."""
    return (f"CAUTION. Calculated, not a trial. {PASSES[job.fitted.status]} Read every caution "
            f"{where} before you cut, and again before you launch. Wear a fastened PFD (buoyancy "
            "aid), dress for the water, practise wet exits, float bags tied in at both ends.")


def alone(job, sheet, *between):
    """The PDF of a Sheet with its foot for LAST, by itself; after it its Job's cautions whole."""
    blocks = (*sheet.blocks, *between, *cautions_blocks(job))
    return sheets_pdf(sheet.title, [replace(sheet, blocks=blocks)], job.imprint)


def cautions_blocks(job):
    """Every caution of a Job, none divided over two pages."""
    return [*heading("Cautions: read before you cut, and again before you launch"),
            *(whole(words(f"- {caution}")) for caution in job.cautions)]
