"""The wizard: one page a step, one draft a session. Started by `python -m sizer`."""

from pathlib import Path

import streamlit as st

from sizer.web.look import put, put_styles
from sizer.web.state import draft, leave, read_fields
from sizer.web.steps import bench, boat, choose, crowd, files, own, paddler, trade, water, words
from sizer.web.strip import put_foot, put_steps, put_strip

STEPS = (
    (paddler.page, "Paddler", "paddler"),
    (choose.page, "Use and base", "base"),
    (boat.page, "Boat", "boat"),
    (trade.page, "Trade-offs", "trade"),
    (water.page, "Water", "water"),
    (bench.page, "Bench", "bench"),
    (files.page, "Files", "files"),
)
ASIDES = (  # open at any time, beside the walk
    (own.page, "Own design", "own"),
    (crowd.page, "Size range", "sizes"),
    (words.page, "Words", "words"),
)
OWN_STRIP = ("boat", "trade", "water")  # they put the strip themselves


def main():
    """Draws the current page."""
    read_fields()  # before anything else, whichever page they are on
    st.set_page_config(page_title="Kayak sizer", layout="wide",
                       page_icon=str(Path(__file__).parent / "icon.svg"))
    pages = {path: st.Page(page, title=title, url_path=path, default=path == "paddler")
             for page, title, path in (*STEPS, *ASIDES)}
    current = st.navigation(list(pages.values()), position="hidden")
    path = next(path for path, page in pages.items() if page is current)
    leave(pages, path)
    put_styles()
    put(f'<div class="sz-unseen" role="heading" aria-level="1">{current.title}</div>')
    put_steps(*({path: title for _, title, path in part} for part in (STEPS, ASIDES)), path)
    if path not in OWN_STRIP:
        put_strip(undoing=path != "own")
    current.run()
    put_foot(draft())


main()
