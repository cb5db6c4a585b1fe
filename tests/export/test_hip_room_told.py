"""The room beside the hips: the same sum, to the millimetre, on every paper that tells of it."""

import re

import numpy as np
import pytest
from pdf_reading import words_of

from sizer.export.customer import customer_pdf
from sizer.export.feet import COVER, ground
from sizer.export.pages import sheets_pdf
from sizer.export.plan_outfit import outfit_sheet
from sizer.export.plans import plans_pdf
from sizer.export.read_me import read_me
from sizer.export.tiles import USUAL_PAPER
from sizer.shop.hip_pads import beside_hips
from sizer.shop.parts import boat_parts
from sizer.shop.spacers import face_m, leaning_at

SUM = re.compile(
    r"eside the hips (\d+) mm \([^)]*\) a side, level, where the hips are widest, "
    r"half-way along the boards, from the bare spacer to the undressed body: (\d+) mm "
    r"\([^)]*\) clothing and room to roll, (\d+) mm "
    r"\([^)]*\) board \((\d+) mm \([^)]*\) thick\) and foam \(at most (\d+) mm \([^)]*\) "
    r"thick\), which lean, (\d+) mm \([^)]*\) free")
BASES = ["day-boat", "teaching-boat", "small-cruiser"]


@pytest.fixture(scope="module", params=BASES)
def job(request, middle_job):
    return middle_job(request.param)


def _read(pdf):
    return words_of(pdf)


@pytest.fixture(scope="module")
def plans(job, bench):
    """The words of the plan set; of the sheet that tells of it alone, but for the first of them."""
    if job.request.trip.base == BASES[0]:
        return _read(plans_pdf(job, bench))
    sheet = outfit_sheet(ground(job, USUAL_PAPER, COVER), bench, boat_parts(job, bench))
    return _read(sheets_pdf(sheet.title, [sheet], job.imprint))


def test_read_me_and_plans_tell_one_sum_that_closes(job, bench, plans):
    papers = " ".join(read_me(job, bench, ()).split()), plans
    told = [SUM.findall(paper) for paper in papers]
    assert [len(one) for one in told] == [1, 1]
    assert "undressed body" not in _read(customer_pdf(job, bench))  # with a rule: a body measure
    assert len({one[0] for one in told}) == 1
    bare, clothing, leaning, board, foam, free = map(int, told[0][0])
    assert abs(bare - clothing - leaning - free) <= 1
    assert free == 3
    lean = np.cos(np.radians(bench.hip_pads.lean_deg))
    assert leaning == pytest.approx((board + foam) / lean, abs=1.1)
    side, = re.findall(r"(\d+) mm \([^)]*\) each side of the hips", papers[0])
    assert abs(int(side) - leaning - free) <= 1


def test_the_sum_is_what_lies_between_bare_spacer_and_body(job, bench, plans):
    frames = {one.name: one for one in bench.frames}
    spacer = beside_hips(job.fitted.assessed.boat, frames, bench.spacers)
    pads = bench.hip_pads
    leaning = leaning_at(spacer, frames, 0.5 * (pads.fore_x_m + pads.aft_x_m))
    half_m = face_m(leaning, job.fitted.assessed.boat.seat_z_m + 0.100, 0.5 * spacer.thickness_m)
    bare = 1000.0 * (half_m - 0.5 * job.person.body.hip_sitting.value_m)
    told, = SUM.findall(plans)
    assert int(told[0]) == pytest.approx(bare, abs=0.6)
    assert int(told[1]) == 12
