"""Editing a design file cell by cell: what is read, what is refused, and which cell is named."""

import copy

import pytest

from sizer.design.cells import Units, Unread, cell_text, kind_of, label_of, value_at
from sizer.design.edit import (
    cell_faults,
    edited_design,
    in_cells,
    with_cells,
    with_frame,
    without_frame,
    without_stringer,
)
from sizer.design.grids import GRIDS, grid_of, grid_with
from sizer.design.library import read_base, shipped_names
from sizer.design.records import SEAT_KINDS
from sizer.design.write import design_toml, file_of
from sizer.errors import BadInput
from sizer.hull.lines import fair_lines

MM = Units("mm", "kg")
GUNWALE = ("frame", 2, "points_mm", "gunwale", 0)


@pytest.fixture
def plain(kept_lines):
    """The kept teaching boat as a file: keel, chine, gunwale, two ridges; F1 to F6."""
    return file_of(kept_lines["teaching-boat"].design).model_dump()


@pytest.fixture
def tourer(kept_lines):
    """The kept long tourer as a file: some of its sticks blend into others."""
    return file_of(kept_lines["long-tourer"].design).model_dump()


def cells_of(file):
    return [entry.path for name in GRIDS for row in grid_of(file, name).rows for entry in row
            if entry.path]


def told(file):
    return {str(one): one.at for one in cell_faults(file)}


def mentioned(file):
    """Every stringer's name wherever the file speaks of one."""
    names = {one["name"] for one in file["stringer"]}
    for table in (*(frame["points_mm"] for frame in file["frame"]), file["bow"]["lands_mm"],
                  file["stern"]["lands_mm"]):
        names |= set(table)
    return names | set(hosts(file))


def hosts(file):
    return [one[key]["into"] for one in file["stringer"] for key in ("start", "end")
            if isinstance(one[key], dict) and "into" in one[key]]


def exactly(value, unit):
    return f"{value:.6f} {unit}"


@pytest.mark.parametrize("name", shipped_names())
def test_a_shipped_base_has_no_faults_and_comes_back_as_it_was(name):
    base = read_base(name)
    file = file_of(base).model_dump()
    assert cell_faults(file) == []
    assert design_toml(edited_design(file)) == design_toml(base)


@pytest.mark.parametrize("name", shipped_names())
@pytest.mark.parametrize("units", [Units("mm", "kg"), Units("in", "lb"), Units("cm", "st")])
def test_every_cell_reads_its_own_text_back(name, units):
    file = file_of(read_base(name)).model_dump()
    paths = cells_of(file)
    assert len(paths) == len(set(paths))

    def written(value, unit):
        per = {"in": 25.4, "cm": 10.0, "lb": 0.45359237, "st": 6.35029318}.get(unit, 1.0)
        return f"{value / per:.9f}"

    texts = {path: cell_text(path, value_at(file, path), units, written) for path in paths}
    again = with_cells(file, texts, units)
    assert cell_faults(again) == []
    for path in paths:
        before, after = value_at(file, path), value_at(again, path)
        if kind_of(path) in ("length", "mass") and before is not None:
            assert after == pytest.approx(before, abs=1e-5), path
        elif kind_of(path) == "end" and isinstance(before, dict):
            assert after == pytest.approx(before, abs=1e-5) or after["into"] == before["into"]
        else:
            assert after == before, path


def test_every_number_of_a_file_has_a_cell(plain):
    def numbers(part, path=()):
        if isinstance(part, (dict, list)):
            for key, value in part.items() if isinstance(part, dict) else enumerate(part):
                yield from numbers(value, (*path, key))
        elif not isinstance(part, str):
            yield path

    assert {path for path in numbers(plain) if path != ("format",)} <= set(cells_of(plain))


@pytest.mark.parametrize(("text", "units", "mm"), [
    ("300", MM, 300.0), ("30", Units("cm"), 300.0), ("11 3/4", Units("in"), 298.45),
    ("11 3/4 in", MM, 298.45), ("1-3-5", MM, 396.875), ("1-3-5+", Units("in"), 398.4625),
    ("300,5", MM, 300.5)])
