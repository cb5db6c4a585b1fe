"""The dry fit: what stands on the strongback is measured, told, and moved or accepted."""

import streamlit as st

from sizer.built.asked import MARK
from sizer.built.measures import LEAST_SPREAD_M, MOST_SPREAD_M
from sizer.built.points import points_of
from sizer.design.records import MOULDED_POINT
from sizer.scenes.bench_views import asked_view
from sizer.units import MM_PER_M, inches_text, mark_text, of_metres
from sizer.web.figures import LONGEST, typed_entry, typed_text
from sizer.web.issued import (
    as_issued,
    issued,
    moved_on,
    not_last_words,
    since_words,
    stands,
)
from sizer.web.look import echo_html, note_html, put, put_scene
from sizer.web.state import act, change, choice, draft, field, say, view
from sizer.web.steps.by_hand import put_sheet
from sizer.web.steps.dry_fit_read import (
    SPREAD_PARTS,
    asked_for,
    at_fault,
    behind_text,
    fault_of,
    found_for,
    starred,
    usable_m,
)
from sizer.web.steps.dry_fit_round import (
    first_open,
    go_to,
    put_known,
    round_of,
    turn,
    turn_on,
)
from sizer.web.steps.dry_fit_told import put_told
from sizer.web.strip import job_or_way_back, put_cautions, put_next

ROUNDS = {"8": "8 that tell most", "20": "20", "all": "all"}
MOST_LEFT_OUT = 4  # measures told one by one; more of them are of another boat
TAPE_MM = tuple(one * MM_PER_M for one in (LEAST_SPREAD_M, MOST_SPREAD_M))
MOST_MORE_MM = 1000.0  # than designed that may be typed at all; a mark may be ahead of the datum


def page():
    """Draws the step."""
    one = draft()
    job = job_or_way_back(one)
    if job is None:
        return
    st.header("Dry fit")
    before = issued()
    last = stands(one, before)
    _whose(one, job, before, last)
    job = as_issued(one, job, last)
    asked = asked_for(job)
    ask, told = st.columns([2, 3], gap="large")
    found = found_for(one, job)
    with ask:
        _ask(one, job, asked, last, found)
    with told:
        _put_left_out(one, job, asked)
        if found is None:
            put("<p>Sticks in the frames, zip ties, a tape: type what stands there, any few of "
                f"these, of a stick at one point: {MOULDED_POINT}. What is not measured is taken "
                "as the smoothest change that meets what is.</p>")
        elif isinstance(found, str):
            put(note_html(found, "fail"))
        else:
            moved_on("dry fit")
            put_told(one, job, found, last)
    put_cautions(job.cautions)
    put_next("Next: the launch", "launch")


def _whose(one, job, before, last):
    """Which boat the measures are compared with: the revision `last` of those `before`, if any."""
    if last is not None:
        put(note_html(f"Compared with revision {last.letter} of {last.date}.", "pass"))
        if since := since_words(one, job, last):
            put(note_html(f"Otherwise now than revision {last.letter} was made: {'; '.join(since)}."
                          f" The dry fit goes on with revision {last.letter} as it was made."))
    elif before:
        put(note_html(f"{not_last_words(one, before)} These figures are of the boat as entered now."
                      " Undo to the boat that was built before you measure.", "fail"))
    else:
        put(note_html("This boat was never issued: the figures are of the boat as entered now."))


def _put_left_out(one, job, asked):
    """What was typed and cannot be used, each with the way to it; what is in hand tells itself."""
    bad = [this for this in at_fault(one, asked) if this.key != view()["dry_in_hand"]]
    for this in bad[:MOST_LEFT_OUT]:
        put(note_html(f"{this.words}: {fault_of(one, this)}. It is left out until then.", "fail"))
        st.button("Go to this measure", key=f"mend_{this.key}", on_click=act,
                  args=(go_to, job, asked, this))
    if more := len(bad[MOST_LEFT_OUT:]):
        put(note_html(f"{more} more cannot be used and are left out.", "fail"))


