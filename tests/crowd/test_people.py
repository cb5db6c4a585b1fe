"""Lists of people: what is read, and what is refused with its row and reason."""

import io
import json
from itertools import count, islice

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sizer.crowd.people import (
    COLUMNS,
    MOST_LINE_BYTES,
    BadRow,
    PersonRow,
    read_people,
    request_of,
    text_lines,
)
from sizer.errors import BadInput
from sizer.fit.request import Trip
from sizer.hydro.water import water_at

HEADER = "name,weight_kg,stature_mm,hip_width_mm"


def rows_of(text, kind="csv"):
    return list(read_people(text_lines(io.BytesIO(text.encode())), kind))


def only_reason(text, kind="csv"):
    (row,) = rows_of(text, kind)
    assert isinstance(row, BadRow)
    return " ".join(row.reasons)


def test_read_people_reads_a_comma_file():
    text = f"{HEADER},inseam_mm,hip_measured,gear_kg,use,base\n" \
           "Ann,82.5,1780,385,,,,,\nBo,61,1650,390,780,Standing,12,rough-water,day-boat\n"
    ann, bo = rows_of(text.replace("Standing", "standing"))
    assert ann == PersonRow(2, "Ann", {"paddler": {
        "weight_kg": 82.5, "stature_mm": 1780.0, "hip_width_mm": 385.0}}, ())
    assert bo.given == {
        "paddler": {"weight_kg": 61.0, "stature_mm": 1650.0, "hip_width_mm": 390.0,
                    "inseam_mm": 780.0, "hip_measured": "standing"},
        "gear_kg": 12.0, "use": "rough-water", "base": "day-boat"}


def test_request_of_lets_the_row_go_before_the_trip():
    bo = PersonRow(3, "Bo", {"paddler": {}, "use": "rough-water"}, ())
    assert request_of(bo, Trip("day-boat", "coastal-day", water_at("salt", 8.0))) == {
        "base": "day-boat", "use": "rough-water", "paddler": {},
        "water": {"kind": "salt", "temperature_c": 8.0}}


def test_read_people_takes_byte_order_mark_semicolons_decimal_commas_and_odd_headers():
    (row,) = rows_of("\ufeff ID ; Weight (kg);STATURE mm;Hip width_mm ;\r\n"
                     "7; 82,5 ;1780;385;\r\n")
    assert (row.number, row.label) == (2, "7")
    assert row.given["paddler"] == {"weight_kg": 82.5, "stature_mm": 1780.0, "hip_width_mm": 385.0}


def test_read_people_counts_lines_over_comments_and_blank_ones():
    rows = rows_of(f"# a crowd\n{HEADER}\n\nA,82,1780,385\n# half way\nB,83,1780,385\n,,,\n")
    assert [(row.number, row.label) for row in rows] == [(4, "A"), (6, "B")]


