"""Stem pieces against the boat's profile and the keel's stock."""

import re
from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry import LineString, Point

from sizer.drawing.record import Path, Text
from sizer.hull.boat import scaled_boat, sections_at
from sizer.hull.scale import Scaling
from sizer.hull.stick_curves import stick_curves
from sizer.scenes.stem_joint import filled_words, lettered
from sizer.shop.lashing import COUNTERSINK_M, EDGE_M, HOLE_M
from sizer.shop.relief import relieved
from sizer.shop.stem_drawing import stem_drawing
from sizer.shop.stem_sticks import keel_end
from sizer.shop.stems import stem_checks, stem_patterns
from sizer.shop.stick_ends import stick_ends

NEAR_M = 0.0001


@pytest.fixture(scope="module", params=[Scaling(), Scaling(length=1.05, beam=1.05, depth=0.95)],
                ids=["as drawn", "scaled"])
def scaled(lines, request):
    return scaled_boat(lines, request.param)


@pytest.fixture(scope="module")
def stems(scaled):
    return stem_patterns(scaled)


def test_a_bases_tails_are_long_enough_to_lash_at_the_least_length_it_goes_to(lines):
    """By the file's own places, all drawn together alike: 15 mm stay clear of the nearest frame."""
    design = lines.design
    keel, frames = design.stringers[0].name, [one.x_m for one in design.frames]
    gaps = min(frames) - design.bow.lands_m[keel], design.stern.lands_m[keel] - max(frames)
    for gap in gaps:
        assert 1000.0 * design.limits.length[0] * gap - 15.0 >= 50.0


@pytest.mark.parametrize("length", [0.95, 1.0, 1.05, 1.10, 1.15])
def test_a_stems_holes_leave_wood_to_its_edge_with_their_countersinks(lines, length):
    """5 mm outside the countersink's rim, 6 mm across."""
    for stem in stem_patterns(scaled_boat(lines, Scaling(length, length, length))):
        for hole in (hole for one in stem.lashings for hole in one.holes):
            assert 1000.0 * stem.wood.boundary.distance(Point(hole)) - 3.0 >= 5.0


def test_outer_edge_is_the_moulded_profile(scaled, stems):
    for stem, design, curve in zip(stems, (scaled.design.bow, scaled.design.stern),
                                   (scaled.lines.bow_profile, scaled.lines.stern_profile),
                                   strict=True):
        base_x = np.linspace(*design.profile_m[[0, -1], 0], 23)
        x = scaled.map(base_x)
        inboard = x if stem.end == "bow" else scaled.length_m - x
        edge = stem.wood.boundary
        below_ridge = 0
        for point in np.column_stack([inboard, scaled.scaling.depth * curve(base_x)]):
            deck = float(sections_at(scaled, [point[0] if stem.end == "bow" else
                                              scaled.length_m - point[0]]).z_m[0, -1])
            ridge = max(one.depth_m for one in scaled.design.stringers if one.role == "ridge")
            if point[1] < deck - ridge:
                below_ridge += 1
                assert edge.distance(Point(point)) < NEAR_M
        assert below_ridge > 12


def test_sticks_are_drawn_to_the_stems_edge_as_they_are_cut(scaled, stems):
    """No part of them stands outside the moulded profile, worked out from the sections; their ends
    lie on it, at the stick's moulded line as far off square as its card tells."""
    curves = {one.name: one for one in stick_curves(scaled)}
    for stem in stems:
        for one in stem.beside:
            ring = np.asarray(one.band().exterior.coords)
            x = ring[:, 0] if stem.end == "bow" else scaled.length_m - ring[:, 0]
            rows = np.argsort(x)
            keel = np.empty(len(x))
            keel[rows] = sections_at(scaled, x[rows]).z_m[:, 0]
            over = ring[:, 1] - keel
            at_head = ring[:, 0] < 0.0  # its corner over the head, where no section is
            on_stem = ring[:, 0] < stem.keel_m[-1, 0]
            assert over[~at_head & on_stem].min() > -NEAR_M
            cut = ring[(np.abs(over) < NEAR_M) | at_head]
            ends = stick_ends(scaled, curves[one.stringer])
            told = ends[0 if stem.end == "bow" else 1]
            near = cut[np.argsort(np.hypot(*(cut - one.line_m[0]).T))[:4]]
            along, deep = (np.ptp(near @ way) for way in _ways(one))
            wanted = told.cut_deg if told.bevel_deg else _edge_off_square_deg(one)
            assert np.degrees(np.arctan2(along, deep)) == pytest.approx(wanted, abs=5.0)


