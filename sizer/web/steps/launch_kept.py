"""The launch kept in the shop's book, and the shop's own bias over all that were."""

import json
from dataclasses import asdict
from datetime import date

import streamlit as st

from sizer.book.built import KeptLaunch, keep_launch, kept_of, launches
from sizer.book.jobs import advance
from sizer.book.settings import set_setting, setting
from sizer.border import table_of
from sizer.built.bias import Off, offs_of, over_plain, own_bias, shop_biases
from sizer.built.learnt import reading_words
from sizer.scenes.bias_view import bias_view
from sizer.web.entered import OwnBias
from sizer.web.keeping import shop_book
from sizer.web.look import note_html, place, press, put, put_scene
from sizer.web.state import begin_job, choice, draft, field, kept_job

SWITCH = "own_bias"  # the shop's setting: "on" or ""


def put_keep(job, trial, lesson):
    """The button that keeps what a Lesson was off, and beside it what the book has of this boat.

    Where a reading is left out it asks first.
    """
    offs = over_plain(offs_of(lesson), job.request.shop_bias)
    off = json.dumps({name: asdict(one) for name, one in offs.items()})
    kept = kept_of(shop_book()[0], kept_job().key)[1] if kept_job() else None
    same = kept is not None and kept.off == off
    on = f" on {kept.date}" if kept is not None and kept.date else ""
    with place():
        asked = same or _asked(trial, lesson)
    press("Keep this launch in the shop's book" if kept is None or same else
          f"Keep this launch in place of the one kept{on}", _keep, off,
          type="primary", disabled=same or not asked)
    if kept is not None:
        put(note_html(f"Kept{on}: this boat is launched." if same else
                      f"What was kept{on} is not what is typed now: keeping this launch replaces "
                      "it.", "pass" if same else "caution"))
    put("<p>The job counts as launched then. What the boat was off from what was calculated goes "
        "into this shop's own bias; nothing of the paddler's body is in that, and it stays when a "
        "customer is forgotten.</p>")


def _asked(trial, lesson):
    """Whether it may be kept: at once, or once it was agreed to without what is left out."""
    if not lesson.left_out:
        return True
    names = ", ".join(reading_words(name, trial) for name in lesson.left_out)
    put(note_html(f"Out of all likelihood, and left out of what would be kept: {names}. Read again "
                  "first.", "fail"))
    return st.checkbox("Keep this launch without it all the same",
                       **choice(f"without {', '.join(lesson.left_out)}", False))


def put_bias(job):
    """The shop's bias as a picture, and whether this job is fitted with it."""
    told = _told()
    st.subheader("This shop's own bias")
    if not told:
        put("<p>No launch is kept in the book yet.</p>")
        return
    put_scene(_bias_drawn, told, draft().length_unit)
    put("<p>A dot for each launch, its line how well it is known; the blue line is what is kept of "
        "their mean. With few boats it is drawn towards none, with one it is none. Switched on, "
        "odds reckon with how far these boats stray from it: with few as far as any shop's.</p>")
    st.toggle("Fit this job, and new ones, with the shop's own bias", **field(
        "own_bias", draft().shop_bias.boats > 0.0,
        _switched))
    if job.request.shop_bias.words:
        put(note_html(job.request.shop_bias.words))


def as_the_shop_fits(one):
    """A new customer's Draft with the shop's own bias, where that is switched on."""
    on = setting(shop_book()[0], SWITCH)
    return one.but(shop_bias=_own()) if on else one


def _switched(one, on):
    set_setting(shop_book()[0], SWITCH, "on" if on else "")
    return one.but(shop_bias=_own() if on else OwnBias())


def _bias_drawn(told, unit, narrow=False):
    launches = _read(told)
    return bias_view(launches, shop_biases(launches), unit, narrow)


def _told():
    """What each launch of the book was off, as it is kept."""
    return tuple(launch.off for launch in launches(shop_book()[0]))


def _read(told):
    return [{key: Off(**one) for key, one in json.loads(off).items()} for off in told]


def _own():
    return OwnBias(**table_of(own_bias(_read(_told())), {}))


def _keep(off):
    if kept_job() is None:
        begin_job(draft())
    book, key = shop_book()[0], kept_job().key
    keep_launch(book, key, KeptLaunch(date.today().isoformat(), off))
    advance(book, key, "launched")
