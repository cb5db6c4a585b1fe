"""The sliders beside the boat: each stands where the fit put it; moving one holds it there."""

from collections import Counter
from dataclasses import dataclass, replace
from html import escape

import streamlit as st

from sizer.fit.facts import facts_of
from sizer.fit.request import MOST_GEAR_KG
from sizer.fit.sizes import SIZES, main_sizes_mm, size_title, sizes_mm
from sizer.fit.sought import AIMS, NO_WISHES, base_says, wanted_of
from sizer.hydro.drag import FASTEST_MPS, SLOWEST_MPS
from sizer.units import KG_PER_LB, KN_PER_MPS, MM_PER_IN, MM_PER_M
from sizer.web.draft import typed_text
from sizer.web.look import put
from sizer.web.strip import show_entries

LENGTHS = tuple((key, size_title(key)) for key in SIZES)
SEAT = ("seat_shift_mm", "Seat, aft of its place")
CROWN = ("deck_crown", "Foredeck crown")
WISHES = (  # key of a request's `wishes`, label, what it is called from -1 to 1
    ("room", "Room inside", ("snug", "snugger", "as drawn", "roomier", "roomy")),
    ("steadiness", "Steadiness", ("lively", "livelier", "as drawn", "steadier", "steady")),
    ("length", "Length for the load", ("handy", "handier", "as drawn", "faster", "fast")))
HELD = " — held"
STEPS = {"mm": (1.0, 1.0, "%.0f"), "cm": (10.0, 0.1, "%.1f"), "in": (MM_PER_IN, 0.0625, "%.2f")}


@dataclass(frozen=True)
class _Slider:
    """One slider in the units of the screen."""

    place: str  # its key in the session
    label: str
    low: float
    high: float
    step: float
    shown: str  # format of its number
    now: float


def sizes_of(boat):
    """A boat's sizes by key of a request's `fixed`."""
    return sizes_mm(boat) | {"deck_crown": boat.scaling.crown,
                             "seat_shift_mm": boat.scaling.seat_shift_m * MM_PER_M}


def ranges(base):
    """What the base allows, by the same keys."""
    limits, (forward, aft) = base.design.limits, base.design.cockpit.seat_slide_m
    factored = zip(SIZES, main_sizes_mm(base), (limits.length, limits.beam, limits.depth),
                   strict=False)
    return {
        **{key: (own * low, own * high) for key, own, (low, high) in factored},
        "cockpit_length_mm": tuple(v * MM_PER_M for v in limits.cockpit_length_m),
        "cockpit_width_mm": tuple(v * MM_PER_M for v in limits.cockpit_width_m),
        "deck_crown": limits.crown,
        "seat_shift_mm": (-forward * MM_PER_M, aft * MM_PER_M)}


def put_wishes(one, job):
    """What the paddler would rather have, side by side."""
    for (key, label, names), column in zip(WISHES, st.columns(len(WISHES), gap="medium"),
                                           strict=True):
        with column:
            _wish_slider(one, key, label, names)
    for label in _wishes_in_vain(job):
        put(f'<p class="sz-why">{label}: this wish moves nothing, since the limits of '
            f"{escape(job.person.use.words)} decide it.</p>")


def put_sliders(one, job, base):
    """The sliders of every size, of gear and of speed."""
    put("<b>Sizes</b>: where the fit put them. Move one to hold it there.")
    for key, label in (*LENGTHS, SEAT):
        _length_slider(one, job, base, key, label)
    _crown_slider(one, job, base)
    _follow(one)
    put("<b>Aboard and under way</b>")
    _gear_slider(one, job)
    _speed_slider(one)


def _wish_slider(one, key, label, names):
    """A wish in words; half a wish is one step."""
    place = f"slide_wish_{key}"
    st.session_state.setdefault(place, names[round(2.0 * one.wished.get(key, 0.0)) + 2])
    st.select_slider(label, names, key=place, on_change=lambda: one.wish(
        key, 0.5 * (names.index(st.session_state[place]) - 2)))


