"""One boat's numbers are the same on the screen, on its sheets and in its lists, in every unit.

Each is read from three texts that three places wrote. Sheets bear mm and inches, lists one of them;
centimetres stand on the screen alone, and there are the sheet's and the list's millimetres.
"""

import csv
import io
import re
from fractions import Fraction

import pytest
from app_screen import engine_bench, engine_job, measured, of, opened, rows, said, strip
from pypdf import PdfReader

from sizer.export.customer import customer_pdf
from sizer.export.parts_csv import station_csv
from sizer.export.setting_up_sheet import setting_up_pdf

UNITS = pytest.mark.parametrize("unit", ["mm", "cm", "in"])
NUMBER = r"-?\d+ \d+/\d+|-?\d+/\d+|-?\d+(?:\.\d+)?"
SIZE = rf"(?:\d+ ft(?: (?:{NUMBER}) in)?|(?:{NUMBER}) (?:mm|cm|in))"
BOTH = rf"({SIZE}) \(({SIZE})\)"  # as a sheet says it


@pytest.fixture(scope="module")
def job():
    return engine_job(measured())


def printed(data):
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)


@pytest.fixture(scope="module")
def setting_up(job):
    return printed(setting_up_pdf(job, engine_bench(job)))


@pytest.fixture(scope="module")
def customers(job):
    return " ".join(printed(customer_pdf(job, engine_bench(job))).split())


def listed(job, unit):
    """The lines over the station list's table, and the table by frame."""
    lines = station_csv(job, unit).lstrip("\ufeff").splitlines()
    table = csv.DictReader(line for line in lines if line[0] not in '#"')
    return "\n".join(line for line in lines if line[0] in '#"'), {
        row["frame"]: row for row in table}


def amount(text):
    """A figure with or without its unit, in that unit; feet count as twelve inches."""
    feet = re.match(r"(\d+) ft ?", text)
    rest = re.sub(r"^\d+ ft ?| ?(mm|cm|in)$", "", text)
    return sum(map(Fraction, rest.split()), Fraction(12 * int(feet[1]) if feet else 0))


def same(unit, shown, in_mm, in_inches):
    """Whether the screen shows in its unit what paper bears in both, digit for digit."""
    def bare(text):
        return text.removesuffix(f" {unit}")

    if unit == "cm":
        decimals = [len(text.partition(".")[2].split(" ")[0]) for text in (shown, in_mm)]
        return decimals[0] == decimals[1] + 1 and 10 * amount(shown) == amount(in_mm)
    return bare(shown) == bare({"mm": in_mm, "in": in_inches}[unit])


@UNITS
def test_sizes_are_the_same_on_screen_sheet_and_list(job, setting_up, customers, unit):
    screen = opened("boat", measured().in_units(unit, "kg"))
    checks, boat = rows(screen, "Check"), job.fitted.assessed.boat
    strip_says = re.search(rf"({SIZE}) × ({SIZE}) × ({SIZE}) freeboard ({SIZE})", strip(screen))
    slider = {name: of(screen.text_input, f"{name}, typed").value
              for name in ("Length", "Beam", "Depth", "Cockpit length", "Cockpit width")}
    title = f"Station list: {boat.design.name}, ({SIZE}) x ({SIZE}) x ({SIZE}); checks"
    in_list = [re.search(title, listed(job, of_list)[0]).groups() for of_list in ("mm", "in")]
    where = {  # the engine's value, where the screen has it, where the sheet has it
        "Length": (boat.length_m, [strip_says[1], slider["Length"]], f"Length {BOTH}"),
        "Beam": (boat.beam_m, [strip_says[2], slider["Beam"]], f"beam {BOTH}"),
        "Depth": (boat.depth_m, [strip_says[3], slider["Depth"]], f"depth {BOTH}"),
        "Opening's length": (
            boat.opening.length_m, [slider["Cockpit length"], checks["opening long enough"][1]],
            f"Cockpit opening {BOTH} long"),
        "Opening's width": (
            boat.opening.width_m, [slider["Cockpit width"], checks["opening wide enough"][1]],
            f"and {BOTH} wide"),
        "Freeboard": (job.fitted.assessed.particulars.freeboard_m,
                      [strip_says[4], checks["side-deck freeboard"][1]],
                      f"lowest side deck stands {BOTH}"),
    }
    for number, (name, (value_m, on_screen, on_sheet)) in enumerate(where.items()):
        paper = re.search(on_sheet, customers).groups()
        assert abs(amount(paper[0]) - Fraction(1000 * value_m)) <= Fraction(1, 2), name
        assert abs(25.4 * float(amount(paper[1])) - 1000 * value_m) <= 25.4 / 32 + 1e-9, name
        for shown in on_screen:
            assert same(unit, shown, *paper), (name, shown, paper)
        if number < 3:
            assert paper == (in_list[0][number], in_list[1][number]), name
        if number < 2:
            assert f"{paper[0]} ({paper[1]}) {('long', 'wide')[number]}" in setting_up, name


