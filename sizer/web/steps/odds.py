"""How sure the fitted boat is, in plain frequencies, and what would make it surer."""

from html import escape

import streamlit as st

from sizer.export.fit_words import capital, in_a_hundred, odds_sentence, worst_words
from sizer.fit.matters import gm_sd_m, matters, with_care, worth_measuring
from sizer.scenes.odds_dots import odds_dots
from sizer.web.look import put, put_picture

SURE = 0.95  # odds from which a check is not told by itself


def put_odds(one, job):
    """The odds in a fold's title; in it a hundred dots, the checks least sure, what makes surer."""
    fitted = job.fitted
    said = capital(odds_sentence(fitted.odds_all_hard))
    least = sorted((check for check in fitted.checks if check.is_hard and check.sd_si
                    and check.odds < SURE), key=lambda check: check.odds)
    with st.expander(said.partition(":")[0]):
        dots, words = st.columns([2, 3], gap="medium")
        with dots, st.container(key="odds"):
            put_picture(odds_dots(in_a_hundred(fitted.odds_all_hard), said.rstrip(".")))
        with words:
            put("".join(f"<p>{escape(text)}</p>" for text in (
                said, *(worst_words(check, one.length_unit) for check in least))))
            _put_surer(one, job)


def _put_surer(one, job):
    fitted = job.fitted
    found = matters(fitted.checks, fitted.sure, job.person.body)
    now = one.said(gm_sd_m(fitted.sure)), in_a_hundred(fitted.odds_all_hard)
    measured = [(each.what, (one.said(each.gm_sd_m), in_a_hundred(each.odds)))
                for each in worth_measuring(found)]
    more = [f"<li>{escape(capital(what))}: " + (
            f"steadiness known to {then[0]} instead of {now[0]}, " * (then[0] != now[0])) +
            f"odds {then[1]} of 100 where it turns out as predicted.</li>"
            for what, then in measured if then[0] != now[0] or then[1] > now[1]]
    if more:
        put(f"<p>Measuring more narrows it:</p><ul>{''.join(more)}</ul>")
    put("<p>What matters most for this boat, in order:</p><ol>" + "".join(
        f"<li>{escape(capital(each.what))}.</li>" for each in with_care(found)) + "</ol>")
