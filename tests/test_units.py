"""Units: exact definitions, what people type, fractions, and offset-table notation."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizer.as_typed import (
    parse_length_mm,
    parse_mass_kg,
    parse_offset_mm,
    parse_speed_mps,
    parse_temperature_c,
)
from sizer.errors import BadInput
from sizer.units import (
    KG_PER_LB,
    KG_PER_STONE,
    KN_PER_MPS,
    LB_PER_STONE,
    MM_PER_FT,
    MM_PER_IN,
    about_text,
    at_least_text,
    at_most_text,
    both_cloth,
    both_force,
    both_mass,
    both_text,
    both_volume,
    bound_inches,
    feet_inches_text,
    inches_error_mm,
    inches_text,
    known_text,
    laid_text,
    length_text,
    mark_text,
    marks_apart,
    offset_text,
    plain,
    plain_number,
    range_mass,
    range_text,
    tape_text,
    temperature_text,
    unbroken,
    us_volume,
)

SIXTEENTHS = st.integers(min_value=0, max_value=16 * 12 * 40)


def test_units_match_exact_definitions():
    # NIST SP 811, Appendix B.8: foot 0.3048 m, stone 6.350 293 kg (14 lb), knot 0.514 444 4 m/s.
    assert math.isclose(MM_PER_FT, 12 * MM_PER_IN, rel_tol=1e-15)
    assert math.isclose(KG_PER_STONE, LB_PER_STONE * KG_PER_LB, rel_tol=1e-15)
    assert math.isclose(1 / KN_PER_MPS, 0.5144444, abs_tol=5e-8)


@pytest.mark.parametrize(
    ("text", "default_unit", "mm"),
    [
        ("178 cm", "mm", 1780),
        ("1.78 m", "mm", 1780),
        ("1780", "mm", 1780),
        ("178", "cm", 1780),
        ("5 ft 10", "mm", 1778),
        ("5'10\"", "mm", 1778),
        ("5’ 10”", "mm", 1778),
        ("5 ft 10 1/2 in", "mm", 1790.7),
        ("6 ft. 2 in.", "mm", 1879.6),
        ("5 FT", "mm", 1524),
        ("5.5", "ft", 1676.4),
        ("15 1/4 in", "mm", 387.35),
        ("15-1/4", "in", 387.35),
        ("1m78", "mm", 1780),
        ("15 1/4", "in", 387.35),
        ("15¼", "in", 387.35),
        ('15.25"', "mm", 387.35),
        ("3/8 in", "mm", 9.525),
        ("178,5 cm", "mm", 1785),
        ("0,378 m", "mm", 378),
        (" .5 m ", "mm", 500),
        ("-20 mm", "mm", -20),
        ("-1 1/4 in", "mm", -31.75),
    ],
)
def test_parse_length_reads_what_people_type(text, default_unit, mm):
    assert parse_length_mm(text, default_unit, "length") == mm


@pytest.mark.parametrize(
    "text",
    ["", "  ", "tall", "nan", "inf", "1e3", "1.2.3", "10 10", "--3", "5 kg", "5 ft 12", "5.5 ft 10",
     "10 in 5 ft", "5 ft 10 cm", "1 m 780", "5-10", "3/0 in", "5/4 in", "1,780",
     "1780 mm x", "٣", "9" * 5000],
)  # fmt: skip
def test_parse_length_refuses_and_names_the_place(text):
    with pytest.raises(BadInput) as caught:
        parse_length_mm(text, "mm", "paddler.stature_mm")
    (fault,) = caught.value.faults
    assert fault.place == "paddler.stature_mm"
    assert "178 cm" in fault.allowed


@pytest.mark.parametrize(
    ("text", "default_unit", "kg"),
    [
        ("85", "kg", 85),
        ("85 kg", "lb", 85),
        ("85,5", "kg", 85.5),
        ("187 lb", "kg", 187 * 0.45359237),
        ("187", "lb", 187 * 0.45359237),
        ("187#", "kg", 187 * 0.45359237),
        ("13 st 4", "kg", 186 * 0.45359237),
        ("13 st 4 lb", "kg", 186 * 0.45359237),
        ("13 st", "kg", 182 * 0.45359237),
    ],
)
def test_parse_mass_reads_what_people_type(text, default_unit, kg):
    assert parse_mass_kg(text, default_unit, "mass") == pytest.approx(kg, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "default_unit", "celsius"),
    [("48 F", "°C", 80 / 9), ("48°F", "°C", 80 / 9), ("48", "°F", 80 / 9), ("8.9", "°C", 8.9),
     ("8,9 °C", "°F", 8.9), ("9c", "°F", 9.0), ("32 fahrenheit", "°C", 0.0), ("−1", "°C", -1.0),
     ("212 f", "°C", 100.0), ("-40 F", "°C", -40.0), (" 50° ", "°F", 10.0)],
)  # fmt: skip
def test_parse_temperature_reads_either_unit(text, default_unit, celsius):
    assert parse_temperature_c(text, default_unit, "water") == pytest.approx(celsius, abs=1e-12)


@pytest.mark.parametrize("text", ["", "cold", "9 K", "9 kg", "4 8", "1e1", "nan", "C", "9 Fc"])
def test_parse_temperature_refuses_and_names_the_place(text):
    with pytest.raises(BadInput, match=r"such as 8\.9 °C or 48 °F"):
        parse_temperature_c(text, "°C", "water")


@pytest.mark.parametrize(
    ("celsius", "said"),
    [(80 / 9, "8.9 °C (48 °F)"), (0.0, "0 °C (32 °F)"), (10.0, "10 °C (50 °F)"),
     (30.0, "30 °C (86 °F)")],
)  # fmt: skip
def test_temperatures_are_told_in_both_units(celsius, said):
    assert temperature_text(celsius).replace("\xa0", " ") == said


@pytest.mark.parametrize(
    "text", ["", "-5", "heavy", "nan", "5 cm", "13 st 14", "13.5 st 2", "1,780"]
)
def test_parse_mass_refuses_and_names_the_place(text):
    with pytest.raises(BadInput) as caught:
        parse_mass_kg(text, "kg", "paddler.weight_kg")
    assert [fault.place for fault in caught.value.faults] == ["paddler.weight_kg"]


@pytest.mark.parametrize(("text", "unit", "mps"), [
    ("3.5", "knots", 3.5 * 1852 / 3600), ("3,5 kn", "knots", 3.5 * 1852 / 3600),
    ("6 km/h", "knots", 6 / 3.6), ("4 mph", "knots", 4 * 1609.344 / 3600), ("1.8 m/s", "mph", 1.8)])
def test_parse_speed_reads_every_unit_of_paddlers(text, unit, mps):
    assert parse_speed_mps(text, unit, "speed") == pytest.approx(mps, rel=1e-12)


@pytest.mark.parametrize("text", ["", "-3", "fast", "4 lb", "3 4"])
def test_parse_speed_refuses_what_is_none(text):
    with pytest.raises(BadInput):
        parse_speed_mps(text, "knots", "speed")


@pytest.mark.parametrize(
    ("mm", "text"),
    [(387.35, "15 1/4"), (0.1, "0"), (-0.1, "0"), (-31.75, "-1 1/4"), (9.525, "3/8"),
     (25.39, "1"), (254, "10"), (0.8, "1/32")],
)  # fmt: skip
def test_inches_text_reduces_the_nearest_fraction(mm, text):
    assert inches_text(mm) == text


@given(st.floats(-10000, 10000), st.sampled_from([16, 32]))
def test_inches_text_plus_its_error_is_the_length(mm, denominator):
    shown_mm = parse_length_mm(inches_text(mm, denominator), "in", "length")
    error_mm = inches_error_mm(mm, denominator)
    assert shown_mm - error_mm == pytest.approx(mm, abs=1e-9)
    assert abs(error_mm) <= 25.4 / denominator / 2 + 0.05 + 1e-9  # the tenth that it is read to


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [(387.35, "in", "15 1/4 in"), (1218.0, "in", "47 15/16 in"), (1219.2, "in", "4 ft"),
     (4645.8, "in", "15 ft 2 7/8 in"), (4645.0, "in", "15 ft 2 7/8 in"),
     (4572.4, "in", "15 ft"), (4584.7, "in", "15 ft 0 1/2 in"),
     (-1790.7, "in", "-5 ft 10 1/2 in"), (107.2, "in", "4 1/4 in"),
     (-0.2, "mm", "0 mm"), (107.25, "mm", "107 mm"), (107.25, "cm", "10.7 cm")],
)
def test_length_text_is_read_to_the_sixteenth_and_in_feet_from_four_on(mm, unit, text):
    assert length_text(mm, unit) == text


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [(107.2, "in", "4 7/32 in"), (4644.2, "in", "182 27/32 in"), (107.24, "mm", "107.2 mm"),
     (107.24, "cm", "10.72 cm"), (-0.02, "mm", "0.0 mm")],
)
def test_mark_text_is_read_to_a_tenth_or_a_thirty_second(mm, unit, text):
    assert mark_text(mm, unit) == text


@pytest.mark.parametrize(("mm", "spread_mm", "unit", "text"), [
    (8.2, 1.9, "mm", "8 mm (± 2)"), (8.2, 0.4, "mm", "8.2 mm (± 0.4)"),
    (8.2, 1.9, "cm", "0.8 cm (± 0.2)"), (8.2, 1.9, "in", "5/16 in (± 1/16)"),
    (8.2, 0.3, "in", "5/16 in (± under 1/32)")])
def test_known_text_says_no_more_than_is_known(mm, spread_mm, unit, text):
    assert known_text(mm, spread_mm, unit) == text


def test_both_text_says_a_length_twice():
    assert both_text(107.2) == "107 mm (4 1/4 in)"
    assert both_text(107.2, mark_text) == "107.2 mm (4 7/32 in)"


@given(st.floats(-10000, 10000))
def test_a_size_in_feet_and_inches_reads_back_to_a_thirty_second(mm):
    assert parse_length_mm(length_text(mm, "in"), "in", "length") == pytest.approx(
        mm, abs=25.4 / 32 + 0.05 + 1e-6)


@pytest.mark.parametrize(
    ("text", "mm"),
    [("1-3-5", 396.875), ("1-3-5+", 398.4625), ("0-0-0", 0), ("0-11-7+", 303.2125)],
)
def test_parse_offset_reads_feet_inches_eighths(text, mm):
    # 1 ft 3 5/8 in = 15.625 in; the plus is a sixteenth, 1.5875 mm.
    assert parse_offset_mm(text, "offset") == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    "text", ["", "-", "-1-3-5", "1-12-0", "1-3-8", "1-3", "1-3-5++", "1-3-5-", "1.5-3-5", "1--5"]
)
def test_parse_offset_refuses_and_names_the_place(text):
    with pytest.raises(BadInput) as caught:
        parse_offset_mm(text, "row 3, keel")
    assert [fault.place for fault in caught.value.faults] == ["row 3, keel"]


@given(SIXTEENTHS)
def test_offset_text_round_trip_is_exact_to_a_sixteenth(sixteenths):
    mm = sixteenths * 25.4 / 16
    assert parse_offset_mm(offset_text(mm), "offset") == pytest.approx(mm, abs=1e-9)
    assert offset_text(mm + 0.79) == offset_text(mm)
    assert offset_text(mm + 0.80) == offset_text((sixteenths + 1) * 25.4 / 16)


@pytest.mark.parametrize("mm", [-1.0, math.nan, math.inf])
def test_offset_text_refuses_what_it_cannot_write(mm):
    with pytest.raises(BadInput, match="zero or more"):
        offset_text(mm)


@pytest.mark.parametrize("value", [True, "3", None, [3], math.nan, -math.inf, 10**400])
def test_plain_number_refuses_all_but_finite_numbers(value):
    assert plain_number(value) is None
    assert plain_number(3) == 3.0


@pytest.mark.parametrize(("mm", "said"), [
    (1790.7, "5' 10 1/2\""), (254.0, '10"'), (304.8, "1' 0\""), (-1790.7, "-5' 10 1/2\""),
    (313 * 12.7, "13' 0 1/2\""), (317.5, "1' 0 1/2\""), (6.35, '1/4"')])
def test_a_tapes_feet_and_inches(mm, said):
    assert feet_inches_text(mm) == said


@pytest.mark.parametrize(("mm", "most", "least"), [
    (25.4, "1", "1"), (25.0, "15/16", "1"), (15.0, "9/16", "5/8"), (5.0, "3/16", "7/32"),
    (4.0, "1/8", "3/16"), (3.0, "3/32", "1/8"), (2.0, "1/16", "3/32"), (1.5, "3/64", "1/16"),
    (1.0, "1/32", "3/64"), (0.5, "1/64", "1/32")])
def test_a_bound_is_never_looser_in_inches(mm, most, least):
    """By hand: 25 mm are 63/64 in, 15 are 37.8/64, 5 are 12.6/64, 1 is 2.5/64. The least of all,
    half a millimetre, has no sixty-fourth within a quarter over it."""
    assert at_most_text(mm) == f"{mm:g} mm ({most} in)"
    assert at_least_text(mm) == f"{mm:g} mm ({least} in)"


@given(st.floats(1.6, 500.0))
def test_a_bound_in_inches_is_strict_and_near(mm):
    most, least = (parse_length_mm(re.search(r"\((.*)\)", text(mm))[1], "in", "bound")
                   for text in (at_most_text, at_least_text))
    assert 0.74 * mm < most <= mm + 1e-4
    assert mm - 1e-4 <= least < 1.26 * mm


def test_cloth_and_what_is_poured_are_told_in_both_units():
    """A gallon of 3.785412 l (NIST SP 811) is 4 quarts or 128 fluid ounces; an ounce 28.34952 g, a
    square yard 0.8361274 m2."""
    assert both_cloth(10 * 0.02834952 / 0.8361274) == (
        "339 g a square metre (10.0 oz a square yard)")
    assert both_volume(3.785412 / 2) == "1.9 litres (2.0 US qt)"
    assert us_volume(3.785412 / 128) == (pytest.approx(1.0), "US fl oz")
    assert us_volume(2 * 3.785412) == (pytest.approx(2.0), "US gal")


def test_forces_and_masses_are_told_in_both_units():
    """A pound-force is 4.4482216 N, a pound 0.45359237 kg."""
    assert both_force(10.0 * 4.4482216) == "44.5 N (10.0 lbf)"
    assert both_mass(0.45359237 * 12.0) == "5.4 kg (12.0 lb)"
    assert both_mass(0.45359237 * 200.0, 0) == "91 kg (200 lb)"


@pytest.mark.parametrize(
    ("text", "joined"),
    [("it is 21 3/4 in wide", "it is 21_3/4_in wide"),
     ("5 ft 9 5/16 in tall", "5_ft_9_5/16_in tall"),
     ("15 ft 0 1/2 in, or", "15_ft_0_1/2_in, or"), ("1.1 US qt, 3.4 US fl oz",
      "1.1_US_qt, 3.4_US_fl_oz"), ("387 mm (15 1/4 in)", "387_mm (15_1/4_in)"),
     ("9' 11 3/16\"", "9'_11_3/16\""), ("8.3 kg (18.3 lb)", "8.3_kg (18.3_lb)"),
     ("± 5/64 in, 13 ± 7 %", "±_5/64_in, 13 ±_7_%"), ("22 sq in each", "22_sq_in each"),
     ("11 st 9 lb", "11_st_9_lb"), ("8.9 °C (48 °F)", "8.9_°C (48_°F)"),
     ("<b>21 3/4 in</b> <svg width='3 m' d='M 1 2 l 4 m 5 6'>5 in</svg>",
      "<b>21_3/4_in</b> <svg width='3 m' d='M 1 2 l 4 m 5 6'>5_in</svg>"),
     ("2 inner edges, 3 minutes, 4 grown, 1 / 2 in two", "2 inner edges, 3 minutes, 4 grown, "
      "1 / 2_in two"), ("F4 keel 20 x 18", "F4 keel 20 x 18"),
     ("3 m/s 4 metres", "3_m/s 4 metres")],
)  # fmt: skip
def test_no_line_ends_within_a_quantity(text, joined):
    assert unbroken(text).replace("\xa0", "_") == joined
    assert plain(unbroken(text)) == text
    assert unbroken(unbroken(text)) == unbroken(text)


def test_what_is_copied_from_a_page_is_read_like_what_is_typed():
    assert parse_length_mm(unbroken("5 ft 9 5/16 in"), "mm", "length") == pytest.approx(
        (5 * 12 + 9 + 5 / 16) * 25.4)
    assert parse_mass_kg("13\xa0st\xa04", "kg", "mass") == pytest.approx(186 * 0.45359237)


def test_what_is_wrong_is_told_as_the_reader_writes():
    """Feet and inches without their units are asked about; inches are named first to whom counts
    in them; a weight under nothing is said to be that."""
    def told(parse, text, unit):
        with pytest.raises(BadInput) as refused:
            parse(text, unit, "x")
        return refused.value.faults[0].allowed

    feet = told(parse_length_mm, "5 4 1/2", "in")
    assert "if you mean 5 ft 4 1/2, write so; else write a length such as 5 ft 10 1/2 in" in feet
    assert "if you mean 5 ft 11, write so" in told(parse_length_mm, "5-11", "ft")
    assert "if you mean" not in told(parse_length_mm, "5 12", "in")
    assert "write a length such as 1780 mm" in told(parse_length_mm, "tall", "mm")
    assert told(parse_mass_kg, "-97", "lb").startswith("nothing weighs less than 0")


def test_what_is_about_so_long_is_one_figure_in_both_units():
    """203 mm are about 200, and these are 7.87 in; 97 mm about 100: 3.94 in."""
    assert about_text(203.0) == "200 mm (7 7/8 in)"
    assert about_text(97.0) == "100 mm (3 15/16 in)"
    assert laid_text(1087.0) == "1090 mm (42 7/8 in)"  # 42.91 in


@pytest.mark.parametrize("text", [mark_text, length_text])
def test_what_is_alike_in_tenths_of_a_millimetre_is_alike_in_inches(text):
    """4 1/64 in are 101.997 mm: 32nds change between 101.98 and 102.02, which both are 102.0;
    4 1/32 in are 102.394 mm, so do sixteenths between 102.37 and 102.41."""
    low, high = (101.98, 102.02) if text is mark_text else (102.37, 102.41)
    assert mark_text(low, "mm") == mark_text(high, "mm")
    assert text(low, "in") == text(high, "in")
    assert marks_apart([low], "in") == marks_apart([high], "in")
    assert tape_text(low) == tape_text(high)


def test_a_bound_in_inches_is_never_looser():
    """110 mm are 4.33 in; 1500 mm are 59.06; nothing less than nothing is a bound."""
    assert bound_inches(110.0, math.ceil) == "4 3/8 in"
    assert bound_inches(110.0, math.floor) == "4 5/16 in"
    assert bound_inches(1500.0, math.ceil) == "4 ft 11 1/16 in"
    assert bound_inches(-20.0, math.ceil) == "-13/16 in"


def test_a_range_is_never_wider_in_whole_millimetres_nor_in_sixteenths():
    """By hand: 111 mm are 4.370 in, 128 are 5.039 in."""
    assert range_text(110.2, 128.9) == "111 to 128 mm (4 3/8 to 5 in)"
    assert range_text(111.0, 128.0) == "111 to 128 mm (4 3/8 to 5 in)"
    assert range_text(110.2, 110.9) == "none"
    assert range_mass(73.7, 77.0) == "73.7 to 77.0 kg (162.5 to 169.8 lb)"
