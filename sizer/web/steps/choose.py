"""Step 2: what the boat is for, on what water, and from which base design."""

from functools import partial
from html import escape

import streamlit as st

from sizer.book.built import designs
from sizer.design.records import WATERS
from sizer.export.fit_words import odds_words
from sizer.fit.check import FAIL, STATUSES
from sizer.fit.check_figures import miss_words
from sizer.fit.sizes import main_sizes_mm
from sizer.fit.uses import USES
from sizer.scenes.long_views import glance
from sizer.shop.said import listed
from sizer.units import temperature_figure, temperature_text
from sizer.web.differences import held_words
from sizer.web.entered import LABELS, Held, temperature_units
from sizer.web.figures import LONGEST
from sizer.web.keeping import shop_book
from sizer.web.look import (
    echo_html,
    note_html,
    place,
    press,
    put,
    put_drawn,
    put_fault,
    status_html,
)
from sizer.web.session import OWN, base_boat, base_keys, job_for, lines_of
from sizer.web.state import change, draft, field, say
from sizer.web.strip import put_next
from sizer.web.upload import KINDS, MOST_UPLOAD_MB, put_upload, read_upload


def page():
    one = draft()
    wishes, bases = st.columns([2, 5], gap="large")
    with wishes:
        _wishes(one)
    with bases:
        st.header("Which base design?")
        better = place()  # filled last: it takes every base's boat
        _cards(one)
        put_upload(
            "Or a base design of your own (.toml), or offsets for the chosen base (.csv)",
            "base", KINDS, MOST_UPLOAD_MB, _uploaded,
            help="Both formats are explained in baselines/README.md.")
        _of_the_shop()
        with better:
            _better(one)
    put_next("Next: the boat", "boat")


def _of_the_shop():
    """Bases that were taken of boats as they stood, with where they come from."""
    for number, design in enumerate(designs(shop_book()[0])):
        with st.container(horizontal=True, vertical_alignment="center", gap="small"):
            put(f"<span><b>{escape(design.name)}</b>, {design.date}: {escape(design.lineage)}"
                "</span>")
            press("Choose it", partial(_choose, OWN, own_design=design.text, own_name=design.name),
                  key=f"kept_{number}")


def _wishes(one):
    st.header("What for?")
    st.radio("Intended use", tuple(USES), format_func=lambda key: USES[key].words, **field(
        "use", one.use, _for_use, among=USES))
    _gear(one)
    st.radio("Water", WATERS, horizontal=True, **field("water_kind", among=WATERS))
    _temperature(one)


def _temperature(one):
    """Typed in °C, or in °F where lengths are in inches; either is read with its unit."""
    unit, _ = temperature_units(one.length_unit)
    st.text_input(f"{LABELS['water_c']}, the water's own and not the air's, {unit}",
                  max_chars=LONGEST, **field(
                      f"water_{unit}", one.water_unread or temperature_figure(one.water_c, unit),
                      lambda one, text: one.in_water(text)))
    put(echo_html(f"understood as {temperature_text(one.water_c)}",
                  one.at_fault().get("water_c", "")))


def _cards(one):
    """The bases drawn side by side, each with what it does for this paddler."""
    keys = base_keys(one)
    longest = max(base_boat(one, key).length_m for key in keys)
    for start in range(0, len(keys), 2):
        for key, column in zip(keys[start:start + 2], st.columns(2, gap="small"), strict=False):
            with column, st.container(border=True):
                _card(one, key, longest)


