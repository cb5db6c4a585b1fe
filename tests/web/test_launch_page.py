"""The launch page leads with safe weights, says what the engine says, and keeps what it teaches."""

import json

import pytest
from app_screen import (
    clicked,
    drafted,
    engine_job,
    measured,
    of,
    opened,
    ran,
    rows,
    said,
    turned_to,
)
from test_keeping import at, key_of

from sizer.book.built import KeptLaunch, keep_launch, launches
from sizer.book.exchange import export_jobs, import_jobs
from sizer.book.forget import forget
from sizer.book.jobs import job, new_job
from sizer.book.opening import open_book
from sizer.built.borne import load_borne_kg
from sizer.built.departures import expected
from sizer.built.learnt import lesson
from sizer.built.trial import read_trial
from sizer.built.trial_weights import trial_weights
from sizer.cli.book_drafts import draft_of_request
from sizer.fit.request import read_request
from sizer.units import length_text
from sizer.web.draft import Draft

pytestmark = pytest.mark.usefixtures("book")


@pytest.fixture(scope="module")
def assessed():
    return engine_job(measured()).fitted.assessed


def typed(screen, key, text):
    next(one for one in screen.text_input if one.key.startswith(f"launch_{key}:")).set_value(text)
    return ran(screen)


def test_cautions_and_small_weights_lead_and_more_is_safe_only_once_readings_tell(assessed):
    screen = opened("launch")
    first = trial_weights(assessed, *expected(assessed)["gm_m"])
    assert "Read first how the boat lies" in said(screen)
    for words in ("a helper's hands on both gunwales all the time",
                  "until the water inside stands as high as outside; then read",
                  "A paddler too heavy is not made up for by less gear"):
        assert words in said(screen), words
    least, most = load_borne_kg(assessed)
    gear = assessed.loading.gear_kg
    assert f"alone, dressed, {least - gear:.1f} kg to {most - gear:.1f} kg" in said(screen)
    assert "&" not in said(screen)  # escaped once
    assert "Begin with" not in said(screen).split("Begin with a weight so small")[1]
    screen = typed(screen, "heel0_deg", "1.0")
    lies = trial_weights(assessed, *expected(assessed)["gm_m"], 1.0)
    assert lies.safest_kg < first.safest_kg
    screen = typed(screen, "heel0_deg", "0")
    assert said(screen).index("PFD fastened") < said(screen).index("Begin with")
    assert "upright to the lath's side, its long edge along it" in said(screen)
    heap, = assessed.loading.gear
    aboard = said(screen).index(f"{heap.mass_kg:.1f} kg")
    assert "between F" in said(screen)[aboard:aboard + 80]
    assert aboard < said(screen).index(f"Begin with {first.first[1]:.1f} kg")
    off = f"{1000.0 * first.off_centre_m:.0f} mm off"
    least = min(first.steps[0][1], first.safest_kg)
    assert f"Begin with {least:.1f} kg (" in said(screen)
    assert f" as calculated), {off}" in said(screen)
    assert f"{first.safest_kg:.1f} kg is the most by what is known now" in said(screen)
    over = rows(screen, f"Heel, {off}")
    for heel, kg in first.steps:
        safe = kg <= first.safest_kg
        assert over[f"{heel:g}°"] == [f"{kg:.1f} kg",
                                      "safe" if safe else "not yet: over what is safe now"]
    assert not safe  # the farthest heel
    height = first.place.height_m * 1000.0
    over_it = "That is more than is safe by what is known now"
    assert over_it not in said(typed(screen, "heel1_kg", f"{first.safest_kg:.1f}"))
    assert over_it in said(typed(screen, "heel1_off_mm", f"{1100.0 * first.off_centre_m:.0f}"))
    given = {"heel": [
        {"kg": 0.0, "off_centre_mm": 0.0, "height_mm": height, "heel_deg": 0.0},
        {"kg": 0.5, "off_centre_mm": 250.0, "height_mm": height, "heel_deg": 1.2},
        {"kg": 0.5, "off_centre_mm": -250.0, "height_mm": height, "heel_deg": -1.2},
        {"kg": 1.0, "off_centre_mm": 250.0, "height_mm": height, "heel_deg": 2.3}]}
    for number, (kg, heel) in enumerate(((0.5, 1.2), (0.5, 1.2), (1.0, 2.3)), start=1):
        for key, text in (("kg", str(kg)), ("off_mm", "25 cm"), ("deg", f"{heel}°")):
            screen = typed(screen, f"heel{number}_{key}", text)
    gm = lesson(assessed, read_trial(given)).of("gm_m")
    tenths = int(gm.after_plus_minus < 0.010)
    assert rows(screen, "Learnt")["GM"][1] == (
        f"{1000.0 * gm.after:.{tenths}f} ± {1000.0 * gm.after_plus_minus:.{tenths}f} mm")
    assert "Steadiness trial: it swings 1.20° in the mean" in said(screen)
    now = trial_weights(assessed, gm.after, gm.after_plus_minus)
    assert now.safest_kg > first.safest_kg
    assert f"Put aboard at most {now.safest_kg:.1f} kg, {off}" in said(screen)
    again = turned_to(at(key_of(screen)), "launch")
    assert drafted(again).launch.text("heel1_off_mm") == "25 cm"


