"""Every check of a real job has a picture and two sentences, and no word is there for nothing."""

import re
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

import sizer
from sizer.fit.request import read_request
from sizer.job import run
from sizer.web.drawings.check_pictures import check_svg
from sizer.web.words import GLOSSARY, check_help

SOMETIMES = "cockpit clear of deck stringers"  # only where one runs beside the opening
NAMES = (
    "hips beside the seat", "thighs under the deck", "knees under the deck",
    "feet under the deck", "feet side by side", "footbrace far enough", "footbrace near enough",
    "opening long enough", "opening wide enough", "side-deck freeboard",
    "not too high in the wind", "rim freeboard", "floats on its lines", "trim",
    "initial steadiness (GM)", "steadiness sitting tall (GM)", "load reserve", "length factor",
    "beam factor", "depth factor", "deck crown factor", "stringers bend cold",
    "deck beside the opening", "cockpit clear of frames", SOMETIMES, "range of stability",
    "rim goes under", "energy of a knock", "flooded rim with float bags")


def parsed(name):
    return ElementTree.fromstring(check_svg(name))


def points(node):
    return np.array(re.findall(r"(-?[\d.]+) (-?[\d.]+)", node.get("d")), float)


def test_every_check_of_a_real_job_has_a_picture_and_help(lines):
    job = run(read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
        "weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}), lines)
    names = {check.name for check in job.fitted.checks}
    assert names | {SOMETIMES} == set(NAMES)
    for name in names:
        assert f"Check: {name}" in check_svg(name)
        assert check_help(name)


@pytest.mark.parametrize("name", NAMES)
def test_picture_is_named_described_and_inside_its_frame(name):
    root = parsed(name)
    assert root.get("role") == "img"
    assert root[0].tag.endswith("title")
    assert root[0].text == f"Check: {name}"
    assert re.fullmatch(r"(From|Across|A stick) .*\.", root.get("aria-label"))
    assert root.get("viewBox") == "0 0 220 120"
    measured = [node for node in root.iter() if node.get("class") == "sz-dimension"]
    assert measured, "a picture shows what is measured"
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
    for name in NAMES:
        drawn.setdefault(check_svg(name).split("</title>")[1], []).append(name)
    assert [names for names in drawn.values() if len(names) > 1] == [
        ["thighs under the deck", "knees under the deck"],
        ["footbrace far enough", "footbrace near enough"],
        ["opening long enough", "opening wide enough"],
        ["side-deck freeboard", "not too high in the wind"],
        ["initial steadiness (GM)", "steadiness sitting tall (GM)"],
        ["range of stability", "energy of a knock"]]


def test_rim_picture_shows_the_rim_at_the_water():
    root = parsed("rim goes under")
    (water,) = (points(node)[0, 1] for node in root.iter() if node.get("class") == "sz-waterline")
    (hull,) = (points(node) for node in root.iter() if node.get("class") == "sz-ink")
    rims = hull[[5, -1]]  # the last point of each side
    assert rims[:, 1].max() == pytest.approx(water, abs=1.5)


def test_freeboard_picture_measures_from_the_water_to_the_side_deck():
    root = parsed("side-deck freeboard")
    (water,) = (points(node)[0, 1] for node in root.iter() if node.get("class") == "sz-waterline")
    (size,) = (points(node)[:2, 1] for node in root.iter() if node.get("class") == "sz-dimension")
    (hull,) = (points(node) for node in root.iter() if node.get("class") == "sz-ink")
    assert size[0] == pytest.approx(water, abs=0.1)
    assert size[1] == pytest.approx(hull[hull[:, 0].argmax(), 1], abs=0.1)


@pytest.mark.parametrize("name", NAMES)
def test_help_is_two_plain_sentences(name):
    for sentence in check_help(name):
        assert sentence[0].isupper()
        assert sentence.endswith(".")
        assert 20 <= len(sentence) <= 130


def test_unknown_names_are_refused():
    for read in (check_svg, check_help):
        with pytest.raises(KeyError):
            read("colour of the skin")


def test_glossary_is_in_order_and_says_each_term_once():
    terms = [term for term, _ in GLOSSARY]
    assert terms == sorted(set(terms), key=str.lower)
    for term, sentence in GLOSSARY:
        assert sentence[0].isupper(), term
        assert sentence.endswith("."), term
        assert len(sentence) <= 150, term


def test_every_glossary_term_is_a_word_of_the_program():
    folder = Path(sizer.__file__).parent
    own = folder / "web" / "words.py"
    text = " ".join(path.read_text("utf-8") for path in folder.rglob("*.py") if path != own)
    said = re.sub(r"[\s_]+", " ", re.sub(r'"\s*\n\s*f?"', "", text)).lower()
    missing = [term for term, _ in GLOSSARY if term.lower() not in said]
    assert not missing