def test_a_length_is_read_in_the_unit_and_in_feet_inches_eighths(plain, text, units, mm):
    assert value_at(with_cells(plain, {GUNWALE: text}, units), GUNWALE) == pytest.approx(mm)


def test_the_file_given_is_not_changed(plain):
    before = copy.deepcopy(plain)
    with_cells(plain, {GUNWALE: "abc", ("stringer", 1, "name"): "bilge",
                       ("frame", 1, "x_mm"): "1230", ("bow", "lands_mm", "chine"): ""}, MM)
    without_stringer(plain, 1)
    without_frame(plain, 1)
    assert plain == before


def test_a_text_that_cannot_be_read_stays_in_its_cell_over_the_value_before(plain):
    edited = with_cells(plain, {GUNWALE: "abc"}, MM)
    kept = value_at(edited, GUNWALE)
    assert (kept.text, kept.was) == ("abc", 297)
    [fault] = cell_faults(edited)
    assert fault.at == (GUNWALE,)
    assert fault.place == "F3 gunwale half-breadth"
    assert "abc" in fault.value
    assert "such as" in fault.allowed
    assert value_at(with_cells(edited, {GUNWALE: "b"}, MM), GUNWALE).was == 297
    assert cell_faults(with_cells(edited, {GUNWALE: "297"}, MM)) == []


def test_all_faults_are_told_at_once_each_with_its_cell(plain):
    texts = {GUNWALE: "abc", ("frame", 3, "thickness_mm"): "1", ("stringer", 1, "width_mm"): "500",
             ("cockpit", "width_mm"): "900", ("limits", "beam", 0): "1.1",
             ("frame", 4, "x_mm"): "2400", ("drawn_for", "weight_kg"): "20",
             ("bow", "profile_mm", 2, 0): "10", ("skin", "fabric_gpm2"): "thick",
             ("frame", 0, "name"): "F2", ("stringer", 2, "start"): "frog"}
    found = cell_faults(with_cells(plain, texts, MM))
    marked = {cell for one in found for cell in one.at}
    assert set(texts) - {("frame", 4, "x_mm")} <= marked
    assert "3 or more, in mm" in str(found)


def test_numbers_that_do_not_agree_are_told_by_cell(plain):
    faults = told(with_cells(plain, {("frame", 4, "x_mm"): "2400"}, MM))
    assert ("frame", 4, "x_mm") in {cell for cells in faults.values() for cell in cells}
    assert any(text.startswith("F5 x: 2400 mm: has to be more than 2500 mm") for text in faults)


def test_one_size_of_a_point_alone_is_told_and_both_blank_take_it_out(plain):
    y, z = ("frame", 0, "points_mm", "chine", 0), ("frame", 0, "points_mm", "chine", 1)
    half = with_cells(plain, {y: ""}, MM)
    assert told(half) == {"F1 chine half-breadth: blank: half-breadth and height, or neither":
                          (y,)}
    none = with_cells(half, {z: " "}, MM)
    assert "chine" not in none["frame"][0]["points_mm"]
    assert [one.at for one in cell_faults(none)] == [(y, z)]  # it crosses there
    one = with_cells(none, {z: "76.5"}, MM)
    assert [found.at for found in cell_faults(one)] == [(y,)]
    again = with_cells(one, {y: "89.5"}, MM)
    assert cell_faults(again) == []
    assert again == plain
    assert list(again["frame"][0]["points_mm"]) == list(plain["frame"][0]["points_mm"])


def test_a_blank_landing_is_taken_out(plain):
    landing = ("bow", "lands_mm", "chine")
    edited = with_cells(plain, {landing: "", ("stringer", 1, "start"): "500"}, MM)
    assert "chine" not in edited["bow"]["lands_mm"]
    assert edited["stringer"][1]["start"] == {"x_mm": 500.0}
    assert cell_faults(edited) == []
    back = with_cells(edited, {("stringer", 1, "start"): "stem"}, MM)
    assert [one.at for one in cell_faults(back)] == [(landing,)]
    assert with_cells(back, {landing: "250"}, MM) == plain


