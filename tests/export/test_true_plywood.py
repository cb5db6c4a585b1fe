"""Plywood that is not as thick as it is sold: one verdict on screen and paper, slips refused."""


import pytest
from pdf_reading import words_by_page

from sizer.errors import BadInput
from sizer.export.setting_up_sheet import setting_up_pdf
from sizer.job import run
from sizer.shop.bench import bench_of
from sizer.shop.patterns import patterns_of
from sizer.shop.plywood import Plywood
from sizer.shop.settings import Shop, shop_of_table, without_slips

THICK = Shop(plywoods=(Plywood(0.012, 0.025),))  # no settings give it; only to make something fail


@pytest.fixture(scope="module")
def plain(middle_job):
    return middle_job("day-boat")


def test_a_job_is_judged_by_the_plywood_it_is_sawn_from(plain):
    assert plain.status != "fail"
    job = run(plain.request, plain.lines, shop=THICK)
    worst = [one.status for one in patterns_of(plain.fitted.assessed, THICK).checks]
    assert "fail" in worst
    assert (job.fitted.status, job.status) == ("fail", "fail")
    assert bench_of(job, THICK).checks[0] is job.patterns.checks[0]  # not worked out again


def test_a_job_of_other_plywood_is_judged_once_it_is_stamped_with_its_bench(plain):
    bench = bench_of(plain, THICK)
    job = plain.stamped(bench=bench)
    assert (job.fitted.status, job.status) == (plain.status, "fail")
    for text in words_by_page(setting_up_pdf(job, bench)):
        assert "DOES NOT PASS ITS CHECKS" in text
        assert "passes all its checks" not in text
        assert "all pass" not in text


@pytest.mark.parametrize(("slip", "allowed"), [("12 = 25", "9 to 13.8 mm"),
                                               ("18 = 12", "13.5 to 20.7 mm")])
def test_a_thickness_far_from_what_it_is_sold_as_is_a_slip(slip, allowed):
    nominal, true = map(float, slip.split(" = "))
    with pytest.raises(BadInput, match=f"plywood: {slip}: a true thickness of {allowed}"):
        without_slips(shop_of_table({"plywood": [{"nominal_mm": nominal, "true_mm": true}]}))
