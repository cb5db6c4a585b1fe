"""Dry fit and launch on a phone at the bench: one measure at a time, nothing wider than the screen.
"""

import re

from playwright.sync_api import expect
from screens import press, settled, type_in

WIDTH = 390


def no_wider(page):
    return page.evaluate("document.querySelector('[data-testid=stMain]').scrollWidth") <= WIDTH


def test_measures_are_typed_one_by_one_and_the_launch_leads_with_cautions(open_page):
    page = open_page(WIDTH, 800, "dryfit")
    asked = page.get_by_role("textbox", name=re.compile("^1 of 20"))
    designed = float(asked.get_attribute("placeholder").split()[1])
    type_in(page, "1 of 20", str(designed + 5.5))
    expect(page.get_by_text(re.compile(r"^designed: .*5\.5\smm more"))).to_be_visible()
    expect(page.get_by_role("heading", name="Notches to move")).to_be_visible()
    assert no_wider(page)
    type_in(page, "1 of 20", str(designed + 5.0))  # its name in the list of all changes again
    expect(page.get_by_text(re.compile(r"^designed: .*5\.0\smm more"))).to_be_visible()
    press(page, "Next measure")
    second = page.get_by_role("textbox", name=re.compile("^2 of 20"))
    expect(second).to_have_value("")
    stays = page.get_by_text(re.compile(r"^1\. .*5\.0\smm more"))  # of what was typed before
    expect(stays).to_be_in_viewport()
    assert stays.bounding_box()["y"] < second.bounding_box()["y"]
    picture = page.locator(".sz-narrow svg").first
    assert 0.8 * WIDTH < picture.bounding_box()["width"] <= WIDTH
    expect(page.get_by_role("textbox", name=re.compile("^2 of 20"))).to_be_focused()
    page.reload()  # as a phone that slept: on with the first that is not typed yet
    settled(page)
    second = page.get_by_role("textbox", name=re.compile("^2 of 20"))
    second.fill(second.get_attribute("placeholder").split()[1])
    second.press("Enter")
    expect(page.get_by_role("textbox", name=re.compile("^3 of 20"))).to_be_focused()
    settled(page)
    page.get_by_text("Which measures more would tell most").click()
    more = page.locator("[class*=st-key-more_] button").first
    words = more.inner_text()
    more.evaluate("one => one.scrollIntoView({block: 'center'})")
    more.click()
    expect(page.get_by_role("textbox", name=re.compile(f"{words}, mm$"))).to_be_focused()
    assert page.evaluate("""() => { const at = document.activeElement.getBoundingClientRect();
        return document.elementFromPoint(at.x + at.width / 2, at.y + at.height / 2)
            === document.activeElement; }""")  # no strip or caution lies over it
    settled(page)
    press(page, "Next: the launch")
    type_in(page, "First without a weight", "0")
    expect(page.get_by_text(re.compile(r"^Begin with \d"))).to_be_visible()
    caution = page.get_by_text(re.compile("Make the trials near shore, in warm"))
    assert (caution.bounding_box()["y"]
            < page.get_by_role("heading", name="Ashore").bounding_box()["y"])
    type_in(page, "The boat on a scale", "17")
    expect(page.get_by_role("heading", name="What it teaches")).to_be_visible()
    assert no_wider(page)
