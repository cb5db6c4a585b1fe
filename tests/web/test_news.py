"""What a page hears without being touched, and that a long work goes on beside a fit; in a browser:
test_crowd.py."""

import json

import pytest
from app_screen import drafted, opened, ran
from starlette.requests import Request
from test_work import asleep, endless

from sizer.book.drafts import draft_version, save_draft
from sizer.book.jobs import new_job
from sizer.web.news import ROUTE
from sizer.web.work import begin


def news(query):
    return json.loads(ROUTE.endpoint(Request(
        {"type": "http", "method": "GET", "headers": [], "query_string": query.encode()})).body)


@pytest.fixture
def work():
    begun = begin(endless)
    asleep(begun)
    yield begun
    begun.stop()


def test_a_change_in_the_book_is_news(book):
    key = new_job(book, "{}", "").key
    before = news(f"job={key}")["version"]
    assert before == draft_version(book, key)
    save_draft(book, key, '{"a": 1}', "{}", before)
    assert news(f"job={key}")["version"] == draft_version(book, key) != before
    assert news("job=unknown") == news("") == {"version": None, "works": {}}


def test_how_far_a_work_is_is_told_to_who_has_its_token_until_it_ends(book, work):
    query = f"work={work.token}&work=guessed"
    assert news(query)["works"] == {work.token: "asleep: 1 of 2", "guessed": None}
    work.stop()
    work.listener.join(600)
    assert news(query)["works"][work.token] is None


def test_a_range_goes_on_while_boats_are_fitted(book, work):
    screen = opened("boat")
    screen.session_state["mine"]["crowd_run"] = work
    beam = next(one for one in screen.slider if one.label.startswith("Beam"))
    aim = beam.value + 1.0
    beam.set_value(aim)
    ran(screen)
    assert drafted(screen).held.beam_mm == aim
    assert work.going
    assert work.process.is_alive()
