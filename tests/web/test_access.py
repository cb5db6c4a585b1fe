"""No serious or critical fault of access on any page, by axe-core, in both themes and sizes."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from screens import go, measure, settled

PAGES = ("Paddler", "Use and base", "Boat", "Trade-offs", "Water", "Bench", "Files", "Own design",
         "Size range", "Words")


def serious(page):
    """The serious and critical faults of a page: (rule, the elements)."""
    return [(fault["id"], [node["html"][:160] for node in fault["nodes"]])
            for fault in Axe().run(page).response["violations"]
            if fault["impact"] in ("serious", "critical")]


@pytest.mark.parametrize("size", [(1440, 900), (390, 844)])
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_no_serious_fault(open_page, theme, size):
    page = open_page(*size, color_scheme=theme)
    found = []
    for name in PAGES:
        go(page, name)
        found += [(name, *fault) for fault in serious(page)]
    assert not found


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_no_serious_fault_in_a_boat_that_does_not_pass(open_page, theme):
    page = open_page(color_scheme=theme)
    measure(page, "150", "1900", "540")
    go(page, "Boat")
    for look in ("The body's room", "Turn it round", "Sections"):
        page.get_by_role("radio", name=look).click()
        settled(page)
        assert not serious(page), look


def test_every_page_has_its_name_as_first_heading(open_page):
    page = open_page()
    for name in PAGES:
        go(page, name)
        assert page.get_by_role("heading", level=1).inner_text() == name


def test_every_control_of_the_boat_is_reached_by_keys(open_page):
    page = open_page()
    go(page, "Boat")
    seen = []
    for _ in range(60):
        page.keyboard.press("Tab")
        seen.append(page.evaluate("""() => {
          const at = document.activeElement;
          return at.getAttribute('aria-label') || at.innerText || at.id || at.tagName;
        }"""))
    sliders = [name for name in seen if name.startswith(
        ("Room", "Steadiness", "Length", "Beam", "Depth", "Cockpit", "Seat", "Foredeck", "Gear",
         "Speed"))]
    order = list(dict.fromkeys(name.split(",")[0] for name in sliders))
    assert order == ["Room inside", "Steadiness", "Length for the load", "Length", "Beam", "Depth",
                     "Cockpit length", "Cockpit width", "Seat", "Foredeck crown", "Gear", "Speed"]
