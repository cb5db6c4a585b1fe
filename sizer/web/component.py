"""Our own small components, each a name.js and perhaps a name.css beside this file."""

from importlib import resources

import streamlit as st


def component(name, html=None):
    """What puts the component of this name on a page."""
    return st.components.v2.component(f"sizer_{name}", html=html, css=text_beside(f"{name}.css"),
                                      js=text_beside(f"{name}.js"))


def text_beside(name):
    """The text of a file beside this one; None where there is none."""
    file = resources.files("sizer.web").joinpath(name)
    return file.read_text("utf-8") if file.is_file() else None
