"""Somebody who touches anything in any order: whatever is typed, moved, pressed or left half done,
no page raises.

A few touches in the normal run; `SIZER_KNOCKS=2000` makes so many, `SIZER_SEED` other ones.
"""

import os
import random

import pytest
from app_screen import drafted, measured, opened, ran
from streamlit.testing.v1 import element_tree

from sizer.web.job_file import job_text, opened_job

TOUCHES = int(os.environ.get("SIZER_KNOCKS", "0")) or 30
SEED = int(os.environ.get("SIZER_SEED", "1"))
TEXTS = ("", "82", "70,5", "5 ft 10", "178 cm", "13 st 4", "1250", "2200", "414", "15 1/4 in", "0",
         "-3", "1e999", "NaN", "9" * 400, "<b>x</b>", "Zoë 舟", "\u202e\u0000", "a\nb", "½", "١٢")
PAGES = ("jobs", "paddler", "base", "boat", "trade", "water", "bench", "files", "own", "sizes",
         "words")


AS_WORDS = element_tree._format_value_for_widget


def as_words(function, value):
    """An option in its words; what is chosen by its words stays."""
    found = AS_WORDS(function, value)
    return value if found is None else found


def typed(one, chance):
    one.set_value(chance.choice(TEXTS))


def moved(one, chance):
    steps = round((one.max - one.min) / one.step) if one.step else 1
    one.set_value(type(one.value)(min(one.min + chance.randint(0, steps) * one.step, one.max)))


def chosen(one, chance):
    one.set_value(chance.choice(one.options) if one.options else None)


def switched(one, chance):
    one.set_value(chance.choice((True, False)))


TOUCHED = {"text_input": typed, "text_area": typed, "number_input": moved, "slider": moved,
           "selectbox": chosen, "radio": chosen, "button_group": chosen, "checkbox": switched,
           "toggle": switched}


def touch(screen, chance):
    """Changes one widget of the page, not yet sent; says which."""
    there = [(kind, one) for kind in TOUCHED for one in getattr(screen, kind, ())
             if not getattr(one, "disabled", False)]
    if not there:
        return "nothing"
    kind, one = chance.choice(there)
    TOUCHED[kind](one, chance)
    return f"{kind} {one.label!r} = {one.value!r:.40}"


def press(screen, chance):
    """Presses one button, often one that leads to another page."""
    there = [one for one in screen.button if not one.disabled]
    links = [one for one in there if str(one.key).startswith("go_")]
    one = chance.choice(links if links and chance.random() < 0.4 else there)
    one.click()
    return f"button {one.label!r}"


@pytest.mark.parametrize("seed", [SEED])
def test_nothing_that_is_touched_raises(seed, monkeypatch):
    monkeypatch.setattr(element_tree, "_format_value_for_widget", as_words)
    chance, done = random.Random(seed), []
    screen = opened(chance.choice(PAGES), measured())
    for _ in range(TOUCHES):
        done += [touch(screen, chance) for _ in range(chance.randint(0, 2))]
        if chance.random() < 0.6 or not done:
            done.append(press(screen, chance))
        screen.run()
        assert not screen.exception, (done, screen.exception)
    one = drafted(ran(screen))
    assert opened_job(job_text(one).encode()).wishes == one.wishes()
