"""Beside the walk: every trade word in a sentence, every check with a picture."""

from html import escape

import streamlit as st

from sizer.web.drawings.check_pictures import check_svg
from sizer.web.look import put, put_picture
from sizer.web.words import CHECK_HELP, GLOSSARY, check_help


def page():
    """Draws the glossary and the checks."""
    st.header("Words of the trade")
    wanted = st.text_input("Find a word", placeholder="such as freeboard").strip().lower()
    found = [(term, sentence) for term, sentence in GLOSSARY
             if wanted in term.lower() or wanted in sentence.lower()]
    put('<dl class="sz-words">' + "".join(
        f"<dt>{escape(term)}</dt><dd>{escape(sentence)}</dd>" for term, sentence in found)
        + "</dl>" if found else "<p>No such word here. Look through the checks below.</p>")
    st.header("What each check measures")
    names = tuple(CHECK_HELP)
    for start in range(0, len(names), 3):
        for name, column in zip(names[start:start + 3], st.columns(3, gap="large"),
                                strict=False):
            put_check(name, column, column)


def put_check(name, picture, sentence):
    """One check: its picture, what it means, what to do when it fails, each in its container."""
    meaning, remedy = check_help(name)
    with picture:
        put_picture(check_svg(name))
    with sentence:
        put(f"<p><b>{escape(name)}</b>: {escape(meaning)} <i>If it does not pass:</i> "
            f"{escape(remedy)}</p>")
