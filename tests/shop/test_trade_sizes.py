"""What is bought where things are sold by the inch, against printed tables of the trade, and that
it is the safe one."""

import re
from fractions import Fraction

import pytest

from sizer.export.plan_work import told_figures
from sizer.shop.bag_ties import RING_MM
from sizer.shop.items import BORED_MM, OUTFIT_SCREW_MM
from sizer.shop.lashing import HOLE_M
from sizer.shop.outfit import PIN_M
from sizer.shop.pedals import BOLT_HOLE_M, BOLT_MM, MOST_DRAWN_M, SLOT_WIDE_M
from sizer.shop.risers import (
    CHEEK_SCREW_MM,
    FOOT_M,
    FOOT_SCREW_MM,
    LEDGE_SCREW_MM,
    SOLD_SQUARE_M,
    SOLD_THICK_M,
    THICK_M,
)
from sizer.shop.said import both_range
from sizer.shop.sundries import FORM_M, SCREW_MM
from sizer.shop.trade_sizes import (
    bit_text,
    bolt_text,
    cord_text,
    fine_text,
    inside_text,
    screw_text,
    section_text,
    sold_as,
)
from sizer.shop.work import filled, steps

# Thickness of a wood screw by its gauge, in, as tables of hardware print it.
GAUGES_IN = {2: 0.086, 4: 0.112, 6: 0.138, 8: 0.164, 10: 0.190, 12: 0.216, 14: 0.242}
BOTH = re.compile(r"(\d+(?:\.\d+)?) mm \(([\d /]+) in\)")


def inches(text):
    return float(sum(Fraction(one) for one in text.split()))


@pytest.mark.parametrize(("size_mm", "told", "through_mm"), [
    (CHEEK_SCREW_MM, "4 x 50 (#8 x 2 in)", 1000 * (THICK_M + FOOT_M[0])),
    (LEDGE_SCREW_MM, "4 x 35 (#8 x 1 1/4 in)", 2000 * FORM_M),
    (FOOT_SCREW_MM, "5 x 80 (#10 x 3 in)", 2000 * FOOT_M[0]),
    ((OUTFIT_SCREW_MM, SCREW_MM), "3.5 x 20 (#6 x 3/4 in)", 24.0)])
def test_a_screw_is_as_thick_and_comes_out_of_nothing(size_mm, told, through_mm):
    """Of the gauges that are sold the nearest; both stay within the two boards they join."""
    assert screw_text(size_mm) == told
    gauge, long = re.search(r"#(\d+) x (.*) in", told).groups()
    nearest = min(GAUGES_IN.values(), key=lambda one: abs(25.4 * one - size_mm[0]))
    assert GAUGES_IN[int(gauge)] == nearest
    assert max(size_mm[1], 25.4 * inches(long)) < through_mm
    assert 25.4 * inches(long) > 0.85 * size_mm[1]


def test_screws_stay_within_the_stock_that_serves_instead():
    cheek, ledge = (max(size[1], 25.4 * inches(re.search(r"x ([\d /]+) in", screw_text(size))[1]))
                    for size in (CHEEK_SCREW_MM, LEDGE_SCREW_MM))
    assert cheek < 1000 * (SOLD_THICK_M + SOLD_SQUARE_M)
    assert ledge < 2000 * SOLD_THICK_M
    assert FOOT_SCREW_MM[1] > 2000 * SOLD_SQUARE_M  # which the sheet therefore shortens


def test_a_bolt_is_no_shorter_and_its_slot_no_tighter():
    told = bolt_text(BOLT_MM)
    assert told == "M6 x 35 (1/4-20 x 1 1/2 in)"
    assert BOLT_MM[1] <= 25.4 * 1.5
    assert bit_text(SLOT_WIDE_M) == "7 mm (9/32 in)"
    assert bit_text(BOLT_HOLE_M) == "6.5 mm (1/4 in)"
    for thick_mm in (BOLT_MM[0], 25.4 / 4):  # cut once, for either bolt
        assert thick_mm < 1000 * BOLT_HOLE_M < 1000 * SLOT_WIDE_M <= thick_mm + 1.0