def test_ends_are_read_as_they_are_written(plain):
    start = ("stringer", 1, "start")
    for text, end in (("Stem", "stem"), ("coaming", "coaming"), ("1200", {"x_mm": 1200.0}),
                      ("keel at 1200", {"into": "keel", "x_mm": 1200.0}),
                      ("into Keel at 120 cm", {"into": "keel", "x_mm": 1200.0})):
        edited = with_cells(plain, {start: text}, MM)
        assert value_at(edited, start) == end
        shown = cell_text(start, end, MM, exactly)
        assert value_at(with_cells(plain, {start: shown}, MM), start) == end
    assert value_at(with_cells(plain, {start: "frog"}, MM), start).text == "frog"


def test_a_new_name_goes_wherever_the_old_one_stood(tourer):
    host = hosts(tourer)[0]
    index = [one["name"] for one in tourer["stringer"]].index(host)
    edited = with_cells(tourer, {("stringer", index, "name"): "rubbing strake"}, MM)
    assert cell_faults(edited) == []
    assert mentioned(edited) == mentioned(tourer) - {host} | {"rubbing strake"}
    assert with_cells(edited, {("stringer", index, "name"): host}, MM) == tourer


def test_a_name_is_given_once_also_when_pasted_twice(plain):
    cells = ("stringer", 1, "name"), ("stringer", 2, "name")
    edited = with_cells(plain, dict.fromkeys(cells, "side"), MM)
    assert [one.at for one in cell_faults(edited)] == [(cells[0],), (cells[1],)]
    assert edited["frame"] == plain["frame"]
    swapped = with_cells(plain, {cells[0]: "gunwale", cells[1]: "chine"}, MM)
    assert swapped["frame"][0]["points_mm"]["gunwale"] == plain["frame"][0]["points_mm"]["chine"]


def test_a_stick_that_ends_at_a_frame_moves_with_it_and_only_once(plain):
    shorter = with_cells(plain, {
        ("stringer", 1, "start"): "640", ("bow", "lands_mm", "chine"): ""}, MM)
    assert cell_faults(shorter) == []
    moved = with_cells(shorter, {("frame", 0, "x_mm"): "660", ("frame", 1, "x_mm"): "1240"}, MM)
    assert moved["stringer"][1]["start"] == {"x_mm": 660.0}
    chained = with_cells(shorter, {("frame", 0, "x_mm"): "1220", ("frame", 1, "x_mm"): "1400"}, MM)
    assert chained["stringer"][1]["start"] == {"x_mm": 1220.0}


def test_a_stringer_taken_out_leaves_no_trace_and_frees_what_blended_into_it(tourer):
    host = hosts(tourer)[0]
    index = [one["name"] for one in tourer["stringer"]].index(host)
    freed = without_stringer(tourer, index)
    assert mentioned(freed) == mentioned(tourer) - {host}
    old = {one["name"]: one for one in tourer["stringer"]}
    changed = [(one[key], old[one["name"]][key]) for one in freed["stringer"]
               for key in ("start", "end") if one[key] != old[one["name"]][key]]
    assert changed
    assert all(new == {"x_mm": was["x_mm"]} and was["into"] == host for new, was in changed)


SUITS, LACKS, STANDS_ON = ("suits",), ("lacks",), ("seat", "stands_on")


def test_seat_and_uses_are_edited_in_the_table_of_the_rest(plain):
    entries = {one.path: one for row in grid_of(plain, "rest").rows for one in row if one.path}
    assert {SUITS, LACKS, *(("seat", key) for key in plain["seat"])} <= set(entries)
    assert entries["seat", "kind"].choices == SEAT_KINDS
    edited = with_cells(plain, {
        SUITS: " sheltered-day ,flat", LACKS: "coastal-day: low sides; rough-water:no hatch: none",
        STANDS_ON: "F3, F4", ("seat", "kind"): "slats", ("seat", "width_mm"): "30 cm"}, MM)
    assert cell_faults(edited) == []
    assert edited["suits"] == ["sheltered-day", "flat"]
    assert edited["lacks"] == {"coastal-day": "low sides", "rough-water": "no hatch: none"}
    seat = edited_design(edited).seat
    assert (seat.kind, seat.stands_on, seat.width_m) == ("slats", ("F3", "F4"), 0.3)


