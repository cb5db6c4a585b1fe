"""What every page shows: the steps, undo, units, the boat in a line, the cautions at the foot."""

from collections.abc import Callable
from dataclasses import dataclass
from html import escape

import streamlit as st

from sizer.book.summary import size_words
from sizer.export.fit_words import value_words
from sizer.fit.cautions import standing_cautions
from sizer.fit.sizes import main_sizes_mm
from sizer.hydro.flooded import LEAVE
from sizer.units import temperature_text
from sizer.web.differences import differences
from sizer.web.entered import LENGTH_UNITS, MASS_UNITS
from sizer.web.issued import is_of_last, issued
from sizer.web.keeping import keep_units, shop_book
from sizer.web.look import note_html, place, press, put, put_alert, status_html
from sizer.web.session import job_for, lacking
from sizer.web.state import draft, field, go, go_to, history, kept_job, open_job, tell_book, view
from sizer.web.steps.dry_fit_read import accepted_for
from sizer.web.steps.typed import forget_all_typed

MOST_TOLD = 3  # of what one undo changed, so that it is read in passing


@dataclass(frozen=True)
class Undoing:
    """What undo and redo do on a page; each tells what it changed, as a list of words."""

    undo: Callable
    redo: Callable
    future: bool  # whether anything can be redone
    past: bool = True  # whether anything can be undone


def put_steps(first, steps, asides, current):
    """The steps in order, the pages beside them, and the units; `steps` and `asides` are {path:
    title}, `first` the path of the page of all jobs and `current` that of the page in view."""
    with st.container(key="steps"):
        with st.container(horizontal=True, vertical_alignment="center", gap="xsmall", key="links"):
            _link(first, first.capitalize(), current)
            for number, (path, title) in enumerate(steps.items(), start=1):
                _link(path, f"{number} {title}", current)
            for path, title in asides.items():
                _link(path, title, current)
        _put_units()


def _link(path, label, current):
    """A button and no link of the browser's: that would leave what is typed behind."""
    st.button(f"**{label}**" if path == current else label, key=f"go_{path}", type="tertiary",
              on_click=go, args=(path,))


def put_next(label, path):
    """The button that leads on; it never waits for what is missing, the next page says that."""
    st.button(label, type="primary", key="next", on_click=go, args=(path,))


def of_the_job():
    """What undo does where the job is entered: the last entry goes, on whichever page it was."""
    return Undoing(lambda: _gone_to(history().undone()), lambda: _gone_to(history().redone()),
                   bool(history().future), bool(history().past))


def _gone_to(moved):
    """Takes an earlier or a later History of the draft; what that changed, in words."""
    before = draft()
    go_to(moved)
    forget_all_typed()
    return differences(before, draft())


def _put_undo(undoing):
    with st.container(horizontal=True, gap="small", key="undo"):
        # never greyed out, only plainer: a figure may be typed that has not been told yet
        press("Undo", _told, "Undo", undoing.undo, key="undo_last",
              type="secondary" if undoing.past else "tertiary")
        press("Redo", _told, "Redo", undoing.redo, disabled=not undoing.future)


def _told(label, verb):
    """Undoes or redoes, and says what that changed: it may be out of sight."""
    said = verb()
    more = f", and {len(said) - MOST_TOLD} more" if len(said) > MOST_TOLD else ""
    st.toast(f"{label}: {'; '.join(said[:MOST_TOLD])}{more}" if said else
             f"There is nothing to {label.lower()}.")


def _put_units():
    """The switch between units; both are read together, after the figures typed in the old."""
    one = draft()
    with st.container(horizontal=True, gap="small", key="units"):
        st.segmented_control("Lengths in", LENGTH_UNITS, required=True, **field(
            "length_unit", one.length_unit, lambda one, unit: _in_units(one, unit, one.mass_unit),
            among="default"),
            label_visibility="collapsed")
        st.segmented_control("Weights in", MASS_UNITS, required=True, **field(
            "mass_unit", one.mass_unit, lambda one, unit: _in_units(one, one.length_unit, unit),
            among="default"),
            label_visibility="collapsed")


def _in_units(one, *units):
    """A Draft in other units, in which the shop's next visit begins too."""
    keep_units(*units)
    return one.in_units(*units)


def strip_places():
    """Where `put_strip` puts the strip, taken before it is known: the heading stands after it, so
    that whoever is led there by keys comes to the page's own fields next."""
    return place(), st.container(horizontal=True, vertical_alignment="center", gap="small",
                                 key="strip")


def put_strip(places, undoing=of_the_job, beside=""):
    """The boat in a line that stays in sight, at the `places` of `strip_places`: size, freeboard,
    status, first caution. `undoing` gives the page's Undoing, None where nothing that is entered
    there is kept; `beside` says, where the page draws another boat, what the strip's is."""
    above, line = places
    with above:
        _put_says()
    with line:
        put(_strip_html(draft(), beside))
        if undoing is not None:
            _put_undo(undoing())