def _wishes_in_vain(job):
    """Labels of the wishes that leave what is sought where it is."""
    says, facts = base_says(job.lines), facts_of(job.fitted.assessed)
    plain = wanted_of(says, job.person, NO_WISHES, facts, 1)[0]
    wished = wanted_of(says, job.person, job.request.wishes, facts, 1)[0]
    moved = {aim.wish for aim, one, other in zip(AIMS, plain, wished, strict=True) if one != other}
    return [label for key, label, _ in WISHES
            if getattr(job.request.wishes, key) and key not in moved]


def _length_slider(one, job, base, key, label):
    scale, step, shown = STEPS[one.length_unit]
    low, high = (bound / scale for bound in ranges(base)[key])
    _put_size(one, key, label, _Slider(
        f"{key}_{one.length_unit}", f"{label}, {one.length_unit}", low, high, step, shown,
        sizes_of(job.fitted.assessed.boat)[key] / scale), scale)


def _crown_slider(one, job, base):
    key, label = CROWN
    low, high = ranges(base)[key]
    _put_size(one, key, label, _Slider(
        key, f"{label}, % of the base's", 100.0 * low, 100.0 * high, 1.0, "%.0f",
        100.0 * sizes_of(job.fitted.assessed.boat)[key]), 0.01)


def _put_size(one, key, label, slider, scale):
    """A size's slider, and beside a held one what lets go of it alone."""
    held = key in one.held
    with st.container(horizontal=True, vertical_alignment="bottom", gap="small",
                      key=f"size_{key}"):
        _put(replace(slider, label=slider.label + HELD) if held else slider,
             lambda value: one.held.__setitem__(key, value * scale))
        if held:
            st.button("Let go", key=f"release_{key}", on_click=_let_go, args=(one, key),
                      help=f"{label.split(',')[0]} is held: hand it back to the fit")


def _follow(one):
    """What becomes of the other sizes where some are held, and the way back to none."""
    if not one.held:
        return
    st.session_state.setdefault("pick_follow", one.follow)
    st.toggle("Let the other sizes follow", key="pick_follow", help="Off: they stay as fitted. "
              "On: they are fitted anew to what is held.",
              on_change=lambda: setattr(one, "follow", st.session_state["pick_follow"]))
    if len(one.held) > 1:
        st.button("Let go of every held size", on_click=_let_go, args=(one, *one.held))


def _gear_slider(one, job):
    scale, unit = (1.0, "kg") if one.mass_unit == "kg" else (KG_PER_LB, "lb")

    def carry(value):
        one.enter("gear_kg", typed_text(value * scale, one.mass_unit))
        show_entries()

    _put(_Slider(f"gear_{unit}", f"Gear, {unit}", 0.0, MOST_GEAR_KG / 3.0 / scale, 1.0,
                 "%.0f", job.request.gear_kg / scale), carry)


def _speed_slider(one):
    _put(_Slider("speed", "Speed, knots", SLOWEST_MPS * KN_PER_MPS, FASTEST_MPS * KN_PER_MPS,
                 0.1, "%.1f", one.speed_mps * KN_PER_MPS),
         lambda knots: setattr(one, "speed_mps", knots / KN_PER_MPS))


def _put(slider, moved):
    """Draws a slider; `moved` takes the number where the person put it.

    With keys pressed fast, a browser still tells the old place of a slider that the fit has moved
    meanwhile. So one that stands elsewhere than its boat is never set but drawn anew under another
    key, and what is told of a key that is no longer drawn counts for nothing.
    """
    step = slider.step
    low, high = -(-slider.low // step) * step, slider.high // step * step
    now = min(max(round(slider.now / step) * step, low), high)
    drawn = st.session_state.setdefault("sliders_drawn", Counter())  # only ever counts up
    key = f"{slider.place}_{drawn[slider.place]}"
    if abs(st.session_state.get(key, now) - now) > 0.5 * step:
        drawn[slider.place] += 1
        key = f"{slider.place}_{drawn[slider.place]}"
    number = drawn[slider.place]
    st.session_state.setdefault(key, now)
    st.slider(slider.label, low, high, step=step, key=key, format=slider.shown, on_change=lambda:
              moved(st.session_state[key]) if drawn[slider.place] == number else None)


def _let_go(one, *keys):
    for key in keys:
        del one.held[key]
