"""The shop's settings: read from TOML and JSON, every fault told with its place."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sizer.border import table_of
from sizer.errors import BadInput
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.shop.plywood import Plywood, with_true_plywood
from sizer.shop.settings import RELIEFS, SHOP, Shop, read_shop

TOML = """
cutter_mm = 8
relief = "t-bone"
sheet_mm = [1220, 2440]
stock_lengths_mm = [4800, 3000, 3000]
[[plywood]]
nominal_mm = 12
true_mm = 11.5
"""


def test_toml_and_json_say_the_same():
    read = read_shop(TOML)
    assert read == Shop(0.008, "t-bone", (Plywood(0.012, 0.0115),), (2.44, 1.22), (3.0, 4.8))
    assert read_shop(json.dumps({
        "cutter_mm": 8, "relief": "t-bone", "sheet_mm": [2440, 1220],
        "stock_lengths_mm": [3000, 4800],
        "plywood": [{"nominal_mm": 12, "true_mm": 11.5}]})) == read
    assert read.gap_m == pytest.approx(0.010)


@given(cutter=st.floats(1.0, 25.0), relief=st.sampled_from(RELIEFS),
       stock=st.lists(st.integers(1800, 12_000), min_size=1, max_size=4),
       true=st.floats(9.5, 13.5))
def test_what_is_written_is_read_again(cutter, relief, stock, true):
    text = json.dumps({"cutter_mm": cutter, "relief": relief, "stock_lengths_mm": stock,
                       "plywood": [{"nominal_mm": 12, "true_mm": true}]})
    read = read_shop(text)
    assert read.cutter_m == pytest.approx(cutter / 1000)
    assert read.stock_lengths_m == pytest.approx(sorted({one / 1000 for one in stock}))
    assert read_shop(json.dumps(table_of(read, {}))) == read_shop(json.dumps(table_of(
        read_shop(json.dumps(table_of(read, {}))), {})))


@pytest.mark.parametrize(("text", "places"), [
    ("cutter_mm = 99\nrelief = 'round'\nsheet_mm = [100]",
     ["shop: cutter_mm", "shop: relief", "shop: sheet_mm"]),
    ("cuter_mm = 6", ["shop: cuter_mm"]),
    ("[[plywood]]\nnominal_mm = 12", ["shop: plywood"]),
    ("cutter_mm = ", ["shop"]), ('{"cutter_mm": }', ["shop"]), ("", ["shop"]),
])
def test_every_fault_is_told_with_its_place(text, places):
    with pytest.raises(BadInput) as told:
        read_shop(text)
    found = [fault.place for fault in told.value.faults]
    assert len(found) == len(places)
    assert all(place.startswith(wanted) for place, wanted in zip(found, places, strict=True))


def test_true_plywood_changes_thicknesses_and_nothing_else(base_lines):
    boat = scaled_boat(base_lines["day-boat"], Scaling())
    cut = with_true_plywood(boat, read_shop(TOML))
    assert {frame.thickness_m for frame in cut.design.frames} == {0.0115}
    assert cut.design.bow.thickness_m == boat.design.bow.thickness_m == 0.018
    assert cut.design.bow.profile_m is boat.design.bow.profile_m
    assert cut.sections is boat.sections
    assert with_true_plywood(boat, SHOP) is boat
