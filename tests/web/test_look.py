"""The look of the pages: shapes beside the words, colours for every pen."""

import re
from xml.etree import ElementTree

import pytest
from app_screen import measured
from screens import settled

from sizer.drawing.pens import PENS
from sizer.web.look import COLOURS, status_html


def test_status_shapes_differ_and_say_their_word():
    shapes = [ElementTree.fromstring(re.search("<svg.*</svg>", status_html(status)).group())
              for status in ("pass", "caution", "fail")]
    assert len({root[1].get("d") for root in shapes}) == 3
    assert [root[0].text for root in shapes] == ["passes", "caution", "does not pass"]
    assert [root.get("aria-label") for root in shapes] == ["passes", "caution", "does not pass"]


@pytest.mark.parametrize("theme", COLOURS)
def test_every_pen_has_its_colour_in_both_themes(theme):
    assert {pen.colour for pen in PENS.values()} <= set(COLOURS[theme])


def test_a_colour_tells_what_it_is_for_whatever_the_theme():
    """The page's rules know a chart's strokes by their colour: no two names share one."""
    assert COLOURS["light"].keys() == COLOURS["dark"].keys()
    seen = {}
    for colours in COLOURS.values():
        for name, colour in colours.items():
            assert seen.setdefault(colour, name) == name


def test_a_drawing_that_moves_sideways_says_so_and_no_other(open_page):
    page = open_page(path="bench", one=measured())
    for width in (390, 1440):
        page.set_viewport_size({"width": width, "height": 900})
        settled(page)
        drawing = page.locator(".sz-scrolled").first
        beyond = drawing.evaluate("box => box.scrollWidth - box.clientWidth")
        assert (beyond > 100) == (width == 390)
        assert page.get_by_text("move it sideways").first.is_visible() == (beyond > 0)
        shaded = drawing.evaluate("box => getComputedStyle(box).backgroundImage")
        assert shaded.count("gradient") == 4  # as of tables whose columns go on