def _put_says():
    _, unkept = shop_book()
    if unkept:
        put(note_html("There is no book to write in: what you enter is gone when the program "
                      f"stops. {unkept}", "fail"))
    if "job_says" in view():
        sentence, back = view()["job_says"]
        put_alert(sentence)
        with st.container(horizontal=True, gap="small"):
            if back is not None:
                press(f"Back to {back.row.code}", _back, back)
            press("Understood", _understood)


def _understood():
    view().pop("job_says", None)


def _back(left):
    _understood()
    open_job(left.key)


def _whose_html(one):
    code = kept_job().row.code if kept_job() else ""
    said = " · ".join(filter(None, (code, one.mark, "Sample paddler" * one.sample)))
    return f'<span class="sz-whose">{escape(said)}</span>' if said else ""


def _strip_html(one, beside):
    whose = _whose_html(one)
    if not one.ready():
        first = lacking(one)[0].partition(";")[0]
        return (f'<div class="sz-strip" role="status">{whose}'
                f"<span>No boat yet. {escape(first.rstrip('.'))}.</span></div>")
    job, faults = job_for(one)
    if job is None:
        return (f'<div class="sz-strip sz-fail" role="status">{whose}'
                f"<span>{escape(faults[0])}</span></div>")
    name, unit = job.fitted.assessed.boat.design.name, one.length_unit
    now, which = _told_boat(one, job)
    boat = now.assessed.boat
    freeboard = one.said(now.assessed.particulars.freeboard_m)
    size = " × ".join(map(one.said_mm, main_sizes_mm(boat)))
    tell_book(name, size_words(boat), now.status)
    return (f'<div class="sz-strip" role="status">{whose}'
            f"<span>{escape(beside + name)}</span><span>{which}{size}</span>"
            f"<span>freeboard {freeboard}</span>{status_html(now.status)}"
            f'<span class="sz-first">{escape(first_caution(now.checks, job, unit))}</span></div>')


def _told_boat(one, job):
    """(The boat that is told, with its checks; which that is, in words): as it stands once that is
    accepted, unless another is entered than the one that was built."""
    built = accepted_for(one, job)
    if built is None:
        return job.fitted, ""
    if not is_of_last(one, issued()):
        return job.fitted, "not the boat that was built: "
    return built.built, "as it stands: "


def first_caution(checks, job, unit):
    """The one thing to know first of a boat with these checks, in a few words."""
    for status in ("fail", "caution"):
        for check in checks:
            if check.status == status:
                return (f"{check.name}: {value_words(check, unit)}, too {check.too}"
                        if check.unit != "of 1" else f"{check.name}: no")
    return job.person.body.caution_in_short or "float bags at both ends, tied in"


def put_way_back(faults):
    """Says why there is no boat, and leads to where that is mended."""
    for fault in faults:
        put(note_html(fault, "fail"))
    wrong = draft().at_fault().keys()
    trip = not draft().missing() and wrong and wrong <= {"gear_kg", "water_c"}
    where, path = ("use and base", "base") if trip else ("the paddler", "paddler")
    st.button(f"Go to {where}", type="primary", on_click=go, args=(path,))


def of_a_boat(page):
    """A page that draws a Draft and its Job; without a boat it says why, and leads back."""
    def drawn():
        job, faults = job_for(draft())
        if job is None:
            put_way_back(faults)
        else:
            page(draft(), job)

    return drawn


def put_foot(one):
    """The cautions that are never out of sight; the boat's own first."""
    job = job_for(one)[0]
    fills = "" if job is None or job.mishaps.swamped.can_be_paddled else (
        f"<b>If this boat fills: {LEAVE}</b> ")
    put(f'<div class="sz-foot" role="note"><b>Calculated, not a trial.</b> {fills}'
        f"{'Dress' if one.water_unread else f'Water {temperature_text(one.water_c)}: dress'} "
        "for the water. PFD on and fastened. Float bags tied in at both ends. Practise wet exits. "
        "Local rules and instructed practice come first.</div>")


def put_cautions(cautions, folded=True, of="this boat and its paddler"):
    """Every caution of a result: its own first, then what holds for every boat; only where files
    are made do they lie open. "Caution" is a verdict too: it is not in the titles.

    `of` says whose its own are.
    """
    always = standing_cautions()
    for of_what, ones in ((f"of {of}", [one for one in cautions if one not in always]),
                          ("before every launch", [one for one in cautions if one in always])):
        title = f"What to know {of_what}"
        if not folded:
            st.subheader(title)
        with st.expander(f"{title} ({len(ones)})") if folded else st.container():
            put('<ul class="sz-note sz-caution">'
                + "".join(f"<li>{escape(one)}</li>" for one in ones) + "</ul>")
