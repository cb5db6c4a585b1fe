"""The plan set as one PDF: what a stranger builds the boat from."""

from dataclasses import replace

from sizer.export.feet import COVER, ground, on_one_page
from sizer.export.pages import sheets_pdf
from sizer.export.plan_build import coaming_sheet, skin_sheet
from sizer.export.plan_cover import cover
from sizer.export.plan_lashing import lashing_sheet
from sizer.export.plan_lists import buying_sheet, construction_sheet, parts_sheet
from sizer.export.plan_outfit import outfit_sheet
from sizer.export.plan_shape import lines_sheet, pieces_sheet
from sizer.export.plan_water import bags_sheet
from sizer.export.plan_work import WORK, work_sheet
from sizer.export.seat_sheet import DETAIL_LEAST_MM, DETAIL_MM, DETAIL_SMALL_MM, TEXT_PT, seat_sheet
from sizer.export.setting_up_sheet import setting_up_sheet
from sizer.export.stick_cards import sticks_sheet
from sizer.export.tiles import USUAL_PAPER
from sizer.shop.parts import boat_parts

# Of its picture and of its section drawn large, and letters: the first that leave one page
SEAT_MM = (*((high, DETAIL_MM[1], TEXT_PT) for high in (75.0, 62.0, 50.0)),
           *((high, DETAIL_SMALL_MM, TEXT_PT) for high in (50.0, 42.0, 36.0, 31.0)),
           *((31.0, DETAIL_SMALL_MM, text_pt) for text_pt in (8.2, 8.0)),
           *((31.0, DETAIL_LEAST_MM, text_pt) for text_pt in (8.0, 7.8, 7.6)),
           *((high, DETAIL_LEAST_MM, 7.6) for high in (26.0, 21.0)),
           (21.0, 24.0, 7.6), (21.0, 24.0, 7.3))
# Of a page, the coaming's form and section: as the bags' below
COAMING_SHARES = ((0.39, 0.26), (0.36, 0.26), (0.33, 0.24), (0.30, 0.22), (0.27, 0.20))
# Of a page, the bags' two pictures; where the smaller leave too little too, the words go on over.
BAGS_SHARES = ((0.36, 0.21), (0.30, 0.18), (0.26, 0.18), (0.26, 0.15), (0.24, 0.12), (0.22, 0.10),
               (0.44, 0.30))
SPARE_MM = 4.0  # that must be left of a page, for what blocks keep round them


def plans_pdf(job, bench, paper=USUAL_PAPER):
    """The plan set of a Job and its Bench on one of PAPERS_MM; bytes, the same for the same job."""
    parts = boat_parts(job, bench)
    upright, lying = (ground(job, paper, COVER, turned) for turned in (False, True))
    numbers = {one.name: one.number for one in parts}
    inside = [
        lines_sheet(lying),
        construction_sheet(lying, bench, parts),
        parts_sheet(upright, parts),
        setting_up_sheet(lying, bench),
        pieces_sheet(upright, bench, numbers),
        sticks_sheet(upright, bench, numbers),
        one_coaming(upright, bench),
        one_seat(upright, bench),
        outfit_sheet(upright, bench, parts),
        on_one_page(job, SPARE_MM, (bags_sheet(lying, bench, one) for one in BAGS_SHARES)),
        lashing_sheet(upright, bench),
        skin_sheet(upright, bench),
        buying_sheet(upright, bench),
    ]
    titles = [sheet.title.split(":")[0] for sheet in inside]
    titles.insert(-1, WORK)
    numbered = list(enumerate(titles, start=2))
    inside.insert(-1, work_sheet(upright, bench))
    sheets = [cover(upright, bench, numbered), *inside]
    return sheets_pdf(sheets[0].title, [replace(sheet, number=number)
                              for number, sheet in enumerate(sheets, start=1)], job.imprint)


def one_coaming(on, bench):
    """The coaming's Sheet with pictures as large as leave it on one page."""
    return on_one_page(on.job, SPARE_MM, (coaming_sheet(on, bench, one) for one in COAMING_SHARES))


def one_seat(on, bench):
    """The seat's Sheet with pictures and words as large as leave it on one page."""
    return on_one_page(on.job, SPARE_MM, (
        seat_sheet(on, bench, high, items=False, detail_mm=detail, text_pt=text_pt)
        for high, detail, text_pt in SEAT_MM))
