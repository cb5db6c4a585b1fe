"""The tables under the boat: its checks, its sizes, what was sought and what gave way."""

from html import escape

import streamlit as st

from sizer.drawing.page_svg import page_svg
from sizer.export.fit_words import capital, gave_way, value_words, window_words
from sizer.fit.facts import facts_of, padding
from sizer.scenes.window_bar import window_bar
from sizer.shop.outfit import footbrace
from sizer.units import MM_PER_M
from sizer.web.draft import length_text
from sizer.web.look import put, status_html, table_html, whole
from sizer.web.steps.sliders import CROWN, LENGTHS, SEAT, sizes_of
from sizer.web.steps.words import put_check

SEATS = {"panel": "plywood on {on}", "slats": "slats on the floors of {on}",
         "sling": "straps between {on}"}


def put_checks(job, unit):
    """First what is wrong or tight, with what mends it; what passes is folded."""
    ordered = _worst_first(job)
    short = [check for check in ordered if check.status != "pass"]
    if short:
        put(_check_table(short, unit, _held(job)))
    with st.expander(f"{len(ordered) - len(short)} checks pass", expanded=False):
        put(_check_table([check for check in ordered if check.status == "pass"], unit))


def put_explained(job):
    """One check with its picture: the first that does not pass, or the one that is picked."""
    titles = {check.key: check.name for check in _worst_first(job)}
    first = next(iter(titles))  # another worst check is another question
    picked = st.selectbox("Explain a check", list(titles), key=f"explained_{first}",
                          format_func=titles.get)
    put_check(picked, *st.columns([1, 2], gap="medium"))


def put_sizes(job, base, unit):
    """Base against fitted, and what set each dimension."""
    own, sizes = sizes_of(base), sizes_of(job.fitted.assessed.boat)
    figures = {key: lambda value: length_text(value, unit) for key, _ in (*LENGTHS, SEAT)}
    figures[CROWN[0]] = "{:.0%}".format
    rows = [[label, figures[key](own[key]), f"<b>{figures[key](sizes[key])}</b>",
             f'<span class="sz-why">{escape(job.fitted.set_by[key])}</span>']
            for key, label in (*LENGTHS, CROWN, SEAT)]
    put(table_html(("Size", "base", "fitted", "set by"), rows, numbers=(1, 2)))


def put_sought(job, unit):
    """What was sought, what was reached, what gave way."""
    def figure(value, kind):
        return length_text(value * MM_PER_M, unit) if kind == "mm" else f"{value:.2f}"

    gave = gave_way(job.fitted)
    rows = [[escape(capital(one.aim.title)), figure(one.wanted, one.aim.unit),
             f"<b>{figure(one.value, one.aim.unit)}</b>",
             whole("<b>gave way</b>") if one.aim.title in gave else ""]
            for one in job.fitted.sought]
    put(table_html(("What is sought", "sought", "reached", ""), rows, numbers=(1, 2)))


def put_seat(job, unit):
    """Padding for what is left over, and what holds the paddler, in two sentences."""
    assessed = job.fitted.assessed
    boat, pads, brace = assessed.boat, padding(facts_of(assessed)), footbrace(assessed)

    def length(value_m):
        return length_text(value_m * MM_PER_M, unit)

    seat = SEATS[boat.design.seat.kind].format(on=" and ".join(boat.design.seat.stands_on))
    put(f"<p>Room to pad: <b>{length(pads['hips_each_side'])}</b> each side of the hips, "
        f"{length(pads['thighs'])} over the thighs, {length(pads['knees'])} over the knees, "
        "clothing allowed for.</p>"
        f"<p>Seat: {escape(seat)}, its top {length(boat.seat_z_m)} over the baseline; backband "
        f"{length(boat.design.cockpit.backband_height_m)} over it; footbrace "
        f"{length(brace.set_m)} ahead of the back of the buttocks, between frames "
        f"{escape(brace.fore_frame)} and {escape(brace.aft_frame)}.</p>")


def _check_table(checks, unit, gives=""):
    return table_html(("Check", "status", "value", "wanted", "where it is", "what it means"),
                      [_check_row(check, unit, gives) for check in checks], numbers=(2,),
                      stack=True, plain=(1, 4, 5))


def _held(job):
    """What to let go of before anything else is mended; "" where nothing is held."""
    labels = dict((*LENGTHS, CROWN, SEAT))
    names = [labels[key].split(",")[0].lower() for key, _ in job.request.fixed]
    return f"letting go of the held {' and '.join(names)}, or " if names else ""


def _check_row(check, unit, gives):
    def length(value_mm):
        return length_text(value_mm, unit)

    bar = window_bar(check)
    mends = (f"<b>Too {check.too}.</b> What mends it: {gives}{escape(check.remedy)}. "
             if check.remedy else "")
    return [
        f"<b>{escape(check.name)}</b>", status_html(check.status),
        escape(whole(value_words(check, length))), escape(window_words(check, length)),
        f'<span class="sz-bar">{"" if bar is None else page_svg(bar)}</span>',
        f'<span class="sz-why">{mends}{escape(capital(check.meaning))}. '
        f"<i>Source: {escape(check.source)}</i></span>"]


def _worst_first(job):
    order = {"fail": 0, "caution": 1, "pass": 2}
    return sorted(job.fitted.checks, key=lambda check: order[check.status])