def test_a_reading_that_lacks_a_figure_is_told_as_left_out_and_a_grey_figure_is_none(assessed):
    screen = typed(opened("launch"), "heel0_deg", "0")
    assert "left out" not in said(screen)
    screen = typed(screen, "heel1_kg", "0.5")
    assert ("Reading 1 is left out until its distance off the centre line and heel are typed."
            in said(screen))
    screen = typed(screen, "heel1_deg", "1.2")
    assert ("Reading 1 is left out until its distance off the centre line is typed."
            in said(screen))
    off_centre_m = trial_weights(assessed, *expected(assessed)["gm_m"], 0.0).off_centre_m
    assert " as calculated), " in said(screen)  # nothing is known yet
    (grey,) = {one.placeholder for one in screen.text_input if "Distance off" in one.label}
    assert grey == f"such as {1000.0 * off_centre_m:.0f} mm"
    assert "A grey figure is an example and is not filled in" in said(screen)
    for key, text in (("kg", "0.5"), ("off_mm", "250"), ("deg", "1.3")):
        screen = typed(screen, f"heel2_{key}", text)
    readings = {one for one in rows(screen, "Measured") if one.startswith("GM by")}
    assert readings == {"GM by reading 2, heel 1.3°"}  # by the page's own number
    for key, text in (("kg", "0.5"), ("off_mm", "250"), ("deg", "0.1")):
        screen = typed(screen, f"heel1_{key}", text)  # too little to tell anything
    readings = {one for one in rows(screen, "Measured") if one.startswith("GM by")}
    assert readings == {"GM by reading 2, heel 1.3°"}
    screen = typed(screen, "heel1_deg", "1.2")
    assert "left out" not in said(screen)
    assert "GM by reading 1, heel 1.2°" in rows(screen, "Measured")


def test_a_kept_launch_moves_the_job_on_travels_and_outlives_its_customer(book, tmp_path):
    screen = typed(opened("launch", measured(mark="Ann")), "boat_kg", "17.5")
    screen = typed(screen, "load_kg", "93.5")
    of(screen.selectbox, "Swamped").set_value("in")
    of(screen.multiselect, "What the paddler felt").set_value(["knees"])
    screen = clicked(ran(screen), "Keep this launch")
    key = key_of(screen)
    assert job(book, key).state == "launched"
    assert drafted(screen).launch.felt == ("knees",)
    (kept,) = launches(book)
    assert set(json.loads(kept.off)) == {"boat_share"}
    assert f"Kept on {kept.date}: this boat is launched." in said(screen)
    assert of(screen.button, "Keep this launch").disabled
    assert "Understood" not in [one.label for one in screen.button]  # said where it was pressed
    screen = typed(screen, "boat_kg", "18")
    assert f"What was kept on {kept.date} is not what is typed now" in said(screen)
    screen = typed(screen, "boat_kg", "17.5")
    assert of(screen.button, "Keep this launch").disabled
    other = open_book(tmp_path / "other")
    (row,) = import_jobs(other, export_jobs(book)).came
    assert launches(other) == (kept,)
    assert import_jobs(other, export_jobs(book)).same == (row,)
    forget(book, key)
    (left,) = launches(book)
    assert (left.date, left.off) == ("", kept.off)
    for file in tmp_path.glob("book*"):
        if file.is_file():
            assert b"93.5" not in file.read_bytes()


def test_readings_that_disagree_stop_the_trial():
    screen = typed(typed(opened("launch"), "heel0_deg", "0"), "boat_kg", "40")
    assert "out of all likelihood" in said(screen)
    assert "put nothing more aboard" in said(screen)
    assert "at most 0." not in said(screen)


def test_an_impossible_freeboard_is_told_at_its_field_and_kept_only_when_agreed_without(
        book, assessed):
    screen = typed(opened("launch", measured(mark="Ann")), "boat_kg", "17.5")
    wrong = f"{1000.0 * assessed.upright.freeboard_m + 254.0:.0f}"
    screen = typed(screen, "afloat_side_mm", wrong)
    words = said(screen)
    said_at = words.index("Least freeboard is out of all likelihood")
    assert said_at < words.index("put nothing more aboard")  # at its field, above the trial
    assert "left out of what would be kept: Least freeboard" in words
    assert of(screen.button, "Keep this launch").disabled
    of(screen.checkbox, "Keep this launch without it").set_value(True)
    screen = clicked(ran(screen), "Keep this launch")
    (kept,) = launches(book)
    assert set(json.loads(kept.off)) == {"boat_share"}
    screen = typed(screen, "afloat_side_mm", f"{1000.0 * assessed.upright.freeboard_m:.0f}")
    again = f"Keep this launch in place of the one kept on {kept.date}"
    assert "out of all likelihood" not in said(screen)
    assert f"What was kept on {kept.date} is not what is typed now: keeping this launch replaces " \
        "it." in said(screen)
    clicked(screen, again)
    (replaced,) = launches(book)
    assert replaced != kept