def test_read_people_reads_json_lines():
    line = json.dumps({"id": 7, "name": "Ann", "weight_kg": 82, "stature_mm": 1780,
                       "hip_width_mm": 385, "gear_kg": None})
    (row,) = rows_of(line + "\n", "jsonl")
    assert row == PersonRow(1, "7 Ann", {"paddler": {
        "weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}, ())


@pytest.mark.parametrize(("head", "cells"), [
    ("weight_lb,stature_in,hip_width_in,gear_lb", "165,70,15.25,11"),
    ("Weight (lbs);Stature, inches;hip width in;gear_lb", "165;70;15,25;11"),
    ("weight_lb,stature_ft,hip_width_cm,gear_kg", "165,5 ft 10,38.735,4.98951607"),
    ("weight_st,stature_m,hip_width_in,gear_kg", "11 st 11 lb,1.778,15 1/4,4.98951607")])
def test_a_column_in_another_unit_is_converted(head, cells):
    """165 lb of 0.45359237 kg, 70 in and 15 1/4 in of 25.4 mm."""
    (row,) = rows_of(f"{head}\n{cells}\n")
    assert row.given["paddler"] == pytest.approx({
        "weight_kg": 74.84274105, "stature_mm": 1778.0, "hip_width_mm": 387.35})
    assert row.given["gear_kg"] == pytest.approx(4.98951607)


def test_json_lines_in_other_units_are_converted_and_never_twice():
    (row,) = rows_of('{"weight_lb": 165, "stature_in": "70", "hip_width_in": 15.25, '
                     '"inseam_in": null}', "jsonl")
    assert row.given["paddler"] == pytest.approx({
        "weight_kg": 74.84274105, "stature_mm": 1778.0, "hip_width_mm": 387.35})
    assert "weight_lb: unknown key" in only_reason(
        '{"weight_lb": 165, "weight_kg": 75, "stature_mm": 1778, "hip_width_mm": 387}', "jsonl")


def test_a_column_that_stands_in_two_units_is_refused():
    with pytest.raises(BadInput, match="column weight_kg: once only"):
        rows_of(f"{HEADER},weight_lb\nA,82,1780,385,180\n")


@pytest.mark.parametrize(("name", "meant"), [
    ("height_in", "stature_in"), ("tall_cm", "stature_cm"), ("hips_in", "hip_width_in"),
    ("height", "stature_mm")])
def test_a_familiar_name_in_another_unit_is_told_with_that_unit(name, meant):
    with pytest.raises(BadInput) as refused:
        rows_of(f"weight_lb,{name}\n165,70\n")
    assert f"did you mean {meant}?" in str(refused.value)


def test_a_cell_of_another_unit_that_cannot_be_read_is_told_with_it():
    assert "'5 feet tall in'" in only_reason(
        "weight_lb,stature_in,hip_width_in\n165,5 feet tall,15\n")


def test_pounds_and_inches_under_kg_and_mm_are_told_as_that_and_not_as_swapped():
    said = only_reason(f"{HEADER}\nA,165,70,15.25\n")
    assert "look like pounds and inches, 74.8 kg and 1778 mm: head the columns weight_lb" in said
    assert "swapped" not in said
    assert "look swapped" in only_reason(f"{HEADER}\nA,165,70,385\n")  # hips in mm: 165 cm


def test_read_people_refuses_a_header_with_every_fault():
    with pytest.raises(BadInput) as refused:
        rows_of("nam,weight_kg,height,weight_kg\nA,82,1780,82\n")
    said = str(refused.value)
    assert "did you mean name?" in said
    assert "column 'height'" in said
    assert "column weight_kg: once only" in said
    assert "column stature_mm: is missing" in said
    assert "column hip_width_mm: is missing" in said


def test_read_people_refuses_a_file_without_header():
    with pytest.raises(BadInput, match="no header"):
        rows_of("\n# nothing\n")


@pytest.mark.parametrize(("cells", "said"), [
    ("A,,1780,385", "paddler.weight_kg: missing"),
    ("A,82,1780", "paddler.hip_width_mm: missing: measure it and give 250 to 600 mm (9 13/16 to "
     "23 5/8 in), or hip_measured: predicted-man"),
    ("A,1780,82,385", "look swapped"),
    ("A,178,82,385", "look swapped"),
    ("A,1.78,82,385", "look swapped"),
    ("A,82,178,385", "looks like centimetres: 1780 mm?"),
    ("A,82,1.78,385", "looks like metres: 1780 mm?"),
    ("A,82,1780,38.5", "looks like centimetres: 385 mm?"),
    ("A,400,1780,385", "allowed is 30 to 200 kg (66 to 441 lb); looks like pounds: 181.4 kg?"),
    ("A,35,1900,385", "with stature 1900 mm (6 ft 2 13/16 in) allowed is"),
    ("A,60,1780,600", "standard deviations from the"),
    ("A,nan,1780,385", "give a plain number"),
    ("A,1e2,1780,385", "give a plain number"),
    ("A,82 kg,1780,385", "give a plain number"),
    ("A,\"82,5\",1780,385", "give a plain number"),
    ("A,82,5,1780,385", "a decimal comma needs semicolons"),
    ("\"A,82,1780,385", "this line is not CSV"),
    ("A" * MOST_LINE_BYTES + ",82,1780,385", "far too long"),
    ("A\ufffd,82,1780,385", "not UTF-8"),
])
def test_read_people_refuses_a_row_with_its_reason(cells, said):
    assert said in only_reason(f"{HEADER}\n{cells}\n")


def test_read_people_does_not_call_a_stature_in_centimetres_swapped():
    assert "swapped" not in only_reason(f"{HEADER}\nA,82,178,385\n")


@pytest.mark.parametrize(("line", "said"), [
    ('{"weight_kg": 82', "not JSON"),
    ("[82, 1780, 385]", "one JSON object"),
    ('{"wieght_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}', "did you mean weight_kg?"),
    ('{"weight_kg": NaN, "stature_mm": 1780, "hip_width_mm": 385}', "give a plain number"),
    ('{"weight_kg": true, "stature_mm": 1780, "hip_width_mm": 385}', "give a plain number"),
    ('{"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385, "use": "war"}', "use: 'war'"),
    ('{"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385, "base": "x.toml"}', "base: 'x.t"),
    ('{"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385, "base": ["a"]}', "base: ['a']"),
    ("[" * 15_000, "this line is not JSON: brackets in brackets"),
    ('{"weight_kg": 82, "weight_kg": 60, "stature_mm": 1780}', "weight_kg stands twice"),
])
def test_read_people_refuses_a_json_line_with_its_reason(line, said):
    assert said in only_reason(line + "\n", "jsonl")


def test_read_people_gives_every_reason_of_a_row():
    assert len(rows_of(f"{HEADER}\nA,,178,38\n")[0].reasons) == 3


def test_read_people_goes_on_after_a_bad_row():
    rows = rows_of(f"{HEADER}\nA,82,178,385\nB,82,1780,385\n")
    assert [(type(row), row.number) for row in rows] == [(BadRow, 2), (PersonRow, 3)]


def test_read_people_cautions_between_four_and_six_deviations():
    # ANSUR II, pooled: such a weight and stature predict hips of 404 mm, standard deviation 26
    (row,) = rows_of(f"{HEADER}\nA,100,1780,530\n")
    assert "4." in row.cautions[0] or "5." in row.cautions[0]
    assert "measure all three again" in row.cautions[0]


def test_read_people_reads_only_as_far_as_asked():
    taken = count()

    def lines():
        yield HEADER + "\n"
        while True:
            yield f"p{next(taken)},82,1780,385\n"

    assert len(list(islice(read_people(lines(), "csv"), 5))) == 5
    assert next(taken) <= 6


def test_text_lines_cuts_an_endless_line_and_goes_on():
    file = io.BytesIO(b"x" * (5 * MOST_LINE_BYTES) + b"\nnext\n")
    first, second = text_lines(file)
    assert len(first) == MOST_LINE_BYTES + 1
    assert second == "next\n"


def test_columns_are_those_of_a_request():
    assert {"weight_kg", "gear_kg", "use", "base", "hip_measured"} <= set(COLUMNS)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_any_system_may_have_ended_the_lines(end):
    """Old spreadsheets end a line with a carriage return alone."""
    rows = rows_of(end.join([HEADER, "A,82,1780,385", "B,83,1780,385", ""]))
    assert [(row.number, row.label) for row in rows] == [(2, "A"), (3, "B")]


def test_a_long_file_of_carriage_returns_is_read_to_its_end():
    rows = rows_of("\r".join([HEADER, *(f"P{n},82,1780,385" for n in range(3000))]))
    assert len(rows) == 3000
    assert all(isinstance(row, PersonRow) for row in rows)


@pytest.mark.parametrize(("text", "said"), [
    (f'"{HEADER}\nA,82,1780,385\n', "line 1 is not CSV"),
    (f'"name"x,{HEADER}\n', "line 1 is not CSV")])
def test_a_first_line_that_is_no_csv_is_refused_with_its_number(text, said):
    with pytest.raises(BadInput, match=said):
        rows_of(text)


def test_a_list_in_another_encoding_is_refused_in_words():
    with pytest.raises(BadInput, match="not UTF-8 text"):
        list(read_people(text_lines(io.BytesIO(f"{HEADER}\nA,82,1780,385\n".encode("utf-16"))),
                         "csv"))


MUTATED = st.lists(st.tuples(st.integers(0, 90), st.sampled_from(
    ['"', ",", ";", "\r", "\n", "\x00", "\ufeff", "é", "9", "-", "#", " ", "{", "\\", "\u2028"])),
    max_size=6)


@settings(max_examples=400, deadline=None, derandomize=True)
@given(MUTATED, st.sampled_from(["csv", "jsonl"]))
def test_whatever_is_in_a_list_gets_a_row_or_a_sentence(changes, kind):
    """Six marks put anywhere into a list never end in anything but rows and sentences."""
    text = f'{HEADER}\n"A, B",82,1780,385\nC,83,1780,385\n' if kind == "csv" else (
        '{"name": "A", "weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}\n' * 2)
    for place, mark in changes:
        text = text[:place] + mark + text[place:]
    try:
        rows = rows_of(text, kind)
    except BadInput:
        return
    assert all(isinstance(row, PersonRow) or row.reasons for row in rows)
