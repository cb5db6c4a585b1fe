"""A small crowd drawn from the body survey, and a range over it with a small pool of boats."""

import numpy as np
import pytest

from sizer.crowd import pool, region
from sizer.crowd.sizes import size_range
from sizer.design.library import read_base
from sizer.export import range_package
from sizer.fit.request import Trip
from sizer.hull.lines import fair_lines
from sizer.hydro.water import water_at
from sizer.paddler.body import COVARIANCE, MEAN
from sizer.paddler.measures import Measured

WATER = water_at("fresh", 10.0)
TRIP = Trip("day-boat", "coastal-day", WATER, 10.0)


def drawn_people(count, seed=4, spread=1.5):
    """Bodies with the survey's covariance, widened so that some are at every limit."""
    rows = np.random.default_rng(seed).multivariate_normal(MEAN, spread * COVARIANCE, count)
    return tuple(Measured(float(np.clip(row[0], 38.0, 170.0)), float(row[1]), float(row[2]))
                 for row in rows)


def small_pool(patch):
    """Few boats, for speed, and a range of them in this process: what is tested does not hang on
    their number. That several processes choose the same is in test_sizes.py."""
    patch.setattr(pool, "DRAWN_FOR", 6)
    patch.setattr(pool, "STEPS", (0.04,))
    patch.setattr(range_package, "cores", lambda: 1)


def fewest_boats(patch):
    """A small pool of next to no boats, for tests of what is said and written of a range."""
    small_pool(patch)
    patch.setattr(pool, "DRAWN_FOR", 4)
    patch.setattr(pool, "ROUNDS_TO", 1)


def few_rows(patch):
    """Who fits a boat, in a third of the rows."""
    patch.setattr(region, "ROW_STEP_M", {key: 3.0 * step
                                         for key, step in region.ROW_STEP_M.items()})


@pytest.fixture(scope="session")
def day_boat():
    return fair_lines(read_base("day-boat"))


@pytest.fixture(scope="session")
def small_range(day_boat):
    with pytest.MonkeyPatch.context() as patch:
        small_pool(patch)
        return size_range(drawn_people(80), day_boat, TRIP, 3)
