"""One page is drawn after another; what takes long lets others draw meanwhile."""

from threading import Event, Thread

import pytest
from app_screen import measured, opened

from sizer.job import run
from sizer.web import turn
from sizer.web.turn import in_turn, out_of_turn


def drawn_beside(begun):
    """A page of somebody else's that tells when it is drawn."""
    def page():
        with in_turn():
            begun.set()

    beside = Thread(target=page)
    beside.start()
    return beside


def test_a_page_waits_until_another_is_drawn():
    begun = Event()
    with in_turn():
        beside = drawn_beside(begun)
        assert not begun.wait(0.5)
    beside.join(60)
    assert begun.is_set()


def test_long_work_lets_another_page_be_drawn():
    begun = Event()
    with in_turn():
        with out_of_turn(), out_of_turn():
            beside = drawn_beside(begun)
            assert begun.wait(60)
            beside.join(60)
        assert turn._turn.locked()
    assert not turn._turn.locked()


def test_a_page_that_ends_early_gives_up_its_turn():
    with pytest.raises(KeyError), in_turn(), out_of_turn():
        raise KeyError
    assert not turn._turn.locked()


def test_a_page_by_itself_has_no_turn_to_give_up():
    with out_of_turn():
        assert not turn._turn.locked()


def test_a_page_that_never_ends_holds_the_others_only_once(monkeypatch):
    monkeypatch.setattr(turn, "PATIENCE_S", 0.2)
    begun, end = Event(), Event()

    def endless():
        with in_turn():
            begun.set()
            end.wait(60)

    beside = Thread(target=endless)
    beside.start()
    assert begun.wait(60)
    with in_turn():
        assert turn._turn.locked()
    monkeypatch.setattr(turn, "PATIENCE_S", 60.0)
    after = Event()
    drawn_beside(after).join(30)
    assert after.is_set()
    end.set()
    beside.join(60)  # it gives up a turn that nobody waits for
    assert not turn._turn.locked()


def test_the_wizard_draws_its_pages_in_turn(monkeypatch):
    """Short work within the turn, what mends a boat out of it."""
    seen = {}

    def noting(name, work):
        def noted(*given, **more):
            seen[name] = turn._turn.locked()
            return work(*given, **more)
        return noted

    monkeypatch.setattr("sizer.web.session.run", noting("fit", run))
    monkeypatch.setattr("sizer.web.steps.mend.remedies", noting("mend", lambda *_: ()))
    opened("boat", measured({"weight_kg": "150", "stature_mm": "1900", "hip_width_mm": "540"}))
    assert seen == {"fit": True, "mend": False}
    assert not turn._turn.locked()


def test_the_first_page_of_a_process_tells_that_it_gets_ready_and_no_other(monkeypatch):
    told = []
    monkeypatch.setattr(turn, "_awake", Event())
    monkeypatch.setattr(turn, "put", told.append)
    screen = opened("words")
    assert ["Getting ready" in one for one in told] == [True]
    screen.run()
    opened("words")
    assert len(told) == 1
