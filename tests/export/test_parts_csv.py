"""The stringer list and the materials parsed back with Python's own csv."""

import csv
import io
from fractions import Fraction

import pytest

from sizer.export.parts_csv import materials_csv, stringer_csv
from sizer.fit.request import read_request
from sizer.job import run
from sizer.shop.materials import materials
from sizer.shop.stringers import stringer_list


@pytest.fixture(scope="module")
def job(base_lines):
    return run(read_request({"base": "long-tourer", "use": "camp-touring", "paddler": {
        "weight_kg": 90, "stature_mm": 1810, "hip_width_mm": 400}}), base_lines["long-tourer"])


@pytest.fixture(scope="module")
def sticks(job):
    return stringer_list(job.fitted.assessed.boat)


@pytest.fixture(scope="module")
def listed(job, sticks):
    return materials(job.fitted.assessed.boat, sticks)


def parsed(text):
    assert text.startswith("\ufeff")
    rows = list(csv.reader(io.StringIO(text[1:], newline="")))
    notes = [row[0] for row in rows if row[0].startswith("#")]
    header, *body = [row for row in rows if not row[0].startswith("#")]
    assert len(set(header)) == len(header)
    return notes, [dict(zip(header, row, strict=True)) for row in body]


def inches_m(text):
    return float(sum(Fraction(part) for part in text.split())) * 0.0254


def test_sticks_come_back_to_a_tenth_of_a_millimetre(job, sticks):
    _, rows = parsed(stringer_csv(job, sticks, "mm"))
    assert [row["stringer"] for row in rows] == [stick.name for stick in sticks]
    for row, stick in zip(rows, sticks, strict=True):
        assert float(row["length mm"]) == pytest.approx(stick.length_m * 1000, abs=0.051)
        assert float(row["cut mm"]) == pytest.approx(stick.cut_m * 1000, abs=0.051)
        marks = {frame.name: row[f"mark {frame.name} mm"] for frame in job.lines.design.frames}
        assert {name: float(mark) for name, mark in marks.items() if mark} == {
            crossing.frame: pytest.approx(crossing.along_m * 1000, abs=0.051)
            for crossing in stick.crossings}
        for side, joints in (("port", stick.joints), ("starboard", stick.starboard)):
            scarfs = [float(value) for key, value in row.items()
                      if key.startswith(f"{side} scarf ") and "middle" in key and value]
            own = side == "port" or stick.stringer.count == 2
            assert scarfs == pytest.approx(
                [one * 1000 for one in joints.middles_m] if own else [], abs=0.051)
        for side, end in (("forward", stick.forward), ("after", stick.after)):
            assert row[f"{side} end on"] == end.on
            assert row[f"{side} end"] == end.words
            assert bool(row[f"{side} taper mm"]) == (end.taper is not None)
            places = [f"{side} bevel aslant {face} face {edge} edge mm"
                      for face in ("inner", "outer") for edge in ("lower", "upper")]
            told = [float(row[one]) for one in places if row[one]]
            assert told == pytest.approx([] if not end.aslant else [
                1000.0 * one for one in (*end.aslant.inner_m, *end.aslant.outer_m)], abs=0.051)
            if end.bevel_deg is not None:
                assert float(row[f"{side} bevel in plan deg"]) == pytest.approx(
                    end.bevel_deg, abs=0.051)


def test_sticks_in_inches_come_back_to_a_sixty_fourth_and_say_so(job, sticks):
    notes, rows = parsed(stringer_csv(job, sticks, "in"))
    worst = max(abs(inches_m(row["length in"]) - stick.length_m)
                for row, stick in zip(rows, sticks, strict=True))
    assert worst <= 0.0254 / 64 + 0.00005  # of what is told in tenths of a millimetre
    stated = next(note for note in notes if "rounding" in note)
    assert float(stated.split("more than ")[1].split()[0]) >= worst * 1000 - 0.005
    assert not any(key.endswith(" mm") for key in rows[0])


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_weights_in_the_file_sum_to_the_boats(job, sticks, listed, unit):
    _, rows = parsed(materials_csv(job, listed, unit))
    weights = [row for row in rows if row["part"] == "weight"]
    assert {row["unit"] for row in weights} == {"kg" if unit == "mm" else "lb"}
    factor = 1.0 if unit == "mm" else 0.45359237
    assert sum(float(row["quantity"]) for row in weights) * factor == pytest.approx(
        job.fitted.assessed.loading.boat_kg, abs=0.005)


def test_materials_come_back(job, listed):
    _, rows = parsed(materials_csv(job, listed, "mm"))
    bought = [row for row in rows if row["part"] not in ("weight", "cutting")]
    assert len(bought) == len(listed.items)
    for row, item in zip(bought, listed.items, strict=True):
        one = {"pieces": "piece", "sheets": "sheet"} if item.quantity == 1 else {}
        assert (row["part"], row["what"], row["unit"]) == (
            item.group, item.what, one.get(item.unit, item.unit))
        assert float(row["quantity"]) == pytest.approx(item.quantity, abs=0.0051)
        sizes = [float(row[f"size {n} mm"]) for n in (1, 2, 3) if row[f"size {n} mm"]]
        assert sizes == pytest.approx([one * 1000 for one in item.size_m], abs=0.051)
    cut = [row for row in rows if row["part"] == "cutting"]
    pieces = [piece for plan in listed.cutting for length in plan.lengths
              for piece in length.pieces]
    assert sum(float(row["size 3 mm"]) for row in cut) == pytest.approx(
        1000 * sum(piece.length_m for piece in pieces), abs=0.051 * len(pieces))


def test_materials_in_feet_and_pounds(job, listed):
    _, metric = parsed(materials_csv(job, listed, "mm"))
    _, other = parsed(materials_csv(job, listed, "in"))
    sizes = {("m", "ft"): 0.3048, ("kg", "lb"): 0.45359237, ("l", "US qt"): 0.946353,
             ("l", "US fl oz"): 0.02957353}  # NIST SP 811
    seen = set()
    for here, there in zip(metric, other, strict=True):
        pair = here["unit"], there["unit"]
        seen.add(pair)
        assert float(there["quantity"]) * sizes.get(pair, 1.0) == pytest.approx(
            float(here["quantity"]), abs=0.0076)
    assert seen >= set(sizes)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_cautions_and_status_are_inside_both_files(job, sticks, listed, unit):
    for text in (stringer_csv(job, sticks, unit), materials_csv(job, listed, unit)):
        notes, _ = parsed(text)
        for caution in job.cautions:
            assert f"# CAUTION: {caution}" in notes
        assert "checks: " in notes[0]


def test_a_failing_boat_says_so_in_both_files(base_lines):
    job = run(read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
        "weight_kg": 150, "stature_mm": 1900, "hip_width_mm": 540}}), base_lines["day-boat"])
    boat = job.fitted.assessed.boat
    sticks = stringer_list(boat)
    for text in (stringer_csv(job, sticks, "mm"),
                 materials_csv(job, materials(boat, sticks), "mm")):
        assert "checks: DO NOT PASS" in parsed(text)[0][0]
