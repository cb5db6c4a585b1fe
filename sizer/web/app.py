"""The wizard: one page a step, one draft a session. Started by `python -m sizer`.

Every run draws the whole page. A run of a part (st.fragment) that is asked for while the person is
on the way to another page empties that page, or leaves it white (streamlit 1.67: such a run names
the page it was asked on, and what it drew last and did not send yet is dropped).
"""

from pathlib import Path

import streamlit as st

from sizer.book.jobs import jobs as jobs_of
from sizer.web.keeping import shop_book
from sizer.web.look import put, put_styles
from sizer.web.news import put_news
from sizer.web.reach import put_reach
from sizer.web.state import draft, kept_job, leave, put_address, read_fields, view
from sizer.web.steps import (
    bench,
    boat,
    choose,
    crowd,
    dry_fit,
    files,
    jobs,
    launch,
    own,
    own_use,
    paddler,
    shop,
    trade,
    water,
    words,
)
from sizer.web.steps.going import under_way
from sizer.web.strip import of_a_boat, of_the_job, put_foot, put_steps, put_strip, strip_places
from sizer.web.turn import in_turn, waking

FIRST = "jobs"
STEPS = (
    (paddler.page, "Paddler", "paddler"),
    (choose.page, "Use and base", "base"),
    (boat.page, "Boat", "boat"),
    (of_a_boat(trade.page), "Trade-offs", "trade"),
    (of_a_boat(water.page), "Water", "water"),
    (of_a_boat(bench.page), "Bench", "bench"),
    (files.page, "Files", "files"),
    (of_a_boat(dry_fit.page), "Dry fit", "dryfit"),
    (of_a_boat(launch.page), "Launch", "launch"),
)
ASIDES = (  # open at any time, beside the walk
    (own.page, "Own design", "own"),
    (crowd.page, "Size range", "sizes"),
    (shop.page, "Shop", "shop"),
    (words.page, "Words", "words"),
)
UNDOING = {"own": own_use.undoing, "shop": shop.undoing,  # where it is not the job's alone
           **dict.fromkeys((FIRST, "sizes", "words"))}
BESIDE = {"own": "The job's boat, not the one drawn here: "}  # what the strip's is there


def main():
    read_fields()  # before anything else, whichever page they are on
    st.set_page_config(page_title="Kayak sizer", layout="wide",
                       page_icon=str(Path(__file__).parent / "icon.svg"))
    pages = {path: st.Page(page, title=title, url_path=path, default=path == FIRST)
             for page, title, path in ((jobs.page, "Jobs", FIRST), *STEPS, *ASIDES)}
    current = st.navigation(list(pages.values()), position="hidden")
    path = next(path for path, page in pages.items() if page is current)
    view().setdefault("began", path)
    leave(pages, path, "paddler" if path == FIRST and _first_visit() else path)
    put_address()
    put_styles()
    put_reach(current.title, *view().get("in_hand", ()))
    put_news(kept_job(), under_way(), read_fields)
    put_steps(FIRST, *({path: title for _, title, path in part} for part in (STEPS, ASIDES)), path)
    above = strip_places()
    put(f'<div class="sz-unseen" role="heading" aria-level="1">{current.title}</div>')
    with waking(), in_turn():
        put_strip(above, UNDOING.get(path, of_the_job), BESIDE.get(path, ""))
        current.run()
        put_foot(draft())


def _first_visit():
    """Whether the sample is to be shown: a session that begins on a book without a job."""
    arrived, view()["arrived"] = view().get("arrived"), True
    return not arrived and not jobs_of(shop_book()[0], most=1)


main()
