"""The reader: what it makes of a file, and every fault it must tell."""

import re

import pytest

from sizer.design.read import MOST_BYTES, read_design
from sizer.errors import BadInput
from sizer.hull.lines import fair_lines


@pytest.fixture(scope="module")
def text(kept_texts):
    return kept_texts["day-boat"]


def faults(text):
    with pytest.raises(BadInput) as caught:
        read_design(text, "boat.toml")
    return {fault.place.removeprefix("boat.toml: "): fault for fault in caught.value.faults}


def changed(text, *swaps):
    """The text with each (pattern, replacement) made once; a pattern not found is an error."""
    for pattern, replacement in swaps:
        text, count = re.subn(pattern, replacement, text, count=1, flags=re.MULTILINE)
        assert count == 1, pattern
    return text


def in_frame(name, key, value):
    """A swap that sets a key or point of one frame."""
    return (rf'(name = "{name}"\n(?:.*\n)*?.*?\b"?{key}"? = )(\[[^]]*\]|[^,\s]+)',
            lambda match: match[1] + value)


def test_shipped_designs_read_into_si_units(kept_texts):
    for name, text in kept_texts.items():
        design = read_design(text, name)
        fair_lines(design)
        assert 3.5 < design.length_m < 6.0
        assert design.frames[0].thickness_m == pytest.approx(0.012)
        assert 0.3 < design.skin_kgpm2 < 1.0
        assert design.stringers[0].role == "keel"


def test_numbers_arrive_in_metres(text):
    stock = (r"width_mm = \d+\ndepth_mm = \d+", "width_mm = 27\ndepth_mm = 21")
    design = read_design(changed(text, stock, in_frame("F5", "gunwale", "[294.5, 252]")))
    assert design.frames[4].points_m["gunwale"] == pytest.approx((0.2945, 0.252))
    assert (design.stringers[0].width_m, design.stringers[0].depth_m) == (0.027, 0.021)
    assert design.skin.fabric_kgpm2 == pytest.approx(0.310)
    assert design.skin.coating_kgpm2 == pytest.approx(0.280)


def test_reads_bytes_and_byte_order_marks_and_windows_lines(text):
    expected = read_design(text).name
    for form in (text.encode(), ("\ufeff" + text).encode(), "\ufeff" + text,
                 text.replace("\n", "\r\n")):
        assert read_design(form).name == expected


@pytest.mark.parametrize(("given", "value", "allowed"), [
    ("", "empty", "a design file"),
    (" \n\n", "empty", "a design file"),
    ("x" * (MOST_BYTES + 1), "2.0 MB", "at most 2 MB"),
    (b"name = \xff", "byte 7 is not UTF-8 text", "plain UTF-8"),
    ("name = ", "not readable as TOML: ", "cut short"),
    ("a = " + "[" * 100_000, "not readable as TOML", "nests"),
    ("format = " + "9" * 5000, "not readable as TOML", "mend that line"),
])
def test_refuses_what_is_no_design_file(given, value, allowed):
    found = faults(given)
    assert list(found) == ["boat.toml"]
    assert found["boat.toml"].value.startswith(value)
    assert allowed in found["boat.toml"].allowed


@pytest.mark.parametrize("share", [0.1, 0.35, 0.6, 0.9, 0.99])
def test_a_file_cut_short_anywhere_is_refused(text, share):
    with pytest.raises(BadInput):
        read_design(text[: int(share * len(text))])


def test_a_later_format_asks_for_a_later_program(text):
    found = faults(changed(text, ("^format = 2", "format = 3")) + '\nnewthing = "?"\n')
    assert list(found) == ["format"]
    assert "update the program" in found["format"].allowed


@pytest.mark.parametrize("value", ["0", "-1", "true", '"1"', "1.0", "1.5"])
def test_a_format_that_never_was_is_refused(text, value):
    assert list(faults(changed(text, ("^format = 2", f"format = {value}")))) == ["format"]


