"""A design written back, as TOML and as a table of offsets, and read again."""

import csv
import dataclasses

import numpy as np
import pytest

from sizer.design.offsets import offsets_csv, with_offsets
from sizer.design.read import read_design
from sizer.design.write import design_toml, file_of
from sizer.errors import BadInput

IN_MM = 25.4


def same(one, other):
    """Whether two designs hold the same numbers and names throughout."""
    if dataclasses.is_dataclass(one):
        return type(one) is type(other) and all(
            same(getattr(one, field.name), getattr(other, field.name))
            for field in dataclasses.fields(one))
    if isinstance(one, tuple) and one and dataclasses.is_dataclass(one[0]):
        return len(one) == len(other) and all(map(same, one, other))
    return np.array_equal(one, other) if isinstance(one, np.ndarray) else one == other


@pytest.fixture(scope="module")
def design(lines):
    return lines.design


@pytest.fixture(scope="module")
def tourer(kept_lines):
    return kept_lines["long-tourer"].design


def test_design_written_and_read_is_the_same(design):
    again = read_design(design_toml(design))
    assert same(design, again)
    assert not same(design, dataclasses.replace(
        again, skin=dataclasses.replace(again.skin, coating_kgpm2=0.1)))


def test_writing_is_settled_after_one_round(design):
    text = design_toml(design)
    assert design_toml(read_design(text)) == text


@pytest.mark.parametrize("name", ['a "quoted" \\ name', "tab\tand\x7fdelete", "Kajak für Zoë 舟",
                                  "#1 = [x]"])
def test_odd_names_survive_writing(tourer, name):
    renamed = dataclasses.replace(tourer, name=name, frames=(
        dataclasses.replace(tourer.frames[0], name=name), *tourer.frames[1:]))
    again = read_design(design_toml(renamed))
    assert again.name == name
    assert again.frames[0].name == name


def apart_mm(one, other):
    """Greatest change of any frame place or point."""
    return max(1000.0 * abs(a - b) for before, after in zip(one.frames, other.frames, strict=True)
               for key, point in before.points_m.items()
               for a, b in zip((before.x_m, *point), (after.x_m, *after.points_m[key]),
                               strict=True))


@pytest.mark.parametrize(("notation", "most_mm"), [("mm", 0.01), ("feet", IN_MM / 32)])
def test_offsets_come_back_to_what_the_notation_is_worth(design, notation, most_mm):
    again = with_offsets(design, offsets_csv(design, notation))
    assert apart_mm(design, again) <= most_mm + 1e-9
    for before, after in zip(design.frames, again.frames, strict=True):
        assert list(before.points_m) == list(after.points_m)
        assert (before.name, before.kind, before.thickness_m) == (
            after.name, after.kind, after.thickness_m)
    assert again.bow is not design.bow  # rebuilt through the reader's checks
    assert np.array_equal(again.bow.profile_m, design.bow.profile_m)


def table_of(design, notation="mm"):
    lines = offsets_csv(design, notation).splitlines()
    return lines[:2], list(csv.reader(lines[2:]))


def text_of(notes, rows, sign=","):
    return "\n".join([*notes, *(sign.join(row) for row in rows)]) + "\n"


def test_table_reads_as_frame_x_then_half_breadth_and_height(tourer):
    notes, (heading, first, *rest) = table_of(tourer)
    assert notes[0] == "# unit: mm"
    assert "moulded lines" in notes[1]
    assert heading[:6] == ["frame", "x mm", "keel half-breadth mm", "keel height mm",
                           "chine half-breadth mm", "chine height mm"]
    assert len(rest) == len(tourer.frames) - 1
    frame = tourer.frames[0]
    y, z = (float(cell) for cell in first[4:6])
    assert (first[0], float(first[1])) == (frame.name, pytest.approx(1000.0 * frame.x_m))
    assert (y, z) == pytest.approx(np.multiply(frame.points_m["chine"], 1000.0), abs=0.005)
    aft = heading.index("aft bilge height mm")
    assert first[aft] == ""  # it does not reach this frame


def test_feet_cells_are_feet_inches_eighths(tourer):
    moved = dataclasses.replace(tourer, frames=tuple(
        dataclasses.replace(one, x_m=0.6223) if one.name == "F1" else one
        for one in tourer.frames))
    _, (_, first, *_) = table_of(moved, "feet")
    assert first[1] == "2-0-4"  # 622.3 mm is 24 1/2 in


def set_cell(rows, frame, column, value):
    heading = rows[0]
    at = next(index for index, name in enumerate(heading) if name.startswith(column))
    rows[[row[0] for row in rows].index(frame)][at] = value


def test_a_changed_cell_changes_that_point_and_no_other(tourer):
    notes, rows = table_of(tourer)
    set_cell(rows, "F5", "chine half-breadth", "263.25")
    again = with_offsets(tourer, text_of(notes, rows))
    assert again.frames[4].points_m["chine"][0] == pytest.approx(0.26325)
    others = [one for one in again.frames if one.name != "F5"]
    assert others == [one for one in tourer.frames if one.name != "F5"]


@pytest.mark.parametrize("notation", ["mm", "feet"])
def test_unit_is_found_from_headings_or_cells_alone(tourer, notation):
    notes, rows = table_of(tourer, notation)
    expected = with_offsets(tourer, text_of(notes, rows))
    by_heading = with_offsets(tourer, text_of([], rows))
    bare = [[name.removesuffix(" mm").removesuffix(" ft-in-8ths") for name in rows[0]], *rows[1:]]
    by_cells = with_offsets(tourer, text_of([], bare))
    assert same(by_heading, expected)
    assert same(by_cells, expected)


