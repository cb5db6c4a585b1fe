"""How sure the fitted boat is, in plain frequencies, and what would make it surer."""

from html import escape

import streamlit as st

from sizer.export.fit_words import capital, in_a_hundred, odds_sentence, worst_words
from sizer.fit.matters import gm_sd_m, matters, with_care, worth_measuring
from sizer.scenes.odds_dots import odds_dots
from sizer.units import MM_PER_M
from sizer.web.draft import length_text
from sizer.web.look import put, put_picture

DOTS_PX = 420  # wide: a hundred dots are counted, not admired
SURE = 0.95  # odds from which a check is not told by itself


def put_odds(job, unit):
    """The odds, and folded under them a sentence, a hundred dots, the checks least sure, what to
    measure and what to build with care."""
    met = in_a_hundred(job.fitted.odds_all_hard)
    with st.expander(f"How sure: {met} of 100 such paddlers meet every limit"):
        _put_told(job.fitted, job.person.body, met, unit)


def _put_told(fitted, body, met, unit):
    said = odds_sentence(fitted.odds_all_hard)
    put(f"<p>{escape(said)}</p>")
    with st.container(width=DOTS_PX):
        put_picture(odds_dots(met, said.rstrip(".")))

    def length(value_mm):
        return length_text(value_mm, unit)

    least = sorted((one for one in fitted.checks if one.is_hard and one.sd_si
                    and one.odds < SURE), key=lambda one: one.odds)
    put("".join(f"<p>{escape(worst_words(one, length))}</p>" for one in least))
    found = matters(fitted.checks, fitted.sure, body)
    now = f"{gm_sd_m(fitted.sure) * MM_PER_M:.0f}"
    more = [f"<li>{escape(capital(one.what))}: steadiness known to "
            f"{one.gm_sd_m * MM_PER_M:.0f} mm instead of {now}, odds "
            f"{in_a_hundred(one.odds)} of 100 where it turns out as predicted.</li>"
            for one in worth_measuring(found)]
    if more:
        put(f"<p>Measuring more narrows it:</p><ul>{''.join(more)}</ul>")
    put("<p>What matters most for this boat, in order:</p><ol>" + "".join(
        f"<li>{escape(capital(one.what))}.</li>" for one in with_care(found)) + "</ol>")
