"""The stringer list against independent fine polylines, drawn angles and plain geometry."""

import math
from itertools import product

import numpy as np
import pytest

from sizer.design.woods import CAREFUL_BEND_RATIO, EASY_BEND_RATIO
from sizer.hull.bending import tightest_bend
from sizer.hull.boat import frame_points_m, scaled_boat, sections_at
from sizer.hull.scale import Scaling
from sizer.hull.stick_curves import stick_curve, stick_curves
from sizer.shop.scarfs import LEAST_PIECE_M, SCARF_RATIO, joints
from sizer.shop.stick_marks import beyond_m
from sizer.shop.stringers import ALLOWANCE_M, BENDS, bend_verdict, stringer_list
from sizer.shop.tapers import blend

LENGTH_M = 0.0002
JUST_ON_M = 1e-6  # from a free end, ahead of which the sections let go of the stick
SCALINGS = (
    Scaling(),
    Scaling(length=1.07, beam=1.05, depth=0.95, legs=0.96, cockpit_length_m=0.70),
    Scaling(length=0.93, beam=0.95, depth=1.1, legs=1.05, crown=1.3, cockpit_length_m=0.80))


@pytest.fixture(scope="module", params=SCALINGS, ids=("base", "long", "short"))
def scaled(request, lines):
    return scaled_boat(lines, request.param)


def sections_polyline(boat, name, count=9001):
    """x, y, z of a stick by the boat's own sections, where the stick stands between them."""
    line = boat.lines.line(name)
    opening = boat.opening
    start = opening.back_x_m if line.stringer.start.kind == "coaming" else float(
        boat.map(line.start_x_m))
    end = opening.front_x_m if line.stringer.end.kind == "coaming" else float(
        boat.map(line.end_x_m))
    if line.stringer.end.kind == "free":
        end = next(float(boat.frame_x_m[index]) for index, frame in enumerate(boat.design.frames)
                   if frame.x_m == line.end_x_m)
    x = np.linspace(start + JUST_ON_M, end, count)
    sections = sections_at(boat, x)
    names = [one.stringer.name for one in boat.lines.between]
    ends = {"keel": 0, "ridge": -1}
    column = 1 + names.index(name) if name in names else ends[line.stringer.role]
    return np.column_stack([x, sections.y_m[:, column], sections.z_m[:, column]])


def test_lengths_match_a_fine_polyline_through_the_boats_sections(scaled):
    for stick in stringer_list(scaled):
        points = sections_polyline(scaled, stick.name)
        if stick.stringer.role == "deck":  # beyond its drawn end the sections let go of it
            points = points[points[:, 0] <= scaled.map(scaled.lines.line(stick.name).end_x_m)]
        fine = np.linalg.norm(np.diff(points, axis=0), axis=1).sum()
        rest = stick.forward.past_m + stick.after.past_m
        if stick.stringer.role == "deck":
            last = scaled.frame_x_m[[one.name for one in scaled.design.frames].index(
                stick.crossings[-1].frame)]
            rise = np.diff(points[-2:], axis=0)[0]
            rest += max(last - points[-1, 0], 0.0) * np.linalg.norm(rise) / rise[0]
        assert stick.length_m == pytest.approx(fine + rest, abs=LENGTH_M), stick.name
        assert stick.cut_m == pytest.approx(stick.length_m + 2.0 * ALLOWANCE_M)


def test_marks_are_where_the_stick_meets_each_frame(scaled):
    """Arc to a frame by chords between the frames' own points is shorter, and by little."""
    for stick in stringer_list(scaled):
        frames = [(index, frame) for index, frame in enumerate(scaled.design.frames)
                  if stick.name in frame.points_m]
        assert [crossing.frame for crossing in stick.crossings] == [f.name for _, f in frames]
        points = np.array([(scaled.frame_x_m[index],
                            *frame_points_m(scaled, index)[stick.name]) for index, _ in frames])
        chords = np.linalg.norm(np.diff(points, axis=0), axis=1)
        steps = np.diff([crossing.along_m for crossing in stick.crossings])
        assert np.all(steps >= chords - 1e-6), stick.name
        assert steps == pytest.approx(chords, rel=0.004), stick.name
        assert stick.crossings[0].along_m >= 0.0
        assert stick.crossings[-1].along_m <= stick.length_m + 1e-6