def _ways(one):
    """Along a stick's first stretch and square to it, both of length 1."""
    way = (one.line_m[5] - one.line_m[0]) / np.hypot(*(one.line_m[5] - one.line_m[0]))
    return way, np.array([-way[1], way[0]])


def _edge_off_square_deg(one):
    """The stem's edge where a stick's line meets it, from square across that, from the side."""
    row = int(np.argmin(np.hypot(*(one.edge_m - one.line_m[0]).T)))
    way = one.edge_m[row + 1] - one.edge_m[row - 1]
    along, square = (abs(way @ to) for to in _ways(one))
    return np.degrees(np.arctan2(along, square))


def test_both_points_of_a_bare_head_lie_under_the_ridges_lap(scaled, stems):
    """The tip on the moulded profile, the inner corner on the stem's inner edge, both as far under
    the moulded deck line as the lap leaves of the ridge."""
    for stem in stems:
        tip, corner = stem.head_m
        lap = stem.ridge_lap
        for inboard, high in (tip, corner):
            over = float(np.interp(inboard, *lap.line_m.T)) - high
            assert over == pytest.approx(lap.left_m, abs=0.0015)
            assert stem.wood.boundary.distance(Point(inboard, high)) < NEAR_M
        assert corner[0] - tip[0] > 0.05
        beyond = stem.wood.intersection(LineString([(corner[0] + 0.003, 0.0),
                                                    (corner[0] + 0.003, 1.0)]))
        deck = float(np.interp(corner[0] + 0.003, *lap.line_m.T))
        assert beyond.bounds[3] < deck - lap.left_m - 0.0005  # there the head has ended


def test_birds_mouth_is_as_deep_as_the_keel_and_keeps_it_on_its_line(scaled, stems):
    keel = scaled.design.stringers[0]
    for stem in stems:
        line = LineString(stem.keel_m)
        foot, tip = stem.keel_m[0], stem.keel_m[-1]
        assert stem.wood.distance(Point(foot)) < NEAR_M
        seat = [Point(point) for point in np.asarray(stem.wood.exterior.coords)
                if foot[0] + 0.02 < point[0] < tip[0] - 0.02 and point[1] < foot[1] + 0.04]
        assert len(seat) > 10
        for point in seat:
            assert line.distance(point) == pytest.approx(keel.depth_m, abs=NEAR_M)
        step = line.interpolate(0.0005).buffer(keel.depth_m - 0.002).intersection(stem.wood)
        assert step.bounds[2] < foot[0] + 0.002, "nothing of the stem inside the keel's end"


