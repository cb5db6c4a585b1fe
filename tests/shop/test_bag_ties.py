"""Where the float bags' nose lines turn, against the stems, the bags' room and the cord told."""

import numpy as np
import pytest
from shapely.geometry import LineString

from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hydro.ends import end_zones
from sizer.shop.stems import stem_patterns


@pytest.fixture(scope="module", params=[
    Scaling(), Scaling(length=0.9, beam=0.9, depth=0.9), Scaling(length=1.08, beam=1.1, depth=1.1)],
    ids=["as drawn", "small", "large"])
def scaled(lines, request):
    return scaled_boat(lines, request.param)


def test_a_nose_line_turns_between_the_stems_head_and_the_bags_nose(scaled):
    """Clear of the plywood and of the head's holes, where the gunwales spread, and so far ahead of
    what a bag is reckoned with that its knot and its folds have room."""
    zones = end_zones(scaled)
    for stem, zone in zip(stem_patterns(scaled), (zones.bow, zones.stern), strict=True):
        (inboard, low), (above, high) = stem.ring_m
        assert inboard == above
        assert low < high
        assert stem.wood.distance(LineString(stem.ring_m)) > 0.005
        gunwale = stem.beside[-1]
        held = [hole[0] for one in stem.lashings if gunwale.stringer in one.sticks
                for hole in one.holes]
        assert inboard > max(held) + 0.010
        x = inboard if stem.end == "bow" else scaled.length_m - inboard
        half = np.interp(x + np.array([-0.01, 0.01]), scaled.sections.x_m,
                         scaled.sections.y_m[:, scaled.sections.sheer])
        assert (half[1] > half[0]) == (stem.end == "bow")
        nose = zone.nose_x_m if stem.end == "bow" else scaled.length_m - zone.nose_x_m
        assert nose > inboard + 0.040
