"""The trade-offs page against the engine, without a browser: curves, the map, boats kept."""

import numpy as np
import pytest
from app_screen import (
    clicked,
    drafted,
    engine_job,
    engine_map,
    measured,
    of,
    opened,
    ran,
    rows,
    said,
    strip,
    turned_to,
)

from sizer.fit.what_if import curve, drag_N
from sizer.web.steps import trade

STATUS_WORDS = {"pass": "passes", "caution": "caution", "fail": "does not pass"}


@pytest.fixture(scope="module")
def job():
    return engine_job(measured())


@pytest.fixture(scope="module")
def heavier():
    return engine_job(measured().enter("weight_kg", "105"))


def picked(screen, label, key):
    of(screen.selectbox, label).set_value(key)
    return ran(screen)


def mm(value_m):
    return f"{1000.0 * value_m:.0f} mm"


def test_curves_are_the_engines_and_the_choices_stay_when_the_page_is_left(job):
    screen, assessed = opened("trade"), job.fitted.assessed
    assert f"steadiness (GM) {mm(assessed.particulars.gm_m)}" in said(screen)
    picked(picked(screen, "Result", "freeboard"), "Over", "length")
    length, freeboard = mm(assessed.boat.length_m), mm(assessed.particulars.freeboard_m)
    assert f"Today, length {length}: side-deck freeboard {freeboard}" in said(screen)
    found = curve(trade.sweep(assessed, False, "length"), "freeboard", 1.8)
    low, high = found.passing[0]  # told inwards
    assert (f"Every check of the boat passes from {np.ceil(1000.0 * low):.0f} mm to "
            f"{np.floor(1000.0 * high):.0f} mm") in said(screen)
    table = rows(screen, "Length")
    assert len(table) == found.at.size
    assert table[f"{length} (today)"][0] == freeboard
    assert table[mm(found.at[0])] == [mm(found.value[0]), STATUS_WORDS[found.status[0]],
                                      STATUS_WORDS[found.overall[0]]]
    turned_to(turned_to(screen, "words"), "trade")
    assert (of(screen.selectbox, "Result").value, of(screen.selectbox, "Over").value) == (
        "freeboard", "length")
    assert f"Today, length {length}" in said(screen)


def test_drag_follows_the_speed_slider_and_so_does_the_table(job):
    screen = picked(clicked(opened("trade"), "Keep this boat"), "Result", "drag")
    of(screen.slider, "Speed, knots").set_value(4.0)
    drag = f"{drag_N(job.fitted.assessed, 4.0 * 1852 / 3600):.1f} N"
    assert f"drag at 4.0 knots (2.06 m/s) {drag}; no check limits it" in said(ran(screen))
    assert rows(screen, "Size or result")["Drag at 4.0 knots (2.06 m/s), estimate"][0] == drag


def test_map_sentence_and_table_are_the_engines_and_its_axes_are_never_the_same(job):
    screen = picked(opened("trade"), "Up", "length")
    assert of(screen.selectbox, "Across").value == "beam"  # the two are swapped
    picked(screen, "Across", "gear")
    found = engine_map(job, "gear", "length")
    cells = [status for row in found.status for status in row]
    assert (f"Of {len(cells)} boats tried, {cells.count('pass')} pass every check, "
            f"{cells.count('caution')} have a caution and {cells.count('fail')} do not pass. "
            f"Today's boat: {STATUS_WORDS[job.fitted.status]}.") in said(screen)
    failing = {name for status, names in zip(found.status[-1], found.names[-1], strict=True)
               if status == "fail" for name in names}
    assert set(rows(screen, "Length")[mm(found.up_at[-1])][-1].split(", ")) == (failing or {"–"})


def test_two_variants_compare_with_the_engine_get_a_name_and_lead_back(job, heavier):
    screen = turned_to(clicked(opened("trade"), "Keep this boat"), "paddler")
    of(screen.text_input, "Weight").set_value("105")
    clicked(turned_to(screen, "trade"), "Keep this boat")
    of(screen.text_input, "Name of variant 1").set_value("<b>Light</b> & quick")
    assert "<b>Light</b> & quick" in said(ran(screen))
    light, now = job.fitted.assessed, heavier.fitted.assessed
    table = rows(screen, "Size or result")
    less = round(1000.0 * now.boat.beam_m) - round(1000.0 * light.boat.beam_m)
    assert less > 0
    assert table["Beam"] == [mm(now.boat.beam_m), f"{mm(light.boat.beam_m)} (−{less:.0f} mm)",
                             f"{mm(now.boat.beam_m)} (±0 mm)"]
    carried = [one.loading.paddler_kg + one.loading.gear_kg for one in (light, now)]
    assert table["Load: paddler dressed, all gear"][1] == (
        f"{carried[0]:.1f} kg (−{carried[1] - carried[0]:.1f} kg)")
    reaches = [one.mishaps.mover_sums.vanishing_deg for one in (job, heavier)]
    assert table["Range of stability"][1].startswith(f"{reaches[0]:.0f}°")
    assert f"{abs(round(reaches[0]) - round(reaches[1]))}°)" in table["Range of stability"][1]
    assert table["Checks"] == [STATUS_WORDS[one.fitted.status] for one in (heavier, job, heavier)]
    clicked(screen, "Go back to this one")
    assert mm(light.boat.beam_m) in strip(screen)
    assert drafted(screen).entries.weight_kg.text == "82"
    assert rows(screen, "Size or result")["Beam"][1].endswith("(±0 mm)")
    clicked(screen, "Delete")
    assert of(screen.text_input, "Name of variant 1").value == "Variant 2"


def test_no_more_than_four_are_kept_and_a_blank_name_is_none():
    screen = opened("trade")
    for count in range(1, 5):
        clicked(screen, "Keep this boat")
        assert of(screen.text_input, f"Name of variant {count}").value == f"Variant {count}"
    keep = next(one for one in screen.button if one.label == "Keep this boat")
    assert keep.disabled
    assert "Four are kept: delete one to keep another." in said(screen)
    of(screen.text_input, "Name of variant 2").set_value("   ")
    assert of(ran(screen).text_input, "Name of variant 2").value == "Variant 2"
    clicked(screen, "delete_1", by_key=True)
    clicked(screen, "Keep this boat")
    assert of(screen.text_input, "Name of variant 4").value == "Variant 2"


def test_the_ring_under_the_map_tells_the_checks_of_any_boat_of_it(job):
    found = engine_map(job, "length", "beam")
    status, words = job.fitted.status, {**STATUS_WORDS, "pass": "passes every check"}
    boat = job.fitted.assessed.boat
    screen = opened("trade")
    assert f"Length {mm(boat.length_m)}, beam {mm(boat.beam_m)}: {words[status]}" in said(screen)
    told = set()
    for column, row in ((0, 0), (0, 6), (0, 12), (14, 0), (14, 12)):
        of(screen.select_slider, "Ring: length").set_value(column)
        of(screen.select_slider, "Ring: beam").set_value(row)
        status, names = found.status[row][column], found.names[row][column]
        by = f" by {', '.join(names)}" if names else ""
        assert (f"Length {mm(found.across_at[column])}, beam {mm(found.up_at[row])}: "
                f"{words[status]}{by}.") in said(ran(screen))
        told.add(status)
    assert {"caution", "fail"} <= told
    of(screen.segmented_control, "Lengths in").set_value("in")
    assert of(ran(screen).select_slider, "Ring: beam").value == 12  # the same boat
    picked(screen, "Across", "gear")
    assert f"Gear {job.person.gear_kg:.1f} kg, beam " in said(screen)