@pytest.mark.parametrize("cockpit_length_m", [None, 0.86])
def test_a_free_deck_end_runs_right_through_its_frames_plywood(base_lines, cockpit_length_m):
    """Where the opening moved the frame too: both faces of the plywood lie between the ends."""
    boat = scaled_boat(base_lines["long-tourer"], Scaling(cockpit_length_m=cockpit_length_m))
    stick = next(one for one in stringer_list(boat) if one.name == "foredeck stringer")
    curve = stick_curve(boat, stick.name)
    slope = np.linalg.norm(np.diff(curve.points_m, axis=0), axis=1) / np.diff(curve.points_m[:, 0])
    for end, crossing, index, steep in (
            (0.0, stick.crossings[0], 2, slope[0]),
            (stick.length_m, stick.crossings[-1], 4, slope[-1])):
        frame = boat.design.frames[index]
        assert crossing.frame == frame.name
        # both frames stand ahead of the widest place: plywood lies aft of the reference face
        faces = crossing.along_m, crossing.along_m + frame.thickness_m * steep
        assert crossing.far_m == pytest.approx(faces[1], abs=1e-5)
        past = min(abs(end - face) for face in faces)
        assert min(0.0, stick.length_m) <= faces[0] < faces[1] <= stick.length_m
        assert past == pytest.approx(stick.stringer.width_m / 2.0, abs=1e-5)
        assert frame.name in (stick.forward.words if end == 0.0 else stick.after.words)
    assert stick.after.on == "frame F5"
    assert boat.opening.front_x_m > boat.frame_x_m[4] + 0.012 + 0.008


def test_bevels_on_the_stems_are_the_curves_own_angles(scaled):
    """By tiny chords from the landing: along the stick inboard, along the stem's edge outboard."""
    factors, leans = (scaled.scaling.beam, scaled.scaling.depth), []
    for stick in stringer_list(scaled):
        line = scaled.lines.line(stick.name)
        for end, x, step, profile in (
                (stick.forward, line.start_x_m, 1e-5, scaled.lines.bow_profile),
                (stick.after, line.end_x_m, -1e-5, scaled.lines.stern_profile)):
            if not end.kind.startswith("stem") or stick.stringer.role == "ridge":
                continue
            along, before = (float(scaled.map(x + one) - scaled.map(x)) for one in (step, -step))
            out, up = np.diff(line.curve([x, x + step]), axis=0)[0] * factors
            edge = factors[1] * float(profile(x - step) - profile(x)) if (
                stick.stringer.role != "gunwale") else None
            if stick.stringer.role == "keel":
                assert (end.kind, end.bevel_deg, end.cut_deg) == ("stem mouth", None, None)
                continue
            assert end.kind == "stem side"
            if edge is None:
                continue
            run, edge = np.array([along, out, up]), np.array([before, 0.0, edge])
            if end.aslant:
                near = stick.crossings[0 if end is stick.forward else -1]
                half = 0.5 * stick.stringer.width_m
                back, cut = planed_to_the_stem(run, edge, near.angle_deg, half,
                                               stick.stringer.depth_m)
                told = (*end.aslant.outer_m, *end.aslant.inner_m)
                assert told == pytest.approx(back, rel=2e-3, abs=1e-4)
                assert end.aslant.frame == near.frame
                leans.append((end.aslant, run, edge, near.angle_deg, half))
            else:
                back, cut = laid_on_the_stem(run, edge)
                assert 1.0 / math.tan(math.radians(end.bevel_deg)) == pytest.approx(back, rel=2e-3)
            assert end.cut_deg == pytest.approx(cut, abs=0.05)
    for lay, run, edge, face_deg, half in leans:
        skin = np.cross(run, edge)
        face = np.array([0.0, *(half * np.array([math.cos(math.radians(face_deg)),
                                                 math.sin(math.radians(face_deg))]))])
        out = abs(face @ skin) / np.linalg.norm(skin)  # of its upper edge, square to the skin
        assert lay.proud_m[0] == 0.0
        assert lay.proud_m[1] * math.cos(math.radians(lay.lean_deg)) == pytest.approx(
            out, rel=0.05)  # the face's edge is half a width off, square to the stick


