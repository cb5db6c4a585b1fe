"""The seat and what it stands on, the uses a boat suits: what is read and what is refused."""

import dataclasses
import re

import pytest

from sizer.design.read import read_design
from sizer.design.records import Seat
from sizer.design.write import design_toml
from sizer.errors import BadInput
from sizer.hull.redraw import redrawn

PANEL_ON = r'^stands_on = \["keel", "lower chine"\]'


@pytest.fixture(scope="module")
def text(kept_texts):
    return kept_texts["day-boat"]


@pytest.fixture(scope="module")
def slung(text):
    """The day boat with a sling from F5 at 2260 to F6 at 2690; one sits at 2460, 90 either way."""
    return changed(text, (r'^kind = "panel"', 'kind = "sling"'), (PANEL_ON, on("F5", "F6")))


def on(*names):
    return "stands_on = [" + ", ".join(f'"{name}"' for name in names) + "]"


def changed(text, *swaps):
    """The text with each (pattern, replacement) made once; a pattern not found is an error."""
    for pattern, replacement in swaps:
        text, count = re.subn(pattern, replacement, text, count=1, flags=re.MULTILINE)
        assert count == 1, pattern
    return text


def told(text):
    """Every fault as (place, value, allowed)."""
    with pytest.raises(BadInput) as caught:
        read_design(text, "boat.toml")
    return [(one.place.removeprefix("boat.toml: "), one.value, one.allowed)
            for one in caught.value.faults]


def test_a_seat_is_read_into_metres(text):
    seat = read_design(changed(text, (r"^clear_of_skin_mm = .*", "clear_of_skin_mm = 17"))).seat
    assert seat == Seat("panel", 0.006, 0.32, 0.33, ("keel", "lower chine"), 0.017)


def test_uses_are_read_and_lacks_may_be_left_out(text):
    design = read_design(text)
    assert design.suits == ("coastal-day", "sheltered-day")
    assert design.lacks["fitness-paddling"] == "too short to be quick"
    assert read_design(changed(text, (r"(?s)^\[lacks\].*?\n\n", ""))).lacks == {}


def test_nothing_is_assumed_of_a_file_of_this_format(text):
    assert read_design(text).assumed == ()


@pytest.mark.parametrize("kind", ["slats", "sling"])
def test_slats_and_slings_on_two_frames_are_read(slung, kind):
    seat = read_design(slung.replace('kind = "sling"', f'kind = "{kind}"')).seat
    assert (seat.kind, seat.stands_on) == (kind, ("F5", "F6"))


def test_a_panel_may_lie_on_more_chines_than_one(text):
    both = changed(text, (PANEL_ON, on("keel", "lower chine", "upper chine")))
    assert read_design(both).seat.stands_on == ("keel", "lower chine", "upper chine")


@pytest.mark.parametrize(("key", "value", "allowed"), [
    ("kind", '"bench"', "'panel', 'slats' or 'sling'"),
    ("thickness_mm", "0.5", "1 or more"), ("thickness_mm", "41", "40 or less"),
    ("width_mm", "149", "150 or more"), ("width_mm", "601", "600 or less"),
    ("length_mm", "149", "150 or more"), ("length_mm", "901", "900 or less"),
    ("clear_of_skin_mm", "11", "12 or more"), ("clear_of_skin_mm", "101", "100 or less"),
    ("clear_of_skin_mm", "nan", "neither nan nor inf"),
    ("width_mm", '"320"', "a number without quotes"),
    ("stands_on", '["keel"]', "at least 2 entries"), ("stands_on", '"keel"', "a list"),
])
def test_each_value_of_the_seat_is_held_to_its_range(text, key, value, allowed):
    swap = (rf"(?s)(\[seat\].*?^{key} = )[^\n]*", lambda match: match[1] + value)
    [(place, found, range_told)] = told(changed(text, swap))
    assert place == f"seat.{key}"
    assert found == value.replace('"', "'")
    assert allowed in range_told