WRONG_VALUES = [
    ((r"^weight_kg = .*", 'weight_kg = "76"'), "drawn_for.weight_kg", "'76'", "a number without"),
    ((r"^weight_kg = .*", "weight_kg = 20"), "drawn_for.weight_kg", "20", "30 or more"),
    ((r"^weight_kg = .*", "weight_kg = 300"), "drawn_for.weight_kg", "300", "200 or less"),
    ((r"^weight_kg = .*", "weight_kg = true"), "drawn_for.weight_kg", "True", "a number without"),
    ((r"^draft_mm = .*", "draft_mm = nan"), "drawn_for.draft_mm", "nan", "neither nan nor inf"),
    ((r"^draft_mm = .*", "draft_mm = inf"), "drawn_for.draft_mm", "inf", "neither nan nor inf"),
    ((r"^draft_mm = .*", "draft_mm = 20000"), "drawn_for.draft_mm", "20000", "10000 or less"),
    ((r"^draft_mm = .*", "draft_mm = 0"), "drawn_for.draft_mm", "0", "more than 0"),
    ((r"^water = .*", 'water = "brine"'), "drawn_for.water", "'brine'", "'fresh' or 'salt'"),
    ((r"^name = .*", "name = 5"), "name", "5", "text in quotes"),
    ((r"^name = .*", 'name = ""'), "name", "''", "at least one letter"),
    ((r"^length = .*", "length = [0.9]"), "limits.length", "[0.9]", "at least 2 entries"),
    ((r"^length = .*", "length = 0.9"), "limits.length", "0.9", "a list in square brackets"),
    ((r"^length = .*", "length = [1.1, 0.9]"), "limits.length", "[1.1, 0.9]", "lowest comes first"),
    ((r"^beam = .*", "beam = [1.05, 1.1]"), "limits.beam", "[1.05, 1.1]", "factor 1"),
    ((r"^entry = .*", 'entry = "jump"'), "cockpit.entry", "'jump'", "'slide' or 'sit'"),
    ((r"^entry = .*", ""), "cockpit.entry", "missing", "README"),
    ((r"^entry = ", "colour = 3\nentry = "), "cockpit.colour", "unknown key", "spelling"),
    ((r"^\[cockpit\]", "[cockpot]"), "cockpot", "unknown key", "spelling"),
    ((r"^wood = .*", 'wood = "oak"'), "stringer.1 (keel).wood", "'oak'", "white ash"),
    ((r"^end = .*", 'end = "nowhere"'), "stringer.1 (keel).end", "'nowhere'", '"stem"'),
    ((r"^end = .*", ""), "stringer.1 (keel).end", "missing", "README"),
    ((r"^end = .*", "end = { x = 3 }"), "stringer.1 (keel).end", "{'x': 3}", "x_mm = 1200"),
    (in_frame("F5", "gunwale", "[294, nan]"), "frame.5 (F5).points_mm.gunwale.2", "nan",
     "neither nan nor inf"),
    (in_frame("F5", "gunwale", "[294]"), "frame.5 (F5).points_mm.gunwale", "[294]", "2 entries"),
    (in_frame("F5", "gunwale", '"wide"'), "frame.5 (F5).points_mm.gunwale", "'wide'", "a list"),
    (in_frame("F5", "gunwale", "[-294, 252]"), "frame.F5.points_mm.gunwale",
     "half-breadth -294 mm", "zero or more"),
    (in_frame("F5", "keel", "[3, 0]"), "frame.F5.points_mm.keel", "half-breadth 3 mm", "central"),
    (in_frame("F5", "gunwale", "[294, 50]"), "frame.F5.points_mm.gunwale", "height 50 mm",
     "crossing stringers"),
    (in_frame("F5", "thickness_mm", "60"), "frame.5 (F5).thickness_mm", "60", "40 or less"),
    (in_frame("F5", "x_mm", "1000"), "frame.F5.x_mm", "1000 mm", "order from bow to stern"),
    ((r'^name = "F5"', 'name = "F4"'), "frame.F4", "named 2 times", "each name once"),
    ((r', gunwale = (?=\[29\d\.?5?, 25)', ', gunvale = '), "frame.F5.points_mm.gunvale",
     "no such stringer", "a name from"),
    ((r"^front_x_mm = .*", "front_x_mm = 2600"), "cockpit.front_x_mm to back_x_mm", "40 mm",
     "own limits"),
    ((r"^seat_x_mm = ", "seat_z_mm = 26\nseat_x_mm = "), "cockpit.seat_z_mm", "unknown key",
     "spelling"),
    ((r"^seat_x_mm = .*", "seat_x_mm = 900"), "cockpit.seat_x_mm", "900 mm", "under the opening"),
    ((r"(?s)(\[bow\].*?keel = )\d+", r"\g<1>300"), "bow.lands_mm.keel", "300 mm",
     "where the profile ends"),
]


@pytest.mark.parametrize(("swap", "place", "value", "allowed"), WRONG_VALUES)
def test_each_fault_names_its_place_value_and_what_is_allowed(text, swap, place, value, allowed):
    found = faults(changed(text, swap))
    assert place in found, list(found)
    assert value in found[place].value
    assert allowed in found[place].allowed
    line = str(found[place])
    assert line.startswith(f"boat.toml: {place}: ")
    assert len(line.splitlines()) == 1
    assert not re.search(r"input should|pydantic|validation", line, re.IGNORECASE)


def test_many_faults_are_told_at_once(text):
    """Wrong types, unknown keys and parts that do not agree, in one answer."""
    found = faults(changed(
        text, (r"^weight_kg = .*", 'weight_kg = "heavy"'), (r"^gear_kg = .*\n", ""),
        (r"^entry = ", "colour = 3\nentry = "), (r"^seat_x_mm = .*", "seat_x_mm = 900"),
        in_frame("F2", "x_mm", "nan"), in_frame("F5", "gunwale", "[-294, 252]"),
        in_frame("F7", "x_mm", "1000"), (r"^beam = .*", "beam = [1.2, 0.9]"),
        (r'(?s)(\[stern\].*?), "upper chine" = \d+', r"\1")))
    assert {"drawn_for.weight_kg", "drawn_for.gear_kg", "cockpit.colour", "cockpit.seat_x_mm",
            "frame.2 (F2).x_mm", "frame.F5.points_mm.gunwale", "frame.F7.x_mm", "limits.beam",
            "stern.lands_mm.upper chine"} <= set(found)


