"""The way by keys: past the menu, to the heading of a new page, to what a press has made."""

import streamlit as st

from sizer.web.component import component

_mount = component("reach", '<button type="button">Skip the menu</button>')


def put_reach(title, made="", number=0):
    """Puts the link; after a step it takes the heading of the page of this title in hand.

    `made` is the key of a container that the last press has filled: its first button or field is
    taken in hand, once for each `number`. The script also lets Enter in a field of the container
    "measures" press "next_measured", and tells what is typed in a field of several lines.
    """
    with st.container(key="reach"):
        _mount(key="reach_script", data={"title": title, "made": made, "number": number})
