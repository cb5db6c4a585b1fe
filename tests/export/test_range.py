"""A range's answer, tables, map and packages, parsed back and counted."""

import csv
import io
import json
import re
import zipfile
from dataclasses import replace
from xml.etree import ElementTree

import numpy as np
import pytest
from opened import LEAD, OPENED, STAMP, SVG, WORDS

from sizer.crowd.finished import NOT_KNOWN, finished
from sizer.crowd.people import BadRow, PersonRow
from sizer.crowd.region import who_fits
from sizer.drawing.pens import PENS
from sizer.drawing.record import Path, Text
from sizer.export.numbers import json_text
from sizer.export.range_answer import (
    range_answer,
    range_imprint,
    region_answer,
    size_request,
)
from sizer.export.range_package import range_files, size_job
from sizer.export.range_report import people_csv, people_svg, sizes_csv
from sizer.export.size_map import SHAPES, size_map, who_takes_which
from sizer.fit.cautions import cautions_for
from sizer.fit.checks import BY_KEY
from sizer.fit.request import read_request
from sizer.hull.scale import Scaling
from tests.cli.conftest import few_files
from tests.crowd.conftest import TRIP, WATER, day_boat, few_rows, small_range

__all__ = ["day_boat", "small_range"]  # fixtures
BAD = BadRow(99, "no body", ("weight_kg: missing",))
OF_A_SIZE = ("setting-up.pdf", "frames/F1.dxf", "frames/F1.svg", "stations-mm.csv",
             "fitted-boat.toml")  # of every kind, of the package of a size


@pytest.fixture(scope="module")
def rows(small_range):
    return [PersonRow(number, f"=person {number}", {}, ()) for number in
            range(2, 2 + len(small_range.measured))]


def imprint(found, choice):
    return range_imprint(found, choice, STAMP)


def table(text):
    lines = [line for line in io.StringIO(text.lstrip("\ufeff")) if line.lstrip('"')[0] != "#"]
    return list(csv.DictReader(lines))


def test_answer_counts_everybody_once_and_carries_cautions(small_range, rows):
    choice = small_range.choices[1]
    answer = json.loads(json_text(range_answer(small_range, choice, rows, [BAD])))
    people = len(small_range.measured)
    assert answer["people"] == {"read": people + 1, "counted": people, "bad": 1}
    assert answer["bad_rows"] == [{"row": 99, "label": "no body",
                                   "reasons": ["weight_kg: missing"]}]
    assert sum(one["people"] for one in answer["sizes"]) + len(answer["left_out"]) == people
    assert sum(answer["left_out_by_check"].values()) == len(answer["left_out"])
    assert answer["without_caution_share"] == pytest.approx(choice.clean / people, abs=1e-4)
    assert (answer["unknown_people"], answer["boats_unknown"]) == (0, 0)
    assert [BY_KEY[key].title for key in answer["left_out_by_key"]] == list(
        answer["left_out_by_check"])
    for one in answer["left_out"]:
        assert [BY_KEY[key].title for key in one["fails_keys"]] == one["fails"] != []
    assert answer["served_share"] + answer["left_out_share"] == pytest.approx(1.0, abs=2e-4)
    assert answer["cautions"] == list(cautions_for(WATER))
    shares = [one["served_share"] for one in answer["curve"]]
    assert [one["sizes"] for one in answer["curve"]] == [1, 2, 3]
    clean = [one["without_caution_share"] for one in answer["curve"]]
    assert clean == sorted(clean)
    assert all(one <= served for one, served in zip(clean, shares, strict=True))
    assert [one["goal"] for one in answer["curve"][0]["bounds"]] == [
        "without caution", "served", "room to spare"]
    assert "boats that were tried" in answer["method"]


def test_an_unknown_person_is_left_out_by_that_name(small_range, rows):
    """Whom nobody could work out does not count as one whom a check refuses."""
    choice = small_range.choices[1]
    verdicts = (NOT_KNOWN, *choice.verdicts[1:])
    taken = np.append(-1, choice.taken[1:])
    answer = range_answer(small_range, replace(choice, verdicts=verdicts, taken=taken), rows, [])
    assert answer["unknown_people"] == 1
    assert answer["left_out_by_check"]["could not be worked out"] == 1
    assert answer["left_out_by_key"]["unknown"] == 1
    assert answer["left_out"][0]["fails"] == ["could not be worked out"]


def test_paddlers_of_a_size_are_the_span_of_those_who_take_it(small_range, rows):
    choice = small_range.choices[1]
    answer = range_answer(small_range, choice, rows, [])
    for index, one in enumerate(answer["sizes"]):
        weights = [body.weight_kg for body, taken in zip(
            small_range.measured, choice.taken, strict=True) if taken == index]
        assert one["paddlers"]["weight_kg"] == pytest.approx([min(weights), max(weights)],
                                                             abs=1e-3)
        clean = [body.weight_kg for body, taken, found in zip(
            small_range.measured, choice.taken, choice.verdicts, strict=True)
            if taken == index and not found.faults]
        assert one["people_without_caution"] == len(clean) > 0
        assert one["paddlers_without_caution"]["weight_kg"] == pytest.approx(
            [min(clean), max(clean)], abs=1e-3)
        assert sum(one["cautions_by_key"].values()) == sum(one["cautions_by_check"].values())


