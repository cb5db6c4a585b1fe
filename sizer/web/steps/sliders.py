"""The sliders beside the boat: each stands where the fit put it; moving one holds it there."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from html import escape

import streamlit as st

from sizer.as_typed import parse_length_mm
from sizer.fit.request import FIXED, MOST_GEAR_KG
from sizer.fit.sizes import SIZES, main_sizes_mm, size_title, sizes_mm
from sizer.hydro.drag import FASTEST_MPS, SLOWEST_MPS
from sizer.units import KG_PER_LB, KN_PER_MPS, MM_PER_IN, MM_PER_M, length_text
from sizer.web.entered import WISH_WORDS, Held, wish_word
from sizer.web.figures import signed_text, typed_text
from sizer.web.look import place, press, put, put_fault
from sizer.web.state import change, draft, field
from sizer.web.steps.in_vain import put_what_gave_way, put_wishes_in_vain
from sizer.web.steps.typed import forget_typed, put_typed

SEAT = ("seat_shift_mm", "Seat, aft of its place")
CROWN = ("deck_crown", "Foredeck crown")
HELD = " — held"
STEPS = {"mm": (1.0, 1.0, "%.0f"), "cm": (10.0, 0.1, "%.1f"), "in": (MM_PER_IN, 0.0625, None)}


@dataclass(frozen=True)
class _Slider:
    """One slider in the units of the screen, and the figure typed beside it."""

    name: str  # of its field
    label: str
    low: float
    high: float
    step: float
    shown: str | None  # format of its number; None: as fractions of an inch
    now: float
    unit: str  # of what is typed
    si: float  # what one of the screen's units is in SI
    write: Callable[[float], str]  # a figure of the screen as the field says it
    most: float | None = None  # that may be typed, where the slider ends before
    ends: Callable[[float, float], str] | None = None  # least and most in words, if not as written

    def allowed(self, low, high):
        if self.ends is not None:
            return self.ends(low, high)
        return f"{self.write(low)} to {self.write(high)} {self.unit}"


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


def put_sliders(one, job, base):
    """What the paddler would rather have, every size, gear and speed."""
    for key, (label, names) in WISH_WORDS.items():
        _wish_slider(one, key, label, names)
    with place():
        labels = {key: label for key, (label, _) in WISH_WORDS.items()}
        put_wishes_in_vain(one, job, labels)
        put_what_gave_way(one, job, labels)
    put("<b>Sizes</b>: move one, or type it, to hold it there.")
    for key, label in (*((key, size_title(key)) for key in SIZES), SEAT):
        _length_slider(one, job, base, key, label)
    _crown_slider(one, job, base)
    with place():
        _follow(one)
    put("<b>Aboard and under way</b>")
    _gear_slider(one, job)
    _speed_slider(one)


def _wish_slider(one, key, label, names):
    """A wish in words; half a wish is one step."""
    st.select_slider(label, names, **field(
        f"wished.{key}", wish_word(key, one.wished[key]),
        lambda one, name: one.wish(key, 0.5 * (names.index(name) - 2))))


def _length_slider(one, job, base, key, label):
    scale, step, shown = STEPS[one.length_unit]
    unit = one.length_unit
    low, high = (bound / scale for bound in ranges(base)[key])
    now = sizes_of(job.fitted.assessed.boat)[key]
    _put_size(one, job, base, key, _Slider(
        f"held.{key}.{unit}", f"{label}, {unit}", low, high, step, shown, now / scale, unit,
        scale / MM_PER_M, lambda value: _length(value * scale, unit, one.held[key] is not None),
        ends=lambda low, high: " to ".join((
            length_text(low * scale, unit).removesuffix(f" {unit}"),
            length_text(high * scale, unit)))),
        scale, lambda value: length_text(value, unit))


def _length(value_mm, unit, held):
    """A size as the strip says it; one held more finely as finely as it is."""
    text = length_text(value_mm, unit).removesuffix(f" {unit}")
    exact = abs(parse_length_mm(text, unit, "size") - value_mm) < 1e-6
    return text if exact or not held else signed_text(value_mm, unit)


def _crown_slider(one, job, base):
    key, label = CROWN
    low, high = ranges(base)[key]
    _put_size(one, job, base, key, _Slider(
        f"held.{key}", f"{label}, % of the base's", 100.0 * low, 100.0 * high, 1.0, "%.0f",
        100.0 * sizes_of(job.fitted.assessed.boat)[key], "%", 0.01,
        "{:.0f}".format if one.held[key] is None else _plain), 0.01, "{:.0%}".format)


def _put_size(one, job, base, key, slider, scale, says):
    """A size's slider and field, what it is on the base, and what set it or lets go of it."""
    held = one.held[key] is not None
    with st.container(key=f"size_{key}", gap=None):
        _put(replace(slider, label=slider.label + HELD) if held else slider,
             lambda one, value: one.hold(key, value * scale))
        with st.container(horizontal=True, vertical_alignment="center", gap="small"):
            put(f'<div class="sz-why">base {says(sizes_of(base)[key])} · '
                f"{escape(job.fitted.set_by[key])}</div>")
            if held:
                press("Let go", _let_go, key, key=f"release_{key}", type="tertiary",
                      help="Hands it back to the fit")


