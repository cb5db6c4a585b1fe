"""The crowd's page says what the engine says, and has long work in hand."""

import csv
import re
import time
from collections import Counter

import pytest
from streamlit.testing.v1 import AppTest
from test_work import endless, refused

from sizer.crowd.finished import persons_of, title_of, verdict
from sizer.crowd.people import BadRow, PersonRow
from sizer.crowd.results import Everyone
from sizer.errors import NotSolved
from sizer.export.range_package import range_package
from sizer.fit.request import Trip, read_request
from sizer.hydro.water import water_at
from sizer.units import plain
from sizer.web.steps import going
from sizer.web.work import begin
from tests.cli.conftest import few_files
from tests.crowd.conftest import fewest_boats

WAIT_S = 600
WATER = water_at("fresh", 10.0)


def screen(run="", **state):
    """The page in a session of its own, with a token in its address."""

    def page():
        from sizer.web.steps.crowd import page

        page()

    app = AppTest.from_function(page, default_timeout=WAIT_S)
    app.session_state["mine"] = dict(state)
    if run:
        app.query_params["run"] = run
    return app.run()


def reloaded(app):
    """What its browser has after a reload: it knows no more than the address."""
    return screen(run=app.session_state["mine"]["run"])


def said(app):
    assert not app.exception
    return plain(" ".join(one.value for one in app.markdown))


def button(app, label):
    return next(one for one in app.button if one.label == label)


def endless_range(*given, shop, progress):
    endless(progress)


@pytest.fixture
def shelf():
    """Nothing is shelved, before and after."""
    going.clear_shelf()
    yield
    going.clear_shelf()


def counted(rows, of_text, trip, progress):
    progress(1, 1, "counting")
    return Everyone((("pass", len(rows)),), "row\r\n")


@pytest.fixture
def fitted_list(shelf, monkeypatch):
    """The page after a list was fitted one by one, by a work that only counts it."""
    monkeypatch.setattr("sizer.web.steps.crowd.everyone", counted)
    people = "weight_kg,stature_mm,hip_width_mm\n80,1780,380\n90,1800,390\n"
    app = screen(view={"crowd_source": "My own list", "people": ("club.csv", people),
                       "crowd_action": "batch"})
    button(app, "Work it out").click().run()
    app.session_state["mine"]["crowd_run"].listener.join(WAIT_S)
    return app.run()


CHANGED = "Changed since this was worked out: "


def test_a_reload_finds_a_result_with_its_people_and_says_what_changed_until_they_are_put_away(
        fitted_list):
    assert "club.csv, 2 people" in said(fitted_list)
    assert "club.csv" not in said(screen())
    again = reloaded(fitted_list)
    assert again.header[0].value == "Everyone fitted"
    assert "Made from club.csv, 2 people; Short day boat;" in said(again)
    assert [one.value for one in again.radio] == ["My own list", "batch"]
    assert "club.csv: people that can be used 2" in said(again)
    assert CHANGED not in said(again)
    next(one for one in again.radio if one.label == "What to do").set_value("range").run()
    assert (CHANGED + "what to do, the sizes at most, the gear and the shop&#x27;s settings."
            in said(again))
    next(one for one in again.radio if one.label == "People").set_value(
        "Drawn from the body survey").run()
    assert CHANGED + "the people, what to do" in said(again)
    button(fitted_list, "Put this list away").click().run()
    assert "Made from club.csv, 2 people" in said(fitted_list)  # in this window still
    again = reloaded(fitted_list)
    assert "club.csv" not in said(again)
    assert not [one for one in again.header if one.value == "Everyone fitted"]


def test_a_work_under_way_is_taken_up_after_a_reload_and_stopped_there(shelf, monkeypatch):
    monkeypatch.setattr("sizer.web.steps.crowd.range_package", endless_range)
    app = screen()
    button(app, "Work it out").click().run()
    work = app.session_state["mine"]["crowd_run"]
    again = reloaded(app)
    assert again.session_state["mine"]["crowd_run"] is work
    button(again, "Stop").click().run()
    assert not work.process.is_alive()
    assert button(reloaded(app), "Work it out")  # nothing of it is left for the next


def test_a_row_of_a_list_is_told_at_fault_by_its_own_column():
    people = "weight_kg,stature_mm,hip_width_mm\n80,1.58 m,380\n80,1780,380\n"
    app = screen(view={"crowd_source": "My own list", "people": ("people.csv", people)})
    assert "row 2: stature_mm: '1.58 m': give a plain number" in said(app).replace("&#x27;", "'")


@pytest.fixture(scope="module")
def made(base_lines):
    people = [PersonRow(row, "Ann" * (row == 1), {"paddler": {
        "weight_kg": weight, "stature_mm": stature, "hip_width_mm": hips}}, ())
              for row, (weight, stature, hips) in enumerate(
                  [(58, 1620, 365), (70, 1720, 375), (82, 1790, 385), (95, 1850, 405),
                   (160, 1900, 540)])]
    with pytest.MonkeyPatch.context() as patch:
        fewest_boats(patch)
        few_files(patch)
        return range_package([*people, BadRow(9, "", ("odd",))], base_lines["day-boat"],
                             Trip("day-boat", "sheltered-day", WATER, 5.0), 2)


