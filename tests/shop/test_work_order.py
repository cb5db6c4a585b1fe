"""The order of work: its records."""

import pytest

from sizer.shop.work import HOURS, PHASES, filled, steps
from sizer.shop.work_figures import figures


def test_steps_have_keys_of_their_own_in_the_order_of_their_phases():
    assert len({one.key for one in steps()}) == len(steps())
    order = [PHASES.index(one.phase) for one in steps()]
    assert order == sorted(order)
    assert {one.hours for one in steps()} <= set(HOURS)


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "steady-boat"])
def test_every_small_part_is_made_in_a_step_that_names_the_sheet_with_its_sizes(base, middle_job,
                                                                              middle_bench):
    """From the parts to buy and cut, which say what is sawn from a sheet or its offcuts."""
    job, bench = middle_job(base), middle_bench(base)
    made = {step.key: step.do for step in filled(figures(job, bench))}
    sawn = made["plywood"]
    for one in bench.spacers:
        assert f"2 of {one.name}" in sawn
    assert all(frame.name in sawn for frame in bench.frames if frame.mortises)
    assert "mortises" in sawn
    for words, item in (("2 pedals", "pedal of the footbrace"), ("2 cheeks", "cheek of a pedal"),
                        ("the strap", "strap of the pedals"),
                        ("boards of the hip pads", "board of a hip pad"),
                        ("boards of the thigh braces", "thigh brace: thickness"),
                        ("seat plates", "seat plate"), (" slats", " slat:"),
                        ("webbing straps", "webbing strap"), ("4 cleats", " cleat:")):
        bought = any(item in one.what for one in bench.materials.items)
        assert (words in sawn) == bought, words
    for title in ("Seat", "Frames and stems", "Footbrace and thigh braces"):
        assert f"(sizes: {title})" in sawn
    assert all(words in made["outfit"] for words in ("2 rails", "2 stops", "2 blocks"))
    for stem in bench.stems:
        lap = stem.ridge_lap
        assert (f"{stem.ridge}, underside over its last {1000 * lap.length_m:.0f} mm"
                in made["shape"])
    assert f"Beyond {bench.frames[0].name} and {bench.frames[-1].name}" in made["fair"]
    assert "no step is left under the skin" in made["fair"]


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
