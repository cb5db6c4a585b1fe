"""Wishes that leave the boat where it is: what stops them, and how far a size can go by hand."""

from html import escape

from sizer.export.fit_words import gave_way
from sizer.fit.by_hand import reach_by_hand
from sizer.fit.check_figures import miss_words
from sizer.fit.sizes import main_sizes_mm
from sizer.fit.tried import DIMENSIONS
from sizer.web.entered import Held
from sizer.web.look import put
from sizer.web.session import job_for
from sizer.web.state import kept
from sizer.web.trade_words import dimension_axis

MOVED_MM, MOVED_CROWN = 1.0, 0.01  # from here a wish is said to move the boat
BY_HAND = {"steadiness": ("beam", "beam_mm"), "length": ("length", "length_mm")}  # what serves it


def put_wishes_in_vain(one, job, wishes):
    """A sentence for each wish, {its key: label}, without which the boat would be the same."""
    for key, label in wishes.items():
        wish = getattr(job.request.wishes, key)
        if wish and one.held[BY_HAND.get(key, ("", "beam_mm"))[1]] is None and _in_vain(
                one, job, key):
            put(f'<p class="sz-why">{escape(label)}: this wish moves nothing: what else is '
                "sought of this boat weighs more than a wish. "
                f"{escape(_instead(one, job, key, wish))}</p>")


def put_what_gave_way(one, job, wishes):
    """A sentence for each wish of which something gave way: what was sought of it and reached.

    `wishes` as of `put_wishes_in_vain`.
    """
    gave = gave_way(job.fitted)
    held = "what is held by hand and to " * (one.held != Held())
    for key, label in wishes.items():
        short = [f"{each.aim.title} (sought {_figure(one, each, each.wanted)}, reached "
                 f"{_figure(one, each, each.value)})" for each in job.fitted.sought
                 if each.aim.wish == key and each.aim.title in gave]
        if getattr(job.request.wishes, key) and short:
            put(f'<p class="sz-why">{escape(label)}: {escape(", ".join(short))} gave way to '
                f"{held}what else is sought.</p>")


def _figure(one, sought, value):
    return one.said(value) if sought.aim.unit == "mm" else f"{value:.2f}"


def _in_vain(one, job, key):
    plain, _ = job_for(one.wish(key, 0.0))
    if plain is None:
        return False
    boats = [each.fitted.assessed.boat for each in (job, plain)]
    moved = max(abs(here - there) for here, there in zip(*map(main_sizes_mm, boats), strict=True))
    crown = abs(boats[0].scaling.crown - boats[1].scaling.crown)
    return moved < MOVED_MM and crown < MOVED_CROWN


def _instead(one, job, key, wish):
    """How far the size that serves the wish goes by hand, and what stops it there."""
    if key not in BY_HAND:
        return "Hold a size below instead."
    short = [check for check in job.fitted.checks if check.status != "pass"]
    if short:
        return f"First of all: {miss_words(short[0], one.length_unit)}: {short[0].remedy}."
    dimension, sign = BY_HAND[key][0], 1.0 if wish > 0.0 else -1.0
    reach = kept("by_hand", (job, dimension, sign), lambda: reach_by_hand(
        job.fitted.assessed, job.fitted.seat_held, dimension, sign), 12)
    if reach is None:
        return "Hold a size below instead."
    axis = dimension_axis(one, DIMENSIONS[dimension])
    inside = axis.inside(*sorted((reach.now, reach.last)))
    stop = "; ".join(miss_words(check, one.length_unit) for check in reach.ended_by)
    stop = stop or "the base's own limit"
    if inside is None:
        return (f"Nor is there room for it: past {axis.words} {axis.text(reach.now)}, where it "
                f"is: {stop}.")
    last = inside[1 if sign > 0.0 else 0]
    gm = one.said(reach.boat.particulars.gm_m)
    return (f"Held by hand, {axis.words} {axis.text(last)} still passes every check, with GM {gm}; "
            f"past it: {stop}.")
