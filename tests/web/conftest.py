"""A served wizard and a real browser that may talk to nothing but this machine."""

import importlib.metadata
import os
import shutil
import sys

import pytest
from app_screen import engine_job, measured
from playwright.sync_api import sync_playwright
from remembering import remember
from screens import context_of, settled
from served import free_port, started_wizard
from streamlit.testing.v1 import local_script_runner

from sizer.book.jobs import new_job
from sizer.book.opening import open_book
from sizer.book.settings import set_setting
from sizer.built.asked import asked_of
from sizer.built.points import points_of
from sizer.web import session
from sizer.web.keeping import book_at_start
from sizer.web.steps import mend

FLAGS = ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync",
         "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost, EXCLUDE 127.0.0.1",
         "--disable-features=" + ",".join((
             # pages of the browser's own behind the field of its address, two for each window
             "WebUIOmniboxPopup", "WebUIOmniboxAimPopup",
             # what Playwright turns off likewise, in whose place this list stands
             "AimEnabled", "HttpsFirstBalancedModeAutoEnable", "HttpsUpgrades", "LensOverlay",
             "MediaRouter", "NetworkTimeServiceQuerying", "OptimizationHints", "PaintHolding",
             "PreconnectToSearch", "ThirdPartyStoragePartitioning"))]

# A page of a test lives for seconds: to compile its code once more for speed cost a fifth of all.
SHORT_LIVED = "--js-flags=--invocation-count-for-maglev=4000 --invocation-count-for-turbofan=30000"


@pytest.fixture(scope="session", autouse=True)
def worked_out_once():
    """The pages' jobs are kept from session to session."""
    with pytest.MonkeyPatch.context() as patch:
        remember(patch.setattr)
        yield


@pytest.fixture(scope="session", autouse=True)
def waited_for():
    """An AppTest sleeps until its run ends, where it would look a thousand times a second whether
    it has, through all that was said so far."""
    looks = local_script_runner.require_widgets_deltas

    def ended(runner, timeout):
        runner._script_thread.join(timeout)
        if not runner.script_stopped():
            looks(runner, 0.0)  # stops it, and says so

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(local_script_runner, "require_widgets_deltas", ended)
        yield


@pytest.fixture(scope="session", autouse=True)
def read_once():
    """An AppTest would read and compile the page's script anew for each of its runs."""
    scripts = local_script_runner.ScriptCache()
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(local_script_runner, "ScriptCache", lambda: scripts)
        yield


@pytest.fixture(autouse=True)
def no_components_of_others(monkeypatch):
    """Each AppTest would read the data of every installed package, for a quarter of a second."""
    monkeypatch.setattr(importlib.metadata, "distributions", lambda **_: ())


@pytest.fixture
def no_remedies(monkeypatch):
    """Nothing mends a boat that does not pass: what does takes seconds to try, and is looked at in
    test_mend_page.py."""
    monkeypatch.setattr(mend, "remedies", lambda *given: ())


@pytest.fixture
def few_bases(monkeypatch):
    """By `few_bases(*keys)`, these are all the bases to choose from: each costs a fit for its card,
    where it is not the cards that are looked at."""
    return lambda *keys: monkeypatch.setattr(session, "shipped_names", lambda: keys)


@pytest.fixture
def book(tmp_path, monkeypatch):
    """An empty book of the shop's, for pages that are run without a server."""
    monkeypatch.setenv("SIZER_BOOK", str(tmp_path / "book"))
    book_at_start.clear()
    yield book_at_start()[0]
    book_at_start.clear()


@pytest.fixture(scope="session")
def wizards_folder(tmp_path_factory):
    return tmp_path_factory.mktemp("wizard")


@pytest.fixture(scope="session")
def wizard(wizards_folder):
    """Address of a wizard that remembers, started from another folder; one that is started as the
    README says is in test_book_page.py and, for the network, in test_gate.py."""
    port, log = free_port(), wizards_folder / "log.txt"
    server = started_wizard(port, log, program="remembering", PYTHONPATH=os.pathsep.join(sys.path))
    yield f"http://localhost:{port}"
    server.terminate()
    server.wait(600)  # a page may be at work on its map still
    said = log.read_text()
    assert "Traceback" not in said, said


@pytest.fixture(scope="session")
def wizards_book(wizard, wizards_folder):
    """The book of that wizard, for jobs that were entered before a page is opened."""
    book = open_book(wizards_folder / "book")
    yield book
    book.close()


@pytest.fixture(scope="session")
def browser():
    found = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))),
                 None)
    assert found, "the browser tests need Chromium: install it (Debian: apt-get install chromium)"
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=found, args=[*FLAGS, SHORT_LIVED])
        yield started
        started.close()


@pytest.fixture(scope="session")
def new_page(browser, wizard):
    """(What makes an empty page in a context of its own, or beside another, the addresses of other
    hosts asked for)"""
    strangers = []

    def asked(request):
        if not request.url.startswith((wizard, "data:", "blob:")):
            strangers.append(request.url)

    def made(beside=None, **more):
        context = context_of(browser, **more) if beside is None else beside.context
        page = context.new_page()
        page.on("request", asked)
        return page

    return made, strangers


@pytest.fixture(scope="session")
def kept_pages():
    """{how a page was made: the page}: to load one anew takes half of the work of a new one."""
    return {}


@pytest.fixture
def open_page(new_page, wizard, wizards_book, kept_pages):
    """Opens a page of the wizard at a window size: the form with the sample, unless another path or
    a Draft, which is in the book then, is named. A test's first page is the last test's, loaded
    anew, unless it is to be `fresh`; a later one is another tab beside it, unless loaded `over`
    one. Every request to another host is a failure."""
    made, strangers = new_page
    own, taken = [], []

    def opened(width=1440, height=900, path="paddler", one=None, fresh=False, over=None,
               color_scheme="light", **more):
        how = repr(sorted(more.items()))
        if over is not None:
            page = over
        elif fresh or how in taken:
            page = made(None if fresh else kept_pages[how], **more)
            own.append(page.context if fresh else page)
        else:
            page = kept_pages[how] = kept_pages.get(how) or made(**more)
            taken.append(how)
        page.set_viewport_size({"width": width, "height": height})
        page.emulate_media(color_scheme=color_scheme)
        job = "" if one is None else f"?job={new_job(wizards_book, one.model_dump_json()).key}"
        page.goto(f"{wizard}/{path}{job}")
        settled(page)
        assert job in page.url, page.locator("body").inner_text()  # else it is the sample
        return page

    set_setting(wizards_book, "units", "{}")  # no test begins in another's
    yield opened
    for one in own:
        one.close()
    found = [*strangers]
    strangers.clear()
    assert not found


@pytest.fixture(scope="module")
def fitted():
    """The Job of the measured paddler, as the wizard has it."""
    return engine_job(measured())


@pytest.fixture(scope="module")
def asked(fitted):
    """All that its dry fit asks for."""
    return asked_of(points_of(fitted.fitted.assessed.boat), fitted.setting_up)