def test_semicolons_with_decimal_commas_and_tabs_are_read(tourer):
    notes, rows = table_of(tourer)
    expected = with_offsets(tourer, text_of(notes, rows))
    commas = [[cell.replace(".", ",") for cell in row] for row in rows]
    assert same(with_offsets(tourer, text_of(notes, commas, ";")), expected)
    assert same(with_offsets(tourer, text_of(notes, rows, "\t")), expected)
    assert same(with_offsets(tourer, ("\ufeff" + text_of(notes, rows)).encode()), expected)
    assert same(with_offsets(tourer, text_of(notes, rows[:1] + rows[:0:-1])), expected)


def test_a_stringer_that_ends_at_a_frame_moves_with_it(tourer):
    end = tourer.stringer("foredeck stringer").end
    frame = next(one for one in tourer.frames if one.x_m == pytest.approx(end.x_m))
    notes, rows = table_of(tourer)
    set_cell(rows, frame.name, "x", f"{1000.0 * frame.x_m + 15.0:g}")
    again = with_offsets(tourer, text_of(notes, rows))
    assert again.stringer("foredeck stringer").end.x_m == pytest.approx(end.x_m + 0.015)


def faults(design, text):
    with pytest.raises(BadInput) as caught:
        with_offsets(design, text, "table.csv")
    assert all(fault.place.startswith("table.csv") for fault in caught.value.faults)
    return {fault.place.removeprefix("table.csv: "): fault for fault in caught.value.faults}


def test_every_bad_cell_is_told_with_row_and_column(tourer):
    notes, rows = table_of(tourer)
    set_cell(rows, "F2", "x", "")
    set_cell(rows, "F3", "chine height", "abc")
    set_cell(rows, "F4", "gunwale half-breadth", "nan")
    set_cell(rows, "F5", "gunwale height", "")
    set_cell(rows, "F6", "keel height", "1-3-5")
    set_cell(rows, "F7", "keel height", "1e9")
    found = faults(tourer, text_of(notes, rows))
    assert list(map(str, found)) != []
    assert {place: fault.value for place, fault in found.items()} == {
        "row F2, column x": "blank",
        "row F3, column chine height": "'abc'",
        "row F4, column gunwale half-breadth": "'nan'",
        "row F5, column gunwale height": "blank",
        "row F6, column keel height": "'1-3-5'",
        "row F7, column keel height": "'1e9'",
    }
    assert "a number of mm" in found["row F3, column chine height"].allowed


def test_a_feet_cell_that_is_none_is_told(tourer):
    notes, rows = table_of(tourer, "feet")
    set_cell(rows, "F3", "chine height", "0-2-9")
    set_cell(rows, "F4", "chine height", "2005-01-03")  # what a spreadsheet makes of 1-3-5
    found = faults(tourer, text_of(notes, rows))
    assert list(found) == ["row F3, column chine height", "row F4, column chine height"]
    assert "eighths" in found["row F3, column chine height"].allowed


def test_rows_and_columns_that_do_not_fit_the_design_are_told(tourer):
    notes, rows = table_of(tourer)
    rows[0][3] = "kiel height mm"
    rows[2][0] = "F9"
    rows[3].append("7")
    found = faults(tourer, text_of(notes, rows))
    assert {place: fault.value for place, fault in found.items()} == {
        "column 'kiel height'": "not in the design",
        "column 'keel height'": "missing",
        "row 'F9'": "given 2 times",
        "row 'F2'": "missing",
        "row F3": f"{len(rows[0]) + 1} cells",
    }


def test_parts_that_do_not_agree_are_told_as_for_a_design_file(tourer):
    notes, rows = table_of(tourer)
    set_cell(rows, "F5", "gunwale half-breadth", "-288.5")
    set_cell(rows, "F6", "x", "100")
    found = faults(tourer, text_of(notes, rows))
    assert found["frame.F5.points_mm.gunwale"].value == "half-breadth -288.5 mm"
    assert "order from bow to stern" in found["frame.F6.x_mm"].allowed


@pytest.mark.parametrize(("text", "value"), [
    ("", "empty"), ("\n \n", "empty"), (b"frame\xff", "byte 5 is not UTF-8 text"),
    ("x" * 2_000_001, "2.0 MB")])
def test_refuses_what_is_no_table(tourer, text, value):
    assert [fault.value for fault in faults(tourer, text).values()] == [value]


def test_a_table_of_another_kind_is_refused(tourer):
    found = faults(tourer, "name,weight\nMaria,70\n")
    assert found["column 'name'"].value == "not in the design"
    assert found["column 'frame'"].value == "missing"


def test_unknown_notation_and_heights_below_zero_in_feet_are_refused(tourer):
    with pytest.raises(BadInput, match="write mm or feet"):
        offsets_csv(tourer, "inches")
    frame = tourer.frames[0]
    low = dataclasses.replace(frame, points_m={**frame.points_m, "keel": (0.0, -0.004)})
    sunk = dataclasses.replace(tourer, frames=(low, *tourer.frames[1:]))
    with pytest.raises(BadInput, match="row F1, column keel height"):
        offsets_csv(sunk, "feet")
    assert ",-4," in offsets_csv(sunk)


def test_file_of_keeps_every_key(design, base_texts):
    """The shipped file's own numbers come back, not just the same record."""
    table = file_of(design)
    assert table.stringer[0].name == design.stringers[0].name
    assert table.drawn_for.weight_kg == design.drawn_for.weight_kg
    assert f"width_mm = {table.cockpit.width_mm:g}" in next(
        text for text in base_texts.values() if f'name = "{design.name}"' in text)
