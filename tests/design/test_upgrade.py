"""A file of format 1 is read as one of format 2, with what had to be assumed told in sentences."""

import re
import tomllib
from pathlib import Path

import pytest

from sizer.design.read import read_design
from sizer.design.records import Seat
from sizer.design.upgrade import upgraded
from sizer.design.write import design_toml
from sizer.errors import BadInput

OLD = (Path(__file__).parent / "day-boat-format-1.toml").read_text("utf-8")


def changed(*swaps):
    """The old text with each (pattern, replacement) made wherever it is found."""
    text = OLD
    for pattern, replacement in swaps:
        text, count = re.subn(pattern, replacement, text, flags=re.MULTILINE)
        assert count, pattern
    return text


def without_chines():
    """The old file with keel, gunwale and ridges only."""
    return changed((r'\[\[stringer\]\]\nname = "(lower|upper) chine"\n(.+\n)*\n', ""),
                   (r'"(lower|upper) chine" = (\[[^]]*\]|\d+), ', ""))


def places(text):
    with pytest.raises(BadInput) as caught:
        read_design(text, "old.toml")
    return {fault.place.removeprefix("old.toml: "): fault.value for fault in caught.value.faults}


def test_a_file_of_format_1_is_read_on_an_assumed_panel():
    design = read_design(OLD)
    assert design.seat == Seat("panel", 0.006, 0.320, 0.330, ("keel", "lower chine"), 0.015)
    assert design.suits == ("coastal-day",)
    assert design.lacks == {}
    assert design.cockpit.seat_x_m == 2.56


def test_what_was_assumed_is_told_in_sentences():
    assert sorted(read_design(OLD).assumed) == [
        "Format 1 file: it does not say what uses the boat suits; it was taken to suit the use "
        "it was drawn for, coastal-day.",
        "Format 1 file: the seat's height of 26 mm was left out and a 6 mm plywood panel, "
        "320 x 330 mm, on the keel and the lower chine was assumed; check it."]


def test_the_table_given_is_not_changed():
    table = tomllib.loads(OLD)
    upgraded(table)
    assert table == tomllib.loads(OLD)


def test_it_is_written_back_as_format_2_with_nothing_left_to_assume():
    design = read_design(OLD)
    text = design_toml(design)
    assert text.startswith("format = 2\n")
    again = read_design(text)
    assert (again.seat, again.suits, again.cockpit) == (design.seat, design.suits, design.cockpit)
    assert again.assumed == ()


def test_a_chine_that_does_not_run_along_the_seat_is_passed_over():
    short = changed((r'(?s)(name = "lower chine".*?end = )"stem"', r"\1{ x_mm = 2690 }"),
                    (r'(?s)(\[stern\].*?)"lower chine" = \d+, ', r"\1"),
                    (r'(?s)(name = "F[789]".*?)"lower chine" = \[[^]]*\], ', r"\1"))
    assert read_design(short).seat.stands_on == ("keel", "lower chine")
    shorter = short.replace("{ x_mm = 2690 }", "{ x_mm = 2640 }")
    shorter = re.sub(r'(?s)(name = "F6".*?)"lower chine" = \[[^]]*\], ', r"\1", shorter, count=1)
    assert read_design(shorter).seat.stands_on == ("keel", "upper chine")


def test_a_boat_without_chines_is_given_slats_between_the_frames_around_the_seat():
    design = read_design(without_chines())
    assert design.seat == Seat("slats", 0.012, 0.320, 0.330, ("F5", "F6"), 0.015)
    assert any(line.endswith("a 12 mm seat of slats, 320 x 330 mm, on the floors of F5 and F6 "
                             "was assumed; check it.") for line in design.assumed)


def test_where_no_seat_can_be_assumed_it_is_told_as_missing():
    text = re.sub(r"^seat_x_mm = .*", "seat_x_mm = 2360", without_chines(), flags=re.MULTILINE)
    assert places(text) == {"seat": "missing"}


def test_what_an_old_file_has_already_is_kept():
    text = changed((r"^format = 1", 'format = 1\nsuits = ["coastal-day", "flat"]')) + (
        '\n[seat]\nkind = "sling"\nthickness_mm = 2\nwidth_mm = 300\nlength_mm = 300\n'
        'stands_on = ["F5", "F6"]\nclear_of_skin_mm = 20\n')
    design = read_design(text)
    assert (design.seat.kind, design.suits) == ("sling", ("coastal-day", "flat"))
    assert design.assumed == ()
    assert "seat.stands_on" in places(text.replace('"F5", "F6"', '"F5", "F9a"'))


@pytest.mark.parametrize(("height", "words"), [
    ("27.5", "height of 27.5 mm was"), ("nan", "height was"), ('"low"', "height was"),
    ("true", "height was"), ("[]", "height was")])
def test_a_height_that_cannot_be_read_is_left_out_all_the_same(height, words):
    design = read_design(changed((r"^seat_z_mm = .*", f"seat_z_mm = {height}")))
    assert any(words in line for line in design.assumed)


def test_every_fault_of_an_old_file_is_told_and_none_of_what_was_assumed():
    text = changed((r"^weight_kg = .*", 'weight_kg = "heavy"'), (r"^use = .*", "use = 5"),
                   (r"^entry = ", "colour = 3\nentry = "), (r"^beam = .*", "beam = [1.2, 0.9]"),
                   (r"\[294\.5, 252\]", "[-294.5, 252]"))
    assert set(places(text)) == {"drawn_for.weight_kg", "drawn_for.use", "cockpit.colour",
                                 "limits.beam", "frame.F5.points_mm.gunwale",
                                 "cockpit.width_mm"}


def test_parts_of_an_old_file_that_do_not_agree_are_told_alone():
    assert set(places(changed((r'^name = "lower chine"', 'name = "chine"')))) >= {
        "bow.lands_mm.lower chine", "stern.lands_mm.lower chine"}
    assert set(places(changed((r'^name = "F5"', 'name = "F4"')))) == {"frame.F4"}


TABLES = ("drawn_for", "limits", "skin", "bow", "stern", "cockpit", "stringer", "frame")


@pytest.mark.parametrize("key", [*TABLES, "name", "character"])
@pytest.mark.parametrize("value", ["7", '"x"', "[]", "[3]", "{}", "[{}]"])
def test_a_half_faulty_old_file_never_gets_further_than_its_faults(key, value):
    given = tomllib.loads(OLD)
    text = f"{key} = {value}\n" + without_table(OLD, key)
    if key in ("name", "character") and value == '"x"':
        assert read_design(text).assumed
        return
    found = places(text)
    assert found
    assert key in {place.split(".")[0] for place in found}
    assert not any(place.startswith(("seat", "suits")) for place in found), found
    assert key in given


def without_table(text, key):
    """The text without one table, every one of a list, or one line."""
    text = re.sub(rf"^\[+{key}\]+.*\n(?:(?!\[|#).*\n)*", "", text, flags=re.MULTILINE)
    return re.sub(rf'^{key} = .*\n', "", text, count=1, flags=re.MULTILINE)
