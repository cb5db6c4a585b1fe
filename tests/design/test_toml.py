"""A design file written into its own text: comments, order and layout stay."""

import difflib
import re
from pathlib import Path

import pytest

from sizer.design.cells import Units
from sizer.design.edit import (
    edited_design,
    with_cells,
    with_frame,
    with_stringer,
    without_frame,
    without_stringer,
)
from sizer.design.library import shipped_names, shipped_text
from sizer.design.read import read_design
from sizer.design.write import design_toml, file_of

MM = Units()


@pytest.fixture
def text(kept_texts):
    """The kept teaching boat with a builder's comments in every kind of place."""
    return commented(kept_texts["teaching-boat"])


def commented(text):
    for pattern, replacement in (
            (r"\A", "# built in the old barn\n\n"),
            (r"(?m)^(width_mm = \d+)\n(rim_front)", r"\1   # tried 430, too tight\n\2"),
            (r'(?m)^(\[\[frame\]\]\nname = "F2")', r"# the short one\n#  by the door\n\1 # hoop"),
            (r'(?m)^(\[\[frame\]\]\nname = "F3")', r"# ---- middle ----\n\n# under the knees\n\1"),
            (r"(?s)(\[bow\].*?profile_mm = \[\[[^]]*\],) ", r"\1 # head of the stem\n    "),
            (r"\Z", "\n# varnish next\n")):
        text, count = re.subn(pattern, replacement, text, count=1)
        assert count == 1, pattern
    return text


def table(text):
    return file_of(read_design(text)).model_dump()


def written(file, text):
    """A file's design in the text, which reads back as it."""
    design = edited_design(file)
    again = design_toml(design, text)
    assert table(again) == file_of(design).model_dump()
    return again


def changed_lines(before, after):
    """(lines taken out, lines put in)."""
    diff = [line for line in difflib.ndiff(before.splitlines(), after.splitlines())]
    return tuple([line[2:] for line in diff if line.startswith(sign)] for sign in ("- ", "+ "))


@pytest.mark.parametrize("name", shipped_names())
def test_an_unchanged_shipped_file_comes_back_letter_by_letter(name):
    text = shipped_text(name)
    assert text.startswith("#")
    assert design_toml(read_design(text), text) == text
    assert design_toml(read_design(commented(text)), "") == design_toml(read_design(text))


def test_an_edited_cell_changes_its_own_value_only(text):
    file = table(text)
    for path, typed, was in (
            (("cockpit", "width_mm"), "431.5", f"width_mm = {file['cockpit']['width_mm']:g}"),
            (("frame", 1, "name"), "hoop", 'name = "F2" # hoop'),
            (("bow", "profile_mm", 1, 1), "250.5", f"{file['bow']['profile_mm'][1][1]:g}]"),
            (("frame", 2, "points_mm", "gunwale", 0), "299.5", "gunwale = [297,")):
        before, after = changed_lines(text, written(with_cells(file, {path: typed}, MM), text))
        assert len(before) == len(after) == 1
        assert was in before[0]
        assert typed in after[0]
        assert after[0].partition("#")[1:] == before[0].partition("#")[1:]
        numbers = [re.findall(r"[\d.]+|\"\w+\"", line) for line in (before[0], after[0])]
        assert sum(a != b for a, b in zip(*numbers, strict=True)) == 1


def test_a_frame_taken_out_takes_its_own_comment_along_and_no_other(text):
    before, after = changed_lines(text, written(without_frame(table(text), 2), text))
    assert not after
    assert before[:3] == ["# under the knees", "[[frame]]", 'name = "F3"']
    assert len([line for line in before if line.startswith("#")]) == 1


def test_a_frame_and_a_stringer_put_in_leave_every_line_as_it_was(text):
    file = table(text)
    between = file["frame"][1] | {"name": "F2a", "x_mm": file["frame"][1]["x_mm"] + 40.0}
    before, after = changed_lines(text, written(with_frame(file, 2, between), text))
    assert not before
    assert after[:2] == ["[[frame]]", 'name = "F2a"']
    more = written(with_stringer(file, 1, "side"), text)
    assert comments(more) == comments(text)
    assert written(without_stringer(table(more), 2), more) == text


def comments(text):
    return re.findall(r"#.*", text)


def test_what_is_no_longer_lacking_goes_with_its_heading(text):
    again = written(with_cells(table(text), {("lacks",): ""}, MM), text)
    assert "[lacks]" not in again
    own = re.search(r"(?m)^\[lacks\] *(#.*)$", text)[1]
    assert comments(again) == [one for one in comments(text) if one != own]
    assert "[lacks]" in written(with_cells(table(again), {("lacks",): "flat: room"}, MM), again)


LAYOUTS = {
    "windows lines": lambda text: text.replace("\n", "\r\n"),
    "no last line end": lambda text: text.rstrip("\n"),
    "a table in a line": lambda text: inline(text, "skin"),
    "headings under headings": lambda text: re.sub(
        r"(?m)^(points|lands)_mm = \{ (.*) \}$",
        lambda match: "[" + ("frame" if match[1] == "points" else "STEM") + f".{match[1]}_mm]\n"
        + re.sub(r", (?=[a-z\"])", "\n", match[2]), text).replace(
            "[STEM", "[bow", 1).replace("[STEM", "[stern", 1),
    "a heading in a text": lambda text: text.replace(
        'character = "', 'character = """\\\n[bow]\n', 1).replace('"\nsuits', '"""\nsuits', 1),
}


def inline(text, key):
    """The text with a table of two numbers in a line of the top."""
    lines = re.search(rf"\[{key}\].*\n(\w+ = \d+).*\n(\w+ = \d+).*\n", text)
    text = text.replace(lines[0], "")
    return re.sub(r"(?m)^(suits = .*)$", rf"\1\n{key} = {{ {lines[1]}, {lines[2]} }}  # cloth",
                  text, count=1)


@pytest.mark.parametrize("layout", LAYOUTS)
def test_any_layout_reads_back_as_the_same_design(text, layout):
    given = LAYOUTS[layout](text)
    assert given != text
    file = with_cells(table(given), {("skin", "fabric_gpm2"): "222",
                                     ("frame", 2, "points_mm", "gunwale", 0): "299.5"}, MM)
    again = written(file, given)
    if layout != "a heading in a text":  # which is written anew
        assert [one.strip() for one in comments(again)] == [one.strip()
                                                           for one in comments(given)]


def test_a_file_of_format_1_keeps_its_comments():
    old = (Path(__file__).parent / "day-boat-format-1.toml").read_text("utf-8")
    again = design_toml(read_design(old), old)
    assert comments(old)
    assert comments(again) == comments(old)
    assert "format = 2" in again
    assert read_design(again).assumed == ()