@pytest.mark.parametrize(("names", "value", "allowed"), [
    (("keel", "middle chine"), "'middle chine'", "a stick's name"),
    (("keel", "F5"), "'F5'", "a stick's name"),
    (("lower chine", "upper chine"), "'lower chine' first", "the keel first"),
    (("keel", "gunwale"), "'gunwale', a gunwale", "only chines"),
    (("keel", "keel"), "'keel', a keel", "only chines"),
    (("keel", "upper chine", "lower chine"), "'lower chine' after 'upper chine'", "outward"),
    (("keel", "lower chine", "lower chine"), "'lower chine' after 'lower chine'", "each once"),
])
def test_what_a_panel_cannot_lie_on_is_told(text, names, value, allowed):
    [(place, found, why)] = told(changed(text, (PANEL_ON, on(*names))))
    assert (place, found) == ("seat.stands_on", value)
    assert allowed in why


def on_bilge(text, start_x_mm, slide="[90, 90]"):
    """The long tourer on a panel on its aft bilge, which leaves the chine at this x."""
    return changed(text, (r'^kind = "sling"', 'kind = "panel"'),
                   (r'^stands_on = .*', on("keel", "aft bilge")),
                   (r'(?s)(name = "aft bilge".*?into = "chine", x_mm = )[\d.]+',
                    rf"\g<1>{start_x_mm}"),
                   (r"^seat_slide_mm = .*", f"seat_slide_mm = {slide}"))


def reaching(text):
    return [(value, allowed) for place, value, allowed in told(text) if place == "seat.stands_on"]


def test_a_stick_under_a_panel_runs_along_all_of_it_and_its_slide(kept_texts):
    # The seat's back is at 2930 mm, its front 330 mm ahead of that.
    tourer = kept_texts["long-tourer"]
    [(value, allowed)] = reaching(on_bilge(tourer, 2511))
    assert value.startswith("'aft bilge' from 2511 to ")
    assert "2510 to 3020 mm" in allowed
    assert not reaching(on_bilge(tourer, 2510) + "unknown = 1")
    assert reaching(on_bilge(tourer, 2541, "[60, 90]"))
    assert not reaching(on_bilge(tourer, 2540, "[60, 90]") + "unknown = 1")


@pytest.mark.parametrize(("names", "value", "allowed"), [
    (("F5", "F66"), "'F66'", "a frame's name from [[frame]], for sling"),
    (("keel", "F6"), "'keel'", "a frame's name from [[frame]], for sling"),
    (("F4", "F5", "F6"), "3 names", "exactly two frames"),
    (("F6", "F5"), "'F6' at 2690, 'F5' at 2260 mm", "fore then aft"),
    (("F5", "F5"), "'F5' at 2260, 'F5' at 2260 mm", "fore then aft"),
    (("F4", "F5"), "'F4' at 1840, 'F5' at 2260 mm", "2370 to 2550 mm"),
    (("F6", "F7"), "'F6' at 2690, 'F7' at 3180 mm", "2370 to 2550 mm"),
])
def test_frames_that_a_sling_cannot_hang_between_are_told(slung, names, value, allowed):
    [(place, found, why)] = told(slung.replace(on("F5", "F6"), on(*names)))
    assert (place, found) == ("seat.stands_on", value)
    assert allowed in why


@pytest.mark.parametrize(("slide", "good"), [
    ("[190, 200]", True), ("[200, 90]", False), ("[90, 230]", False)])
def test_one_sits_between_the_frames_wherever_the_seat_slides(slung, slide, good):
    text = changed(slung, (r"^seat_slide_mm = .*", f"seat_slide_mm = {slide}"))
    if good:
        read_design(text)
    else:
        assert [place for place, _, _ in told(text)] == ["seat.stands_on"]


def test_no_seat_stands_on_a_stem_frame(slung):
    stem = changed(slung, (r'(name = "F6"\nkind = )"cockpit"', r'\1"stem"'))
    assert told(stem) == [("seat.stands_on", "'F6' of kind \"stem\"", "frames of another kind")]