def test_the_ridges_lap_lies_on_the_head(scaled, stems):
    for stem, end in zip(stems, (scaled.design.bow, scaled.design.stern), strict=True):
        ridge = next(one for one in scaled.design.stringers
                     if one.role == "ridge" and one.name in end.lands_m)
        top = np.array([point for point in np.asarray(stem.wood.exterior.coords)
                        if point[1] > stem.wood.bounds[3] - 0.004
                        and LineString(stem.profile_m).distance(Point(point)) > 0.002])
        top = top[np.argsort(top[:, 0])]
        top = top[:(len(top) + 1) // 2]  # the outer half: away from the piece's inboard edge
        inboard = top[1:-1, 0]
        assert len(inboard) > 5
        x = inboard if stem.end == "bow" else (scaled.length_m - inboard)[::-1]
        z = sections_at(scaled, x).z_m[:, -1]
        z = z if stem.end == "bow" else z[::-1]
        heights = top[1:-1, 1]
        assert z - heights == pytest.approx(np.full(len(z), 0.010), abs=NEAR_M)
        assert stem.ridge_lap.left_m == 0.010 < ridge.depth_m


def test_a_lapped_ridge_has_the_stems_wood_close_under_it_all_along(scaled, stems):
    """From end to where it is whole, upright under its underside: on the head, then along the
    stem's inner edge, square to which the gap is no more than a trim's."""
    for stem in stems:
        lap = stem.ridge_lap
        assert lap.flat_m < lap.length_m
        head = stem.head_m[1][0]
        assert lap.flat_m == pytest.approx(head + 0.002, abs=0.0015)
        for inboard in np.linspace(stem.head_m[0][0] + 0.005, lap.length_m - 0.001, 40):
            gone = np.interp(inboard, (lap.flat_m, lap.length_m), (lap.left_m, lap.depth_m))
            under = Point(inboard, float(np.interp(inboard, *lap.line_m.T)) - float(gone))
            assert stem.wood.distance(under) < 0.004, inboard


def test_the_head_reaches_up_between_the_gunwales(scaled, stems):
    """At least two thirds of their width, where they bear: what a lashing pulls them onto."""
    for stem in stems:
        gunwale = stem.beside[-1]
        width = scaled.design.stringer(gunwale.stringer).width_m
        start, end = gunwale.bears_m()
        upright = LineString([(0.5 * (start + end), 0.0), (0.5 * (start + end), 1.0)])
        on_wood = stem.wood.intersection(upright).intersection(gunwale.band())
        assert on_wood.length > 2.0 / 3.0 * width


def test_the_keels_end_is_planed_to_the_stems_thickness(scaled, stems):
    keel = scaled.design.stringers[0]
    for stem in stems:
        end = stem.keel_end
        off = 0.5 * (keel.width_m - stem.thickness_m)
        if off <= 0.0:
            assert end.taper_m == 0.0
            continue
        assert end.end_width_m == stem.thickness_m
        assert np.tan(np.radians(end.bevel_deg)) == pytest.approx(off / end.taper_m)
        told = " ".join(stem_drawing(stem).notes)
        assert (f"from {1000 * keel.width_m:g} mm to 18 mm over the last "
                f"{1000 * end.taper_m:.0f} mm, "
                f"{np.degrees(np.arctan(1 / 12)):.1f} degrees a side") in told


def test_a_wide_keel_is_tapered_over_its_tail_at_most(base_lines):
    keel = replace(base_lines["day-boat"].design.stringers[0], width_m=0.028)
    end = keel_end(keel, 0.018, 0.110)
    assert (end.taper_m, end.end_width_m) == (pytest.approx(0.060), 0.018)
    assert keel_end(keel, 0.018, 0.030).taper_m == 0.030
    assert keel_end(keel, 0.018, 0.030).bevel_deg == pytest.approx(
        np.degrees(np.arctan2(5.0, 30.0)))


def test_every_stick_on_a_stem_is_tied_beside_it(scaled, stems):
    for stem, end in zip(stems, (scaled.design.bow, scaled.design.stern), strict=True):
        assert {name for one in stem.lashings for name in one.sticks} == set(end.lands_m)
        sticks = [one.band() for one in stem.beside]
        for _, hole in stem.holes:
            assert min(Point(hole).distance(one) for one in sticks) >= 0.004 + HOLE_M / 2.0 - 1e-6
        gunwale = stem.beside[-1]
        tied = next(one for one in stem.lashings if gunwale.stringer in one.sticks)
        assert len(tied.sticks) == 2, "with the ridge, whose lap it holds down"


def test_a_stem_without_room_for_a_hole_fails_by_stick(lines):
    stem = stem_patterns(scaled_boat(lines, Scaling()))[0]
    bare = replace(stem, lashings=tuple(
        one for one in stem.lashings if stem.beside[-1].stringer not in one.sticks))
    failed = [check for check in stem_checks([bare]) if check.status == "fail"]
    assert [check.name for check in failed] == ["sticks not tied to it"]
    assert stem.beside[-1].stringer in failed[0].place


def test_landings_start_where_the_design_says(scaled, stems):
    for stem, end in zip(stems, (scaled.design.bow, scaled.design.stern), strict=True):
        for landing in stem.landings:
            name = landing.stringer.removesuffix(", lower edge")
            x = float(scaled.map(end.lands_m[name]))
            inboard = x if stem.end == "bow" else scaled.length_m - x
            assert landing.line_m[0, 0] == pytest.approx(inboard, abs=1e-9)
            if name == landing.stringer:
                assert stem.wood.boundary.distance(Point(landing.line_m[0])) < NEAR_M


def test_stems_hold_and_clear_the_frames(scaled, stems):
    assert [check for check in stem_checks(stems) if check.status != "pass"] == []
    for stem, frame_x in zip(stems, scaled.frame_x_m[[0, -1]], strict=True):
        inboard = frame_x if stem.end == "bow" else scaled.length_m - frame_x
        assert stem.wood.bounds[2] < inboard - 0.010
        assert stem.holes
        for _, spot in stem.holes:
            assert stem.wood.boundary.distance(Point(spot)) >= EDGE_M + HOLE_M / 2.0 - 1e-9


def test_relief_and_countersink_leave_wood_round_a_stems_holes(scaled, stems):
    """The piece as a 6 mm cutter leaves it, bitten into at its inner corners, each hole as wide as
    its countersink's rim."""
    for stem in stems:
        wood = relieved(stem.wood, 0.006, "dog-bone")
        for stick, spot in stem.holes:
            left = wood.boundary.distance(Point(spot)) - 0.5 * COUNTERSINK_M
            assert left >= EDGE_M, (stem.name, stick)


def test_a_tail_too_short_to_lash_fails(lines):
    stem = stem_patterns(scaled_boat(lines, Scaling()))[0]
    short = type(stem)(**{**vars(stem), "keel_m": stem.keel_m[:20]})
    assert [check.name for check in stem_checks([short]) if check.status == "fail"] == [
        "tail on the keel"]


def test_stem_drawings_mark_and_name(stems):
    for stem in stems:
        strokes = stem_drawing(stem).strokes
        cuts = [stroke for stroke in strokes if stroke.pen == "cut"]
        assert len(cuts) == 1
        assert cuts[0].closed
        words = [stroke.text for stroke in strokes if isinstance(stroke, Text)]
        assert {stem.name, "18 mm", "UP"} <= set(words)
        assert {landing.stringer for landing in stem.landings} <= set(words)
        for stroke in strokes:
            if isinstance(stroke, Path) and stroke.pen == "mark":
                assert stem.wood.buffer(1e-7).covers(LineString(stroke.points_m))


def test_stem_and_frame_drawings_are_told_apart(boat, frame_drawings):
    names = [one.name for one in frame_drawings]
    names += [stem_drawing(one).name for one in stem_patterns(boat)]
    assert len(set(names)) == len(names)


def test_a_lapped_ridges_end_is_drawn_to_the_rake_from_the_boats_end(scaled, stems):
    """Its outer corner at the hull's own end, the cut as far off square as its card tells."""
    curves = {one.name: one for one in stick_curves(scaled)}
    for stem in stems:
        lap = stem.ridge_lap
        ring = next(one.points_m for one in stem_drawing(stem).strokes
                    if isinstance(one, Path) and one.pen == "stick"
                    and np.hypot(*(one.points_m - lap.line_m[0]).T).min() < 1e-6
                    and np.ptp(one.points_m[:, 0]) > lap.length_m)
        top = ring[np.argmin(np.hypot(*(ring - lap.line_m[0]).T))]
        assert top[0] == pytest.approx(0.0, abs=NEAR_M)
        assert ring[:, 0].min() > -NEAR_M
        told = stick_ends(scaled, curves[stem.ridge])[0 if stem.end == "bow" else 1]
        run = lap.line_m[1] - lap.line_m[0]
        way = run / np.hypot(*run)
        off = ring - top
        on_lap = (off @ way < 2.0 * lap.left_m) & (off @ (-way[1], way[0]) < -0.5 * lap.left_m)
        corner = off[on_lap][np.argmin(off[on_lap] @ way)]
        leans = np.degrees(np.arctan2(corner @ way, -corner @ (-way[1], way[0])))
        assert leans == pytest.approx(told.cut_deg, abs=2.0)


def test_each_cord_crosses_its_sticks_on_their_bevels_or_the_words_tell_to_fill(scaled, stems):
    """How far open it is between a stick's inner face and the stem's side where the cord crosses:
    no farther than 3 mm past a bevel makes it, or the words tell how thick a wedge fills it, of
    chines and gunwales alike."""
    found = 0
    for stem in stems:
        for lashing, told in zip(stem.lashings, lettered(stem), strict=True):
            for one in stem.beside:
                if one.stringer not in lashing.sticks:
                    continue
                opens = _open_m(one, lashing)
                past = re.search(
                    rf"past the {one.stringer}'s bevel, a wedge up to (\d+) mm thick", told)
                assert opens < 0.0015 or past, (stem.name, told, opens)
                if past:
                    assert opens > 0.0004
                    assert float(past[1]) == pytest.approx(1000.0 * opens, abs=1.0)
                found += len(lashing.holes) == 2 and not past
    assert ("was filled with a wedge" in filled_words(stems)) == any(
        "past the" in told for stem in stems for told in lettered(stem))
    one_chine = all(len(stem.beside) == 2 for stem in stems)
    assert found >= (0 if one_chine else 1)


def _open_m(one, lashing):
    """The most that a stick's inner face, on by its run where it lands, stands out from the stem's
    side where a cord crosses the stick; 0 where it bears all along."""
    lay, hole = one.lay, lashing.holes[0]
    upright = (0.0, 0.3 if one.role == "gunwale" else -0.3)
    cord = LineString([hole, lashing.holes[-1] if len(lashing.holes) == 2
                       else np.add(hole, upright)]).intersection(one.band())
    spots = np.array([cord.interpolate(share, normalized=True).coords[0]
                      for share in np.linspace(0.0, 1.0, 31)]) - one.line_m[0]
    corner = lay.depth_m * lay.inward  # a place of the inner face, whose ways are run and across
    face = np.column_stack([lay.run, lay.across])
    out = [corner[1] + face[1] @ np.linalg.solve(face[[0, 2]], spot - corner[[0, 2]])
           for spot in spots]
    return max(0.0, *out)


def test_a_bevel_ends_on_either_edge_of_a_stick_where_its_card_tells(stems):
    """On the drawn stick, along each edge from where its line lands."""
    for stem in stems:
        for one in stem.beside:
            lay, ring = one.lay, one.bevel_band()
            if lay.twisted:  # as long on either edge, its inner end as aslant as its cut one
                way, up = _ways(one)
                long = []
                for share in (0.15, 0.85):
                    at = one.line_m[0] + (one.low_m[0] + share * (
                        one.high_m[0] - one.low_m[0])) * up
                    long.append(ring.intersection(LineString(
                        [at - 0.3 * way, at + 0.4 * way])).length)
                assert long[0] == pytest.approx(long[1], rel=0.08), (stem.name, one.stringer)
                continue
            for across, out in zip(lay.edges_m, lay.inner_m, strict=True):
                tip = (across * lay.across + lay.depth_m * lay.inward + out * lay.run)[[0, 2]]
                end = Point(one.line_m[0] + tip)
                assert ring.exterior.distance(end) < 0.0035, (stem.name, one.stringer)


def test_two_cords_over_a_head_lie_side_by_side(stems):
    for stem in stems:
        gunwale = stem.beside[-1].stringer
        places = [one.holes[0][0] for one in stem.lashings if gunwale in one.sticks]
        assert len(places) == 2
        assert abs(places[0] - places[1]) > 0.009
