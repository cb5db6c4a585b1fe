"""The launch page leads with safe weights, says what the engine says, and keeps what it teaches."""

import json

import pytest
from app_screen import clicked, drafted, measured, of, opened, ran, rows, said, turned_to
from test_keeping import at, key_of

from sizer.book.built import launches
from sizer.book.exchange import export_jobs, import_jobs
from sizer.book.forget import forget
from sizer.book.jobs import job
from sizer.book.opening import open_book
from sizer.built.learnt import expected, lesson
from sizer.built.trial import read_trial
from sizer.built.trial_weights import trial_weights
from sizer.fit.request import read_request
from sizer.job import run
from sizer.web.keeping import shop_book


@pytest.fixture(autouse=True)
def book(tmp_path, monkeypatch):
    monkeypatch.setenv("SIZER_BOOK", str(tmp_path / "book"))
    shop_book.clear()
    yield shop_book()[0]
    shop_book.clear()


@pytest.fixture(scope="module")
def assessed(base_lines):
    return run(read_request(measured().request()), base_lines["day-boat"]).fitted.assessed


def typed(screen, key, text):
    next(one for one in screen.text_input if one.key.startswith(f"launch_{key}:")).set_value(text)
    return ran(screen)


def test_cautions_and_small_weights_lead_and_more_is_safe_only_once_readings_tell(assessed):
    screen = opened("launch")
    first = trial_weights(assessed, *expected(assessed)["gm_m"])
    assert said(screen).index("fastened PFD") < said(screen).index("Begin with")
    assert f"Begin with at most {first.safest_kg:.1f} kg, 250 mm off" in said(screen)
    over = rows(screen, f"Heel, {1000.0 * first.off_centre_m:.0f} mm off")
    for heel, kg in first.steps:
        assert over[f"{heel:g}°"] == [f"{kg:.1f} kg", "not yet: over what is safe now"]
    height = first.height_m * 1000.0
    given = {"heel": [
        {"kg": 0.0, "off_centre_mm": 0.0, "height_mm": height, "heel_deg": 0.0},
        {"kg": 0.5, "off_centre_mm": 250.0, "height_mm": height, "heel_deg": 1.2},
        {"kg": 0.5, "off_centre_mm": -250.0, "height_mm": height, "heel_deg": -1.2},
        {"kg": 1.0, "off_centre_mm": 250.0, "height_mm": height, "heel_deg": 2.3}]}
    typed(screen, "heel0_deg", "0")
    for number, (kg, heel) in enumerate(((0.5, 1.2), (0.5, 1.2), (1.0, 2.3)), start=1):
        for key, text in (("kg", str(kg)), ("off_mm", "25 cm"), ("deg", f"{heel}°")):
            screen = typed(screen, f"heel{number}_{key}", text)
    gm = lesson(assessed, read_trial(given)).of("gm_m")
    assert rows(screen, "Learnt")["GM"][1] == (
        f"{1000.0 * gm.after:.1f} mm ± {1000.0 * gm.after_plus_minus:.1f} mm")
    now = trial_weights(assessed, gm.after, gm.after_plus_minus)
    assert now.safest_kg > first.safest_kg
    assert f"Put aboard at most {now.safest_kg:.1f} kg, 250 mm off" in said(screen)
    again = turned_to(at(key_of(screen)), "launch")
    assert drafted(again).launch.text("heel1_off_mm") == "25 cm"


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


def test_a_figure_at_fault_gets_its_sentence():
    screen = typed(opened("launch"), "boat_kg", "900")
    assert "3 to 100 kg is allowed" in said(screen)
    assert "Nothing measured yet" in said(screen)
    screen = typed(screen, "heel1_deg", "steep")
    assert "degrees, such as 2.5" in said(screen)