def _follow(one):
    """What becomes of the other sizes where some are held, and the way back to none."""
    count = sum(size is not None for _, size in one.held)
    if count and one.held[SEAT[0]] is not None:
        put('<div class="sz-why">The seat is held: the other sizes that are not held are fitted '
            "round it.</div>")
    if count:
        st.toggle("Let the other sizes follow", **field("follow"), help="Off: they stay as "
                  "fitted. On: they are fitted anew to what is held.")
    if count > 1:
        put_let_go_of_all(one)


def put_let_go_of_all(one):
    if one.held != Held():
        press("Let go of every held size", _let_go, *FIXED)


def _gear_slider(one, job):
    scale, unit = (1.0, "kg") if one.mass_unit == "kg" else (KG_PER_LB, "lb")
    _put(_Slider(f"gear.{unit}", f"Gear, {unit}", 0.0, MOST_GEAR_KG / 3.0 / scale, 1.0,
                 "%.0f", job.request.trip.gear_kg / scale, unit, scale, _plain,
                 MOST_GEAR_KG / scale),
         lambda one, value: one.enter("gear_kg", typed_text(value * scale, one.mass_unit)))


def _speed_slider(one):
    _put(_Slider("speed_mps", "Speed, knots", SLOWEST_MPS * KN_PER_MPS, FASTEST_MPS * KN_PER_MPS,
                 0.1, "%.1f", one.speed_mps * KN_PER_MPS, "knots", 1.0 / KN_PER_MPS, _plain),
         lambda one, knots: one.but(speed_mps=knots / KN_PER_MPS))


def _plain(value):
    return f"{value:.1f}".removesuffix(".0")


def _put(slider, moved):
    """Draws a slider and its field; `moved` takes the draft and a number of the screen's."""
    step = slider.step
    low, high = (round(end / step) * step for end in (slider.low, slider.high))  # as told elsewhere
    now = min(max(round(slider.now / step) * step, low), high)

    def by_hand(one, value):
        forget_typed(slider.name)
        return moved(one, min(max(value, slider.low), slider.high))

    most = slider.high if slider.most is None else slider.most
    with st.container(horizontal=True, vertical_alignment="bottom", gap="small",
                      key=f"slide_{slider.name.replace('.', '_')}"):
        if slider.shown is None:
            _put_fractions(slider, (low, high, now), by_hand)
        else:
            st.slider(slider.label, low, high, step=step, format=slider.shown,
                      **field(slider.name, now, by_hand, moved=True))
        fault = put_typed(
            slider.name, slider.label.split(",")[0], slider.unit, slider.write(slider.now),
            slider.now * slider.si,
            (slider.low * slider.si, most * slider.si,
             slider.allowed(low, round(most / step) * step), 0.51 * step * slider.si),
            lambda one, value: moved(one, value / slider.si))
    put_fault(fault)


def _put_fractions(slider, bounds, moved):
    """A slider whose places are written as builders write them: 24 5/16, 15 ft 5 3/4."""
    first, last, here = (round(bound / slider.step) for bound in bounds)
    places = {_length(at * slider.step * MM_PER_IN, "in", held=False): at * slider.step
              for at in range(first, last + 1)}
    st.select_slider(slider.label, tuple(places), **field(
        slider.name, _length(here * slider.step * MM_PER_IN, "in", held=False),
        lambda one, text: moved(one, places[text]), moved=True))


def _let_go(*keys):
    change(draft().letting_go(keys))
