"""A seat slid for the trim never takes the room of feet and legs.

What is expected comes from the same people with the seat held where the base has it.
"""

import pytest

from sizer.fit.request import read_request
from sizer.fit.solve import fitted_of
from sizer.job import searched_for
from tests.conftest import BASE_NAMES

# Stature in mm and weight in kg of people of every size, with what they pack behind the seat.
PEOPLE = ((1580, 52), (1660, 66), (1780, 88), (1880, 96))
GEAR_KG = (10, 30)
LEGS = ("legs", "brace-far")


def _fits(lines, base, **held):
    requests = [read_request({
        "base": base, "use": "coastal-day", "gear_kg": gear_kg, **held,
        "paddler": {"weight_kg": weight_kg, "stature_mm": stature_mm, "hip_width_mm": 380}})
        for stature_mm, weight_kg in PEOPLE for gear_kg in GEAR_KG]
    return fitted_of(searched_for(requests, lines), explained=False)


@pytest.fixture(scope="module", params=BASE_NAMES)
def free_and_held(request, base_lines):
    """The Fitted of everybody in a base, their seats free to slide and held where it has them."""
    lines = base_lines[request.param]
    return _fits(lines, request.param), _fits(lines, request.param, fixed={"seat_shift_mm": 0})


def test_gear_behind_the_seat_puts_nobodys_feet_against_a_frame(free_and_held):
    """Whose feet and legs have room with the seat left alone have it with the seat free."""
    free, held = free_and_held
    for mine, still in zip(free, held, strict=True):
        assert still.check("legs").status != "fail"  # else this would try nothing
        for key in LEGS:
            assert mine.check(key).status != "fail"


def test_a_seat_still_slides_where_there_is_room(free_and_held):
    """Some seats stand off their own place, and nobody's boat trims more for it."""
    free, held = free_and_held
    slid = [abs(mine.check("trim").value) - abs(still.check("trim").value)
            for mine, still in zip(free, held, strict=True)
            if abs(mine.assessed.boat.scaling.seat_shift_m) > 0.005]
    assert slid
    assert max(slid) < 0.02