def _ask(one, job, asked, last, found):
    """One measure at a time, its picture over it; on a phone nothing else is in sight."""
    st.segmented_control("Ask for", tuple(ROUNDS), required=True, format_func=ROUNDS.get,
                         **choice("dry_round", "20", among="default"))
    round_ = round_of(job, asked, view()["dry_round"], one.dry_fit.tape_mm / MM_PER_M)
    at = view()["dry_at"] = min(view().get("dry_at", first_open(one, round_)), len(round_) - 1)
    this = round_[at]
    view()["dry_in_hand"] = this.key
    unit, said = one.length_unit, of_metres(mark_text, one.length_unit)
    put_scene(asked_view, points_of(job.fitted.assessed.boat), job.setting_up, this, said)
    allowed = ((-MOST_MORE_MM if this.what == MARK else 0.0),
               this.designed_m * MM_PER_M + MOST_MORE_MM)
    with st.container(key="measures"):  # where Enter presses what is next
        with st.container(key=f"dry_at_{at}"):
            st.text_input(
                f"{at + 1} of {len(round_)}: {this.words}, {unit}", max_chars=LONGEST, live=True,
                placeholder=f"designed: {said(this.designed_m)}",
                **field(f"dry_{this.key}", one.dry_fit.text(this.key), lambda one, text: one.but(
                    dry_fit=one.dry_fit.enter(this.key, text, unit, allowed)), typed=True))
        put(_echo(one, this, said))
        if text := behind_text(job, this, said):
            put(note_html(text))
        with st.container(horizontal=True, gap="small"):
            st.button("Back", on_click=act, args=(turn, at - 1), disabled=at == 0)
            st.button("Next measure", type="primary", key="next_measured", on_click=act,
                      args=(turn_on, this, at), disabled=at == len(round_) - 1)
    _jump(one, job, round_, at)
    put_known(one, job, asked, found)
    st.text_input(f"The tape is good to, {unit} (one standard deviation)", max_chars=LONGEST,
                  **field("tape_mm", tape_text(one.dry_fit.tape_mm, unit), _with_tape))
    put_sheet(one, job, "dry-fit", last)
    if one.dry_fit.entries:
        with st.expander(_typed(one, asked)):
            st.button("Take all of them away", on_click=act, args=(_clear,))


def tape_text(tape_mm, unit):
    """A tape's spread as its field has it; in inches as spreads are shown."""
    return inches_text(tape_mm, SPREAD_PARTS) if unit == "in" else typed_text(tape_mm, unit)


def _with_tape(one, text):
    """A Draft with what was typed of its tape; what cannot be is told, and the last one stays."""
    read = typed_entry("tape_mm", text, one.length_unit, TAPE_MM)
    if read.value is None:
        say(f"The tape is good to: {read.fault or 'blank'}. "
            f"{tape_text(one.dry_fit.tape_mm, one.length_unit)} {one.length_unit} stays.")
        return one
    return one.but(dry_fit=one.dry_fit.but(tape_mm=read.value))


def _typed(one, asked):
    """How many measures were typed, and how many of them cannot be used."""
    good, bad = len(usable_m(one, asked)), len(at_fault(one, asked))
    return (f"{good} measure{'s' * (good != 1)} typed"
            + f", {bad} more that cannot be used" * bool(bad))


def _jump(one, job, round_, at):
    """All measures of the round with what was typed, to go to any of them."""
    labels = [f"{number}. {starred(job, this)}"
              + (f": {text}" if (text := one.dry_fit.text(this.key)) else "")
              for number, this in enumerate(round_, start=1)]
    st.selectbox("Go to", range(len(round_)), format_func=labels.__getitem__,
                 **choice("dry_at", at, among=range(len(round_))))


def _clear():
    change(draft().but(dry_fit=draft().dry_fit.but(entries={}, accepted=False)))


def _echo(one, this, said):
    """What was understood, and how far it is off; a fault beside its figure."""
    designed, fault = f"designed: {said(this.designed_m)}", fault_of(one, this)
    value = one.dry_fit.values().get(this.key)
    if fault or value is None:
        return echo_html(designed, fault)
    off = value / MM_PER_M - this.designed_m
    return echo_html(f"{designed}; {said(abs(off))} {'more' if off > 0.0 else 'less'}")
