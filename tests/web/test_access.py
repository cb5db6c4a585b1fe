"""No serious or critical fault of access on any page, by axe-core, in both themes and sizes."""

from app_screen import measured
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect
from screens import go, settled

from sizer.web.look import COLOURS

WIDE = """Math.max(document.querySelector('[data-testid=stMain]').scrollWidth,
  document.documentElement.scrollWidth)"""
INKS = """() => [['.sz-strip', 'color'], ['.sz-drawing .sz-ink', 'stroke'],
  ['.js-plotly-plot .scatterlayer .js-line', 'stroke'], ['.js-plotly-plot .xtick text', 'fill']]
  .map(([where, what]) => getComputedStyle(document.querySelector(where))[what])"""

PAGES = ("Paddler", "Use and base", "Boat", "Trade-offs", "Water", "Bench", "Files", "Dry fit",
         "Launch", "Own design",
         "Size range", "Shop", "Words", "Jobs")


def turn(page, theme):
    """As the system's own setting does."""
    page.emulate_media(color_scheme=theme)
    expect(page.locator("[data-testid=stApp]")).to_have_css("color-scheme", theme)
    settled(page)


# Rules whose faults axe calls serious or critical: it takes a rule's own impact for all of them.
WORST = """axe._audit.rules.filter(rule => ['serious', 'critical'].includes(rule.impact) &&
  rule.enabled).map(rule => rule.id)"""


def serious(page, rules=()):
    """The serious and critical faults of a page: (rule, the elements); by some rules or by all."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(Axe().axe_script)
    found = page.evaluate("only => axe.run(only).then(told => told.violations)", {
        "resultTypes": ["violations"], "runOnly": rules or page.evaluate(WORST)})
    assert {fault["impact"] for fault in found} <= {"serious", "critical"}
    return [(fault["id"], [node["html"][:160] for node in fault["nodes"]]) for fault in found]


THEMES = ("light", "dark")
OF_COLOUR = ("color-contrast", "link-in-text-block")  # all that a theme can change
SIZES = ((360, 740), (768, 1024), (1920, 1080))  # one on each side of look.py's two breaks
TOO_LARGE = {"weight_kg": "150", "stature_mm": "1900", "hip_width_mm": "540"}


def resized(page, size):
    page.set_viewport_size({"width": size[0], "height": size[1]})
    settled(page)


def test_axe_finds_no_serious_fault_nothing_is_cut_and_cautions_are_in_sight(open_page):
    """Every page in every size as it is in one theme, then turned to the other, in which the next
    page opens, in another size: no break of look.py changes a colour."""
    themes, found = THEMES, []
    page = open_page(*SIZES[0], color_scheme=themes[0])
    for at, name in enumerate(PAGES):
        sizes = *SIZES[at % len(SIZES):], *SIZES[:at % len(SIZES)]
        resized(page, sizes[0])
        go(page, name)
        page.mouse.move(0, 0)  # a slider under it fades its ends in, half seen by axe
        assert page.get_by_role("heading", level=1).inner_text() == name
        for size in sizes:
            resized(page, size)
            found += [(name, size[0], themes[0], *fault) for fault in serious(page)]
            wide = page.evaluate(WIDE)
            found += [(name, size[0], "wider than the screen", wide)] * (wide > size[0])
            expect(page.locator(".sz-foot")).to_be_in_viewport()
            expect(page.locator(".sz-strip")).to_contain_text("Sample paddler")
            page.get_by_test_id("stMain").evaluate("main => main.scrollTo(0, main.scrollHeight)")
            expect(page.locator(".sz-strip")).to_be_in_viewport()
            page.get_by_test_id("stMain").evaluate("main => main.scrollTo(0, 0)")
        themes = themes[::-1]
        turn(page, themes[0])
        found += [(name, size[0], themes[0], *fault) for fault in serious(page, OF_COLOUR)]
    assert not found


def test_pictures_and_charts_turn_with_the_system(open_page):
    """What was drawn in the light is read in the dark, without the page being drawn again."""
    page = open_page(1366, 768, color_scheme="light", path="water")
    ink = {}
    for theme in THEMES:
        turn(page, theme)
        ink[theme] = page.evaluate(INKS)
        assert set(ink[theme]) == {_rgb(COLOURS[theme]["ink"])}, theme
    assert len(ink["light"]) == len(ink["dark"]) == 4


def _rgb(colour):
    return "rgb({}, {}, {})".format(*(int(colour[at:at + 2], 16) for at in (1, 3, 5)))


def test_axe_finds_no_serious_fault_in_a_boat_that_does_not_pass(open_page):
    page, themes = open_page(path="boat", one=measured(TOO_LARGE)), THEMES
    expect(page.locator(".sz-strip")).to_contain_text("does not pass")
    for look in ("The body's room", "Turn it round", "Sections"):
        page.get_by_role("radio", name=look).click()
        settled(page)
        assert not serious(page), (look, themes[0])
        themes = themes[::-1]
        turn(page, themes[0])
        assert not serious(page, OF_COLOUR), (look, themes[0])


def test_every_control_of_the_boat_is_reached_by_keys(open_page):
    page = open_page(path="boat")
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