def planed_to_the_stem(run, edge, face_deg, half, depth):
    """Of a board that leans as its face does in the section: (along its outer face's lower and
    upper edge, then its inner face's, to the stem's side; degrees its end, cut to the stem's edge
    as seen from the side, is off square on the outer face)."""
    run = run / np.linalg.norm(run)
    up = np.array([0.0, math.cos(math.radians(face_deg)), math.sin(math.radians(face_deg))])
    across = up - run * (up @ run)
    across /= np.linalg.norm(across)
    inward = np.cross(run, across)
    inward *= -np.sign(inward[1])
    starts = [wide * across + deep * inward for deep in (0.0, depth) for wide in (-half, half)]
    cuts = [np.linalg.solve(np.column_stack([run[[0, 2]], -edge[[0, 2]]]), -start[[0, 2]])[0]
            for start in starts[:2]]
    return [-start[1] / run[1] for start in starts], math.degrees(
        math.atan(abs(cuts[1] - cuts[0]) / (2.0 * half)))


def laid_on_the_stem(run, edge):
    """(how far back the inner face of a board 1 thick meets the stem's side along either edge,
    degrees its end on the outer face is off square): four edges of a board 1 x 1, whose outer
    face holds the stem's edge, run on to the stem's side, the plane y = 0."""
    run = run / np.linalg.norm(run)
    across = edge - run * (edge @ run)
    across /= np.linalg.norm(across)
    inward = np.cross(run, across)
    starts = [wide * across + deep * inward for deep in (0.0, 1.0) for wide in (0.0, 1.0)]
    low, high, inner_low, inner_high = (-start[1] / run[1] for start in starts)
    assert abs(inner_low - low) == pytest.approx(abs(inner_high - high), abs=1e-9)
    return abs(inner_low - low), math.degrees(math.atan(abs(high - low)))


def test_each_end_is_cut_for_where_it_is(boat):
    """A free end is rounded; where it faces the opening it is cut as one at the coaming."""
    kinds = {"stem": ("stem",), "into": ("host",), "coaming": ("coaming",),
             "free": ("coaming", "free")}
    for stick in stringer_list(boat):
        for end, drawn in ((stick.forward, stick.stringer.start),
                           (stick.after, stick.stringer.end)):
            assert end.kind.startswith(kinds[drawn.kind])
            if end.kind == "free":
                assert end.on.startswith("frame ")
                assert end.round_m == pytest.approx(stick.stringer.width_m / 2.0)
                assert min(abs(float(boat.map(drawn.x_m)) - x) for x in (
                    boat.opening.front_x_m, boat.opening.back_x_m)) > 0.1
            if end.kind == "coaming":
                assert "nothing sharp points at the paddler" in end.words
                assert end.round_m == pytest.approx(stick.stringer.width_m / 2.0)
                assert end.slope_deg > 0.0


def test_no_finished_stick_reaches_past_the_boats_end(boat):
    """The long point of an end on a stem, from its mark on the tape, is no farther out than the
    hull's own end: a ridge's upper corner is its mark, and lies there."""
    for curve, stick in zip(stick_curves(boat), stringer_list(boat), strict=True):
        for row, end in ((0, stick.forward), (-1, stick.after)):
            if not end.kind.startswith("stem"):
                continue
            mark = boat.length_m - curve.points_m[row, 0] if row else curve.points_m[row, 0]
            steep = float(np.hypot(1.0, np.hypot(*curve.slope[row])))
            assert mark - beyond_m(stick, end).max() / steep > -1e-6, stick.name
            if stick.stringer.role == "ridge":
                assert mark == pytest.approx(0.0, abs=1e-6)


def test_a_cut_at_the_coaming_is_the_angle_between_stick_and_coaming(boat):
    ridge = next(one for one in stringer_list(boat) if one.after.kind == "coaming")
    front, back = boat.opening.front_x_m, boat.opening.back_x_m
    x = boat.lines.line(ridge.name).end_x_m
    curve = boat.lines.line(ridge.name).curve
    stick = np.array([1.0, float(curve(x, 1)[1])])
    seat = np.array([back - front, boat.opening.deck_z_m[1] - boat.opening.deck_z_m[0]])
    cosine = stick @ seat / np.linalg.norm(stick) / np.linalg.norm(seat)
    assert ridge.after.cut_deg == pytest.approx(math.degrees(math.acos(cosine)), abs=0.01)


