"""Which of the shop's true thicknesses a boat takes: by hand, from what its sheets are called."""

from math import prod

import pytest

from sizer.design.woods import WOODS
from sizer.shop.bench import bench_of
from sizer.shop.plywood import Plywood, sold_m, taken, true_words, unused_words
from sizer.shop.settings import Shop

SOLD = (0.006, 0.012, 0.018)


def entries(*pairs_mm):
    return tuple(Plywood(*(side / 1000.0 for side in pair)) for pair in pairs_mm)


def true_mm(*pairs_mm):
    found = taken(entries(*pairs_mm), SOLD)
    return [found.true_m(own) * 1000.0 for own in SOLD]


@pytest.mark.parametrize(("pairs", "measured"), [
    ([(12, 11.7)], [6, 11.7, 18]),
    ([(12.7, 11.9), (19.05, 18.3), (6.35, 5.6)], [5.6, 11.9, 18.3]),  # 1/2, 3/4, 1/4 in
    ([(11.90625, 11.5)], [6, 11.5, 18]),  # 15/32 in
    ([(12.5, 11.9)], [6, 12, 18]),  # metric: half a millimetre off is another sheet
    ([(11.938, 11.684)], [6, 12, 18]),  # 0.47 in is no name of a sheet
    ([(9.525, 9.1)], [6, 12, 18]),  # 3/8 in: of no sheet here
    ([(12.7, 11.9), (11.90625, 11.5)], [6, 12, 18]),  # either could be the one
    ([(12.7, 11.9), (12, 11.7)], [6, 11.7, 18]),  # by its own name
])
def test_the_boat_takes_what_is_entered_for_its_own_sheets(pairs, measured):
    assert true_mm(*pairs) == pytest.approx(measured)


def test_an_inch_between_two_sheets_of_the_boat_is_taken_for_neither():
    found = taken(entries((12.7, 11.9)), (0.012, 0.013))
    assert found.entries == (None, None)
    assert "not plain" in unused_words(entries((12.7, 11.9)), (0.012, 0.013))


def test_what_is_not_used_is_not_said_to_have_been():
    known = entries((12, 11.7), (9.525, 9.1))
    assert true_words(known, SOLD) == ", 12 mm measures 11.7, 6 and 18 mm as sold"
    assert unused_words(known, SOLD).startswith(
        "No part of this boat is of 9.525 mm (3/8 in) plywood: it has 6, 12 and 18 mm.")
    assert unused_words(entries((12, 11.7)), SOLD) == ""


def test_a_shop_that_measured_every_sheet_of_a_boat_has_none_as_sold():
    known = entries((12, 11.7), (18, 17.6), (6, 5.2))
    assert true_words(known, SOLD) == (
        ", 6 mm measures 5.2, 12 mm measures 11.7, 18 mm measures 17.6")


def test_a_base_tells_the_sheets_that_its_boat_is_laid_on(middle_bench, base_lines):
    """Against the sheets themselves, of a boat with plates of a seat and of one without; those
    that are bought hold its frames and stems."""
    for name, lines in base_lines.items():
        bench = middle_bench(name)
        assert bench.sold_m == pytest.approx(sold_m(lines.design))
        bought = [one for one in bench.materials.items if one.group == "plywood"]
        assert {one.size_m[0] for one in bought} == set(bench.sold_m)
        weighed = sum(one.mass_kg for one in bench.materials.weights
                      if one.name in ("frames", "stems"))
        assert sum(one.quantity * prod(one.size_m) for one in bought) > (
            1.5 * weighed / WOODS["okoume plywood"].density_kgpm3)


def test_every_part_of_a_thickness_is_of_its_true_one(middle_job):
    shop = Shop(plywoods=entries((12.7, 11.9)))
    bench = bench_of(middle_job("day-boat"), shop)
    assert {round(frame.thickness_m, 6) for frame in bench.frames} == {0.0119}
    assert {stem.thickness_m for stem in bench.stems} == {0.018}
    assert dict((one.thickness_m, one.true_m) for one in bench.layouts)[0.012] == pytest.approx(
        0.0119)
