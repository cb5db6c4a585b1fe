"""The curves of the base designs: through their points, fair, in order."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.interpolate import PchipInterpolator

from sizer.errors import BadInput
from sizer.hull.lines import base_table, fair_lines, ridge_m

POINT_MM = 0.01


def in_order_at(lines, count=401):
    return base_table(lines, np.linspace(0.0, lines.design.length_m, count))


def test_curves_pass_through_every_frame_point(lines):
    for frame in lines.design.frames:
        for name, point in frame.points_m.items():
            drawn = lines.line(name).curve(frame.x_m) * 1000.0
            assert drawn == pytest.approx(np.multiply(point, 1000.0), abs=POINT_MM), name


def test_section_at_a_frame_is_the_frames_own_points(lines):
    names = [line.stringer.name for line in lines.between]
    for frame in lines.design.frames:
        table = base_table(lines, [frame.x_m])
        for column, name in enumerate(names, start=1):
            if name in frame.points_m:
                drawn = table.y_m[0, column], table.z_m[0, column]
                assert drawn == pytest.approx(frame.points_m[name], abs=POINT_MM / 1000.0)


def test_curves_land_on_the_stems_at_the_centre_line(lines):
    for stem, key, profile in ((lines.design.bow, "start", lines.bow_profile),
                               (lines.design.stern, "end", lines.stern_profile)):
        for name, x in stem.lands_m.items():
            assert lines.line(name).curve(x) == pytest.approx([0.0, float(profile(x))], abs=1e-5)
            assert getattr(lines.line(name).stringer, key).kind == "stem"


def test_stem_profiles_pass_through_their_points_and_only_go_down_from_the_head(lines):
    for stem, profile, turn in ((lines.design.bow, lines.bow_profile, -1.0),
                                (lines.design.stern, lines.stern_profile, 1.0)):
        x, z = stem.profile_m.T
        assert profile(x) == pytest.approx(z, abs=1e-9)
        assert np.all(turn * np.diff(profile(np.linspace(x[0], x[-1], 501))) >= -1e-12)


def blends(lines):
    return [(line, end) for line in lines.lines
            for end in (line.stringer.start, line.stringer.end) if end.kind == "into"]


def test_blending_stringers_leave_their_host_on_it_and_along_it(base_lines):
    found = [(lines, *blend) for lines in base_lines.values() for blend in blends(lines)]
    assert found  # one base at least blends, or this says nothing
    for lines, line, end in found:
        host = lines.line(end.into).curve
        assert line.curve(end.x_m) == pytest.approx(host(end.x_m), abs=1e-9)
        assert line.curve(end.x_m, 1) == pytest.approx(host(end.x_m, 1), abs=1e-9)


def test_beyond_its_blend_a_stringer_lies_on_its_host(base_lines):
    lines = base_lines["long-tourer"]
    names = ["keel", *(line.stringer.name for line in lines.between)]
    table = base_table(lines, [2.6])  # amidships, between the bilge stringers
    chine = names.index("chine")
    for name in ("fore bilge", "aft bilge"):
        column = names.index(name)
        assert not table.alive[0, column]
        assert table.y_m[0, column] == table.y_m[0, chine]
        assert table.z_m[0, column] == table.z_m[0, chine]


def test_a_free_batten_takes_no_bend_at_its_ends_and_less_energy_than_another_curve(lines):
    for line in lines.lines:
        if {line.stringer.start.kind, line.stringer.end.kind} != {"stem"}:
            continue
        ends = line.curve([line.start_x_m, line.end_x_m], 2)
        assert ends == pytest.approx(0.0, abs=1e-9)
        knots = line.curve.x
        other = PchipInterpolator(knots, line.curve(knots))

        def energy(curve, column, knots=knots):
            return sum(quad(lambda x: curve(x, 2)[column] ** 2, a, b)[0]
                       for a, b in pairwise(knots))

        for column in range(2):
            assert energy(line.curve, column) <= energy(other, column) * (1.0 + 1e-9)


def test_half_breadths_are_never_negative_and_hull_lines_rise_in_order(lines):
    table = in_order_at(lines)
    sheer = 1 + [line.stringer.role for line in lines.between].index("gunwale")
    assert table.y_m.min() >= 0.0
    assert np.diff(table.z_m[:, :sheer + 1], axis=1).min() >= -0.0005


def test_deck_lines_stand_inside_the_gunwale(lines):
    table = in_order_at(lines)
    sheer = 1 + [line.stringer.role for line in lines.between].index("gunwale")
    assert np.diff(table.y_m[:, sheer:], axis=1).max() <= 0.0005


def test_top_centre_line_is_unbroken_along_the_boat(lines):
    x = np.linspace(0.0, lines.design.length_m, 4001)
    assert np.abs(np.diff(ridge_m(lines, x))).max() < 0.0015  # under 1 in 0.7 at a 1 mm step


def moved(lines, frame_name, stringer, point):
    """The design with one frame point moved."""
    frames = [replace(frame, points_m={**frame.points_m, stringer: point})
              if frame.name == frame_name else frame for frame in lines.design.frames]
    return replace(lines.design, frames=tuple(frames))


def test_a_curve_that_dips_across_the_centre_line_between_frames_is_refused(base_lines):
    design = moved(base_lines["long-tourer"], "F1", "gunwale", (0.001, 0.2955))
    with pytest.raises(BadInput) as caught:
        fair_lines(design)
    dips = [one for one in caught.value.faults if one.value.startswith("half-breadth -")]
    assert [one.place.split(" at ")[0] for one in dips] == ["stringer.gunwale"]
    assert "not below zero" in dips[0].allowed


def test_curves_that_cross_between_frames_are_refused_with_place_and_depth(base_lines):
    lines = base_lines["day-boat"]
    frame = lines.design.frames[4]
    low = frame.points_m["lower chine"][1]
    design = moved(lines, frame.name, "upper chine", (0.27, low + 0.002))
    frames = list(design.frames)
    for index in (3, 5):
        y, _ = frames[index].points_m["upper chine"]
        low = frames[index].points_m["lower chine"][1]
        frames[index] = replace(frames[index], points_m={
            **frames[index].points_m, "upper chine": (y, low + 0.0005)})
    with pytest.raises(BadInput, match=r"upper chine at x = \d+ mm: [\d.]+ mm below lower chine"):
        fair_lines(replace(design, frames=tuple(frames)))


def test_a_stringer_with_one_point_is_refused(base_lines):
    design = base_lines["long-tourer"].design
    frames = [replace(frame, points_m={name: point for name, point in frame.points_m.items()
                                       if name != "foredeck stringer"})
              for frame in design.frames]
    with pytest.raises(BadInput, match="at least two"):
        fair_lines(replace(design, frames=tuple(frames)))