def test_a_taper_is_as_long_as_stick_and_host_overlap(base_lines):
    boat = scaled_boat(base_lines["long-tourer"], Scaling())
    for stick in stringer_list(boat):
        line = boat.lines.line(stick.name)
        for end, drawn in ((stick.forward, line.stringer.start), (stick.after, line.stringer.end)):
            if end.kind != "host":
                continue
            forward = end is stick.forward
            host = boat.lines.line(end.on)
            x = np.linspace(line.start_x_m, line.end_x_m, 40001)
            gap = np.linalg.norm(line.curve(x) - host.curve(x), axis=1)
            half = (line.stringer.width_m + host.stringer.width_m) / 2.0
            overlapping = x[gap < half]
            points = np.column_stack([overlapping, line.curve(overlapping)])
            length = np.linalg.norm(np.diff(points, axis=0), axis=1).sum()
            assert end.taper.length_m - end.past_m == pytest.approx(length, abs=0.002)
            assert abs((overlapping[0] if forward else overlapping[-1]) - drawn.x_m) < 1e-9
            assert end.taper.widths_m[0][0] == 0.0
            assert end.taper.widths_m[-1][0] == pytest.approx(end.taper.length_m)
            # the tip: where the host's half leaves the stick's half nothing of its inner side
            inner, outer = host.stringer.width_m / 2.0, line.stringer.width_m / 2.0
            rise = line.curve(line.curve.x).mean(axis=0) - host.curve(line.curve.x).mean(axis=0)
            assert end.planed == ("lower" if rise[1] > 0.0 else "upper")
            assert f"planed on its {end.planed} edge" in end.words
            bare = x[gap < inner - outer]
            short = np.column_stack([bare, line.curve(bare)])
            assert -end.past_m == pytest.approx(
                np.linalg.norm(np.diff(short, axis=0), axis=1).sum() if len(bare) > 1 else 0.0,
                abs=0.002)
            widths = [width for _, width in end.taper.widths_m]
            assert widths[0] == pytest.approx(0.0, abs=2e-4)
            assert widths[-1] == pytest.approx(line.stringer.width_m, abs=2e-4)
            assert widths == sorted(widths)
            # a straight taper over the length would meet at less than the angle at its wide end
            assert math.degrees(math.atan(half / length)) < end.taper.meeting_deg < 10.0


def test_the_taper_of_straight_sticks_is_the_one_worked_out_by_hand():
    """Two straight lines that part at 2 degrees, a stick 16 mm wide on a host 20 mm wide.

    At a place s along, the lines are s sin 2 apart. The stick keeps its outer 8 mm and what the
    host's 10 mm leave of the inner: nothing until s sin 2 = 2 mm, all 16 at s sin 2 = 18 mm.
    """
    angle = math.radians(2.0)
    along = np.linspace(0.0, 1.0, 4001)
    gap = along * math.sin(angle)
    tip, taper = blend(gap, along, 0.016, 0.010)
    assert tip == pytest.approx(0.002 / math.sin(angle), abs=0.0005)
    assert tip == pytest.approx(0.0573, abs=0.0005)
    assert taper.length_m == pytest.approx(0.016 / math.sin(angle), abs=0.0005)
    assert taper.length_m == pytest.approx(0.4585, abs=0.0005)
    assert taper.meeting_deg == pytest.approx(2.0, abs=0.01)
    for place, width in taper.widths_m:
        assert width == pytest.approx(place * math.sin(angle), abs=1e-5)
    assert [width for _, width in taper.widths_m] == pytest.approx(
        [0.0, 0.004, 0.008, 0.012, 0.016], abs=1e-5)


def test_the_tightest_bend_agrees_with_the_bending_check(scaled):
    """That check takes slopes as small, which is on the safe side, and looks at the sections only:
    a slope of 0.35 makes a radius 19 % longer."""
    sticks = {stick.name: stick for stick in stringer_list(scaled)}
    worst = tightest_bend(scaled)
    bends = [bend for stick in sticks.values() for bend in (stick.plan, stick.profile) if bend]
    least = min(bend.ratio for bend in bends)
    curve, stick = stick_curve(scaled, worst.name), sticks[worst.name]
    along = (
        float(np.interp(worst.x_m, curve.points_m[:, 0], curve.along_m)) + stick.forward.past_m)
    assert worst.ratio < 1.02 * least
    if not 0.0 <= along <= stick.length_m:  # on the drawn line, past the feather tip of the stick
        assert "host" in (stick.forward.kind, stick.after.kind)
        return
    assert 0.8 * least < worst.ratio
    own = [bend for bend in (sticks[worst.name].plan, sticks[worst.name].profile) if bend]
    assert min(bend.ratio for bend in own) < 1.2 * least


