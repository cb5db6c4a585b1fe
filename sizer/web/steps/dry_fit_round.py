"""Which measures are asked for at the bench, in walking order, and how well they tell the boat."""

import streamlit as st

from sizer.built.asked import straight
from sizer.built.points import points_of
from sizer.built.smooth import before
from sizer.built.telling import WANTED, most_telling, slopes_of, spreads
from sizer.units import MM_PER_M, of_metres
from sizer.web.look import press, put
from sizer.web.state import draft, kept, take_in_hand, view
from sizer.web.steps.dry_fit_read import fault_of, spread_text, usable_m
from sizer.web.turn import long_work

MORE = 5  # measures that are named as telling most of what is still unknown


def round_of(job, asked, which, tape_m):
    """The measures asked for, in walking order."""
    if which == "all":
        return asked

    def chosen():
        with long_work("Looking which measures tell most"):
            points, slopes = _of(job)
            picked = most_telling(points, slopes, before(points), straight(asked), tape_m,
                                  int(which))
            return tuple(sorted(picked, key=asked.index))

    return kept("dry_round", (job, which, tape_m), chosen, most=3)


def first_open(one, round_):
    """Place of the first measure that is not there yet: a phone that slept goes on there."""
    there = usable_m(one, round_)
    return next((at for at, this in enumerate(round_) if this.key not in there), 0)


def turn(at):
    """To another measure of the round, its field in hand."""
    view()["dry_at"] = at
    take_in_hand(f"dry_at_{at}")


def turn_on(this, at):
    """On from the measure at a place of the round; it stays in hand while it cannot be used."""
    turn(at if fault_of(draft(), this) else at + 1)


def put_known(one, job, asked, found):
    """How well the boat is known so far, and which measures more would tell most of it."""
    if isinstance(found, str):
        return
    typed = usable_m(one, asked)
    left = tuple(this for this in straight(asked) if this.key not in typed)
    tape_m = one.dry_fit.tape_mm / MM_PER_M
    (share, gm), best = kept("dry_known", (job, found, left, tape_m),
                             lambda: _known(job, found, left, tape_m))
    after = f"after {len(typed)} measures" if len(typed) > 1 else "after one measure"
    said, enough = of_metres(spread_text, one.length_unit), share <= WANTED[0] and gm <= WANTED[1]
    put(f"<p><b>How well this boat is known</b> {after if typed else 'before it is measured'}: "
        f"displacement ± {100.0 * share:.1f} %, steadiness (GM) ± {said(gm)}; two times of three "
        f"it is closer. {'Good enough' if enough else 'Measure on'}: ± {100.0 * WANTED[0]:.1f} % "
        f"and ± {said(WANTED[1])} are wanted.</p>")
    with st.expander("Which measures more would tell most"):
        for this in sorted(best, key=asked.index):
            press(this.words, go_to, job, asked, this, key=f"more_{this.key}", width="stretch")


def _known(job, found, left, tape_m):
    """(`spreads` by a DryFit, or by none yet, the measures still left that would tell most)"""
    points, slopes = _of(job)
    cover_m2 = before(points) if found is None else found.standing.covariance_m2
    return spreads(slopes, cover_m2), most_telling(points, slopes, cover_m2, left, tape_m, MORE)


def go_to(job, asked, this):
    """To one measure, in the round at hand where it is in it."""
    round_ = round_of(job, asked, view()["dry_round"], draft().dry_fit.tape_mm / MM_PER_M)
    if this not in round_:
        view()["dry_round"], round_ = "all", asked
    turn(round_.index(this))


def _of(job):
    assessed = job.fitted.assessed
    return points_of(assessed.boat), slopes_of(assessed, job.drawn_for)
