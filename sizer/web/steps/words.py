"""Beside the walk: every trade word in a sentence, every check with a picture."""

from html import escape

import streamlit as st

from sizer.export.glossary import GLOSSARY
from sizer.fit.checks import BY_KEY
from sizer.scenes.check_pictures import check_picture
from sizer.web.look import put, put_picture


def page():
    st.header("Words of the trade")
    wanted = st.text_input("Find a word", placeholder="such as freeboard").strip().lower()
    found = [(term, sentence) for term, sentence in GLOSSARY
             if wanted in term.lower() or wanted in sentence.lower()]
    rows = [row for row in BY_KEY.values()
            if wanted in row.title.lower() or wanted in row.meaning.lower()]
    put('<dl class="sz-words">' + "".join(
        f"<dt>{escape(term)}</dt><dd>{escape(sentence)}</dd>" for term, sentence in found)
        + "</dl>" if found else "<p>No such word of the trade here"
        + (": the checks below speak of it.</p>" if rows else ", nor a check that speaks of it."
           "</p>"))
    if rows:
        st.header("What each check measures")
    for start in range(0, len(rows), 3):
        for row, column in zip(rows[start:start + 3], st.columns(3, gap="large"), strict=False):
            put_check(row.key, column, column)


def put_check(key, picture, sentence):
    """One check: its picture, what it means, what mends each side, each in its container."""
    row = BY_KEY[key]
    with picture:
        put_picture(check_picture(key))
    with sentence:
        mends = [f"<i>Too {side}:</i> {escape(mend.format(pad='what is over'))}."
                 for side, mend, ends in (("small", row.small, (row.fails_below, row.wanted_from)),
                                          ("large", row.large, (row.wanted_to, row.fails_above)))
                 if any(ends) or (row.value is None and mend)]
        put(f"<p><b>{escape(row.title)}</b>: {escape(row.meaning)}. {' '.join(mends)}</p>")