@UNITS
def test_marks_are_the_same_on_screen_sheet_and_list(job, setting_up, unit):
    screen = opened("bench", measured().in_units(unit, "kg"))
    marks, points = rows(screen, "Frame"), rows(screen, f"Frame, {unit}")
    stringers = [one.name for one in job.lines.design.stringers]
    (said_mm, in_mm), (said_in, in_inches) = listed(job, "mm"), listed(job, "in")
    assert list(in_mm) == list(in_inches) == list(marks) == list(points)
    offsets = {of_list: _offsets(setting_up, words, list(marks))
               for of_list, words in (("mm", "mm"), ("in", "inches"))}
    for name, row in in_mm.items():
        figures = _frame(setting_up, name, row["kind"])
        for key, shown in zip(("strongback mark", "spacing", "keel height", "gunwale height"),
                              marks[name][2:], strict=True):
            lists = row[f"{key} mm"], in_inches[name][f"{key} in"]
            assert same(unit, shown, *lists), (name, key, shown, lists)
            if key != "spacing":  # the tape is pulled once: the sheet bears none
                assert figures[key] == lists, (name, key)
        for at, stringer in enumerate(stringers):
            shown = re.findall(rf"({NUMBER}) (?:out|up)", points[name][at])
            lists = [(row[f"{stringer} {way} mm"], in_inches[name][f"{stringer} {way} in"])
                     for way in ("half-breadth", "height")]
            assert [*zip(offsets["mm"][name][at], offsets["in"][name][at], strict=True)] == (
                [pair for pair in lists if any(pair)]), (name, stringer)
            assert len(shown) == len(offsets["mm"][name][at]), (name, stringer)
            assert all(same(unit, figure, *pair) for figure, pair in zip(
                shown, lists, strict=False)), (name, stringer, shown, lists)
    for on_screen, on_sheet, in_list in (
            ("strongback's forward end, {} aft", "datum, which stands {} aft", "stands {} aft"),
            ("Strongback length {}.", "Strongback {} long", "strongback {} long")):
        paper = re.search(on_sheet.format(BOTH), " ".join(setting_up.split())).groups()
        shown = re.search(on_screen.format(f"({SIZE})"), said(screen))[1]
        assert same(unit, shown, *paper), (on_screen, shown, paper)
        assert in_list.format(paper[0]) in said_mm
        assert in_list.format(paper[1]) in said_in


def _frame(sheet, name, kind):
    """{mark: (mm, in)} of one row of the sheet's table of frames."""
    lines = sheet[sheet.index(f"{name}\n{kind}"):].splitlines()[2:14]
    figures = [line for line in lines if re.fullmatch(NUMBER, line)]
    return {key: (figures[2 * at], figures[2 * at + 1])
            for at, key in enumerate(("strongback mark", "gunwale height", "keel height"))}


def _offsets(sheet, words, frames):
    """{frame: [(out, up) or () of each stringer]} of the sheet's table of this unit."""
    text = sheet.split(f"Half-breadths and heights over the strongback, {words}\n")[1]
    text = re.split(r"Half-breadths and heights|Half-breadth from", text)[0]
    cells = " ".join(text.split())
    starts = [re.search(rf"(?<!\S){frame}(?!\S)", cells).start() for frame in frames]
    return {frame: [found[:2] if found[0] else () for found in re.findall(
        rf"({NUMBER}) / ({NUMBER})|(?<!\S)(-)(?!\S)", cells[begin:end])]
        for frame, begin, end in zip(frames, starts, [*starts[1:], None], strict=True)}


def test_counts_of_the_benchs_checks_have_no_decimals_and_lengths_are_in_inches_too():
    told = said(opened("bench", measured().in_units("in", "lb")))
    assert "1 a side" in told
    assert re.search(r"at most 1 piece\b", told)
    assert re.search(r"at least 1/2 in \(12\.0 mm\)|at least 1/4 in \(6\.0 mm\)", told)
    for silly in ("1.0 a side", " 1 pieces", "0.0 sticks"):
        assert silly not in told
