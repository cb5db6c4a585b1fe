"""Our own small components, each a name.js and perhaps a name.css beside this file."""

from importlib import resources

import streamlit as st


def component(name, html=None):
    """What puts the component of this name on a page."""
    def text(ending):
        file = resources.files("sizer.web").joinpath(f"{name}.{ending}")
        return file.read_text("utf-8") if file.is_file() else None

    return st.components.v2.component(f"sizer_{name}", html=html, css=text("css"), js=text("js"))