def test_a_use_drawn_for_is_among_those_it_suits(text):
    assert told(changed(text, (r"^suits = .*", 'suits = ["sheltered-day", "flat"]'))) == [
        ("drawn_for.use", "'coastal-day'", "one of suits: sheltered-day, flat")]


def test_a_use_that_it_suits_lacks_nothing(text):
    both = changed(text, (r"^rough-water = ", "coastal-day = "))
    assert [(place, value) for place, value, _ in told(both)] == [
        ("lacks.coastal-day", "one of suits")]


@pytest.mark.parametrize(("swap", "place", "allowed"), [
    ((r"^suits = .*", "suits = []"), "suits", "at least 1 entries"),
    ((r"^suits = .*\n", ""), "suits", "README"),
    ((r"^suits = .*", 'suits = "coastal-day"'), "suits", "a list"),
    ((r"^suits = .*", "suits = [7]"), "suits.1", "text in quotes"),
    ((r"^rough-water = .*", "rough-water = true"), "lacks.rough-water", "text in quotes"),
    ((r"^rough-water = .*", 'rough-water = ""'), "lacks.rough-water", "at least one letter"),
    ((r"^rough-water = ", '"rough: water" = '), "lacks.rough: water", "without a colon"),
    ((r"^\[seat\]", "[perch]"), "seat", "README"),
])
def test_uses_and_seats_that_cannot_be_read_are_told_by_themselves(text, swap, place, allowed):
    """Nothing is said of a part that merely stands in for one that cannot be read."""
    found = {at: why for at, _, why in told(changed(text, swap))}
    assert set(found) - {"perch"} == {place}
    assert allowed in found[place]


def test_faults_of_seat_and_uses_are_told_with_all_the_others(text):
    found = {place for place, _, _ in told(changed(
        text, (r"^weight_kg = .*", 'weight_kg = "heavy"'), (r"^suits = .*", 'suits = ["flat"]'),
        (r"^thickness_mm = 6", "thickness_mm = 90"), (PANEL_ON, on("keel", "nothing")),
        (r"^rough-water = ", "flat = "), (r"^fitness-paddling = .*", "fitness-paddling = 3"),
        (r"^beam = .*", "beam = [1.2, 0.9]")))}
    assert found == {"drawn_for.weight_kg", "drawn_for.use", "seat.thickness_mm",
                     "seat.stands_on", "lacks.flat", "lacks.fitness-paddling", "limits.beam"}


def test_a_sling_on_a_frame_that_cannot_be_read_is_not_said_to_hang_on_nothing(slung):
    text = changed(slung, (r'(?s)(name = "F6".*?thickness_mm = )12', r"\g<1>90"))
    places = {place for place, _, _ in told(text)}
    assert "seat.stands_on" not in places
    assert "frame.6 (F6).thickness_mm" in places


@pytest.mark.parametrize("lacks", [{}, {"a \"quoted\" use": "room; and, perhaps: more"}])
def test_seat_and_uses_come_back_as_they_were_written(slung, lacks):
    design = dataclasses.replace(read_design(slung), lacks=lacks)
    text = design_toml(design)
    again = read_design(text)
    assert (again.seat, again.suits, again.lacks) == (design.seat, design.suits, lacks)
    assert ("[lacks]" in text) == bool(lacks)


def test_a_redrawn_boat_keeps_its_seat_and_suits_the_use_it_was_fitted_to(boat):
    design = boat.design
    drawn = dataclasses.replace(design.drawn_for, use="rough-water")
    again = redrawn(boat, "fitted", drawn)
    assert again.seat == design.seat
    assert again.suits == tuple(dict.fromkeys((*design.suits, "rough-water")))
    assert again.lacks == {use: what for use, what in design.lacks.items()
                           if use != "rough-water"}
    assert read_design(design_toml(again)).drawn_for.use == "rough-water"
    assert redrawn(boat, "fitted", design.drawn_for).suits == design.suits
