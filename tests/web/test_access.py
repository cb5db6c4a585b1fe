"""No serious or critical fault of access on any page, by axe-core, in both themes and sizes."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from screens import go

PAGES = ("Paddler", "Use and base", "Boat", "Trade-offs", "Water", "Bench", "Files", "Own design",
         "Words")


@pytest.mark.parametrize("size", [(1440, 900), (390, 844)])
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_axe_finds_no_serious_fault(open_page, theme, size):
    page = open_page(*size, color_scheme=theme)
    found = []
    for name in PAGES:
        go(page, name)
        found += [(name, fault["id"], [node["html"][:160] for node in fault["nodes"]])
                  for fault in Axe().run(page).response["violations"]
                  if fault["impact"] in ("serious", "critical")]
    assert not found


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
        ("Length", "Beam", "Depth", "Cockpit", "Seat", "Foredeck", "Gear", "Speed"))]
    order = list(dict.fromkeys(name.split(",")[0] for name in sliders))
    assert order == ["Length", "Beam", "Depth", "Cockpit length", "Cockpit width", "Seat",
                     "Foredeck crown", "Gear", "Speed"]
