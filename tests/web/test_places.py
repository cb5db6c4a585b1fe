"""What is typed or moved keeps its place on its page whatever comes and goes above it.

A field that moves by one place is drawn anew by the browser and drops out of the hand: 7 of 25
phones on a busy machine lost the second measure so.
"""

import pytest
from app_screen import measured, of, opened, ran

from sizer.web.draft import Draft


def places(screen):
    """{key of a field: its way down from the page}."""
    found = {}

    def walk(block, way):
        for number, one in getattr(block, "children", {}).items():
            found[getattr(one, "key", None)] = (*way, number)
            walk(one, (*way, number))

    walk(screen.main, ())
    return {key: way for key, way in found.items() if key and ":" in key}  # as `standing` names it


@pytest.mark.parametrize(("page", "one", "moves"), [
    ("paddler", Draft().with_sample(), (
        ("text_input", "Weight", "82"), ("text_input", "Height", "x"),
        ("text_input", "Height", "1780"), ("radio", "Hips", "predicted"),
        ("radio", "Hips", "sitting"), ("text_input", "Inseam", "1300"))),
    ("base", measured(), (("text_input", "Gear", "x"), ("text_input", "Gear", "12"))),
    ("boat", measured(), (
        ("text_input", "Length, typed", "x"), ("text_input", "Length, typed", "4900"),
        ("slider", "Beam", 700.0), ("select_slider", "Steadiness", 4))),
    ("trade", measured(), (("text_input", "By", "x"), ("text_input", "By", "-3"))),
    ("launch", measured(), (
        ("text_input", "The boat on", "x"), ("text_input", "The boat on", "20"),
        ("text_input", "First", "1"), ("text_input", "First", "15"))),
    ("shop", measured(), (("text_input", "Router", "x"), ("text_input", "Router", "6")))])
def test_a_field_stays_in_its_place_while_another_is_typed_or_moved(
        page, one, moves, no_remedies, few_bases):
    few_bases("day-boat", "long-tourer")
    screen = opened(page, one)
    for kind, label, value in moves:
        before = places(screen)
        field = of(getattr(screen, kind), label)
        field.set_value(field.options[value] if kind == "select_slider" else value)
        now = places(ran(screen))
        assert len(before) > 1
        assert {key: way for key, way in now.items() if key in before} == {
            key: way for key, way in before.items() if key in now}, f"{label}: {value}"


def test_what_is_said_of_the_job_moves_no_field():
    screen = opened("paddler")
    before = places(screen)
    screen.session_state["mine"]["view"]["job_says"] = ("Changed on another screen.", None)
    assert places(ran(screen)) == before
