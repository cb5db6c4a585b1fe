"""The station list parsed back with Python's own csv."""

import csv
import io
from fractions import Fraction

import pytest

from sizer.export.parts_csv import station_csv
from sizer.fit.request import read_request
from sizer.job import run


@pytest.fixture(scope="module")
def job(base_lines):
    return run(read_request({"base": "long-tourer", "use": "camp-touring", "paddler": {
        "weight_kg": 90, "stature_mm": 1810, "hip_width_mm": 400}}), base_lines["long-tourer"])


def parsed(job, unit):
    text = station_csv(job, unit)
    assert text.startswith("﻿")
    rows = list(csv.reader(io.StringIO(text[1:], newline="")))
    notes = [row[0] for row in rows if row[0].startswith("#")]
    header, *body = [row for row in rows if not row[0].startswith("#")]
    return notes, [dict(zip(header, row, strict=True)) for row in body]


def test_millimetres_come_back_to_a_tenth(job):
    _, rows = parsed(job, "mm")
    assert [row["frame"] for row in rows] == [s.name for s in job.setting_up.stations]
    for row, station in zip(rows, job.setting_up.stations, strict=True):
        assert float(row["strongback mark mm"]) == pytest.approx(
            station.strongback_m * 1000, abs=0.051)
        for name, (y, z) in station.points_m.items():
            assert float(row[f"{name} half-breadth mm"]) == pytest.approx(y * 1000, abs=0.051)
            assert float(row[f"{name} height mm"]) == pytest.approx(z * 1000, abs=0.051)
        blank = {key for key, value in row.items() if not value}
        assert blank == {f"{one.name} {what} mm" for one in job.lines.design.stringers
                         if one.name not in station.points_m for what in ("half-breadth", "height")}


def test_inches_come_back_to_a_sixty_fourth_and_say_so(job):
    notes, rows = parsed(job, "in")
    worst = 0.0
    for row, station in zip(rows, job.setting_up.stations, strict=True):
        inches = float(sum(Fraction(part) for part in row["strongback mark in"].split()))
        worst = max(worst, abs(inches * 25.4 - station.strongback_m * 1000))
    assert worst <= 25.4 / 64 + 1e-9
    between = max(abs(float(sum(map(Fraction, row["spacing in"].split()))) * 25.4
                      - station.spacing_m * 1000)
                  for row, station in zip(rows, job.setting_up.stations, strict=True))
    assert worst < between <= 25.4 / 32  # of two marks, each rounded
    worst = between
    stated = next(note for note in notes if "rounding" in note)
    assert float(stated.split("more than ")[1].split()[0]) >= worst - 0.005


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_cautions_are_inside_the_file(job, unit):
    notes, _ = parsed(job, unit)
    for caution in job.cautions:
        assert f"# CAUTION: {caution}" in notes


def test_a_failing_boat_says_so_in_the_file(base_lines):
    job = run(read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
        "weight_kg": 150, "stature_mm": 1900, "hip_width_mm": 540}}), base_lines["day-boat"])
    notes, _ = parsed(job, "mm")
    assert "checks: DO NOT PASS" in notes[0]
