"""The sliders beside the boat: each stands where the fit put it; moving one holds it there."""

from dataclasses import dataclass

import streamlit as st

from sizer.fit.request import MOST_GEAR_KG
from sizer.hydro.drag import FASTEST_MPS, SLOWEST_MPS
from sizer.units import KG_PER_LB, KN_PER_MPS, MM_PER_IN, MM_PER_M
from sizer.web.draft import typed_text
from sizer.web.strip import show_entries

LENGTHS = (("length_mm", "Length"), ("beam_mm", "Beam"), ("depth_mm", "Depth"),
           ("cockpit_length_mm", "Cockpit length"), ("cockpit_width_mm", "Cockpit width"))
SEAT = ("seat_shift_mm", "Seat, aft of its place")
CROWN = ("deck_crown", "Foredeck crown")
WISHES = (("room", "Room: snug to roomy"), ("steadiness", "Steadiness: livelier to steadier"),
          ("length", "Length: handier to faster"))
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
    in_hand: bool  # the person put it there


def current_sizes(job):
    """The boat's sizes by key of a request's `fixed`."""
    boat = job.fitted.assessed.boat
    return {"length_mm": boat.length_m * MM_PER_M, "beam_mm": boat.beam_m * MM_PER_M,
            "depth_mm": boat.depth_m * MM_PER_M,
            "cockpit_length_mm": boat.opening.length_m * MM_PER_M,
            "cockpit_width_mm": boat.opening.width_m * MM_PER_M,
            "deck_crown": boat.scaling.crown,
            "seat_shift_mm": boat.scaling.seat_shift_m * MM_PER_M}


def ranges(base):
    """What the base allows, by the same keys."""
    limits, (forward, aft) = base.design.limits, base.design.cockpit.seat_slide_m
    factored = (("length_mm", base.length_m, limits.length), ("beam_mm", base.beam_m, limits.beam),
                ("depth_mm", base.depth_m, limits.depth))
    return {
        **{key: (own * low * MM_PER_M, own * high * MM_PER_M)
           for key, own, (low, high) in factored},
        "cockpit_length_mm": tuple(v * MM_PER_M for v in limits.cockpit_length_m),
        "cockpit_width_mm": tuple(v * MM_PER_M for v in limits.cockpit_width_m),
        "deck_crown": limits.crown,
        "seat_shift_mm": (-forward * MM_PER_M, aft * MM_PER_M)}


def put_sliders(one, job, base):
    """All sliders of the boat page."""
    with st.expander("What this paddler would rather have", expanded=bool(one.wished)):
        for key, label in WISHES:
            _wish_slider(one, key, label)
    for key, label in (*LENGTHS, SEAT):
        _length_slider(one, job, base, key, label)
    _crown_slider(one, job, base)
    if one.held:
        st.session_state.setdefault("pick_follow", one.follow)
        st.checkbox("Let the other sizes follow the held ones", key="pick_follow",
                    on_change=lambda: setattr(one, "follow", st.session_state["pick_follow"]))
        if len(one.held) > 1:
            st.button("Let go of every held size", on_click=_let_go, args=(one, *one.held))
    _gear_slider(one, job)
    _speed_slider(one)


def _wish_slider(one, key, label):
    _put(_Slider(f"slide_wish_{key}", label, -1.0, 1.0, 0.25, "%.2f", one.wished.get(key, 0.0),
                 True), lambda value: one.wished.__setitem__(key, value))


def _length_slider(one, job, base, key, label):
    scale, step, shown = STEPS[one.length_unit]
    low, high = (bound / scale for bound in ranges(base)[key])
    _put(_Slider(f"slide_{key}_{one.length_unit}", f"{label}, {one.length_unit}{_held(one, key)}",
                 low, high, step, shown, current_sizes(job)[key] / scale, key in one.held),
         lambda value: one.held.__setitem__(key, value * scale))
    _put_release(one, key, label)


def _crown_slider(one, job, base):
    key, label = CROWN
    low, high = ranges(base)[key]
    _put(_Slider(f"slide_{key}", f"{label}, % of the base's{_held(one, key)}", 100.0 * low,
                 100.0 * high, 1.0, "%.0f", 100.0 * current_sizes(job)[key], key in one.held),
         lambda value: one.held.__setitem__(key, value / 100.0))
    _put_release(one, key, label)


def _put_release(one, key, label):
    """Lets go of one held size."""
    if key in one.held:
        st.button(f"Let go of {label.split(',')[0].lower()}", key=f"release_{key}",
                  on_click=_let_go, args=(one, key))


def _gear_slider(one, job):
    scale, unit = (1.0, "kg") if one.mass_unit == "kg" else (KG_PER_LB, "lb")

    def carry(value):
        one.enter("gear_kg", typed_text(value * scale, one.mass_unit))
        show_entries()

    _put(_Slider(f"slide_gear_{unit}", f"Gear, {unit}", 0.0, MOST_GEAR_KG / 3.0 / scale, 1.0,
                 "%.0f", job.request.gear_kg / scale, False), carry)


def _speed_slider(one):
    _put(_Slider("slide_speed", "Speed, knots", SLOWEST_MPS * KN_PER_MPS, FASTEST_MPS * KN_PER_MPS,
                 0.1, "%.1f", one.speed_mps * KN_PER_MPS, False),
         lambda knots: setattr(one, "speed_mps", knots / KN_PER_MPS))


def _held(one, key):
    return " — held" if key in one.held else ""


def _put(slider, moved):
    """Draws a slider; `moved` takes the number where the person put it.

    One that the fit moves, not the hand, is drawn anew under another key: what a browser still
    tells of its old place, with keys pressed fast, would else count as put there by hand.
    """
    step = slider.step
    low, high = -(-slider.low // step) * step, slider.high // step * step
    now = min(max(round(slider.now / step) * step, low), high)
    times, stood = st.session_state.get(f"{slider.place}_stood", (0, now))
    if not slider.in_hand and abs(stood - now) > 0.5 * step:
        times += 1
    key = f"{slider.place}_{times}"
    if key not in st.session_state:
        st.session_state[key] = now
    st.session_state[f"{slider.place}_stood"] = (times, st.session_state[key])
    st.slider(slider.label, low, high, step=step, key=key, format=slider.shown,
              on_change=lambda: moved(st.session_state[key]))


def _let_go(one, *keys):
    for key in keys:
        del one.held[key]
