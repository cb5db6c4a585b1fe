"""What was typed at a dry fit, to look over: beside its design, and what is to be read again."""

from html import escape

import streamlit as st

from sizer.web.look import echo_html, note_html, place, press, put, whole
from sizer.web.state import change, choice, draft, view
from sizer.web.steps.dry_fit_read import SAME, at_fault, fault_of, off_text, unread, usable_m
from sizer.web.steps.dry_fit_round import go_to

AGAIN = "Read again: it is so"
MOST_LEFT_OUT = 4  # measures told one by one; more of them are of another boat


def put_left_out(one, job, asked):
    """What was typed and cannot be used, each with the way to it; what is in hand tells itself."""
    bad = [this for this in at_fault(one, asked) if this.key != view()["dry_in_hand"]]
    for this in bad[:MOST_LEFT_OUT]:
        put(note_html(f"{this.words}: {fault_of(one, this)}. It is left out until then.", "fail"))
        press("Go to this measure", go_to, job, asked, this, key=f"mend_{this.key}")
    if more := len(bad[MOST_LEFT_OUT:]):
        put(note_html(f"{more} more cannot be used and are left out.", "fail"))


def put_unread(one, job, asked):
    """What is to be read a second time, each with the way to it and a button that says it was."""
    some = unread(one, asked)
    if len(some) > 1:
        _put_together(one, asked, some)
    for this in some[:MOST_LEFT_OUT]:
        _put_unread(one, job, asked, this)
    if more := some[MOST_LEFT_OUT:]:
        with st.expander(f"{len(more)} more to read a second time"):
            for this in more:
                _put_unread(one, job, asked, this)


def _put_together(one, asked, some):
    """One press for all of them, each named with its figure."""
    values = usable_m(one, asked)
    named = "; ".join(f"{this.short} {one.marked(values[this.key])}" for this in some)
    put(note_html(f"{len(some)} measures are to be read a second time: {named}."))
    press(f"All {len(some)} read again: they are so", _again, *(this.key for this in some))


def _put_unread(one, job, asked, this):
    value, said = usable_m(one, asked)[this.key], one.marked
    put(note_html(f"{this.words}: {said(value)}; designed {said(this.designed_m)}, "
                  f"{off_text(this, value, said)}. Read it a second time: a slip of tape or pen "
                  "looks like this."))
    with st.container(horizontal=True, gap="small"):
        press("Go to this measure", go_to, job, asked, this, key=f"reread_{this.key}")
        put_again(this, "list")


def put_again(this, where):
    """The button that says that a measure was read a second time, the same."""
    press(AGAIN, _again, this.key, key=f"again_{where}_{this.key}")


def _again(*keys):
    change(draft().but(dry_fit=draft().dry_fit.again(*keys)))


def put_before(one, asked, round_, key):
    """Above the field: what was typed of the measure of this key, that was in hand before."""
    with place():
        this = next((this for this in asked if this.key == key), None)
        if this is None or not one.dry_fit.text(key):
            return
        number = f"{round_.index(this) + 1}. " if this in round_ else ""
        value, said = usable_m(one, asked).get(key), one.marked
        if value is None:
            put(note_html(f"{number}{this.short}: {fault_of(one, this)}", "fail"))
            return
        told = f"{number}{this.short}: {said(value)}, {off_text(this, value, said)}"
        if this in unread(one, asked):
            put(note_html(f"{told}. Go back and read it a second time."))
        else:
            put(echo_html(escape(told)))


def put_typed(one, job, asked):
    """Every measure typed, beside its design, each with the way to it; and all taken away."""
    if not one.dry_fit.entries:
        return
    good, bad = usable_m(one, asked), at_fault(one, asked)
    title = (f"{len(good)} measure{'s' * (len(good) != 1)} typed"
             + f", {len(bad)} more that cannot be used" * bool(bad))
    with st.expander(title):
        for this in asked:
            if this.key in good or this in bad:
                press(_line(one, this, good.get(this.key)), go_to, job, asked, this,
                      key=f"typed_{this.key}", width="stretch")
        all_of_them = f"Yes, take away all {len(one.dry_fit.entries)}"
        sure = st.checkbox(all_of_them, **choice("dry_sure", False))
        press("Take all of them away", _clear, disabled=not sure)


def _line(one, this, value):
    """A measure typed, in one line: the figure first."""
    def said(value_m):
        return whole(one.marked(value_m))

    if value is None:
        return f"**cannot be used** · {this.short}"
    again = " · read again" * (this.key in one.dry_fit.read_again)
    off = off_text(this, value, said)
    told = ("as designed" if off == SAME else
            f"designed {said(this.designed_m)}, {off}")
    return f"**{said(value)}** · {this.short} · {told}{again}"


def _clear():
    view()["dry_sure"] = False
    change(draft().but(dry_fit=draft().dry_fit.but(entries={}, accepted=False, read_again=())))
