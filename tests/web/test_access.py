"""No serious or critical fault of access on any page, by axe-core, in both themes and by keys."""

from app_screen import measured
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect
from screens import go, settled
from test_reach import FIRST_LINK, HEADING, IN_HAND

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


def serious(page):
    """The serious and critical faults of a page: (rule, the elements). Its style sheets, which all
    pages share, are read anew where it is loaded anew only."""
    anew = not page.evaluate("'axe' in window")
    if anew:
        page.evaluate(Axe().axe_script)
    found = page.evaluate("only => axe.run(only).then(told => told.violations)", {
        "resultTypes": ["violations"], "runOnly": page.evaluate(WORST), "selectors": False,
        "preload": anew})
    assert {fault["impact"] for fault in found} <= {"serious", "critical"}
    return [(fault["id"], [node["html"][:160] for node in fault["nodes"]]) for fault in found]


THEMES = ("light", "dark")
PHONE, BETWEEN, DESK = (360, 740), (768, 1024), (1920, 1080)  # one on each side of look.py's breaks
TOO_LARGE = {"weight_kg": "150", "stature_mm": "1900", "hip_width_mm": "540"}


def resized(page, size):
    page.set_viewport_size({"width": size[0], "height": size[1]})
    settled(page)


def cut_or_out_of_sight(page, size):
    """What is wider than the screen; the cautions and the strip are in sight."""
    wide = page.evaluate(WIDE)
    expect(page.locator(".sz-foot")).to_be_in_viewport()
    expect(page.locator(".sz-strip")).to_contain_text("Sample paddler")
    page.get_by_test_id("stMain").evaluate("main => main.scrollTo(0, main.scrollHeight)")
    expect(page.locator(".sz-strip")).to_be_in_viewport()
    page.get_by_test_id("stMain").evaluate("main => main.scrollTo(0, 0)")
    return [("wider than the screen", wide)] * (wide > size[0])


def first_link_leads_to_the_first_field(page, name):
    """Past menu and strip, by keys."""
    page.get_by_role("link", name=FIRST_LINK).focus()
    page.keyboard.press("Enter")
    expect(page.locator(HEADING)).to_be_focused()
    expect(page.locator(HEADING)).to_have_text(name)
    page.keyboard.press("Tab")
    page.wait_for_function(f"() => !document.activeElement.matches({HEADING!r})")
    first = page.evaluate("""() => {
      const own = [...document.querySelectorAll('[data-testid=stMain] :is(input, button, ' +
        'textarea, select, [tabindex="0"])')].filter(one => one.checkVisibility() &&
        !one.closest('.st-key-reach, .st-key-steps, .st-key-strip') && one.tabIndex >= 0);
      return [own.indexOf(document.activeElement), document.activeElement.outerHTML]; }""")
    assert first[0] == 0, (name, first)


def every_control_of_the_boat_is_reached(page):
    """By the key Tab, from the page's first field."""
    seen = [page.evaluate(IN_HAND)]
    for _ in range(40):
        page.keyboard.press("Tab")
        seen.append(page.evaluate(IN_HAND))
    sliders = [name for name in seen if name.startswith(
        ("Room", "Steadiness", "Length", "Beam", "Depth", "Cockpit", "Seat", "Foredeck", "Gear",
         "Speed"))]
    order = list(dict.fromkeys(name.split(",")[0] for name in sliders))
    assert order == ["Room inside", "Steadiness", "Length for the load", "Length", "Beam", "Depth",
                     "Cockpit length", "Cockpit width", "Seat", "Foredeck crown", "Gear", "Speed"]


def pictures_and_charts_turn(page):
    """What was drawn in the light is read in the dark, without the page being drawn again."""
    ink = {}
    for theme in THEMES:
        turn(page, theme)
        ink[theme] = page.evaluate(INKS)
        assert set(ink[theme]) == {_rgb(COLOURS[theme]["ink"])}, theme
    assert len(ink["light"]) == len(ink["dark"]) == 4


ALSO = {"Boat": every_control_of_the_boat_is_reached, "Water": pictures_and_charts_turn}


def test_axe_finds_no_serious_fault_nothing_is_cut_and_cautions_are_in_sight(open_page):
    """Every page on both sides of the break at which other pictures and tables are shown, in one
    theme on one side and in the other on the other, in which the next page opens: no break of
    look.py changes a colour. And what the keys reach, on each."""
    found, page = [], open_page(*PHONE)
    page.keyboard.press("Tab")
    assert page.evaluate(IN_HAND) == FIRST_LINK
    page.keyboard.press("Enter")  # in hand it lies over the pages' links
    for at, name in enumerate(PAGES):
        sizes = (PHONE, BETWEEN, DESK)[::-1 if at % 2 else 1]
        themes = THEMES[::-1 if at % 4 in (1, 2) else 1]
        resized(page, sizes[0])
        turn(page, themes[0])
        go(page, name)
        page.mouse.move(0, 0)  # a slider under it fades its ends in, half seen by axe
        assert page.get_by_role("heading", level=1).inner_text() == name
        for size, theme in zip(sizes, (themes[0], None, themes[1]), strict=True):
            resized(page, size)
            if theme:
                turn(page, theme)
                found += [(name, size[0], theme, *fault) for fault in serious(page)]
            found += [(name, size[0], *fault) for fault in cut_or_out_of_sight(page, size)]
        first_link_leads_to_the_first_field(page, name)
        if name in ALSO:
            ALSO[name](page)
    assert not found


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
    assert not serious(page), (look, themes[0])  # the last in both: what failed is told on each
