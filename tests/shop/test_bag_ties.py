"""Where the float bags' nose lines turn, against the stems, the bags' room and the cord told."""

import io

import numpy as np
import pytest
from pypdf import PdfReader
from shapely.geometry import LineString

from sizer.export.customer import customer_pdf
from sizer.export.plan_work import told_figures
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hydro.ends import NOSE_WIDE_M, end_zones
from sizer.shop.said import both
from sizer.shop.stems import stem_patterns
from sizer.shop.stick_loops import NO_THICKER
from sizer.shop.work import filled
from tests.conftest import BASE_NAMES


@pytest.fixture(scope="module", params=[
    Scaling(), Scaling(length=0.9, beam=0.9, depth=0.9), Scaling(length=1.08, beam=1.1, depth=1.1)],
    ids=["as drawn", "small", "large"])
def scaled(lines, request):
    return scaled_boat(lines, request.param)


def test_a_nose_line_turns_between_the_stems_head_and_the_bags_nose(scaled):
    """Clear of the plywood and of the head's holes, where the gunwales spread, and so far ahead of
    what a bag is reckoned with that its knot and its folds have room."""
    zones = end_zones(scaled)
    for stem, zone in zip(stem_patterns(scaled), (zones.bow, zones.stern), strict=True):
        (inboard, low), (above, high) = stem.ring_m
        assert inboard == above
        assert low < high
        assert stem.wood.distance(LineString(stem.ring_m)) > 0.005
        gunwale = stem.beside[-1]
        held = [hole[0] for one in stem.lashings if gunwale.stringer in one.sticks
                for hole in one.holes]
        assert inboard > max(held) + 0.010
        x = inboard if stem.end == "bow" else scaled.length_m - inboard
        half = np.interp(x + np.array([-0.01, 0.01]), scaled.sections.x_m,
                         scaled.sections.y_m[:, scaled.sections.sheer])
        assert (half[1] > half[0]) == (stem.end == "bow")
        nose = zone.nose_x_m if stem.end == "bow" else scaled.length_m - zone.nose_x_m
        assert nose > inboard + 0.040


@pytest.mark.parametrize("base", ["day-boat", "load-carrier", "surf-runner"])
def test_a_bag_lead_and_gap_reach_from_the_ring_to_the_panel(base, middle_job, middle_bench):
    """The bag begins where the boat is as wide as its nose, what is left is line and gap; the list
    and the sheet tell the same."""
    job, bench = middle_job(base), middle_bench(base)
    boat = job.fitted.assessed.boat
    wide = 2.0 * boat.sections.y_m.max(axis=-1)
    for one in bench.bag_ties:
        assert one.lead_m + one.long_m + one.short_of_panel_m == pytest.approx(
            abs(one.panel_x_m - one.ring_x_m))
        ahead = one.ring_x_m + (one.lead_m if one.end == "bow" else -one.lead_m)
        assert np.interp(ahead, boat.sections.x_m, wide) == pytest.approx(NOSE_WIDE_M, abs=0.001)
        assert one.long_m < one.longest_m < one.long_m + one.lead_m
        item, = (item for item in bench.materials.items
                 if item.what == f"float bag, {one.end}, at least")
        assert item.quantity == one.litres
        assert item.allowance == f"{both(one.long_m)} long; valve on {both(0.3)} hose"


def test_air_goes_in_and_out_while_the_panels_are_laced(middle_job, middle_bench):
    step = next(one for one in filled(told_figures(middle_job("day-boat"),
                                                   middle_bench("day-boat"))) if one.key == "bags")
    assert "hose out through the lacing" in step.do
    assert step.do.index("while it is soft") < step.do.index("only then blown up")
    assert "valve end" not in step.check
    assert "by the hoses" in step.danger


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "surf-runner"])
def test_a_panels_eyelets_are_those_that_its_corners_and_step_ask_for(base, middle_bench):
    """One at every corner and every 100 mm between, counted along its printed edges; the loops in
    the cord told are one a stick and side."""
    for one in middle_bench(base).bag_ties:
        half = np.array(one.corners_m)
        ring = np.array([*half, *(half[::-1] * (-1.0, 1.0))])
        edges = np.hypot(*(np.roll(ring, -1, axis=0) - ring).T)
        edges = edges[edges > 1e-6]  # corners on the centre line stand twice
        assert one.eyelets == sum(1 + int((edge - 1e-6) // 0.1) for edge in edges)
        assert one.loops == 2 * len(one.points_m) - sum(y == 0.0 for y, _ in one.points_m)
        assert one.cord_m > 2.0 * edges.sum()
    bought = next(item.quantity for item in middle_bench(base).materials.items
                  if item.what.startswith("eyelet"))
    assert bought >= 1.15 * sum(one.eyelets for one in middle_bench(base).bag_ties)


@pytest.mark.parametrize("base", BASE_NAMES)
def test_nothing_thicker_than_a_lashing_crosses_a_stick_under_the_skin(base, middle_job,
                                                                       middle_bench):
    """Panels, gear and backband hang in loops of the lashings' cord, which is enough for the
    thickest stick, and each bears far more than what pulls at it."""
    job, bench = middle_job(base), middle_bench(base)
    bought = {item.what: item for item in bench.materials.items}
    loops = (sum(one.loops for one in bench.bag_ties) + 4 * len(bench.gear_ties))
    assert f"{loops + 2} lashings of loops" in bought["waxed cord"].allowance
    for stick in bench.sticks:
        round_m = 2.0 * (stick.stringer.width_m + stick.stringer.depth_m) + 0.02
        assert 6 * round_m + 0.3 < 1.3, "with its ends"
        if stick.stringer.role == "gunwale":
            assert 10 * round_m + 0.3 < 2.0
    for one in bench.bag_ties:
        assert 2.0 * one.litres * 1.03 / one.loops < 45.0, "twice, as not all draw alike"
        assert one.pulls_loop_kg == pytest.approx(1.03 * one.litres / one.loops)
    for one in bench.gear_ties:
        assert 2.0 * one.mass_kg / 4.0 < 45.0, "thrown with twice its weight"
    steps = " ".join(step.do for step in filled(told_figures(job, bench)))
    assert "loops round the gunwales" in steps
    assert "no cord thicker than these 1.2 mm" in NO_THICKER


@pytest.mark.parametrize("base", ["day-boat", "load-carrier"])
def test_two_bags_of_half_the_litres_fill_what_one_would(base, middle_job, middle_bench):
    """Told to who builds and who owns, who buys another pair later."""
    job, bench = middle_job(base), middle_bench(base)
    text = " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(
        customer_pdf(job, bench))).pages).split())
    for one in bench.bag_ties:
        whole = round(one.litres)
        assert whole <= 2 * one.half_l <= whole + 1
        assert f"{one.half_l} litres or more in the {one.end}" in text