def test_a_reading_is_confirmed_at_its_field_until_it_is_typed_anew():
    screen = typed(opened("launch"), "boat_kg", "40")
    of(screen.checkbox, "I read it again").set_value(True)
    screen = ran(screen)
    assert "It counts, since it was read again and confirmed" in said(screen)
    assert "would be kept" not in said(screen)
    assert not of(screen.button, "Keep this launch").disabled
    assert drafted(screen).launch.confirmed == ("boat_kg",)
    screen = typed(screen, "boat_kg", "41")
    assert "It is left out of what is learnt" in said(screen)
    assert not of(screen.checkbox, "I read it again").value


def test_readings_out_of_all_likelihood_are_confirmed_in_one_press_each_named(assessed):
    together = "again, and they are so: let them count"
    screen = typed(opened("launch"), "boat_kg", "40")
    assert together not in " ".join(one.label for one in screen.button)  # one alone: at its field
    side = 1000.0 * assessed.upright.freeboard_m + 150.0
    screen = typed(screen, "afloat_side_mm", f"{side:.0f}")
    listed = said(screen).split("Left out until confirmed:")[1]
    assert "40.0 kg" in listed
    assert f"Least freeboard, {side:.0f}.0 mm" in listed
    screen = clicked(screen, "I read all 2 again")
    assert set(drafted(screen).launch.confirmed) == {"boat_kg", "afloat_side_mm"}
    assert said(screen).count("It counts, since it was read again and confirmed") == 2
    assert all(one.value for one in screen.checkbox if one.label.startswith("I read it again"))
    assert "Left out until confirmed" not in said(screen)
    assert drafted(clicked(screen, "Undo")).launch.confirmed == ()


def test_trial_weights_in_pounds_are_told_to_the_tenth_below(assessed):
    one = measured().in_units("in", "lb")
    screen = typed(opened("launch", one), "heel0_deg", "0")
    told = trial_weights(assessed, *expected(assessed)["gm_m"], 0.0)
    found = rows(screen, f"Heel, {length_text(1000.0 * told.off_centre_m, 'in')} off")
    for heel, kg in told.steps:
        pounds = float(found[f"{heel:g}°"][0].removesuffix(" lb"))
        assert kg / 0.45359237 - 0.1 < pounds <= kg / 0.45359237
    (most, *_) = (one.placeholder for one in screen.text_input if one.label.startswith("Weight"))
    screen = typed(screen, "heel1_kg", most.removesuffix(" lb at most"))
    assert "more than is safe" not in said(screen)


def test_a_minus_in_a_heel_to_the_weights_side_is_asked_about():
    screen = typed(opened("launch"), "heel0_deg", "0")
    for key, text in (("kg", "0.5"), ("off_mm", "250"), ("deg", "-1.2")):
        screen = typed(screen, f"heel2_{key}", text)
    assert "Minus is a heel to starboard, away from the weight. Did it heel to port" in said(screen)
    screen = typed(screen, "heel2_deg", "1.2")
    assert "Minus is" not in said(screen)


def test_a_figure_at_fault_gets_its_sentence():
    screen = typed(opened("launch"), "boat_kg", "900")
    assert "3 to 100 kg is allowed" in said(screen)
    assert "Nothing measured yet" in said(screen)
    screen = typed(screen, "heel0_deg", "steep")
    assert "degrees, such as 2.5" in said(screen)


def test_the_shops_bias_is_shown_switched_on_and_said_in_every_answer(book):
    for code in range(6):
        row = new_job(book, measured().model_dump_json())
        keep_launch(book, row.key, KeptLaunch(f"2026-11-0{code + 1}", json.dumps(
            {"boat_share": {"off": 0.10 + 0.005 * (-1) ** code, "spread": 0.02}})))
    screen = opened("launch")
    assert "This shop's own bias over" not in said(screen)
    plain_kg = rows_of_boat(screen)
    of(screen.toggle, "Fit this job").set_value(True)
    screen = ran(screen)
    assert "This shop's own bias over 6 launches is in these figures: boats 9" in said(screen)
    one = drafted(screen)
    share = one.request()["shop_bias"]["boat_share"]
    assert 0.02 < one.request()["shop_bias"]["boat_spread"] < 0.05  # 5 % without launches
    saved = Draft.model_validate_json(draft_of_request(read_request(one.request())))
    assert saved.request()["shop_bias"] == pytest.approx(one.request()["shop_bias"])
    assert 0.09 < share < 0.10  # of 0.10, shrunk
    job = engine_job(one)
    assert rows_of_boat(screen) == f"{job.fitted.assessed.weight.mass_kg:.1f} kg"
    assert float(rows_of_boat(screen)[:-3]) > (1.0 + 0.9 * share) * float(plain_kg[:-3])
    assert any("own bias over 6 launches" in one for one in job.cautions)
    screen = clicked(turned_to(screen, "paddler"), "Clear for a new customer")
    assert drafted(screen).shop_bias.boats == 6


def rows_of_boat(screen):
    """The boat's weight as calculated; a figure has to be measured for it to be told."""
    return rows(typed(screen, "boat_kg", "17.5"), "Measured")["The boat's own weight"][0]
