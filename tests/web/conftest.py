"""A served wizard and a real browser that may talk to nothing but this machine."""

import importlib.metadata
import os
import shutil
import sys

import pytest
from playwright.sync_api import sync_playwright
from remembering import remember
from screens import PATIENCE_MS, WATCHED, settled
from served import free_port, started_wizard

from sizer.web.keeping import book_at_start

FLAGS = ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]


@pytest.fixture(scope="session", autouse=True)
def worked_out_once():
    """The pages' jobs are kept from session to session."""
    with pytest.MonkeyPatch.context() as patch:
        remember(patch.setattr)
        yield


@pytest.fixture(autouse=True)
def no_components_of_others(monkeypatch):
    """Each AppTest would read the data of every installed package, for a quarter of a second."""
    monkeypatch.setattr(importlib.metadata, "distributions", lambda **_: ())


@pytest.fixture
def book(tmp_path, monkeypatch):
    """An empty book of the shop's, for pages that are run without a server."""
    monkeypatch.setenv("SIZER_BOOK", str(tmp_path / "book"))
    book_at_start.clear()
    yield book_at_start()[0]
    book_at_start.clear()


@pytest.fixture(scope="session")
def wizard(tmp_path_factory):
    """Address of a wizard that remembers, started from another folder; one that is started as the
    README says is in test_book_page.py and, for the network, in test_gate.py."""
    port, log = free_port(), tmp_path_factory.mktemp("wizard") / "log.txt"
    server = started_wizard(port, log, program="remembering", PYTHONPATH=os.pathsep.join(sys.path))
    yield f"http://localhost:{port}"
    server.terminate()
    server.wait(600)  # a page may be at work on its map still
    said = log.read_text()
    assert "Traceback" not in said, said


@pytest.fixture(scope="session")
def browser():
    found = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))),
                 None)
    assert found, "the browser tests need Chromium: install it (Debian: apt-get install chromium)"
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=found, args=FLAGS)
        yield started
        started.close()


@pytest.fixture
def open_page(browser, wizard):
    """Opens a page of the wizard at a window size: the form with the sample, unless another is
    named. Every request to another host is a failure."""
    contexts, strangers = [], []

    def opened(width=1440, height=900, path="paddler", **more):
        context = browser.new_context(viewport={"width": width, "height": height},
                                      accept_downloads=True, **more)
        context.set_default_timeout(PATIENCE_MS)
        context.add_init_script(WATCHED)
        contexts.append(context)
        page = context.new_page()

        def guard(route):
            if route.request.url.startswith((wizard, "data:", "blob:")):
                route.continue_()
            else:
                strangers.append(route.request.url)
                route.abort()

        page.route("**/*", guard)
        page.goto(f"{wizard}/{path}")
        settled(page)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert not strangers, strangers
