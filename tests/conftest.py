"""Hulls with exact answers, as Sections records, and the shipped base designs, read once.

Exact hulls start at x = 0 and stand on z = 0. Each builder takes metres and the count of sections.
"""

import gc
import os
import tempfile
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from sizer.cli import LOOKED_THROUGH_AFTER
from sizer.design.read import read_design
from sizer.fit.loading import loading
from sizer.fit.request import read_request
from sizer.fit.uses import USES
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.hull.sections import Sections
from sizer.hull.weight import own_weight
from sizer.hydro.water import Water
from sizer.job import run
from sizer.paddler.body import predict
from sizer.paddler.measures import Measured
from sizer.paddler.seated import seated_centre
from sizer.shop.bench import bench_of
from sizer.shop.frame_drawing import frame_drawing
from sizer.shop.frames import frame_patterns

gc.set_threshold(LOOKED_THROUGH_AFTER)  # else collecting looks for what may go all the time
BASELINES = Path(__file__).parents[1] / "baselines"
os.environ["SIZER_BOOK"] = str(Path(tempfile.mkdtemp(prefix="sizer-tests-")) / "book")
MIDDLE = {"weight_kg": 81.37, "stature_mm": 1783, "hip_width_mm": 387}
BASE_NAMES = sorted(path.stem for path in BASELINES.glob("*.toml"))
# Of the files that take longest, parts of their paths; those that wait for a browser and those that
# work all the time by turns
LONGEST = ("/test_access", "/test_package", "/test_wizard", "fit/test_solve", "web/test_crowd.py",
           "/test_faults", "/test_entries", "crowd/test_batch", "/test_own_design",
           "export/test_range", "/test_book_page", "cli/test_book", "/test_reach",
           "/test_every_output", "tests/web/", "/test_solids", "/test_fit_grid",
           "/test_remedies", "/test_range_command", "/test_structure")


def box_hull(length_m, beam_m, depth_m, count=3):
    x = np.linspace(0.0, length_m, count)
    return walls_hull(x, np.full(count, beam_m / 2.0), depth_m)


def walls_hull(x_m, half_breadth_m, depth_m):
    """Vertical sides on a flat bottom over any plan."""
    half = np.asarray(half_breadth_m, float)
    none = np.zeros_like(half)
    return Sections(np.asarray(x_m, float), np.stack([none, half, half, none], axis=1),
                    np.broadcast_to([0.0, 0.0, depth_m, depth_m], (half.size, 4)), sheer=2)


def prism_hull(length_m, beam_m, depth_m, count=3):
    """A wedge: triangular section, keel down, sides straight to the deck."""
    ones = np.ones((count, 1))
    return Sections(np.linspace(0.0, length_m, count), ones * [0.0, beam_m / 2.0, 0.0],
                    ones * [0.0, depth_m, depth_m], sheer=1)


def upright_cylinder_hull(diameter_m, height_m, count=201):
    x = _crowded_to_the_ends(diameter_m, count)
    half = np.sqrt(np.maximum(x * (diameter_m - x), 0.0))
    return walls_hull(x, half, height_m)


