"""What is said of the boat: what is wrong first, what passes, what was sought and gave way."""

from html import escape

import streamlit as st

from sizer.drawing.page_svg import page_svg
from sizer.export import fit_words
from sizer.fit.facts import facts_of, room_left
from sizer.scenes.check_pictures import check_picture
from sizer.scenes.window_bar import window_bar
from sizer.shop.outfit import footbrace
from sizer.web.look import put, status_html, table_html, whole
from sizer.web.state import kept
from sizer.web.steps.words import put_check

SEATS = {"panel": "plywood on {on}", "slats": "slats on the floors of {on}",
         "sling": "straps between {on}"}


def put_wrong(job, unit):
    """What is wrong or tight, the worst first: each with its picture and what would mend it."""
    order = {"fail": 0, "caution": 1}
    short = sorted((check for check in job.fitted.checks if check.status in order),
                   key=lambda check: order[check.status])
    if short:
        put('<ul class="sz-wrongs">' + "".join(
            _wrong(check, unit) for check in short) + "</ul>")


def put_passing(checks, unit, gear):
    """The checks that pass, with how much gear, and the one of them that is picked, explained."""
    put(f"<p>Freeboard, GM and trim are with this job's {gear} of gear, where a check names no "
        "other load.</p>")
    put(kept("passing", (*checks, unit), lambda: table_html(
        ("Check", "status", "value", "wanted", "where it is", "what it means"),
        [_check_row(check, unit) for check in checks], numbers=(2,), stack=True,
        plain=(1, 4, 5))))
    titles = {check.key: check.name for check in checks}
    if titles:
        put_check(st.selectbox("Explain a check", list(titles), key="explained",
                               format_func=titles.get), *st.columns([1, 2], gap="medium"))


def put_sought(one, job):
    """What was sought, what was reached, how far off counts, what gave way, and of which load."""
    def figure(value, kind):
        return one.said(value) if kind == "mm" else f"{value:.2f}"

    gave = fit_words.gave_way(job.fitted)
    rows = [[escape(fit_words.capital(each.aim.title)), figure(each.wanted, each.aim.unit),
             f"<b>{figure(each.value, each.aim.unit)}</b>", figure(each.aim.scale, each.aim.unit),
             whole("<b>gave way</b>") if each.aim.title in gave else ""]
            for each in job.fitted.sought]
    put(table_html(("What is sought", "sought", "reached", "counts from", ""), rows,
                   numbers=(1, 2, 3), stack=True, plain=(4,)))
    loads = fit_words.day_load_words(job.fitted.assessed, one.weighed)
    put("".join(f"<p>{escape(said)}</p>" for said in (
        f"What is off by {fit_words.COUNTS} or more gave way.", *loads)))


def put_seat(one, job):
    assessed = job.fitted.assessed
    boat, left, brace = assessed.boat, room_left(facts_of(assessed)), footbrace(assessed)
    length = one.said
    seat = SEATS[boat.design.seat.kind].format(on=" and ".join(boat.design.seat.stands_on))
    put(f"<p>Room left: <b>{length(left['hips_each_side'])}</b> each side of the hips, "
        f"{length(left['thighs'])} over the thighs, {length(left['knees'])} over the knees, "
        "clothing allowed for. Foam is thinner than that: its board takes of it, and how thick "
        "it may be is on the plans' sheet of the thigh braces.</p>"
        f"<p>Seat: {escape(seat)}, its top {length(boat.seat_z_m)} over the baseline; backband "
        f"{length(boat.design.cockpit.backband_height_m)} over it; footbrace "
        f"{length(brace.set_m)} ahead of the back of the buttocks, between frames "
        f"{escape(brace.fore_frame)} and {escape(brace.aft_frame)}.</p>")


def _wrong(check, unit):
    """One check that does not pass, as an item of a list."""
    mends = f" What mends it: {escape(check.remedy)}." if check.remedy else ""
    too, figures = "", ""
    if check.unit != "of 1":
        too = f"Too {check.too}."
        figures = (f"<b>{escape(whole(fit_words.value_words(check, unit)))}</b>, "
                   f"wanted {escape(fit_words.window_words(check, unit))} ")
    return (f'<li class="sz-{check.status}"><span class="sz-picture">'
            f"{page_svg(check_picture(check.key))}</span><div>"
            f"<b>{escape(check.name)}</b> {status_html(check.status)}<br>"
            f'{figures}{_bar(check)}<p class="sz-why"><b>{too}</b>{mends} '
            f"{escape(fit_words.capital(check.meaning))}. {_source(check)}</p></div></li>")


def _check_row(check, unit):
    return [f"<b>{escape(check.name)}</b>", status_html(check.status),
            escape(whole(fit_words.value_words(check, unit))),
            escape(fit_words.window_words(check, unit)), _bar(check),
            f'<span class="sz-why">{escape(fit_words.capital(check.meaning))}. '
            f"{_source(check)}</span>"]


def _bar(check):
    bar = window_bar(check)
    return f'<span class="sz-bar">{"" if bar is None else page_svg(bar)}</span>'


def _source(check):
    """Where a check comes from, one tap away."""
    return (f"<details><summary>Source</summary><i>{escape(fit_words.capital(check.source))}</i>"
            "</details>")
