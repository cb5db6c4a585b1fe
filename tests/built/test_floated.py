"""The boat as it stands, floated: against a triangle mesh of both its sides."""

import re
from dataclasses import replace

import numpy as np
import pytest
import trimesh
from scipy.optimize import brentq
from scipy.spatial import cKDTree

from sizer.built.as_built import Along, sides_of
from sizer.built.dry_fit import hull_told, recut
from sizer.built.floated import floated, list_deg
from sizer.built.measures import Reach
from sizer.built.notches import FRAME, MEASURE, in_order, points_told
from sizer.built.points import points_of
from sizer.built.standing import standing
from sizer.design.library import read_base
from sizer.design.read import read_design
from sizer.design.write import design_toml
from sizer.fit.person import drawn_person
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.hull.sections import closed_rings
from tests.built.test_standing import OTHER, TAPE_M, smooth_error
from tests.hydro.test_against_mesh import balanced, closed_mesh


@pytest.fixture(scope="module", params=["day-boat", "long-tourer"])
def boat(request):
    return scaled_boat(fair_lines(read_base(request.param)), Scaling())


@pytest.fixture(scope="module")
def points(boat):
    return points_of(boat)


def stands(points, change):
    """A Standing made up of known changes."""
    nothing = standing(points, [Reach("height", points.at[0, 1], *points.keys[0])], TAPE_M)
    return replace(nothing, change_m=change)


def test_measured_as_designed_floats_as_designed(boat, points):
    sides = sides_of(boat, boat.design.drawn_for, stands(points, 0.0 * points.at))
    person = drawn_person(boat.design)
    design, built = (floated(one, person).assessed for one in (sides.designed, sides.mean))
    assert built.upright.gm_m == pytest.approx(design.upright.gm_m, abs=1e-9)
    assert list_deg(sides.starboard.sections, sides.port.sections, built) == pytest.approx(
        0.0, abs=1e-9)


def two_sided_mesh(starboard, port):
    """The mesh of `closed_mesh` with its port corners put where the port side has them."""
    mesh = closed_mesh(starboard)
    x = np.repeat(starboard.x_m, closed_rings(starboard).shape[1])
    here, there = (np.column_stack([x, closed_rings(one).reshape(-1, 2)])
                   for one in (starboard, port))
    to_port = np.flatnonzero(mesh.vertices[:, 1] < -1e-9)
    moved = np.array(mesh.vertices)
    moved[to_port] = there[cKDTree(here).query(moved[to_port])[1]]
    return trimesh.Trimesh(moved, mesh.faces, process=False)


def test_list_matches_a_mesh_of_both_sides(boat, points):
    error = np.zeros_like(points.at)
    error[:, 0] = np.where(points.sign > 0.0, 0.003, 0.0)  # starboard wider by 3 mm
    error[points.sign > 0.0, 1] -= 0.001
    sides = sides_of(boat, boat.design.drawn_for, stands(points, error))
    assessed = floated(sides.mean, drawn_person(boat.design)).assessed
    said = list_deg(sides.starboard.sections, sides.port.sections, assessed)
    mesh = two_sided_mesh(sides.starboard.sections, sides.port.sections)
    load, water = assessed.loading.load, assessed.person.water
    start = [float(one) for one in assessed.start]

    def arm(heel):
        return balanced(mesh, load, water, heel, start)[2]

    true = brentq(arm, -12.0, 12.0, xtol=1e-4)
    print("list", said, "mesh", true)
    assert said == pytest.approx(true, abs=0.1)
    assert abs(true) > 0.5


def test_marks_and_length_move_frames_and_stern(boat, points):
    name = points.frames[3]
    along = Along(((name, 0.011),), 0.014)
    sides = sides_of(boat, boat.design.drawn_for, stands(points, 0.0 * points.at), along)
    assert sides.mean.length_m - sides.designed.length_m == pytest.approx(0.014, abs=1e-6)
    moved = sides.mean.frame_x_m - sides.designed.frame_x_m
    assert moved == pytest.approx(np.where(np.array(points.frames) == name, 0.011, 0.0), abs=1e-6)
    assert not np.allclose(sides.mean.sections.y_m, sides.designed.sections.y_m, atol=1e-4)


