"""Notches whose walls or floors are sawn away: every one is told, and no floor is promised."""

from dataclasses import replace

import pytest
from shapely.affinity import scale
from shapely.geometry import LineString
from shapely.ops import unary_union

from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.shop.frame_drawing import frame_drawing
from sizer.shop.frames import frame_patterns
from sizer.shop.pattern_checks import pattern_checks


@pytest.fixture(scope="module")
def tourers(base_lines):
    return {one.name: one for one in frame_patterns(
        scaled_boat(base_lines["long-tourer"], Scaling()))}


def notch_of(pattern, name):
    return next(one for one in pattern.section.notches if one.stringer == name)


def without(pattern, lines):
    """The pattern with the wood round some lines taken away on both sides."""
    gone = unary_union([line.buffer(0.0025) for line in lines])
    gone = unary_union([gone, scale(gone, -1.0, origin=(0.0, 0.0))])
    return replace(pattern, wood=pattern.wood.difference(gone))


def told(pattern, name):
    return {one.place: one for one in pattern_checks([pattern]) if one.name == name}


def test_every_notch_without_walls_is_flagged(tourers):
    end = tourers["F1"]
    assert [one.status for one in told(end, "notch holds its stick").values()] == ["pass"]
    names = ("chine", "fore bilge", "gunwale")
    bare = without(end, [wall for name in names for wall in notch_of(end, name).walls()])
    found = told(bare, "notch holds its stick")
    assert set(found) == set(names)
    assert {one.status for one in found.values()} == {"caution"}


def test_a_notch_without_a_floor_is_flagged_and_its_note_promises_none(tourers):
    shared = tourers["F4"]
    pair = shared.shared_notches[0]
    assert any("Set each on its own floor" in note for note in frame_drawing(shared).notes)
    assert told(shared, "notch has a floor") == {}
    one = notch_of(shared, pair[1])
    floor = LineString([one.at(along, one.floor_m) for along in (one.low_m, one.high_m)])
    bare = without(shared, [floor])
    assert told(bare, "notch has a floor")[pair[1]].status == "caution"
    notes = " ".join(frame_drawing(bare).notes)
    assert "own floor" not in notes
    assert f"No floor is left under {pair[1]}: set it to its height on the other" in notes
