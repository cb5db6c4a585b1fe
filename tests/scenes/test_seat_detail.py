"""The seat's section drawn large: its figures against the boards, its lashings, its scale."""

from itertools import combinations

import pytest
from shapely.geometry import LineString, Polygon, box

from sizer.drawing.record import Path, Text
from sizer.export.pages import scaled_picture
from sizer.export.seat_sheet import DETAIL_MM, LETTERS_MM, SCALES
from sizer.scenes.seat_views import seat_detail
from sizer.shop.boards import sticks_at
from sizer.shop.seat_parts import boards
from tests.conftest import BASE_NAMES

BASE_M = 0.1


@pytest.fixture(scope="module", params=BASE_NAMES)
def bench_and_boat(request, middle_job, middle_bench):
    return middle_bench(request.param), middle_job(request.param).fitted.assessed.boat


@pytest.fixture(scope="module")
def drawn(bench_and_boat):
    bench, boat = bench_and_boat
    return seat_detail(bench.seat, boat, bench.frames, BASE_M, "mm", 0.006)


def figures(drawn):
    """(off the centre line, over the strongback) in mm as they stand over each other."""
    rows = {}
    for stroke in drawn.strokes:
        if isinstance(stroke, Text) and stroke.text.replace(".", "").isdigit():
            rows.setdefault(round(stroke.at_m[0], 6), []).append((stroke.at_m[1], stroke.text))
    return [tuple(float(text) for _, text in sorted(pair, reverse=True)) for pair in rows.values()]


def test_every_edges_figures_are_a_boards_top(bench_and_boat, drawn):
    """A ray let down through the boards at each half-breadth told, just inside its edge."""
    bench, boat = bench_and_boat
    seat, told = bench.seat, figures(drawn)
    places = [seat.sit_x_m] if seat.kind == "panel" else [
        one.x_m for one in bench.frames if one.name in seat.stands_on]
    laid = [Polygon(one.section_m) for x in places for one in boards(boat, x)]
    assert len(told) == 2 * len(laid) + (seat.kind == "panel")
    for off, up in told:
        tops = []
        for shift in (-3e-4, 3e-4):
            ray = LineString([(off / 1e3 + shift, -1.0), (off / 1e3 + shift, 1.0)])
            tops += [one.intersection(ray).bounds[3] for one in laid if one.intersects(ray)]
        assert min(abs(1e3 * (top + BASE_M) - up) for top in tops) < 0.3, (off, up)
    if seat.kind == "panel":
        assert (65.0, round(1e3 * (seat.top_m + BASE_M), 1)) in told, "the one height on papers"


def test_it_is_drawn_at_a_quarter_or_larger_and_no_words_lie_on_others(bench_and_boat):
    bench, boat = bench_and_boat
    one_to, picture = scaled_picture(
        lambda letters: seat_detail(bench.seat, boat, bench.frames, BASE_M, "mm", letters),
        DETAIL_MM,
        LETTERS_MM, SCALES)
    assert one_to <= 4
    texts = [stroke for stroke in picture.drawing.strokes if isinstance(stroke, Text)]
    rooms = [box(left, one.at_m[1] - 0.5 * one.height_m, left + 0.8 * one.width_m,
                 one.at_m[1] + 0.5 * one.height_m) for one in texts
             for left in [one.at_m[0] - 0.8 * one.width_m * {
                 "start": 0.0, "middle": 0.5, "end": 1.0}[one.anchor]]]
    assert not any(one.intersects(other) for one, other in combinations(rooms, 2))


def test_lashings_go_round_what_bears_the_seat(bench_and_boat, drawn):
    bench, boat = bench_and_boat
    seat = bench.seat
    cords = [stroke for stroke in drawn.moved((0.0, -BASE_M)).strokes
             if isinstance(stroke, Path) and stroke.pen == "fine"]
    if seat.kind == "panel":
        rings = [Polygon(cord.points_m) for cord in cords]
        sticks = sticks_at(boat, seat.sit_x_m).geoms
        assert len(rings) == len(seat.stands_on)
        assert all(sum(ring.contains(stick) for stick in sticks) == 1 for ring in rings)
    else:
        assert len(cords) == 2 * 2 * len(seat.boards)
        assert all(0.026 < LineString(cord.points_m).length < 0.040 for cord in cords)
