"""How the tests of pages drive the wizard without a browser, and read what is on its screen."""

import re
from html import unescape
from pathlib import Path

from streamlit.testing.v1 import AppTest

import sizer.web
from sizer.built.asked import measured_of
from sizer.fit.request import read_request
from sizer.shop.settings import SHOP
from sizer.web import session
from sizer.web.draft import Draft
from sizer.web.history import History
from sizer.web.steps import dry_fit_read, mend, patterns, trade

APP = str(Path(sizer.web.__file__).with_name("app.py"))
WHOSE = '<span class="sz-whose">(.*?)</span>'
MEASURES = {"weight_kg": "82", "stature_mm": "1780", "hip_width_mm": "385"}


def measured(measures=None, **choices):
    """A Draft with the usual paddler, or another, typed into it."""
    one = Draft(**choices)
    for key, text in (MEASURES if measures is None else measures).items():
        one = one.enter(key, text)
    return one


def engine_job(one):
    """The engine's own job of a Draft, for a shop that has settled nothing: `remembering` works it
    out once for tests and pages, where they ask the same."""
    return session.run(read_request(one.request()), session.lines_of(one, one.base), shop=SHOP)


def engine_bench(job):
    """The engine's own Bench of a job, in the same way."""
    return patterns.bench_of(job, SHOP)


def engine_study(job):
    """The engine's own Study of a job, in the same way."""
    return session.study(job.fitted.assessed, job.mishaps.rigid)


def engine_map(job, across, up):
    """The engine's own map of a job, whose seat is not held, in the same way."""
    return trade.passing_map(job.fitted.assessed, False, across, up, tell=lambda share: None)


def engine_remedies(one, job):
    """The engine's own Remedies of a Draft and its job, in the same way."""
    others = {key: session.lines_of(one, key) for key in session.base_keys(one) if key != one.base}
    return mend.remedies(job.request, job.lines, job.fitted, others, SHOP)


def engine_dry_fit(job, asked, values_m, unit="mm"):
    """The engine's own DryFit of what a tape that is good to 2 mm says, in the same way."""
    measured_m = measured_of(asked, values_m, job.setting_up.baseline_height_m)
    return dry_fit_read.dry_fit(job, measured_m, 0.002, unit)


def opened(path, one=None):
    """The whole wizard on a page, with a Draft in it."""
    screen = AppTest.from_file(APP, default_timeout=600)
    screen.session_state["mine"] = {"history": History(measured() if one is None else one),
                                    "go": path}
    return ran(screen)


def at(key, path=""):
    """A session of another browser, or after a reload, on the address of a job."""
    screen = AppTest.from_file(APP, default_timeout=600)
    screen.query_params["job"] = key
    if path:
        screen.session_state["mine"] = {"go": path}
    return ran(screen)


def ran(screen):
    screen.run()
    assert not screen.exception, screen.exception
    return screen


def turned_to(screen, path):
    """The same session on another page."""
    return clicked(screen, f"go_{path}", by_key=True)


def clicked(screen, name, by_key=False):
    """After a button whose label begins so, or whose key is this."""
    next(one for one in screen.button
         if (one.key == name if by_key else one.label.startswith(name))).click()
    return ran(screen)


def drafted(screen):
    return screen.session_state["mine"]["history"].present


def of(kind, label):
    """The one widget of a kind whose label begins so."""
    found = [one for one in kind if one.label.startswith(label)]
    assert len(found) == 1, [one.label for one in kind]
    return found[0]


def plain(html):
    html = re.sub(r"<title>.*?</title>", "", html)
    return unescape(re.sub(r"<.*?>", " ", html)).replace("\xa0", " ")


def said(screen):
    """All texts of the page, as one."""
    return re.sub(r"\s+", " ", " ".join(plain(one.value) for one in screen.markdown))


def strip(screen):
    """What the strip says of the boat."""
    return re.sub(r"\s+", " ", plain(re.sub(WHOSE, "", _strip(screen)))).strip()


def whose(screen):
    """Whose boat the strip says it is."""
    return plain("".join(re.findall(WHOSE, _strip(screen))))


def _strip(screen):
    return next(one.value for one in screen.markdown if "sz-strip" in one.value)


def rows(screen, heading):
    """{first cell: the other cells} of the table whose first heading this is."""
    for one in screen.markdown:
        head = re.search(r"<th [^>]*>(.*?)</th>", one.value)
        if head and plain(head[1]) == heading:
            lines = re.findall(r"<tr>(.*?)</tr>", one.value.split("tbody>")[1])
            cells = [[re.sub(r"\s+", " ", plain(cell)).strip()
                      for cell in re.findall(r"<td.*?>(.*?)</td>", line)] for line in lines]
            return {line[0]: line[1:] for line in cells}
    raise AssertionError(f"no table {heading}")
