"""Lists of people in every encoding, separator and line end, and broken ones: read or told."""

import io
import re

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from sizer.crowd.people import BadRow, PersonRow, read_people, text_lines
from sizer.errors import BadInput
from tests.knocks.conftest import answered, knocks

NAMES = ("name", "weight_kg", "stature_mm", "hip_width_mm")
BODIES = (("Ann", 82.5, 1780.0, 385.0), ("Zoë Ñ", 61.0, 1650.0, 390.0), ("李", 74.0, 1700.0, 400.0))
SEPARATORS = (",", ";", "\t")
ENDS = ("\n", "\r\n", "\r")
JSON = "".join(f'{{"name": "{name}", "weight_kg": {weight}, "stature_mm": {stature}, '
               f'"hip_width_mm": {hips}}}\n' for name, weight, stature, hips in BODIES)
ODD = ('"', '""', 'x"', '"x', "\r", "\n", "\r\n", "\0", ";", ",", "\t", "#", "\ufeff", "\u2028",
       "\x85", "\x0b", "\x1c", "-", "1e999", "9" * 400, "NaN", " ", "'", "\\", "{", "[",
       "\\ud800", "null", "true", "=1+1", "1.2.3", "0x1", "١٢")


def list_text(separator=",", end="\n", decimal_comma=False):
    rows = [NAMES, *((name, *(f"{one:g}" for one in sizes)) for name, *sizes in BODIES)]
    text = end.join(separator.join(row) for row in rows) + end
    return text.replace(".", ",") if decimal_comma else text


def rows_of(raw, kind="csv"):
    return list(read_people(text_lines(io.BytesIO(raw)), kind))


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["plain", "bom"])
@pytest.mark.parametrize("decimal_comma", [False, True])
@pytest.mark.parametrize("end", ENDS, ids=repr)
@pytest.mark.parametrize("separator", SEPARATORS, ids=repr)
def test_every_separator_and_line_end_reads_alike(separator, end, decimal_comma, mark):
    if (separator, decimal_comma) == (",", True):
        return  # nobody could read it
    rows = rows_of(mark + list_text(separator, end, decimal_comma).encode())
    assert [(row.label, *row.given["paddler"].values()) for row in rows] == list(BODIES)
    assert [row.number for row in rows] == [2, 3, 4]


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be", "utf-32"])
def test_a_wide_encoding_is_called_so_with_its_line(encoding):
    with pytest.raises(BadInput, match="line 1 is not UTF-8 text"):
        rows_of(list_text().encode(encoding))


def test_a_name_in_an_older_encoding_is_refused_with_its_line():
    rows = rows_of(list_text().replace("李", "Li").encode("latin-1"))
    assert [type(row) for row in rows] == [PersonRow, BadRow, PersonRow]
    assert rows[1].number == 3
    assert "UTF-8" in rows[1].reasons[0]


def broken(raw, cuts):
    """Bytes with some put in, some taken out: `cuts` are (share of the length, how many, what)."""
    for share, taken, put in cuts:
        at = int(share * len(raw))
        raw = raw[:at] + put + raw[at + taken:]
    return raw


BREAKS = st.lists(st.tuples(st.floats(0.0, 1.0), st.integers(0, 12), st.one_of(
    st.sampled_from([one.encode() for one in ODD]), st.binary(max_size=4))), max_size=6)
LISTS = st.one_of(
    st.builds(lambda *form: list_text(*form).encode(), st.sampled_from(SEPARATORS),
              st.sampled_from(ENDS), st.booleans()),
    st.sampled_from([list_text().encode("utf-16"), list_text().replace("李", "").encode("latin-1"),
                     JSON.encode(), b""]))


@knocks(400)
@given(raw=LISTS, cuts=BREAKS, kind=st.sampled_from(["csv", "jsonl"]))
@example(list_text().encode(), [(0.5, 0, b'"')], "csv")  # a quote left open
@example(list_text().encode(), [(0.5, 0, b'""x')], "csv")  # and one followed by text
@example(list_text(",", "\r").encode(), [(0.5, 0, b'"')], "csv")
@example(list_text().encode(), [(0.0, 0, b'"')], "csv")
@example(JSON.encode(), [(0.5, 0, b"\\ud800")], "jsonl")  # half a letter, which none can print
def test_a_broken_list_is_read_or_told_with_its_line(raw, cuts, kind):
    raw = broken(raw, cuts)
    rows, refused = answered(rows_of, raw, kind)
    if refused:
        assert refused.faults
        assert all(str(fault).startswith("people: ") for fault in refused.faults)
        str(refused).encode()  # can be printed
        return
    lines = raw.replace(b"\r\n", b"\n").replace(b"\r", b"\n").split(b"\n")
    numbers = [row.number for row in rows]
    assert numbers == sorted(set(numbers))
    assert not numbers or 1 <= numbers[0] <= numbers[-1] <= len(lines)
    for row in rows:
        row.label.encode()
        if isinstance(row, BadRow):
            assert row.reasons
            "; ".join(map(str, row.reasons)).encode()
    # no line of a figure is passed over in silence, but the heading's and what # makes a remark
    remark = re.compile(rb'[\xef\xbb\xbf "\0\t]*#')
    said = {index for index, line in enumerate(lines, start=1)
            if re.search(rb"[0-9]", line) and not (kind == "csv" and remark.match(line))}
    assert len(said - set(numbers)) <= (kind == "csv")