def test_drills_cords_and_eyelets_are_the_nearest_that_are_sold():
    """By a table of fractions: 3/32 is 2.381 mm, 1/8 3.175, 5/32 3.969, 3/16 4.763, 1/4 6.350, 5/16
    7.938, 3/4 19.05, 1 5/8 41.28."""
    assert [bit_text(one / 1000) for one in sorted(BORED_MM.values())][-1] == "3 mm (1/8 in)"
    assert bit_text(0.0025) == "2.5 mm (3/32 in)"
    assert bit_text(HOLE_M) == "3.2 mm (1/8 in)"
    assert bit_text(PIN_M) == "8 mm (5/16 in)"
    assert bit_text(0.040) == "40 mm (1 5/8 in)"
    assert [cord_text(one) for one in (4, 5, 6)] == ["4 mm (5/32 in)", "5 mm (3/16 in)",
                                                     "6 mm (1/4 in)"]
    assert inside_text(8) == "8 mm (5/16 in)"
    assert inside_text(RING_MM) == "20 mm (3/4 in)"


def test_what_a_caliper_measures_is_never_over():
    assert fine_text(0.3) == "0.3 mm (0.011 in)"  # 0.0118
    assert fine_text(1.0, 1.2) == "1 to 1.2 mm (0.039 to 0.047 in)"  # 0.0394, 0.0472
    assert section_text(0.036, 0.016) == "36 x 16 mm (1.417 x 0.629 in)"  # 1.4173, 0.6299


@pytest.mark.parametrize(("mm", "named"), [
    (3, "1/8"), (4, "5/32"), (5, "3/16"), (6, "1/4"), (8, "5/16"), (9, "3/8"), (12, "1/2"),
    (15, "5/8"), (18, "3/4"), (25, "1")])
def test_plywood_goes_by_the_name_it_is_sold_under(mm, named):
    assert sold_as(mm / 1000) == f"{mm} mm ({named} in)"


@pytest.mark.parametrize("base", ["day-boat", "surf-runner", "load-carrier"])
def test_the_steps_bounds_are_no_looser_in_inches(base, middle_job, middle_bench):
    job, bench = middle_job(base), middle_bench(base)
    texts = [getattr(one, part) for one in filled(told_figures(job, bench))
             for part in ("do", "check", "danger", "why")]
    most = [found for text in texts for found in re.findall(
        rf"(?:within|at most|(?<!no )less than|round bar|the bar) {BOTH.pattern}", text)]
    least = [found for text in texts for found in re.findall(
        rf"(?:hand \(|seat |legs |undressed, ){BOTH.pattern}\)? (?:or more |clear|between)", text)]
    assert len(most) > 14
    assert len(least) >= (4 if bench.thigh else 2)
    for mm, told in most:
        assert 0.74 * float(mm) < 25.4 * inches(told) <= float(mm), (mm, told)
    for mm, told in least:
        assert float(mm) <= 25.4 * inches(told) < 1.26 * float(mm)
    bar = next(told for mm, told in most if mm == "25")
    assert 25.4 * inches(bar) > 1000 * MOST_DRAWN_M  # what is drawn passes the thinner bar too


def test_no_step_types_a_length_beside_its_other_unit():
    for step in steps():
        for text in (step.do, step.check, step.why, step.danger):
            assert not re.search(r"\d mm\b|\(\S+ in\)|\d\"", text), (step.key, text)


def test_a_range_whose_ends_are_one_mark_of_the_inch_tells_that_once():
    assert both_range(14, 14.3) == '14 to 14.3 mm (9/16")'
    assert both_range(8, 10) == '8 to 10 mm (5/16" to 13/32")'