def test_size_request_reads_back_and_gives_the_same_boat(small_range):
    size = small_range.choices[2].sizes[1]
    request = read_request(json.loads(json_text(size_request(small_range, size))))
    boat = size_job(small_range, size).fitted.assessed.boat
    assert request.measured.weight_kg == size.drawn.weight_kg
    assert dict(request.fixed)["beam_mm"] == pytest.approx(1000.0 * boat.beam_m, abs=0.01)
    assert boat.sections.y_m == pytest.approx(size.hull.boat.sections.y_m, abs=1e-7)
    assert boat.sections.z_m == pytest.approx(size.hull.boat.sections.z_m, abs=1e-7)


def test_sizes_csv_has_a_row_a_size_and_every_caution(small_range):
    text = sizes_csv(small_range, small_range.choices[2],
                     imprint(small_range, small_range.choices[2]))
    found = table(text)
    assert [row["size"] for row in found] == ["Size 1", "Size 2", "Size 3"]
    assert sum(int(row["people without a caution"]) for row in found) == (
        small_range.choices[2].clean)
    size = small_range.choices[2].sizes[0]
    assert float(found[0]["beam mm"]) == pytest.approx(1000.0 * size.hull.boat.beam_m, abs=0.5)
    assert all(f"CAUTION: {caution}" in text for caution in cautions_for(WATER))


def test_people_csv_gives_each_a_size_and_no_formula(small_range, rows):
    choice = small_range.choices[2]
    found = table(people_csv(small_range, choice, rows, imprint(small_range, choice)))
    names = [size.name for size in choice.sizes]
    assert [row["size to take"] for row in found] == [
        names[taken] if taken >= 0 else "none" for taken in choice.taken]
    assert all(row["label"].startswith("'=") for row in found)
    for row, between in zip(found, choice.between, strict=True):
        if between:
            assert row["also served by"] not in ("", row["size to take"])


def test_map_draws_everybody_with_the_shape_of_the_size(small_range):
    choice = small_range.choices[2]
    root = ElementTree.fromstring(people_svg(small_range, choice, imprint(small_range, choice)))
    for index in (0, 1, 2, -1):
        name = f"size-{index + 1}" if index >= 0 else "left-out"
        group = root.find(f".//{SVG}g[@id='{name}']")
        assert len(group) == (choice.taken == index).sum() + 1  # and one in the key
    pens = [PENS[f"size-{number}"].paper for number in range(1, 7)]
    assert len(set(SHAPES)) == len(set(pens)) == 6
    words = " ".join(text.text for text in root.iter(f"{SVG}text"))
    assert all(caution.split()[-1] in words for caution in cautions_for(WATER))
    assert "left out" in words


def test_map_places_the_heaviest_highest(small_range):
    choice = small_range.choices[0]
    root = ElementTree.fromstring(people_svg(small_range, choice, imprint(small_range, choice)))
    marks = [mark for name in ("size-1", "left-out")
             for mark in list(root.find(f".//{SVG}g[@id='{name}']"))[:-1]]  # the last is the key's
    heights = np.array([np.mean([float(pair.split(",")[1]) for pair in mark.get("points").split()])
                        for mark in marks])
    assert heights.size == len(small_range.measured)
    weights = [body.weight_kg for body in small_range.measured]
    span = max(weights) - min(weights)
    axis_mm = 120.0 / (np.ceil(max(weights) / 20.0) - np.floor(min(weights) / 20.0)) / 20.0
    assert np.ptp(heights) == pytest.approx(axis_mm * span, rel=0.01)


def test_map_is_read_in_the_units_asked_for_and_shows_the_same(small_range):
    """A boat of 4650 mm is 15 ft 3 1/16 in; places along an axis are a share of its reach."""
    shown = replace(who_takes_which(small_range, small_range.choices[0]), sizes=(
        {"name": "size 1", "share": 0.5,
         "size": {"length_mm": 4650.0, "beam_mm": 614.0, "depth_mm": 250.0}},))
    for length_unit, mm, mass_unit, kg, key in (
            ("mm", 1.0, "kg", 1.0, "4650 x 614 x 250 mm"),
            ("cm", 10.0, "st", 6.35029318, "465.0 x 61.4 x 25.0 cm"),
            ("in", 25.4, "lb", 0.45359237, "15 ft 3 1/16 in x 24 3/16 in x 9 13/16 in")):
        drawn = size_map(shown, length_unit, mass_unit).scaled(1000.0)
        words = {one.text: one.at_m for one in drawn.strokes if isinstance(one, Text)}
        stature = "stature" if length_unit == "in" else f"stature, {length_unit}"
        assert {stature, f"weight, {mass_unit}"} <= set(words)
        assert any(one.startswith(f"size 1: {key}") for one in words)
        figures = {float(text): at for text, at in words.items() if text.isdigit()}
        across = {value: at for value, at in figures.items() if at[1] < 0.0}
        if length_unit == "in":  # as lengths are told, with the millimetres of each under it
            feet = {text: re.fullmatch(r"(\d+) ft(?: (\d+) in)?", text) for text in words}
            across = {12.0 * int(found[1]) + int(found[2] or 0): words[text]
                      for text, found in feet.items() if found}
            for value, at in across.items():
                under = words[f"({25.4 * value:.0f} mm)"]
                assert under[0] == at[0]
                assert 4.0 < at[1] - under[1] < 5.0
        up = {value: at for value, at in figures.items() if at[1] >= 0.0}
        marks = np.array([one.points_m.mean(axis=0) for one in drawn.strokes
                          if isinstance(one, Path) and one.pen in ("size-1", "left-out")][:-2])
        read = [np.interp(marks[:, axis], *np.array(sorted((at[axis], value)
                                                           for value, at in some.items())).T)
                for axis, some in ((0, across), (1, up))]
        assert np.ptp(read[0]) * mm == pytest.approx(np.ptp(shown.stature_mm), rel=1e-6)
        assert np.ptp(read[1]) * kg == pytest.approx(np.ptp(shown.weight_kg), rel=1e-6)


