"""What a taper leaves of a stick in a frame, against the two sticks' lines."""

from math import dist

import numpy as np
import pytest

from sizer.hull.boat import frame_points_m, scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.stick_curves import stick_curve, stick_points_m
from sizer.shop.frames import frame_patterns
from sizer.shop.skin import lashing
from sizer.shop.stems import stem_patterns
from sizer.shop.stringers import stringer_list
from sizer.shop.tapers import ties_from_tip_m


def drawn(base_lines):
    """Each shipped base as drawn."""
    return [scaled_boat(lines, Scaling()) for lines in base_lines.values()]


def blending(boat):
    """(FramePattern, its index, Notch of the stick, Notch of its host) where both lie in one
    pocket."""
    for index, pattern in enumerate(frame_patterns(boat)):
        notches = {one.stringer: one for one in pattern.section.notches}
        for name in pattern.blending:
            one = boat.design.stringer(name)
            host = next(end.into for end in (one.start, one.end) if end.kind == "into")
            if (host, name) in pattern.shared_notches:
                yield pattern, index, notches[name], notches[host]


def test_a_tapered_stick_lies_beside_its_host_in_a_frame(base_lines):
    """It keeps its outer half and what the host's half leaves of the gap between the lines, which a
    frame cuts at right angles but for a few degrees."""
    found = 0
    for boat in drawn(base_lines):
        for pattern, index, stick, host in blending(boat):
            points = frame_points_m(boat, index)
            gap = dist(points[stick.stringer], points[host.stringer])
            left = gap + 0.5 * stick.size_m[0] - 0.5 * host.size_m[0]
            assert left < stick.size_m[0] - 0.0005, "it is tapered here"
            assert stick.high_m - stick.low_m == pytest.approx(left, abs=0.0005), pattern.name
            assert stick.high_m == pytest.approx(0.5 * stick.size_m[0], abs=0.0002)
            shared = stick.stock().intersection(host.stock()).area
            assert shared < 0.15 * stick.stock().area
            found += 1
    assert found >= 2


def test_a_stick_that_blends_nowhere_near_is_whole_in_its_frames(base_lines):
    for boat in drawn(base_lines):
        for pattern in frame_patterns(boat):
            for notch in pattern.section.notches:
                if notch.stringer not in pattern.blending:
                    wide = notch.high_m - notch.low_m
                    assert notch.size_m[0] <= wide < 1.02 * notch.size_m[0]


def test_lashings_to_the_host_stand_evenly_from_the_tip_to_the_frame():
    assert ties_from_tip_m(0.200) == pytest.approx((0.040, 0.120))
    assert ties_from_tip_m(0.201) == pytest.approx((0.040, 0.040 + 0.161 / 3, 0.040 + 0.322 / 3))
    assert ties_from_tip_m(0.090) == pytest.approx((0.040,))
    assert ties_from_tip_m(0.030) == pytest.approx((0.015,))


def test_a_stick_that_ends_on_another_is_lashed_to_it_where_they_touch(base_lines):
    """From the last frame's plywood to the feather tip no more than 80 mm bare, and both within one
    cord: nearer than half of each, by their lines in space."""
    found = 0
    for boat in drawn(base_lines):
        sticks = stringer_list(boat)
        ends = [(stick, end) for stick in sticks for end in (stick.forward, stick.after)
                if end.taper]
        tied = [(stick, end, places) for stick in sticks for end, _, places in stick.ties]
        assert [one[:2] for one in tied] == ends
        for stick, end, places in tied:
            marks = [one for crossing in stick.crossings
                     for one in (crossing.along_m, crossing.far_m)]
            tip, frame = ((0.0, min(marks)) if end is stick.forward
                          else (stick.length_m, max(marks)))
            steps = np.diff(sorted([tip, *places, frame]))
            assert steps.min() > 0.03
            assert steps.max() <= 0.080 + 1e-9
            assert min(abs(tip - one) for one in places) <= 0.040 + 1e-9
            curve, host = stick_curve(boat, stick.name), boat.lines.line(end.on)
            apart = np.linalg.norm(curve.points_m - stick_points_m(boat, host, curve.base_x_m),
                                   axis=1)
            half = 0.5 * (stick.stringer.width_m + host.stringer.width_m)
            gaps = np.interp(places, curve.along_m + stick.forward.past_m, apart)
            assert gaps.max() < half
        counted = lashing(boat, sticks, stem_patterns(boat))
        assert counted.at_ends == sum(2 * len(places) for _, _, places in tied)
        assert ("round sticks that end on another" in counted.says) == bool(tied)
        assert counted.count == counted.at_frames + counted.at_ends + counted.at_stems
        found += len(tied)
    assert found >= 2