@pytest.mark.parametrize(("path", "value"), [
    (SUITS, ["a, b", "c"]), (SUITS, ['"quoted", and more', "c"]), (SUITS, ['say "so"', "c"]),
    (SUITS, ["two\nlines", "c"]), (STANDS_ON, ["keel", "lower; chine"]), (LACKS, {}),
    (LACKS, {"a": "room; and a hatch", "b, c": 'a "dry" end: or two'})])
def test_names_with_signs_in_them_are_read_back(plain, path, value):
    shown = cell_text(path, value, MM, exactly)
    assert value_at(with_cells(plain, {path: shown}, MM), path) == value


@pytest.mark.parametrize(("path", "text", "allowed"), [
    (LACKS, "frog", "a colon"), (LACKS, "coastal-day:", "a colon"), (LACKS, ": low", "a colon"),
    (LACKS, "a: one; a: two", "each use once"), (SUITS, "", "at least 1"),
    (SUITS, '"sheltered-day" x', "commas"), (STANDS_ON, "keel", "at least 2"),
    (("seat", "kind"), "bench", "'sling'"), (("seat", "width_mm"), "700", "600 or less, in mm")])
def test_seat_and_uses_that_cannot_stand_stay_in_their_cell(plain, path, text, allowed):
    edited = with_cells(plain, {path: text}, MM)
    assert value_at(edited, path).text == text
    [fault] = cell_faults(edited)
    assert fault.at == (path,)
    assert allowed in fault.allowed


@pytest.mark.parametrize(("texts", "cell"), [
    ({STANDS_ON: "keel, chime"}, STANDS_ON), ({("seat", "kind"): "sling"}, STANDS_ON),
    ({SUITS: "flat"}, ("drawn_for", "use")), ({LACKS: "sheltered-day: room"}, LACKS)])
def test_seat_and_uses_that_do_not_agree_are_told_by_cell(plain, texts, cell):
    assert {one.at for one in cell_faults(with_cells(plain, texts, MM))} == {(cell,)}


def test_a_seat_goes_with_the_names_of_what_it_stands_on(plain, tourer):
    renamed = with_cells(plain, {("stringer", 1, "name"): "bilge", ("frame", 2, "name"): "keel"},
                         MM)
    assert renamed["seat"]["stands_on"] == ["keel", "bilge"]
    assert cell_faults(renamed) == []
    hung = with_cells(tourer, {("frame", 4, "name"): "main", ("stringer", 0, "name"): "F5"}, MM)
    assert hung["seat"]["stands_on"] == ["main", "F6"]
    assert cell_faults(hung) == []
    both = with_cells(plain, {("stringer", 1, "name"): "bilge", STANDS_ON: "keel, bilge"}, MM)
    assert cell_faults(both) == []


def test_a_seat_stands_on_nothing_that_was_taken_out(plain, tourer):
    for file, without, index in ((plain, without_stringer, 1), (tourer, without_frame, 4)):
        gone = file[without.__name__.removeprefix("without_")][index]["name"]
        left = without(file, index)
        assert left["seat"]["stands_on"] == [
            name for name in file["seat"]["stands_on"] if name != gone]
        assert (STANDS_ON,) in [one.at for one in cell_faults(left)]
    assert without_frame(plain, 2)["seat"] == plain["seat"]
    unread = with_cells(plain, {STANDS_ON: "keel"}, MM)
    assert without_stringer(unread, 1)["seat"] == unread["seat"]