def test_the_range_on_the_screen_is_the_one_in_the_files(made):
    app = screen(crowd_found=made)
    words, answer = said(app), made.answer
    served = sum(size["people"] for size in answer["sizes"])
    assert f"<b>{served} of 5 people</b> pass" in words
    assert not re.search(r"\d ?%", re.sub(r"<[^>]*>", "|", words))
    for size in answer["sizes"]:
        assert f"<b>{size['name']}</b>" in words
        assert f"{size['size']['length_mm']:.0f} mm" in words
        assert f">{size['people']} of 5<" in words
    for name, people in answer["left_out_by_check"].items():
        assert re.search(rf"<td>{re.escape(name)}</td><td[^>]*>{people}</td>", words)
    assert "Rows that could not be used: 9;" in words
    assert all(caution.split(":")[0] in words for caution in answer["cautions"])


def test_who_takes_which_size_is_told_by_name_and_who_is_left_out_with_what_fails(made):
    """As people.csv has it."""
    table = next(plain(one.value) for one in screen(crowd_found=made).markdown
                 if "who, or what fails" in one.value)
    told = dict(re.findall(r"<tr><td[^>]*>(.*?)</td><td[^>]*>(.*?)</td></tr>", table))
    (text,) = [data.decode("utf-8-sig") for name, data in made.files.items()
               if name.endswith("people.csv")]
    listed = list(csv.DictReader(line for line in text.splitlines()
                                 if not line.lstrip('"').startswith("#")))
    assert len(listed) == 5
    for row in listed:
        name = row["label"] or f"row {row['row']}"
        if row["size to take"] != "none":
            assert name in told[f"<b>{row['size to take']}</b>"].split(", ")
        else:
            assert told[f"left out: {name}"].startswith(
                "fails: " + row["fails"].replace("; ", ", "))
    assert "none" in {row["size to take"] for row in listed}
    assert {row["label"] for row in listed} == {"", "Ann"}


def test_the_map_takes_the_pages_colours_and_leaves_cautions_to_the_page_and_the_file(made):
    app = screen(crowd_found=made)
    picture = next(one.value for one in app.markdown if "Who takes which size" in one.value)
    ends = re.findall(r"<text[^>]*>(.*?)</text>", picture)
    assert "weight, kg" in ends
    assert not [text for text in ends if "CAUTION" in text]
    assert not re.search(r"#[0-9a-fA-F]{3,6}\b|fill=|<style", picture)  # its pens are the page's
    assert picture.count("sz-left-out") > made.answer["people"]["counted"] - sum(
        size["people"] for size in made.answer["sizes"])
    (written,) = [data for name, data in made.files.items() if name.endswith("people-map.svg")]
    assert b"CAUTION" in written


def test_the_size_for_the_customer_is_the_exact_verdict_in_each(made):
    app = screen(crowd_found=made)
    one = app.session_state["mine"]["history"].present
    person, = persons_of([read_request(one.request()).measured],
                         Trip("day-boat", "sheltered-day", WATER, 5.0))
    exact = {size.name: verdict(size.hull, person) for size in made.sizes}
    best = max(exact, key=lambda name: (exact[name].clean, exact[name].serves,
                                        exact[name].spare))
    assert exact[best].serves
    assert f"<b>{best}</b>, take this one" in said(app)
    shown, = app.session_state["mine"]["kept"]["verdicts"].values()
    assert {name: (one.status, title_of(one.tightest)) for name, one in dict(shown).items()} == {
        name: (one.status, title_of(one.tightest)) for name, one in exact.items()}


def test_room_left_in_two_sizes_is_written_as_checks_are(made, monkeypatch):
    """A share of the volume in percent, an area under the righting arm as a lift."""
    app = screen(crowd_found=made)
    shown, = app.session_state["mine"]["kept"]["verdicts"].values()
    best = dict(shown)[shown[0][0]]
    monkeypatch.setattr("sizer.web.steps.crowd_results._verdicts",
                        lambda one, made: [("one", best), ("other", best)])
    app.run()
    margins = {key: value for key, value, _ in best.margins}
    table = next(plain(one.value) for one in app.markdown if "Room left at" in one.value)
    told = dict(re.findall(r"<td>(.*?)</td><td[^>]*>(.*?)</td>", table))
    assert told[title_of("load")] == f"{100.0 * margins['load']:.0f} %".replace("-0 ", "0 ")
    assert told[title_of("knock")] == f"{margins['knock']:.0f} mm of lift"
    assert told[title_of("range")] == f"{margins['range']:.1f}°"


def test_everyone_is_counted_by_status():
    statuses = Counter(["pass"] * 3 + ["bad row"])
    words = said(screen(crowd_found=Everyone(tuple(statuses.most_common()), "row\r\n")))
    assert "Everyone fitted" not in words  # a header, no markdown
    assert words.index("pass") < words.index("bad row")


def test_a_work_in_hand_is_told_and_stopped():
    work = begin(endless)
    until = time.monotonic() + WAIT_S
    while not work.progress():
        assert time.monotonic() < until
        time.sleep(0.01)
    app = screen(crowd_run=work)
    assert ">asleep: 1 of 2</span>" in said(app)
    button(app, "Stop").click().run()
    assert "crowd_run" not in app.session_state["mine"]
    assert not work.process.is_alive()
    assert button(app, "Work it out")


def test_what_was_wrong_with_a_work_is_told():
    work = begin(refused, NotSolved("no rest"))
    work.listener.join(WAIT_S)
    app = screen(crowd_run=work)
    assert "no rest" in said(app)
    assert "crowd_run" not in app.session_state["mine"]