def test_region_answer_is_plain_json_with_cautions(day_boat, monkeypatch):
    few_rows(monkeypatch)
    region = who_fits(finished(day_boat, Scaling()), TRIP)
    answer = json.loads(json_text(region_answer(region)))
    rows = answer["weight_against_stature"]["rows"]
    assert len(answer["weight_against_stature"]["outline"]) == 2 * len(rows)
    assert rows[0]["heaviest"]["ended_by"]
    assert answer["cautions"] == list(cautions_for(WATER))
    assert answer["without_gear"]["heaviest"]["weight_kg"] > 60.0
    for name in ("weight_kg", "stature_mm", "hip_width_mm"):
        served, clean = answer["ends"][name], answer["without_caution"]["ends"][name]
        assert served["least"][name] < clean["least"][name] < clean["most"][name]
        assert clean["most"][name] <= served["most"][name]
        for end in clean.values():
            assert end["ended_by"] == BY_KEY[end["ended_by_key"]].title
    assert answer["ends"]["weight_kg"]["least"]["ended_by_key"] == "load"
    assert answer["unknown_bodies"] == 0


@pytest.fixture(scope="module")
def sizes(small_range):
    """(files of a range of one size, the zip among them, all that was told of its progress)."""
    choice = small_range.choices[0]
    rows = [PersonRow(number, f"p{number}", {}, ())
            for number in range(2, 2 + len(small_range.measured))]
    answer = range_answer(small_range, choice, rows, [], stamp=STAMP)
    told = []
    with pytest.MonkeyPatch.context() as patch:
        few_files(patch, *OF_A_SIZE)  # every file of a package is opened below
        return range_files(small_range, choice, rows, answer, lambda *given: told.append(given),
                           STAMP), told


def test_every_file_of_a_range_names_its_job(sizes):
    sizes, told = sizes
    assert told[0][:2] == (0, 1)
    line = f"{WORDS} · day-boat, 1 size"
    assert {name.rsplit(".", 1)[1] for name in sizes} == {"json", "csv", "svg", "zip"}
    for name, data in sizes.items():
        assert name.startswith(LEAD)
        if not name.endswith(".zip"):
            OPENED[name.rsplit(".", 1)[1]](data, line, False)


def test_every_file_of_every_size_names_its_job_its_own_size_and_whether_it_passes(sizes,
                                                                                    small_range):
    with zipfile.ZipFile(io.BytesIO(sizes[0][f"{LEAD}size-packages.zip"])) as opened:
        files = {name: opened.read(name) for name in opened.namelist()}
    assert {name.rsplit(".", 1)[1] for name in files} == set(OPENED)
    folders = {name.split("/")[0] for name in files}
    assert folders == {f"{LEAD}Size-1"}
    for folder in folders:
        size = json.loads(files[f"{folder}/{LEAD}everything.json"])["size"]
        job = json.loads(files[f"{folder}/{LEAD}everything.json"])["job"]
        line = (f"{WORDS} · day-boat {size['length_mm'] / 1000:.2f} m x "
                f"{size['beam_mm'] / 1000:.2f} m")
        for name, data in files.items():
            if name.startswith(f"{folder}/"):
                OPENED[name.rsplit(".", 1)[1]](data, line, job["does_not_pass"] is not None)
        request = read_request(json.loads(files[f"{folder}/{LEAD}request.json"]))
        assert request.trip.base == "day-boat"
        lead = f"{folder}/{LEAD}"
        assert {f"{lead}read-me-first.txt", f"{lead}setting-up.pdf",
                f"{lead}frames/{LEAD}F1.dxf"} <= set(files)
        factors = json.loads(files[f"{lead}everything.json"])["factors"]
        assert factors["beam"] == pytest.approx(
            small_range.choices[0].sizes[0].hull.scaling.beam, abs=1e-4)
