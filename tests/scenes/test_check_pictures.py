"""Every check has a picture that shows what it measures."""

import re
from xml.etree import ElementTree

import numpy as np
import pytest

from sizer.drawing.page_svg import page_svg
from sizer.fit.checks import BY_KEY
from sizer.scenes.check_pictures import check_picture

KEYS = tuple(BY_KEY)


def parsed(name):
    return ElementTree.fromstring(page_svg(check_picture(name)))


def points(node):
    return np.array(re.findall(r"(-?[\d.]+) (-?[\d.]+)", node.get("d")), float)


@pytest.mark.parametrize("key", KEYS)
def test_picture_is_named_described_and_inside_its_frame(key):
    root = parsed(key)
    assert root.get("role") == "img"
    assert root[0].tag.endswith("title")
    assert root[0].text == f"Check: {BY_KEY[key].title}"
    assert re.fullmatch(r"(From|Across|A stick|A crowd) .*\.", root.get("aria-label"))
    assert root.get("viewBox") == "0 0 220 120"
    measured = [node for node in root.iter() if node.get("class") == "sz-dimension"]
    assert measured or key in ("suits", "together"), "a picture shows what is measured"
    for node in root.iter():
        if node.tag.endswith("path"):
            places = points(node)
            assert places.min() >= 0.0
            assert places[:, 0].max() <= 220.0
            assert places[:, 1].max() <= 120.0
        elif node.tag.endswith("text"):
            assert 13.0 <= float(node.get("y")) <= 117.0
            assert float(node.get("font-size")) >= 13.0


def test_pictures_differ_unless_they_are_shared_on_purpose():
    drawn = {}
    for key in KEYS:
        drawn.setdefault(page_svg(check_picture(key)).split("</title>")[1], []).append(key)
    assert [keys for keys in drawn.values() if len(keys) > 1] == [
        ["thighs", "knees"], ["brace-far", "brace-near"], ["way-out-long", "way-out-wide"],
        ["load", "reserve"], ["gm", "gm-bare"], ["range", "knock"]]


def test_rim_picture_shows_the_rim_at_the_water():
    root = parsed("rim-angle")
    (water,) = (points(node)[0, 1] for node in root.iter() if node.get("class") == "sz-waterline")
    (hull,) = (points(node) for node in root.iter() if node.get("class") == "sz-ink")
    rims = hull[[0, -1]]
    assert rims[:, 1].max() == pytest.approx(water, abs=1.5)


def test_freeboard_picture_measures_from_the_water_to_the_side_deck():
    root = parsed("freeboard")
    (water,) = (points(node)[0, 1] for node in root.iter() if node.get("class") == "sz-waterline")
    (size,) = (points(node)[2:4, 1] for node in root.iter()
               if node.get("class") == "sz-dimension")
    (hull,) = (points(node) for node in root.iter() if node.get("class") == "sz-ink")
    assert size[0] == pytest.approx(water, abs=0.1)
    assert size[1] == pytest.approx(hull[hull[:, 0].argmax(), 1], abs=0.1)


def test_unknown_keys_are_refused():
    with pytest.raises(KeyError):
        check_picture("colour of the skin")
