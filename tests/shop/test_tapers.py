"""What a taper leaves of a stick in a frame, against the two sticks' lines."""

from math import dist

import pytest

from sizer.hull.boat import frame_points_m, scaled_boat
from sizer.hull.scale import Scaling
from sizer.shop.frames import frame_patterns


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
