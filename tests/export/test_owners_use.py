"""The owner's part on using the boat: its figures by floating the boat anew."""

import io
import re
from dataclasses import replace

import pytest
from pypdf import PdfReader

from sizer.export.customer import customer_pdf
from sizer.export.owners_use import use_words
from sizer.hydro.particulars import float_upright


@pytest.fixture(scope="module", params=["day-boat", "load-carrier"])
def job(request, middle_job):
    return middle_job(request.param)


@pytest.fixture(scope="module")
def used(job, bench):
    return " ".join(use_words(job, bench))


def afloat(job, load):
    boat = job.fitted.assessed.boat
    return float_upright(boat.sections, load, job.person.water)


def test_gear_farther_aft_trims_as_told(job, used):
    """Each heap moved by the 100 mm that are told; the angles are small."""
    load, told = job.fitted.assessed.loading, re.findall(r"by (\d\.\d\d)° more", used)
    lies = afloat(job, load.load).trim_deg
    for heap, costs in zip(load.gear, told, strict=True):
        moved = replace(load.load,
                        lcg_m=load.load.lcg_m + 0.1 * heap.mass_kg / load.load.mass_kg)
        assert afloat(job, moved).trim_deg - lies == pytest.approx(float(costs), abs=0.008)


def test_gear_on_deck_costs_the_steadiness_told(job, used):
    load, depth = job.fitted.assessed.loading, job.fitted.assessed.boat.depth_m
    costs, of = map(int, re.search(r"take (\d+) of the (\d+) mm of steadiness", used).groups())
    up = sum(one.mass_kg * (depth - one.vcg_m) for one in load.gear) / load.load.mass_kg
    lies = afloat(job, load.load).gm_m
    high = afloat(job, replace(load.load, vcg_m=load.load.vcg_m + up)).gm_m
    assert 1000.0 * lies == pytest.approx(of, abs=0.5)
    assert 1000.0 * (lies - high) == pytest.approx(costs, abs=0.6)


def test_the_owner_is_told_what_a_hand_a_foot_and_a_bag_may_do(job, bench, used):
    behind = next(one for one in job.setting_up.stations
                  if one.faces_x_m[0] >= job.fitted.assessed.boat.opening.back_x_m)
    for words in ("rim is no handrail", f"gunwales at {behind.name}", "lie in the sun",
                  "all four pins", "never made thicker", "gap that a fist", "tied in"):
        assert words in used, words
    assert "No hole" not in used
    assert all(f"{round(one.mass_kg, 1):g} kg (" in used for one in bench.gear_ties)
    tight = replace(bench, foot_rails=replace(bench.foot_rails,
                                              set_m=bench.foot_rails.soles_m[0]))
    assert "no hole left forward" in " ".join(use_words(job, tight))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_cautions_stand_before_it_and_the_sheet_stays_short(job, bench, paper):
    pages = PdfReader(io.BytesIO(customer_pdf(job, bench, paper))).pages
    text = " ".join(" ".join(page.extract_text() for page in pages).split())
    assert text.index("Read before the first launch") < text.index("Using it")
    assert text.index("Using it") < text.index("What was sought and what was reached")
    assert len(pages) <= (6 if paper == "Letter" else 5)


def test_the_owner_is_told_how_pedals_and_panels_open_and_close(job, bench, used):
    """In the order that works: pins, strap, one pedal after the other; air out before the lacing,
    air in after it."""
    out = [used.index(one) for one in (
        "To take them out: draw the 4 pins", "undo the strap's 4 bolts", "slide one pedal",
        f"out through {bench.foot_rails.aft}", "the other after it", "To move them")]
    assert out == sorted(out)
    panel = [used.index(one) for one in (
        "To open a panel: let the bag's air out", "undo the lacing", "to close it: the bag soft",
        "from the keel up both sides", "blow the bag up")]
    assert panel == sorted(panel)
    assert "A cut, dry and clean" in used
    assert "Store the boat dry" in used