def test_a_bend_is_a_circles_through_three_of_its_points(boat):
    for stick in stringer_list(boat):
        curve = boat.lines.line(stick.name).curve
        for axis, bend in enumerate((stick.plan, stick.profile)):
            if bend is None:
                continue
            x = np.clip(bend.x_m, curve.x[0] + 0.002, curve.x[-1] - 0.002) + np.array(
                [-0.002, 0.0, 0.002])
            a, b, c = np.column_stack([x, curve(x)[:, axis]])
            (ux, uy), (vx, vy) = b - a, c - a
            sides = math.dist(a, b) * math.dist(b, c) * math.dist(a, c)
            assert bend.radius_m == pytest.approx(sides / (2.0 * abs(ux * vy - uy * vx)), rel=0.02)
            assert bend.ratio == pytest.approx(bend.radius_m / bend.thickness_m)


def test_verdicts_follow_the_wood_table():
    assert [bend_verdict(ratio) for ratio in (
        EASY_BEND_RATIO, EASY_BEND_RATIO - 1, CAREFUL_BEND_RATIO, CAREFUL_BEND_RATIO - 1)] == [
            BENDS[0], BENDS[1], BENDS[1], BENDS[2]]


def test_twist_is_the_turn_of_the_skin_beside_the_stick(base_lines):
    """A gunwale's face lies along the side below it."""
    boat = scaled_boat(base_lines["teaching-boat"], Scaling())
    stick = next(one for one in stringer_list(boat) if one.name == "gunwale")
    angles = []
    for index in range(len(boat.design.frames)):
        points = frame_points_m(boat, index)
        (y0, z0), (y1, z1) = points["chine"], points["gunwale"]
        angles.append(math.degrees(math.atan2(z1 - z0, y1 - y0)))
    turns = np.diff(angles)
    assert stick.twists_deg == pytest.approx(turns, abs=1e-6)
    greatest = max((angles[j] - angles[i] for i in range(len(angles))
                    for j in range(i, len(angles))), key=abs)
    assert stick.twist_deg == pytest.approx(greatest, abs=1e-6)
    assert abs(greatest) > abs(angles[-1] - angles[0])  # it winds up and back again
    assert [one.angle_deg for one in stick.crossings] == pytest.approx(angles, abs=1e-6)


@pytest.mark.parametrize("stock_m", [2.4, 3.0, 3.6, 4.8])
def test_pieces_fit_the_stock_and_make_the_stick(boat, stock_m):
    sticks = stringer_list(boat, (stock_m,))
    for stick, side in product(sticks, ("joints", "starboard")):
        one = getattr(stick, side)
        assert max(one.pieces_m) <= stock_m - 0.05 + 1e-9
        assert sum(one.pieces_m) == pytest.approx(
            stick.cut_m + len(one.middles_m) * one.scarf_m)
        assert len(one.pieces_m) == len(one.middles_m) + 1
        assert one.scarf_m == pytest.approx(
            SCARF_RATIO * min(stick.stringer.width_m, stick.stringer.depth_m))
        if one.middles_m:
            assert min(one.pieces_m) >= LEAST_PIECE_M - 1e-9
            first = one.middles_m[0] + ALLOWANCE_M + one.scarf_m / 2.0
            assert one.pieces_m[0] == pytest.approx(first)
        else:
            assert stick.cut_m <= stock_m - 0.05


@pytest.mark.parametrize("stock_m", [3.0, 3.6, 4.8])
def test_scarfs_keep_off_the_tightest_bend(boat, stock_m):
    for stick in stringer_list(boat, (stock_m,)):
        assert not stick.joints.in_a_bend
        hardest = min((bend for bend in (stick.plan, stick.profile) if bend),
                      key=lambda bend: bend.ratio)
        for middle in stick.joints.middles_m:
            assert abs(middle - hardest.along_m) >= stick.joints.scarf_m - 1e-3


def test_one_more_piece_rather_than_a_scarf_in_a_bend():
    """A bend where the only single scarf could be: two scarfs go round it."""
    along = np.linspace(0.0, 5.0, 501)
    strain = np.where(np.abs(along - 2.5) < 0.6, 1.0 / 80.0, 1.0 / 1000.0)
    bent = joints(along, strain, 5.0, 0.0, 0.02, 3.05)
    straight = joints(along, np.full_like(along, 1.0 / 1000.0), 5.0, 0.0, 0.02, 3.05)
    assert len(straight.middles_m) == 1
    assert len(bent.middles_m) == 2
    assert all(abs(middle - 2.5) > 0.6 for middle in bent.middles_m)
    assert not bent.in_a_bend


def test_a_scarf_that_cannot_keep_off_says_so():
    along = np.linspace(0.0, 5.0, 501)
    assert joints(along, np.full_like(along, 1.0 / 80.0), 5.0, 0.0, 0.02, 3.0).in_a_bend