def test_a_missing_point_is_told_and_a_needless_one_too(text):
    missing = faults(changed(text, (r', gunwale = \[29\d\.?5?, 252(\.\d)?\]', "")))
    assert list(missing) == ["frame.F5.points_mm.gunwale"]
    assert missing["frame.F5.points_mm.gunwale"].value == "missing"
    needless = faults(changed(text, (r'(name = "F1"\n(?:.*\n)*?points_mm = \{ )',
                                     r'\1"afterdeck ridge" = [0, 400], ')))
    assert list(needless) == ["frame.F1.points_mm.afterdeck ridge"]


def test_stock_thicker_than_the_gap_is_told(text):
    found = faults(changed(text, in_frame("F5", "lower chine", "[3, 4]")))
    assert "thicker than the gap" in found["frame.F5.points_mm.lower chine"].allowed


@pytest.mark.parametrize(("base", "swap", "place"), [
    ("long-tourer", (r'into = "chine"', 'into = "nothing"'), "stringer.fore bilge.end"),
    ("long-tourer", (r'into = "chine"', 'into = "aft bilge"'), "stringer.fore bilge.end"),
    ("long-tourer", (r'into = "chine"', 'into = "foredeck ridge"'), "stringer.fore bilge.end"),
    ("long-tourer", (r'(name = "chine"\n.*\n.*\n.*\n.*\nstart = )"stem"', r'\1"coaming"'),
     "stringer.chine.start"),
    ("day-boat", (r'(role = "gunwale"\n.*\n.*\n.*\nstart = )"stem"', r"\1{ x_mm = 300 }"),
     "stringer.gunwale.start"),
    ("day-boat", (r'role = "gunwale"', 'role = "chine"'), "stringer"),
    ("day-boat", (r"(?s)(\[bow\].*?\[\[0, )[\d.]+", r"\g<1>5"), "bow.profile_mm"),
    ("day-boat", (r'(?s)(\[bow\].*?"upper chine" = )\d+', r"\g<1>400"),
     "bow.lands_mm.upper chine"),
])
def test_ends_roles_and_stems_that_do_not_fit_are_told(kept_texts, base, swap, place):
    assert place in faults(changed(kept_texts[base], swap))


def test_a_cockpit_without_a_cockpit_frame_is_told(text):
    found = faults(text.replace('kind = "cockpit"', 'kind = "ring"'))
    assert "meets no cockpit frame" in found["cockpit"].value


def test_an_opening_wider_than_the_boat_is_told(text):
    found = faults(changed(text, (r"^width_mm = 4\d\d", "width_mm = 600"),
                           (r"^cockpit_width_mm = .*", "cockpit_width_mm = [380, 700]")))
    assert "less than the beam" in found["cockpit.width_mm"].allowed


def test_what_has_to_be_is_told_as_that(text):
    """"Height 90 mm: above ..." reads as if it were."""
    found = faults(changed(text, in_frame("F4", "gunwale", "[300, 90]")))
    fault = next(one for place, one in found.items() if place.endswith("gunwale"))
    assert fault.value == "height 90 mm"
    assert fault.allowed.startswith("has to be over upper chine, which is at ")


def test_a_fault_carries_its_place_as_data(text):
    """Frames are counted as the file has them, also behind one that cannot be read."""
    with pytest.raises(BadInput) as caught:
        read_design(changed(
            text, in_frame("F2", "x_mm", "nan"), in_frame("F5", "gunwale", "[-294, 252]"),
            (r"^beam = .*", "beam = [1.2, 0.9]"), (r"^seat_x_mm = .*", "seat_x_mm = 900")))
    told = {(fault.place.partition(": ")[2], fault.at) for fault in caught.value.faults}
    gunwale = ("frame", 4, "points_mm", "gunwale")
    assert {("frame.2 (F2).x_mm", (("frame", 1, "x_mm"),)),
            ("frame.F5.points_mm.gunwale", ((*gunwale, 0),)),
            ("limits.beam", (("limits", "beam"),)),
            ("cockpit.seat_x_mm", (("cockpit", "seat_x_mm"),))} <= told


def test_slips_of_the_hand_get_a_word_of_their_own(text):
    """A decimal comma; a nought that is lacking in the cloth's weight."""
    with pytest.raises(BadInput, match=r"decimal point, no comma"):
        read_design(changed(text, (r"^rim_back_z_mm = .*", "rim_back_z_mm = 298,5")))
    assert "fabric_gpm2" in str(faults(changed(text, (r"^fabric_gpm2 = .*", "fabric_gpm2 = 31"))))
