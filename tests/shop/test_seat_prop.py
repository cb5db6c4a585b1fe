"""The block under the keel while somebody sits in the frame on its strongback."""

import io
import re

import pytest
from pypdf import PdfReader

from sizer.export.plan_work import told_figures
from sizer.export.plans import plans_pdf
from sizer.shop.seat_prop import prop_words, seat_prop
from sizer.shop.work import filled
from sizer.units import MM_PER_M
from tests.conftest import BASE_NAMES

FOOT_M = 0.10  # of a riser from its frame's mark, and a hand's room


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def told(job, bench):
    return {step.key: step.do for step in filled(told_figures(job, bench))}


def test_the_block_stands_between_the_frames_beside_the_bones_as_high_as_the_keel_is(job):
    """The keel lies in one fair sweep: between two stations it sags under their straight line by no
    more than the bottom is rounded there."""
    boat, up = job.fitted.assessed.boat, job.setting_up
    prop = seat_prop(boat)
    if boat.design.seat.kind != "panel":
        assert prop is None
        return
    names = [one.name for one in up.stations]
    fore, aft = (up.stations[names.index(name)] for name in (prop.fore_frame, prop.aft_frame))
    assert names.index(aft.name) == names.index(fore.name) + 1
    assert fore.strongback_m + FOOT_M < prop.tape_m < aft.strongback_m - FOOT_M
    bones = boat.seat_x_m - 0.100 - up.strongback_start_x_m
    assert prop.tape_m == pytest.approx(bones)
    share = (prop.tape_m - fore.strongback_m) / (aft.strongback_m - fore.strongback_m)
    straight = (1.0 - share) * fore.keel_height_m + share * aft.keel_height_m
    assert straight - 0.004 < prop.high_m < straight + 0.0005


def test_the_step_of_the_dry_trial_tells_it_and_only_where_the_keel_bears(job, middle_bench):
    boat = job.fitted.assessed.boat
    step = told(job, middle_bench(job.request.trip.base))["sit"]
    prop = seat_prop(boat)
    if prop is None:
        assert "wedge" not in step
        return
    assert prop_words(boat) in step
    tape, high = re.search(r"at tape (\d+) mm .*?, wedge a block on the strongback, (\d+) mm",
                           step).groups()
    assert (float(tape), float(high)) == pytest.approx(
        (prop.tape_m * MM_PER_M, prop.high_m * MM_PER_M), abs=0.51)


def test_the_seat_tells_how_often_it_bears_its_paddler(job, middle_bench):
    seat, check = middle_bench(job.request.trip.base).seat, job.fitted.check("seat-bears")
    said = next(one for one in seat.says if "sitting down hard" in one)
    times, wanted, most = map(float, re.findall(r"\d\.\d+", said))
    assert (times, wanted, most) == pytest.approx(
        (check.value, check.window[1], check.window[0]), abs=0.0051)
    assert all(name in said for name in (
        ("slats",) if seat.kind == "slats" else seat.stands_on))


@pytest.mark.parametrize(("base", "propped"), [("surf-runner", True), ("steady-boat", False)])
def test_the_footbrace_is_pushed_over_the_same_block(base, propped, middle_job, middle_bench):
    job = middle_job(base)
    sheets = PdfReader(io.BytesIO(plans_pdf(job, middle_bench(base))))
    text = " ".join(" ".join(page.extract_text() for page in sheets.pages).split())
    assert "Push with all your weight once its glue has cured, before the skin is on" in text
    assert ("on the strongback with the keel's block at tape" in text) == propped
