"""What a dry fit says: what differs, what to move, and how the boat floats as it stands."""

from html import escape

import streamlit as st

from sizer.built.notches import FRAME, MEASURE, in_order
from sizer.built.standing import MEASURE as AT_ODDS
from sizer.export.fit_words import capital, value_words
from sizer.scenes.difference import LARGER, difference_view, unfair_points
from sizer.web.look import note_html, put, put_scene, status_html, table_html
from sizer.web.state import choice, view
from sizer.web.steps.dry_fit_done import put_done

SCALES = {LARGER: f"{LARGER:g} times larger", 1.0: "to scale"}
FIGURES = (("Steadiness (GM)", "gm_m"), ("Draft", "draft_m"), ("Freeboard, least", "freeboard_m"),
           ("Freeboard at the rim", "rim_freeboard_m"), ("Waterline breadth", "waterline_beam_m"),
           ("Waterline length", "waterline_length_m"))


def put_told(one, job, found, last):
    """What stands there, compared with the revision `last`, if any."""
    if found.built.status == "fail":
        put(note_html(f"As it stands this boat {found.refusal}. Do not cover it.", "fail"))
    for said in (*_odd(one, found), *found.hull):
        put(note_html(said, "caution"))
    for caution in found.cautions[:len(found.cautions) - len(job.cautions)]:
        put(note_html(caution))
    st.segmented_control("What differs is drawn", tuple(SCALES), required=True,
                         format_func=SCALES.get, **choice("dry_times", LARGER, among="default"))
    put_scene(difference_view, found, view()["dry_times"])
    st.caption("Design in pencil, as it stands in ink; a ring where it is off beyond what the tape "
               "can tell, with its number below where the stick is unfair there")
    _notches(one, found)
    _afloat(one, found)
    put_done(one, job, found, last)


def _odd(one, found):
    """What is at odds; of a measure that was read twice, what follows."""
    keys = {reach.words: reach.place for reach in found.measured.reaches}
    for odd in found.standing.odd:
        twice = odd.kind == AT_ODDS and keys.get(odd.way) in one.dry_fit.read_again
        yield odd.say + (" You read it twice: mend it there; all below is without it." * twice)


def _notches(one, found):
    """Which notch to move, by how much and which way; behind them what has to wait."""
    unfair = tuple(enumerate(unfair_points(found), start=1))
    now, frame, guess = ([pair for pair in unfair if pair[1].first == first]
                         for first in ("", FRAME, MEASURE))
    st.subheader("Notches to move")
    if now:
        put("<p>What matters most first. Each amount weighs all measures together; it brings the "
            "stick back to its design, or into line where it is not surely off. A notch filed "
            "deeper cannot be filed back: measure that place once more first.</p>")
        _unfair(now, "what to do")
    else:
        put("<p>None to move yet.</p>" if unfair else
            "<p>Every stick is as fair as it was drawn.</p>")
    names = ", ".join(dict.fromkeys(odd.frame for odd in found.standing.odd if odd.is_frame))
    for lot, words in ((frame, f"at or beside {names}: set the frame right first, as said above"),
                       (guess, "by guess from elsewhere: measure there first")):
        if lot:
            with st.expander(f"{len(lot)} notch{'es' * (len(lot) != 1)} {words}"):
                _unfair(lot, "as it stands")
    _fair(one, found)


def _unfair(numbered, heading):
    """A table of (number in the picture, PointTold)."""
    rows = [[f"{number} {_place(this)}", " ".join(filter(None, (
        escape(this.say), escape(this.remark), status_html(this.unfair))))]
        for number, this in numbered]
    put(table_html(("Notch", heading), rows, stack=True, plain=(1,)))


def _place(this):
    return f"<b>{escape(this.frame)}</b> {escape(this.side)} {escape(this.stringer)}"


def _fair(one, found):
    """What is off, but fair: a slightly other boat."""
    fair = [this for this in in_order(found.points) if this.beyond and not this.unfair]
    if fair:
        with st.expander(f"{len(fair)} place{'s' * (len(fair) != 1)} off beyond what the tape can "
                         "tell, but fair"):
            rows = [[_place(this), *map(one.marked, (this.off_half_breadth_m, this.off_height_m))]
                    for this in fair]
            put(table_html(("Place", "out by", "high by"), rows, numbers=(1, 2)))


def _afloat(one, found):
    st.subheader("Afloat as it stands")
    built, designed = (vars(boat.assessed.particulars) for boat in (found.built, found.designed))
    rows = [["Checks", status_html(found.designed.status), status_html(found.built.status)]]
    rows += [[name, one.marked(designed[key]), one.marked(built[key])] for name, key in FIGURES]
    lies = ("none steady" if found.list_deg is None else
            f"{round(found.list_deg, 1) + 0.0:+.1f}°")  # + 0.0: no -0
    rows.append(["List, starboard +", "0.0°", lies])
    put(table_html(("Afloat", "designed", "as it stands"), rows, numbers=(1, 2)))
    for check in found.built.checks:
        if check.status != "pass":
            put(note_html(f"{capital(check.name)}: {value_words(check, one.length_unit)}. "
                          f"{capital(check.meaning)}.", check.status))
