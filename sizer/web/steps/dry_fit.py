"""The dry fit: what stands on the strongback is measured, told, and moved or accepted."""

import streamlit as st

from sizer.built.asked import MARK
from sizer.built.behind_risers import BEHIND
from sizer.built.measures import LEAST_SPREAD_M, MOST_SPREAD_M
from sizer.built.points import points_of
from sizer.design.records import MOULDED_POINT
from sizer.scenes.bench_views import asked_view
from sizer.units import MM_PER_M, inches_text
from sizer.web import issued as revisions
from sizer.web.figures import LONGEST, typed_entry, typed_text
from sizer.web.look import echo_html, note_html, press, put, put_scene
from sizer.web.state import choice, field, say, view
from sizer.web.steps import dry_fit_read as read
from sizer.web.steps.dry_fit_round import first_open, put_known, round_of, turn, turn_on
from sizer.web.steps.dry_fit_told import put_told
from sizer.web.steps.dry_fit_typed import put_again, put_before, put_left_out, put_typed, put_unread
from sizer.web.strip import put_cautions, put_next

ROUNDS = {"8": "8 that tell most", "20": "20", "all": "all"}
TAPE_MM = tuple(one * MM_PER_M for one in (LEAST_SPREAD_M, MOST_SPREAD_M))
MOST_MORE_MM = 1000.0  # than designed that may be typed at all; a mark may be ahead of the datum


def page(one, job):
    st.header("Dry fit")
    before = revisions.issued()
    last = revisions.stands(one, before)
    _whose(one, job, before, last)
    job = revisions.as_issued(one, job, last)
    asked = read.asked_for(job)
    ask, told = st.columns([2, 3], gap="large")
    found = read.found_for(one, job)
    with ask:
        _ask(one, job, asked, last, found)
    with told:
        put_left_out(one, job, asked)
        put_unread(one, job, asked)
        if found is None:
            put("<p>Sticks in the frames, zip ties, a tape: type what stands there, any few of "
                f"these, of a stick at one point: {MOULDED_POINT}. What is not measured is taken "
                "as the smoothest change that meets what is.</p>")
        elif isinstance(found, str):
            put(note_html(found, "fail"))
        else:
            revisions.moved_on("dry fit")
            put_told(one, job, found, last)
    put_cautions(job.cautions)
    put_next("Next: the launch", "launch")


def _whose(one, job, before, last):
    """Which boat the measures are compared with: the revision `last` of those `before`, if any."""
    if last is not None:
        put(note_html(f"Compared with revision {last.letter} of {last.date}.", "pass"))
        if since := revisions.since_words(one, job, last):
            put(note_html(f"Otherwise now than revision {last.letter} was made: {'; '.join(since)}."
                          f" The dry fit goes on with revision {last.letter} as it was made."))
    elif before:
        put(note_html(f"{revisions.not_last_words(one, before)} These figures are of the boat as "
                      "entered now. Undo to the boat that was built before you measure.", "fail"))
    else:
        put(note_html("This boat was never issued: the figures are of the boat as entered now."))


def _ask(one, job, asked, last, found):
    """One measure at a time, its picture over it; on a phone nothing else is in sight."""
    st.segmented_control("Ask for", tuple(ROUNDS), required=True, format_func=ROUNDS.get,
                         **choice("dry_round", "20", among="default"))
    round_ = round_of(job, asked, view()["dry_round"], one.dry_fit.tape_mm / MM_PER_M)
    at = view()["dry_at"] = min(view().get("dry_at", first_open(one, round_)), len(round_) - 1)
    this = round_[at]
    if (before := view().get("dry_in_hand", this.key)) != this.key:
        view()["dry_before"] = before
    view()["dry_in_hand"] = this.key
    unit, said = one.length_unit, one.marked
    put_scene(asked_view, points_of(job.fitted.assessed.boat), job.setting_up, this, said)
    allowed = ((-MOST_MORE_MM if this.what == MARK else 0.0),
               this.designed_m * MM_PER_M + MOST_MORE_MM)
    put_before(one, asked, round_, view().get("dry_before"))
    with st.container(key="measures"):  # where Enter presses what is next
        with st.container(key=f"dry_at_{at}"):
            st.text_input(
                f"{at + 1} of {len(round_)}: {this.words}, {unit}", max_chars=LONGEST, live=True,
                placeholder=f"designed: {said(this.designed_m)}",
                **field(f"dry_{this.key}", one.dry_fit.text(this.key), lambda one, text: one.but(
                    dry_fit=one.dry_fit.enter(this.key, text, unit, allowed)), typed=True))
        put(_echo(one, job, this))
        if text := read.behind_text(job, this, said):
            put(note_html(text))
        with st.container(horizontal=True, gap="small"):
            press("Back", turn, at - 1, disabled=at == 0)
            press("Next measure (Enter)", turn_on, this, at, type="primary", key="next_measured",
                  disabled=at == len(round_) - 1)
            if this in read.unread(one, asked):
                put_again(this, "hand")
    _jump(one, job, round_, at)
    put_known(one, job, asked, found)
    st.text_input(f"The tape is good to, {unit} (two readings of three are closer)",
                  max_chars=LONGEST, **field(
                      "tape_mm", tape_text(one.dry_fit.tape_mm, unit), _with_tape))
    revisions.put_sheet(one, job, "dry-fit", last)
    put_typed(one, job, asked)


def tape_text(tape_mm, unit):
    """A tape's spread as its field has it; in inches as spreads are shown."""
    return inches_text(tape_mm, read.SPREAD_PARTS) if unit == "in" else typed_text(tape_mm, unit)


def _with_tape(one, text):
    """A Draft with what was typed of its tape; what cannot be is told, and the last one stays."""
    typed = typed_entry("tape_mm", text, one.length_unit, TAPE_MM)
    if typed.value is None:
        say(f"The tape is good to: {typed.fault or 'blank'}. "
            f"{tape_text(one.dry_fit.tape_mm, one.length_unit)} {one.length_unit} stays.")
        return one
    return one.but(dry_fit=one.dry_fit.but(tape_mm=typed.value))


def _jump(one, job, round_, at):
    """All measures of the round, to go to any of them: what was typed first, for a phone cuts the
    end of a line off."""
    labels = [f"{_first(one, this)}{number}. {read.starred(job, this)}"
              for number, this in enumerate(round_, start=1)]
    st.selectbox("Go to", range(len(round_)), format_func=labels.__getitem__,
                 **choice("dry_at", at, among=range(len(round_))))
    if any(this in read.behind_for(job) for this in round_):
        put(echo_html(f"{BEHIND} a riser stands in the way; how to tape it is told with it"))


def _first(one, this):
    """What was typed of an Asked, before its name in a list."""
    value = read.usable_m(one, (this,)).get(this.key)
    text = one.dry_fit.text(this.key) if value is None else one.marked(value)
    return f"{text} · " if text else ""


def _echo(one, job, this):
    """What was understood, and how far it is off; a fault beside its figure."""
    designed, fault = f"designed: {one.marked(this.designed_m)}", read.fault_of(one, this)
    value = one.dry_fit.values().get(this.key)
    if fault or value is None:
        return echo_html(designed, fault)
    told = f"{designed}; {read.off_text(this, value / MM_PER_M, one.marked)}"
    again = ". Read it a second time." * (this in read.unread(one, read.asked_for(job)))
    return echo_html(f"{told}{again}")
