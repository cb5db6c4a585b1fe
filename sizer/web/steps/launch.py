"""The launch: weighed, floated, heeled with small weights, swamped; and what all that teaches."""

from html import escape

import streamlit as st

from sizer.built.borne import paddler_borne_kg
from sizer.built.learnt import lesson
from sizer.built.trial import FELT, RANGES, SWAMPED, read_trial
from sizer.built.trial_weights import trial_place
from sizer.errors import SizerError
from sizer.export.fit_words import capital
from sizer.export.launch_answer import SWAMP_SO, TOO_HEAVY, swamped_first, trial_cautions
from sizer.hull.weight import AS_WEIGHED
from sizer.shop.aboard import ABOARD, bare_words, counted_words, gear_words
from sizer.web.issued import as_issued, issued, moved_on, put_sheet, stands
from sizer.web.look import note_html, place, put
from sizer.web.state import draft, field, kept
from sizer.web.steps.dry_fit_read import accepted_for
from sizer.web.steps.launch_kept import put_bias
from sizer.web.steps.launch_steady import put_doubt, put_figure, put_steadiness
from sizer.web.steps.launch_told import put_lesson
from sizer.web.strip import put_cautions

WATERS = ("as fitted", "fresh", "salt")
AFLOAT = (("afloat_bow_mm", "Freeboard at the bow"), ("afloat_stern_mm", "Freeboard at the stern"),
          ("afloat_side_mm", "Least freeboard at the side"))


def page(one, job):
    last = stands(one, issued())
    job = as_issued(one, job, last)
    st.header("Launch")
    assessed, whose = _boat(one, job)
    for caution in trial_cautions(assessed):
        put(note_html(caution, "fail"))
    trial, found = _learnt(one, assessed)
    if trial is not None:
        moved_on("built")
    put(f"<p>{escape(whose)}</p>")
    put_sheet(one, job, "launch", last)
    asks, told = st.columns([2, 3], gap="large")
    with asks:
        _ashore(one, assessed, found)
        _afloat(one, job, assessed, found)
        with place():
            put_steadiness(one, assessed, found)
        _felt(job.mishaps.swamped)
    with told:
        put_lesson(one, job, assessed, trial, found)
        put_bias(job)
    put_cautions(job.cautions)


def _boat(one, job):
    """The Assessed boat that the launch is compared with, and which that is, in words."""
    found = accepted_for(one, job)
    if found is None:
        return job.fitted.assessed, "Compared with the boat as designed."
    return found.built.assessed, "Compared with the boat as it stood at the dry fit."


def _learnt(one, assessed):
    """(Trial or None, Lesson, a sentence, or None) of what is typed whole."""
    given = one.launch.trial(deck_height_m(assessed), one.water_c)
    if not (given.get("boat_kg") or given.get("afloat") or given.get("heel")):
        return None, None

    def worked():
        try:
            trial = read_trial(given)
            return trial, lesson(assessed, trial)
        except SizerError as error:
            return None, str(error)

    return kept("lesson", (assessed, repr(given)), worked)


def deck_height_m(assessed):
    return trial_place(assessed.boat).height_m


def _ashore(one, assessed, found):
    st.subheader("Ashore")
    put_figure(one, "boat_kg", f"The boat on a scale, {AS_WEIGHED}", RANGES["boat_kg"])
    put_doubt(one, found, "boat_kg")
    put_figure(one, "load_kg", "Paddler as dressed, with all gear, on a scale", RANGES["load_kg"])
    low, high = (one.weighed(kg, tenths=True)
                 for kg in kept("paddler_borne", assessed, lambda: paddler_borne_kg(assessed)))
    put(f"<p>The paddler alone, dressed, {low} to {high}. {TOO_HEAVY}</p>")
    st.radio("Water", WATERS, horizontal=True, **_of_launch("water_kind", among=WATERS))


def _afloat(one, job, assessed, found):
    st.subheader("Afloat, sitting still")
    gear = gear_words(assessed, job.mishaps.swamped)
    put(note_html(f"{ABOARD} {gear} {bare_words(assessed)} "
                  f"{counted_words(job, None, None)}", "caution"))
    put("<p>From the water up to the sheer, a helper measuring.</p>")
    for key, label in AFLOAT:
        put_figure(one, key, label, RANGES[key.removeprefix("afloat_")])
        put_doubt(one, found, key)


def _felt(swamped):
    st.subheader("Swamped, and felt")
    put("<p>Only within reach of the bottom, with bags tied in, a helper beside the boat. "
        f"{swamped_first(swamped)} {capital(SWAMP_SO)}; then read.</p>")
    st.selectbox("Swamped on purpose", [key for key, _ in SWAMPED],
                 format_func=dict(SWAMPED).get, **_of_launch("swamped", among=dict(SWAMPED)))
    st.multiselect("What the paddler felt", [key for key, _ in FELT], format_func=dict(FELT).get,
                   **_of_launch("felt", "default", list, tuple))


def _of_launch(name, among, out=lambda value: value, back=lambda value: value):
    """As `state.field`, of the widget of one field of the launch."""
    return field(f"launch_{name}", out(draft().launch[name]), lambda one, value: one.but(
        launch=one.launch.but(**{name: back(value)})), among=among)
