"""How the browser tests move through the wizard."""

import re

from playwright.sync_api import expect

PATIENCE_MS = 300_000  # a loaded machine is slow, not wrong: what is waited for is a state
# Told to a page before it opens: whether what it sent last has been answered.
WATCHED = """(() => {
  const Plain = window.WebSocket;
  window.WebSocket = class extends Plain {
    constructor(...given) {
      super(...given);
      this.addEventListener('message', () => { window.szAnswered = window.szSent; });
    }
    send(data) {
      window.szSent = (window.szSent || 0) + 1;
      super.send(data);
    }
  };
})()"""
# Told likewise: what is on its way stands still. The software that draws a page without a graphics
# card takes as much for its grey bars and turning wheels as for all else.
STILL = """document.adoptedStyleSheets.push(new CSSStyleSheet());
document.adoptedStyleSheets.at(-1).replaceSync(`:is([data-testid=stSkeleton],
  [data-testid=stSkeleton] *, [data-testid=stSpinnerIcon]) { animation: none !important; }`);"""
# Longer than a slider waits before it tells where it was put, by the page's own clock.
CALM = """selector => new Promise(done => {
  let calm = 0, height = 0;
  const tick = () => {
    const answered = window.szSent === window.szAnswered;
    const before = height;
    height = document.querySelector('[data-testid=stMain]')?.scrollHeight;
    calm = answered && height === before && document.querySelector(selector) ? calm + 1 : 0;
    calm > 10 ? done(true) : setTimeout(tick, 30);
  };
  tick();
})"""
expect.set_options(timeout=PATIENCE_MS)
IDLE = "[data-testid=stApp][data-test-script-state=notRunning]"


def context_of(browser, **more):
    """A context of its own, whose pages are told all this before they open."""
    context = browser.new_context(**more)
    context.set_default_timeout(PATIENCE_MS)
    for script in (WATCHED, STILL):
        context.add_init_script(script)
    return context


def settled(page):
    """Waits until what the page sent is answered, the script has run, and nothing moves it on."""
    page.wait_for_function(CALM, arg=IDLE)


def field(page, label):
    return page.get_by_role("textbox", name=re.compile(f"^{label}"))


def type_in(page, label, text):
    field(page, label).fill(text)
    field(page, label).press("Tab")
    settled(page)


def measure(page, weight="82", height="1780", hips="385"):
    for label, text in (("Weight", weight), ("Height", height), ("Hip width", hips)):
        type_in(page, label, text)


def press(page, name):
    page.get_by_role("button", name=name).click()
    settled(page)


def go(page, step):
    link = page.locator(".st-key-links").get_by_role("button", name=step)
    title = link.inner_text().strip().lstrip("0123456789 ")
    link.click()
    expect(page.locator(".sz-unseen[role=heading]")).to_have_text(title)
    settled(page)


def downloaded(page, name):
    with page.expect_download() as caught:
        page.get_by_role("button", name=name).click()
    with open(caught.value.path(), encoding="utf-8-sig", newline="") as file:
        return file.read()
