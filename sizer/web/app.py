"""The wizard: one page a step, one draft a session. Started by `python -m sizer`."""

from pathlib import Path

import streamlit as st

from sizer.web.look import put_styles
from sizer.web.session import draft
from sizer.web.steps import bench, boat, choose, paddler, water
from sizer.web.strip import put_foot, put_steps, put_strip

STEPS = (
    (paddler.page, "Paddler", "paddler"),
    (choose.page, "Use and base", "base"),
    (boat.page, "Boat", "boat"),
    (water.page, "Water", "water"),
    (bench.page, "Bench", "bench"),
)


def main():
    """Draws the current page."""
    st.set_page_config(page_title="Kayak sizer", layout="wide",
                       page_icon=str(Path(__file__).parent / "icon.svg"))
    pages = [st.Page(page, title=title, url_path=path, default=index == 0)
             for index, (page, title, path) in enumerate(STEPS)]
    current = st.navigation(pages, position="hidden")
    put_styles()
    st.session_state["pages"] = dict(zip((path for _, _, path in STEPS), pages, strict=True))
    put_steps(draft(), pages, current)
    if current.url_path not in ("boat", "water"):  # there it moves with the sliders
        put_strip(draft())
    current.run()
    put_foot(draft())


main()