def _better(one):
    """Those that do better than the chosen base or are surer, the surest first, each to take."""
    if not one.ready():
        return
    found = {key: job.fitted for key in base_keys(one) if (job := job_for(one, key)[0])}
    now = found[one.base].status if one.base in found else STATUSES[FAIL]
    best = min((fitted.status for fitted in found.values()), key=STATUSES.index, default=now)
    alike = sorted((key for key in found if found[key].status == best),
                   key=lambda key: -found[key].odds_all_hard)
    if STATUSES.index(best) < STATUSES.index(now):
        put(f"<p>For this paddler and use the base chosen says {status_html(now)}. Of those below "
            f"each says {status_html(best)}, the surest first, with the odds that all that can "
            "fail is met:</p>")
        _put_surest(one, found, alike)
    elif now == STATUSES[FAIL]:
        put(note_html("No base does better for this paddler and use: the boat page says what "
                      "would have to give.", now))
    elif len(alike) > 1:
        odds = odds_words(found[one.base].odds_all_hard)
        surer = [key for key in alike[:alike.index(one.base)]
                 if odds_words(found[key].odds_all_hard) != odds]
        put(f"<p>For this paddler and use {len(alike)} bases come out alike: {status_html(now)}. "
            f"On the one chosen, {odds} such paddlers meet every limit that can fail; "
            + ("surer are, the surest first:" if surer else "no other is surer.") + "</p>")
        _put_surest(one, found, surer)


def _put_surest(one, found, keys):
    """A button for each base, with the odds of its Fitted in `found`."""
    with st.container(horizontal=True, gap="small", key="better"):
        for key in keys:
            press(f"{lines_of(one, key).design.name}: " f"{odds_words(found[key].odds_all_hard)}",
                  _choose, key, key=f"better_{key}")


def _card(one, key, longest):
    design = lines_of(one, key).design
    put_drawn(glance, base_boat(one, key), longest, one.said)
    drawn = design.drawn_for
    put(f"<b>{escape(design.name)}</b> — {escape(design.character)}. Drawn for "
        f"{one.weighed(drawn.weight_kg)}, {one.said(drawn.stature_m)} tall. Suits "
        + escape(", ".join(USES[use].words if use in USES else use for use in design.suits)) + ".")
    if one.ready():
        job, faults = job_for(one, key)
        put('<div class="sz-verdict">' + (_for_this_paddler(job, one) if job else
            f'<span class="sz-fail">{escape(faults[0])}</span>') + "</div>")
    chosen = one.base == key
    press("Chosen" if chosen else f"Choose {design.name}", _choose, key, key=f"choose_{key}",
          disabled=chosen)


def _choose(base, **design):
    one = draft()
    say_let_go(one, "base")
    change(one.on(base, **design))


def say_let_go(one, what):
    """Says what a Draft holds by hand no longer on another base, or for another use."""
    if held := held_words(one):
        say(f"Nothing is held by hand any more, since the {what} is another. Let go: "
            f"{listed(held)}. Undo brings it back.")


def _for_use(one, use):
    say_let_go(one, "use")
    return one.but(use=use, held=Held())


def _for_this_paddler(job, one):
    """Status, fitted size and weight, and the first thing that is short."""
    size = " × ".join(map(one.said_mm, main_sizes_mm(job.fitted.assessed.boat)))
    short = next((check for check in job.fitted.checks if check.status == job.fitted.status), None)
    why = ""
    if job.fitted.status != "pass":
        said = miss_words(short, one.length_unit) if short.key != "suits" else (
            "not drawn for this use: "
            f"{job.lines.design.lacks.get(job.request.trip.use, 'not named')}")
        more = sum(check.status != "pass" for check in job.fitted.checks) - 1
        also = f"; and {more} more" if more else ""
        why = f'<br><span class="sz-why">{escape(said)}{also}</span>'
    return (f"For this paddler: {status_html(job.fitted.status)}<br>{size}, "
            f"{one.weighed(job.fitted.assessed.weight.mass_kg)}{why}")


def _gear(one):
    entry = one.entries["gear_kg"]
    usual = one.weighed(USES[one.use].gear_kg)
    st.text_input(f"Gear, {one.mass_unit} — blank is {usual} for this use", max_chars=LONGEST,
                  live=True, **field("gear_kg", entry.text,
                                     lambda one, text: one.enter("gear_kg", text), typed=True))
    put_fault(entry.fault)


def _uploaded(name, data):
    """Takes a design of the builder's own as base; a faulty one replaces nothing."""
    one = draft()
    text, design = read_upload(name, data, lines_of(one, one.base).design)
    _choose(OWN, own_design=text, own_name=name[:LONGEST])
    st.toast(f"{design.name} is read without fault and is chosen.")
