"""Drawn people against the published survey.

PUBLISHED: ANSUR II, Gordon et al., NATICK/TR-15/007, 2014: mean, SD and the 5th, 50th and 95th
percentile of each sex, as the report's tables round them. They are not what the draw is made from:
that is the means and covariances of `body_table.json`, computed from the raw records.
"""

import json
from importlib import resources

import numpy as np
import pytest

from sizer.cli import main
from sizer.crowd.people import PersonRow, read_people
from sizer.crowd.population import DRAWN, Recipe, drawn_people, population_lines
from sizer.errors import BadInput

COUNT = 20_000
PUBLISHED = {
    "male": {"weight_kg": (85.5, 14.2, 64.4, 84.6, 110.7),
             "stature_mm": (1756, 69, 1648, 1755, 1870),
             "hip_width_mm": (379, 30, 333, 378, 431), "foot_length_mm": (271, 13, 250, 271, 293),
             "sitting_height_mm": (918, 36, 860, 918, 977),
             "inseam_mm": (846, 47, 771, 845, 925)},
    "female": {"weight_kg": (67.8, 11.0, 51.3, 66.8, 87.1),
               "stature_mm": (1629, 64, 1525, 1626, 1740),
               "hip_width_mm": (399, 33, 348, 397, 456),
               "foot_length_mm": (246, 12, 226, 246, 268),
               "sitting_height_mm": (857, 33, 803, 857, 912),
               "inseam_mm": (782, 45, 712, 780, 857)},
}


@pytest.fixture(scope="module", params=["male", "female"])
def sample(request):
    """The sex, and (n, 7) measures of people of it."""
    people = drawn_people(Recipe(COUNT, 11, float(request.param == "female")))
    return request.param, np.array([list(one.measures.values()) for one in people])


def test_drawn_people_have_the_published_means_deviations_and_percentiles(sample):
    sex, values = sample
    for name, (mean, sd, *percentiles) in PUBLISHED[sex].items():
        drawn = values[:, list(DRAWN.values()).index(name)]
        # four standard errors of a mean, and half a unit for the report's rounding
        assert drawn.mean() == pytest.approx(mean, abs=4.0 * sd / COUNT**0.5 + 0.5), name
        # a standard deviation's error, and the report's rounding to whole units
        assert drawn.std() == pytest.approx(sd, abs=0.03 * sd + 0.5), name
        assert np.percentile(drawn, [5, 50, 95]) == pytest.approx(percentiles, rel=0.01), name


def test_drawn_people_are_correlated_as_surveyed(sample):
    sex, values = sample
    table = json.loads(
        resources.files("sizer.paddler").joinpath("body_table.json").read_text("utf-8"))
    at = [table["columns"].index(name) for name in DRAWN]
    covariance = np.array(table[sex]["covariance"])[np.ix_(at, at)]
    deviation = np.sqrt(np.diag(covariance))
    # four standard errors, 1 / sqrt(n) at most
    assert np.corrcoef(values.T) == pytest.approx(
        covariance / np.outer(deviation, deviation), abs=4.0 / COUNT**0.5)


def test_drawn_people_are_mixed_by_the_share_of_women():
    women = sum(one.woman for one in drawn_people(Recipe(4000, 2, 0.3)))
    assert women / 4000 == pytest.approx(0.3, abs=0.03)  # four standard errors


def test_drawn_people_are_the_same_for_the_same_seed_and_begin_as_a_shorter_crowd():
    longer = list(drawn_people(Recipe(700, 5)))
    assert longer[:300] == list(drawn_people(Recipe(300, 5)))
    assert longer[:300] != list(drawn_people(Recipe(300, 6)))


def test_drawn_people_shift_weight_and_hips_but_not_stature():
    before, after = (np.array([list(one.measures.values())[:3] for one in drawn_people(recipe)])
                     for recipe in (Recipe(3000, 4, 0.0), Recipe(3000, 4, 0.0, 15.0)))
    assert (after - before)[:, 0] == pytest.approx(15.0, abs=0.11)
    assert (after - before)[:, 1] == pytest.approx(0.0)
    # men's hips at equal stature: 381.39 and 765.11 over weight and stature in the table, solved
    gain = np.linalg.solve([[202.93, 461.52], [461.52, 4744.73]], [381.39, 765.11])[0]
    assert (after - before)[:, 2] == pytest.approx(15.0 * gain, abs=1.01)


def test_drawn_people_spread_weight_about_the_mean():
    weights = np.array([one.measures["weight_kg"]
                        for one in drawn_people(Recipe(COUNT, 4, 1.0, 0.0, 1.3))])
    assert weights.std() == pytest.approx(1.3 * 11.03, rel=0.03)
    assert weights.mean() == pytest.approx(67.77, abs=0.5)


def test_drawn_people_count_what_was_drawn_anew():
    *_, last = drawn_people(Recipe(2000, 1, 1.0, -12.0, 1.6))
    assert last.redrawn > 0


def test_every_line_of_a_population_is_a_person_to_fit():
    lines = list(population_lines(Recipe(1000, 1, 0.5, 25.0, 1.4)))
    rows = list(read_people(lines, "csv"))
    assert len(rows) == 1000
    assert all(isinstance(row, PersonRow) for row in rows)
    assert "weight shifted by 25 kg; its spread times 1.4" in lines[1]
    *_, last = drawn_people(Recipe(1000, 1, 0.5, 25.0, 1.4))
    assert lines[-1].startswith(f"# {last.redrawn} bodies drawn anew")


def test_drawn_people_refuse_every_fault_of_a_recipe():
    with pytest.raises(BadInput) as refused:
        next(drawn_people(Recipe(0, -1, 1.5, float("nan"), 9.0)))
    assert len(refused.value.faults) == 5


def test_drawn_people_refuse_a_recipe_that_makes_hardly_anyone():
    with pytest.raises(BadInput, match="bodies refused"):
        list(drawn_people(Recipe(50, 1, 1.0, -40.0, 0.1)))


def test_population_prints_people_and_refuses_what_is_no_number(capsys):
    assert main(["population", "--count", "3", "--seed", "1", "--share-women", "1"]) == 0
    assert capsys.readouterr().out.splitlines() == list(population_lines(Recipe(3, 1, 1.0)))
    assert main(["population", "--count", "3.5", "--seed", "x", "--weight-spread", "wide"]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 3
