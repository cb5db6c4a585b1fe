"""The tables against the exact engine, pair by pair."""

import numpy as np
import pytest

from sizer.crowd.finished import (
    FLOODED,
    finished,
    flooded_margin_mm,
    persons_of,
    request_for,
    verdict,
)
from sizer.crowd.served import ALLOWANCE, BAND, HARD, NAMES, SCALE, crowd_of, margins
from sizer.design.library import read_base, shipped_names
from sizer.fit.assess import assess
from sizer.fit.checks import all_checks
from sizer.fit.mishaps import mishap_checks, mishaps
from sizer.fit.solve import fit
from sizer.hull.boat import SECTION_COUNT
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.job import run
from tests.crowd.conftest import WATER, drawn_people

# What the tables leave out at most on bodies that any check passes: mm, deg, kg.
FARTHEST = {"trim": 0.02, "load reserve": 2.0}
FARTHEST_MM = 2.5
USES = {"day-boat": ("coastal-day", 10.0), "long-tourer": ("camp-touring", 40.0),
        "steady-boat": ("sheltered-day", 5.0), "teaching-boat": ("fitness-paddling", 0.0)}


@pytest.mark.parametrize("base", shipped_names())
def test_tables_are_near_the_exact_margins_and_never_serve_whom_the_engine_refuses(base):
    lines = fair_lines(read_base(base))
    use, gear = USES[base]
    persons = persons_of(drawn_people(40), base, use, WATER, gear)
    crowd = crowd_of(persons, lines.design.cockpit.entry)
    for scaling in (Scaling(), Scaling(legs=0.88), Scaling(legs=1.12),  # these make seats slide
                    fit(lines, persons[0]).assessed.boat.scaling):
        hull = finished(lines, scaling)
        found = margins(hull, crowd)
        served = ((found - ALLOWANCE)[:, HARD] >= 0.0).all(axis=1)
        exact = [verdict(hull, person, flood=False) for person in persons]
        for row, one in zip(found, exact, strict=True):
            there = {name: margin for name, margin, _ in one.margins}
            for index, name in enumerate(NAMES):
                assert row[index] - ALLOWANCE[index] <= there[name] + 1e-9, (name, there[name])
                assert row[index] >= there[name] - FARTHEST.get(name, FARTHEST_MM), name
        paddlers = np.array([not set(one.fails) & set(NAMES) for one in exact])
        assert not (served & ~paddlers).any()
        assert served.sum() >= 0.9 * paddlers.sum() > 0.0


def test_columns_are_the_checks_of_the_fit(day_boat):
    hull = finished(day_boat, Scaling())
    person, = persons_of(drawn_people(1), "day-boat", "coastal-day", WATER, 10.0)
    checks = {check.name: check
              for check in all_checks(assess(day_boat, hull.scaling, person, SECTION_COUNT))}
    for name, scale, band, hard in zip(NAMES, SCALE, BAND, HARD, strict=True):
        assert (checks[name].scale, bool(hard)) == (scale, checks[name].hard), name
        assert checks[name].band == pytest.approx(band), name


def test_a_load_the_boat_cannot_carry_is_not_served(day_boat):
    hull = finished(day_boat, Scaling())
    persons = persons_of(drawn_people(3), "day-boat", "coastal-day", WATER, 400.0)
    found = margins(hull, crowd_of(persons, "sit"))
    assert np.isneginf(found[:, NAMES.index("rim freeboard")]).all()
    assert verdict(hull, persons[0]).fails == ("floats at all",)


@pytest.mark.parametrize("weight", [0, 1, 2])
def test_flooded_check_passes_with_the_largest_bags_where_the_search_passes(day_boat, weight):
    person = persons_of(drawn_people(3), "day-boat", "coastal-day", WATER, 10.0)[weight]
    assessed = assess(day_boat, Scaling(), person, SECTION_COUNT)
    searched = {check.name: check for check in mishap_checks(assessed, mishaps(assessed))}[FLOODED]
    assert (flooded_margin_mm(assessed) >= 0.0) == (searched.status != "fail")


def test_flooded_rim_lies_lower_under_the_heavier_paddler(day_boat):
    light, heavy = persons_of(sorted(drawn_people(40), key=lambda one: one.weight_kg)[::39],
                              "day-boat", "coastal-day", WATER, 10.0)
    clear = [flooded_margin_mm(assess(day_boat, Scaling(), one, SECTION_COUNT))
             for one in (light, heavy)]
    assert clear[0] > clear[1]


def test_a_request_that_holds_a_boat_gives_it_again(day_boat):
    person, = persons_of(drawn_people(1), "day-boat", "coastal-day", WATER, 10.0)
    scaling = fit(day_boat, person).assessed.boat.scaling
    hull = finished(day_boat, scaling)
    job = run(request_for(hull, drawn_people(1)[0], "day-boat", "coastal-day", WATER, 10.0),
              day_boat)
    again = job.fitted.assessed.boat
    assert again.sections.y_m == pytest.approx(hull.boat.sections.y_m, abs=1e-9)
    assert again.sections.z_m == pytest.approx(hull.boat.sections.z_m, abs=1e-9)
    assert again.opening.length_m == pytest.approx(hull.boat.opening.length_m, abs=1e-9)