def test_design_as_built_reads_back_with_the_points_as_they_stand(boat, points):
    error = smooth_error(points, np.random.default_rng(12))
    mean = sides_of(boat, boat.design.drawn_for, stands(points, error)).mean
    back = read_design(design_toml(mean.design))
    for (side, frame, name), at, change, sign in zip(points.keys, points.at, error, points.sign,
                                                     strict=True):
        other = error[points.index(OTHER[side], frame, name)]
        y, z = next(one for one in back.frames if one.name == frame).points_m[name]
        wanted = at + 0.5 * (change + other)
        assert z == pytest.approx(wanted[1], abs=1e-6)
        assert sign == 0.0 or y == pytest.approx(wanted[0], abs=1e-6)


def test_one_notch_off_is_told_with_its_way(boat, points):
    error = np.zeros_like(points.at)
    name = points.frames[len(points.frames) // 2]
    at = points.index("starboard", name, "gunwale")
    error[at, 0] = 0.009
    found = replace(stands(points, error), spread_m=np.full_like(error, 0.001),
                    measured=np.ones(error.shape, bool))
    told = points_told(found, sides_of(boat, boat.design.drawn_for, found))
    assert [one.frame for one in told if one.beyond] == [name]
    assert told[at].say == "Stands out by 9.0 mm: file the notch deeper."  # and nothing else
    assert told[at].unfair in ("caution", "fail")
    assert in_order(told)[0] is told[at]
    assert recut(found, told) == (name,)


def test_what_was_not_measured_where_it_stands_is_told_as_a_guess(boat, points):
    """Unfair too, and where only the other of the two was measured."""
    name = points.frames[len(points.frames) // 2]
    here, there = (points.index(side, name, "gunwale") for side in ("starboard", "port"))
    error, read = np.zeros_like(points.at), np.zeros(points.at.shape, bool)
    error[[here, there], 0] = 0.009
    read[here, 0] = read[there, 1] = True

    def told_of(spread_m):
        found = replace(stands(points, error), measured=read,
                        spread_m=np.full_like(error, spread_m))
        told = points_told(found, sides_of(boat, boat.design.drawn_for, found))
        return told[here], told[there]

    for spread_m, beyond, way in ((0.001, True, "stands out by 9.0 mm"),
                                  (0.009, False, "bumps out by")):
        measured, guessed = told_of(spread_m)
        assert (measured.first, guessed.first) == ("", MEASURE)
        for one in (measured, guessed):
            assert one.beyond == beyond
            assert len(re.findall(r"\d mm", one.say)) == 1
        assert measured.say.startswith(way.capitalize())
        assert measured.say.endswith(": file the notch deeper.")
        assert guessed.say.startswith(f"Measure here first: by guess it {way}")
        assert "notch" not in guessed.say


def test_notches_of_a_frame_that_stands_wrong_wait_for_it_and_so_does_what_it_bends(boat, points):
    """A frame 12 mm low: neither its own notches nor hollows beside it are to be filed."""
    at = len(points.frames) // 2
    error = np.zeros_like(points.at)
    error[points.frame == at, 1] = -0.012
    reaches = [Reach(what, points.at[index, axis] + error[index, axis], *key)
               for index, key in enumerate(points.keys)
               for axis, what in enumerate(("half_breadth", "height"))
               if axis or points.sign[index]]
    found = standing(points, reaches, 0.001)
    assert [(one.frame, one.way) for one in found.odd] == [(points.frames[at], "height")]
    unfair = [one for one in points_told(found, sides_of(boat, boat.design.drawn_for, found))
              if one.unfair]
    there, beside = ([one for one in unfair if (one.frame == points.frames[at]) == own]
                     for own in (True, False))
    assert {one.stringer for one in there} >= {"keel", "gunwale"}
    assert any("hollow" in one.say for one in beside)
    assert {one.frame for one in beside} <= set(points.frames[at - 1:at + 2])
    assert {one.first for one in unfair} == {FRAME}
    assert not any(mend in one.say for one in unfair
                   for mend in ("the notch", "lower it", "raise it", "sight"))


def test_what_may_be_moved_comes_first_then_what_is_worst_then_what_is_most_off(boat, points):
    found = stands(points, 0.0 * points.at)
    one = points_told(found, sides_of(boat, boat.design.drawn_for, found))[0]
    lot = [replace(one, first=first, unfair=unfair, most_m=most_m) for first, unfair, most_m in (
        (MEASURE, "fail", 0.020), ("", None, 0.009), ("", "caution", 0.003), (FRAME, "fail", 0.012),
        ("", "fail", 0.002), ("", "caution", 0.004))]
    assert [lot.index(one) for one in in_order(lot)] == [4, 5, 2, 1, 3, 0]


def test_a_notch_off_less_than_its_neighbours_is_not_moved_to_the_design_alone(boat, points):
    """All of a gunwale 12 mm out but at one frame, where it is 4 mm out: packing it out would be
    fair, filing it in as designed."""
    name = points.frames[len(points.frames) // 2]
    at, error = points.index("starboard", name, "gunwale"), np.zeros_like(points.at)
    for index, key in enumerate(points.keys):
        if key[0] == "starboard" and key[2] == "gunwale":
            error[index, 0] = 0.012
    error[at, 0] = 0.004
    found = replace(stands(points, error), spread_m=np.full_like(error, 0.001),
                    measured=np.ones(error.shape, bool))
    told = points_told(found, sides_of(boat, boat.design.drawn_for, found))
    assert told[at].unfair
    assert told[at].say == "Stands out by 4.0 mm, its neighbours by more: mend those first."


def test_a_figure_that_differs_from_its_own_reading_tells_it_too(boat, points):
    """A gunwale read 9.0 mm high and a keel as low, each less so by all; a breadth says neither."""
    name = points.frames[len(points.frames) // 2]
    at, keel = (points.index(side, name, stick) for side, stick in (
        ("starboard", "gunwale"), ("centre", "keel")))
    reaches = [Reach("height", points.at[at, 1] + 0.009, "starboard", name, "gunwale"),
               Reach("half_breadth", points.at[at, 0], "both", name, "gunwale"),
               Reach("height", points.at[keel, 1] - 0.009, "both", name, "keel")]
    found = standing(points, reaches, TAPE_M)
    told = points_told(found, sides_of(boat, boat.design.drawn_for, found), "mm", reaches)
    for index, way in ((at, "high"), (keel, "low")):
        figure = f"{1000.0 * abs(found.change_m[index, 1]):.1f}"
        assert figure != "9.0"
        assert told[index].say.startswith(f"Stands {way} by {figure} mm: ")
        assert told[index].remark == f"By its own reading alone it stands {way} by 9.0 mm."
    assert sum(bool(one.remark) for one in told) == 2


def test_winding_hull_is_told_and_a_straight_one_is_not(points):
    dice = np.random.default_rng(13)
    share = points.frame_x_m[points.frame] / points.length_m
    turn = 0.012 * np.sin(2.0 * np.pi * share) * points.sign * points.at[:, 0]
    wound = np.column_stack([0.0 * turn, turn / points.at[:, 0].max()])
    for error, words in ((wound, ["winds"]), (0.0 * wound, [])):
        reaches = [Reach("height", points.at[at, 1] + error[at, 1] + dice.normal(0.0, 0.001), *key)
                   for at, key in enumerate(points.keys) if key[2] == "gunwale"]
        said = hull_told(standing(points, reaches, 0.001))
        assert ["winds"] * sum("winds" in one for one in said) == words