def lying_cylinder_hull(length_m, radius_m, points=181, count=3):
    turn = np.linspace(0.0, np.pi, points)
    y, z = radius_m * np.sin(turn), radius_m * (1.0 - np.cos(turn))
    y[[0, -1]] = 0.0
    ones = np.ones((count, 1))
    return Sections(np.linspace(0.0, length_m, count), ones * y, ones * z, sheer=points // 2)


def parabolic_hull(length_m, beam_m, draft_m, freeboard_m=0.0, count=121, points=61):
    """The Wigley hull to its waterline at z = draft, with vertical sides above."""
    x = np.linspace(0.0, length_m, count)
    z = np.linspace(0.0, draft_m, points)
    plan = 1.0 - (2.0 * x / length_m - 1.0) ** 2
    y = 0.5 * beam_m * plan[:, None] * (1.0 - (z / draft_m - 1.0) ** 2)
    return _decked(x, y, np.broadcast_to(z, y.shape), draft_m + freeboard_m)


def half_ellipsoid_hull(length_m, beam_m, draft_m, freeboard_m=0.0, count=241, points=61):
    """The lower half of an ellipsoid, with vertical sides above its waterline at z = draft."""
    x = _crowded_to_the_ends(length_m, count)
    plan = np.sqrt(np.maximum(1.0 - (2.0 * x / length_m - 1.0) ** 2, 0.0))[:, None]
    turn = np.linspace(0.0, np.pi / 2.0, points)
    y = 0.5 * beam_m * plan * np.sin(turn)
    z = draft_m * (1.0 - plan * np.cos(turn))
    return _decked(x, y, z, draft_m + freeboard_m)


def _decked(x, y, z, deck_m):
    """Walls up to a flat deck at `deck_m`."""
    column = np.full((x.size, 1), deck_m)
    return Sections(x, np.concatenate([y, y[:, -1:], 0.0 * column], axis=1),
                    np.concatenate([z, column, column], axis=1), sheer=y.shape[1])


def _crowded_to_the_ends(length_m, count):
    return 0.5 * length_m * (1.0 - np.cos(np.linspace(0.0, np.pi, count)))


def pytest_collection_modifyitems(items):
    """Files that take longest go first, so that no core waits long for the last of them."""
    place_of = cache(lambda path: next(
        (place for place, part in enumerate(LONGEST) if part in path.as_posix()), len(LONGEST)))
    items.sort(key=lambda item: place_of(item.path))


def pytest_collection_finish():
    """What was collected stays to the end: it is not looked through again for what may go."""
    gc.collect()
    gc.freeze()


@pytest.fixture(scope="session")
def box():
    return box_hull


@pytest.fixture(scope="session")
def walls():
    return walls_hull


@pytest.fixture(scope="session")
def prism():
    return prism_hull


@pytest.fixture(scope="session")
def upright_cylinder():
    return upright_cylinder_hull


@pytest.fixture(scope="session")
def lying_cylinder():
    return lying_cylinder_hull


@pytest.fixture(scope="session")
def parabolic():
    return parabolic_hull


@pytest.fixture(scope="session")
def half_ellipsoid():
    return half_ellipsoid_hull


@pytest.fixture(scope="session")
def ship_water():
    """Salt water as in the ship examples: 1.025 t/m3."""
    return Water("salt", 15.0, 1025.0, 1.19e-6)


@pytest.fixture(scope="session")
def base_texts():
    """{name: text} of the shipped base designs."""
    return {name: (BASELINES / f"{name}.toml").read_text("utf-8") for name in BASE_NAMES}


@pytest.fixture(scope="session")
def base_lines(base_texts):
    """{name: Lines} of the shipped base designs."""
    return {name: fair_lines(read_design(text, name)) for name, text in base_texts.items()}


@pytest.fixture(scope="session", params=BASE_NAMES)
def lines(request, base_lines):
    """The Lines of each shipped base design in turn."""
    return base_lines[request.param]


@pytest.fixture(scope="session")
def boat(lines):
    """Each shipped base design as drawn."""
    return scaled_boat(lines, Scaling())


@pytest.fixture(scope="session")
def drawn_load(boat):
    """Load of the base with the paddler and gear it was drawn for."""
    drawn = boat.design.drawn_for
    body = predict(Measured(drawn.weight_kg, drawn.stature_m, drawn.hip_width_m))
    return loading(boat, own_weight(boat), body, seated_centre(body), USES[drawn.use],
                   drawn.gear_kg).load


@pytest.fixture(scope="session")
def sawn_as_drawn():
    """By `sawn_as_drawn(lines)`, (FramePatterns, their Drawings) of a base as drawn: made once, to
    be read alone."""
    def sawn(lines):
        patterns = frame_patterns(scaled_boat(lines, Scaling()))
        return patterns, tuple(map(frame_drawing, patterns))

    return cache(sawn)


@pytest.fixture(scope="session")
def frames(lines, sawn_as_drawn):
    """The FramePatterns of each shipped base as drawn."""
    return sawn_as_drawn(lines)[0]


@pytest.fixture(scope="session")
def frame_drawings(lines, sawn_as_drawn):
    """Their Drawings."""
    return sawn_as_drawn(lines)[1]


@pytest.fixture(scope="session")
def middle_job(base_lines):
    """By `middle_job(base)`, the Job of a base for its own use and a paddler of middle size: worked
    out once, to be read alone."""
    return cache(lambda base: run(read_request({
        "base": base, "use": base_lines[base].design.drawn_for.use, "paddler": MIDDLE}),
        base_lines[base]))


@pytest.fixture(scope="session")
def middle_bench(middle_job):
    """By `middle_bench(base)`, the Bench of that job."""
    return cache(lambda base: bench_of(middle_job(base)))


@pytest.fixture(scope="module")
def bench(job, middle_bench):
    """The Bench of a module's own `job`, one of those of `middle_job`."""
    return middle_bench(job.request.trip.base)
