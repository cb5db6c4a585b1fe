"""How the browser tests move through the wizard."""

import re

from playwright.sync_api import expect

CALM = """selector => new Promise(done => {
  let calm = 0;
  const tick = () => {
    calm = document.querySelector(selector) ? calm + 1 : 0;
    calm > 6 ? done(true) : setTimeout(tick, 30);
  };
  tick();
})"""
IDLE = "[data-testid=stApp][data-test-script-state=notRunning]"


def settled(page):
    """Waits until the script has run and what it sent is drawn."""
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
    expect(page.locator(".sz-unseen[role=heading]")).to_have_text(title, timeout=60_000)
    settled(page)


def downloaded(page, name):
    with page.expect_download() as caught:
        page.get_by_role("button", name=name).click()
    with open(caught.value.path(), encoding="utf-8-sig", newline="") as file:
        return file.read()
