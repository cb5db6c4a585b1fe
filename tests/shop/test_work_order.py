"""The order of work: its records."""

import pytest

from sizer.shop.work import HOURS, PHASES, steps


def test_steps_have_keys_of_their_own_in_the_order_of_their_phases():
    assert len({one.key for one in steps()}) == len(steps())
    order = [PHASES.index(one.phase) for one in steps()]
    assert order == sorted(order)
    assert {one.hours for one in steps()} <= set(HOURS)


def test_what_a_trade_insists_on_comes_before_what_it_would_spoil():
    at = {one.key: row for row, one in enumerate(steps())}
    for first, then in (("strongback", "frames"), ("risers", "frames"), ("frames", "gunwales"),
                        ("gunwales", "keel"), ("keel", "chines"), ("dry-fit", "fair"),
                        ("fair", "trim"),
                        ("sit", "trim"), ("oil", "lash"), ("lash", "coaming-fit"),
                        ("outfit", "skin"), ("coaming-fit", "skin"), ("skin", "sew"),
                        ("sew", "coat"), ("bags", "launch"), ("wet-exit", "launch")):
        assert at[first] < at[then], (first, then)


@pytest.mark.parametrize(("key", "word"), [
    ("plywood", "Dust"), ("oil", "CATCH FIRE BY THEMSELVES"), ("scarfs", "Epoxy"),
    ("coaming-bend", "Epoxy"), ("coat", "mask"), ("trim", "saw"), ("wet-exit", "Never alone"),
    ("launch", "Not alone"), ("bags", "Never launch without both bags")])
def test_the_caution_stands_at_the_step_where_the_danger_is(key, word):
    assert word in next(one for one in steps() if one.key == key).danger