def test_frames_are_put_in_and_taken_out_in_place(plain):
    extra = plain["frame"][0] | {"name": "X"}
    more = with_frame(plain, 1, extra)
    assert [one["name"] for one in more["frame"]] == ["F1", "X", "F2", "F3", "F4", "F5", "F6"]
    assert without_frame(more, 1) == plain
    fewer = plain
    for _ in range(4):
        fewer = without_frame(fewer, 0)
    [fault] = cell_faults(fewer)
    assert "at least 3" in fault.allowed
    assert fault.at == ()


@pytest.mark.parametrize("number", ["0", "-70", "55.5", "900", "9000", "999999"])
def test_whatever_number_is_typed_every_fault_names_a_cell(plain, number):
    numeric = [path for path in cells_of(plain) if kind_of(path) in ("length", "mass", "number")]
    some = 0
    for path in numeric:
        for one in cell_faults(with_cells(plain, {path: number}, MM)):
            some += 1
            assert one.at, (path, one)
            assert one.place.startswith(label_of(plain, one.at[0]))
    assert some > len(numeric) / 4


def test_whatever_text_is_typed_every_fault_names_a_cell_or_the_stringers_roles(plain):
    for path in cells_of(plain):
        if kind_of(path) in ("end", "text", "choice"):
            for text in ("", "frog", "keel at 900", "chine at 1", "coaming", "ridge", "F2"):
                for one in cell_faults(with_cells(plain, {path: text}, MM)):
                    assert one.at or one.place == "stringer", (path, text, one)


def test_crossing_curves_are_told_by_the_frames_on_either_side(plain):
    # The chine far out at one frame drags its curve through the centre line beyond the next.
    file = with_cells(plain, {("frame", 0, "points_mm", "chine", 0): "2",
                              ("frame", 1, "points_mm", "chine", 0): "400",
                              ("frame", 2, "points_mm", "chine", 0): "2"}, MM)
    assert cell_faults(file) == []
    with pytest.raises(BadInput) as caught:
        fair_lines(edited_design(file))
    found = in_cells(file, caught.value.faults)
    assert found
    for one in found:
        assert one.at
        assert {cell[3:] for cell in one.at} == {("chine", 0)}
        x_mm = float(caught.value.faults[0].place.split("x = ")[1].removesuffix(" mm"))
        assert any(abs(file["frame"][cell[1]]["x_mm"] - x_mm) < 900 for cell in one.at)


@pytest.mark.parametrize(("stem", "axis", "number"), [
    ("bow", 0, "60"), ("bow", 1, "300"), ("stern", 0, "3900"), ("stern", 1, "30")])
def test_a_stem_that_turns_back_is_told_by_the_point_that_does(plain, stem, axis, number):
    cell = (stem, "profile_mm", 2, axis)
    cells = [one.at for one in cell_faults(with_cells(plain, {cell: number}, MM))]
    assert (cell,) in cells


def test_a_fault_names_its_own_cells_where_one_name_begins_another(plain):
    file = with_cells(plain, {("stringer", 1, "name"): "keel.x"}, MM)
    del file["frame"][0]["points_mm"]["keel.x"]
    assert [one.at for one in cell_faults(file)] == [
        (("frame", 0, "points_mm", "keel.x", 0), ("frame", 0, "points_mm", "keel.x", 1))]


def test_a_cell_lies_in_the_table_that_is_said(plain):
    for name in GRIDS:
        for row in grid_of(plain, name).rows:
            assert all(grid_with(one.path) == name for one in row if one.path)


def test_a_fault_of_a_value_that_stands_in_is_not_told(plain):
    x = ("frame", 1, "x_mm")
    wrong = with_cells(plain, {x: "3000"}, MM)
    assert len(cell_faults(wrong)) > 1
    unread = with_cells(wrong, {x: "abc"}, MM)
    assert value_at(unread, x) == Unread("abc", 3000.0, value_at(unread, x).allowed)
    assert all(one.at == (x,) or x not in one.at for one in cell_faults(unread))
    assert [one.value for one in cell_faults(unread) if x in one.at] == ["'abc'"]
