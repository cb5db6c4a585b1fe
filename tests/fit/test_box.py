"""The bounded least squares of the search against scipy's own, one problem at a time."""

import numpy as np
import pytest
from scipy.optimize import lsq_linear

from sizer.fit.box import WIDTH, least_in_box


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("reach", [0.02, 0.4, 50.0])  # all at bounds, some, none
def test_least_squares_between_bounds_are_scipys(seed, reach):
    chance = np.random.default_rng(seed)
    rows, aims = chance.normal(size=(40, 12, WIDTH)), chance.normal(size=(40, 12))
    middle = 0.1 * chance.normal(size=(40, WIDTH))
    found = least_in_box(rows, aims, middle - reach, middle + reach)
    for one, row, aim, mid in zip(found, rows, aims, middle, strict=True):
        theirs = lsq_linear(row, aim, (mid - reach, mid + reach), method="bvls", tol=1e-14).x
        assert one == pytest.approx(theirs, abs=1e-8)


def test_a_held_number_stays_where_it_is_held():
    chance = np.random.default_rng(3)
    rows, aims = chance.normal(size=(20, 9, WIDTH)), chance.normal(size=(20, 9))
    rows[..., 1] = 0.0
    low, high = np.full((20, WIDTH), -0.3), np.full((20, WIDTH), 0.3)
    low[:, 1] = high[:, 1] = 0.17
    found = least_in_box(rows, aims, low, high)
    free = [0, 2, 3]
    for one, row, aim in zip(found, rows, aims, strict=True):
        theirs = lsq_linear(row[:, free], aim, (-0.3, 0.3), method="bvls", tol=1e-14).x
        assert one[1] == 0.17
        assert one[free] == pytest.approx(theirs, abs=1e-8)
