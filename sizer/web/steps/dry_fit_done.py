"""What is done about a dry fit: notches to file, frames re-issued, or the boat kept as a base."""

from datetime import date

import streamlit as st

from sizer.book.built import KeptDesign, keep_design, kept_of
from sizer.book.issuing import stamp_of
from sizer.book.jobs import advance
from sizer.design.write import design_toml
from sizer.errors import BadInput
from sizer.export.built_answer import (
    NOTCHES,
    measured_files,
    measured_record,
    notches_csv,
)
from sizer.web.issued import issue, issued, made_last, next_due, put_zip, reissued, stamp_now
from sizer.web.keeping import shop_book
from sizer.web.look import note_html, put, put_download
from sizer.web.state import act, begin_job, change, draft, kept, kept_job, say, view
from sizer.web.turn import long_work


def put_done(one, job, found, last):
    """The three ways on from the revision `last` that stands, or from none; and what was made."""
    st.subheader("What to do about it")
    put("<p>Move the notches, and measure again; or accept the boat as it stands. Revised patterns "
        "are drawn for the mean of starboard and port: where the sides differ, mend the boat.</p>")
    printed = job.stamped(stamp_now(one, last))
    with st.container(horizontal=True, gap="small"):
        put_download("Notches to file or pack (CSV)", lambda: notches_csv(printed, found),
                     printed.stamp.named(NOTCHES))
        _put_accept(one, job, found, last)
        text = design_toml(found.sides.mean.design)
        base = _kept_as(text)
        st.button("Keep it as a base design of the shop", on_click=act, args=(_keep, job, text),
                  disabled=base is not None)
    if last is None:
        put("<p>Frames are re-issued for a boat that was issued as it is entered now: see Files."
            "</p>")
    if one.dry_fit.accepted:
        put_accepted(one, found, last, " The launch is compared with this boat. Measure again once "
                     "a notch is moved.")
    if base is not None:
        put(note_html(f"Kept on {base.date} as the base {base.name}: see “Use and base” of any "
                      "job.", "pass"))
    put("<p>A base design tells for whom the boat was drawn, and goes when that customer is "
        "forgotten.</p>")
    _offer()


def put_accepted(one, found, last, more=""):
    """Puts what `accepted_words` says of a boat, and what its checks say as it stands."""
    short = [check.name for check in found.built.checks if check.status == "caution"]
    says = (f" It {found.refusal}. Do not cover it." if found.refusal else
            f" A caution as it stands: {', '.join(short)}." if short else "")
    put(note_html(f"{accepted_words(one, found, last)}{says}{more}", found.built.status))


def accepted_words(one, found, last):
    """Of which revisions the sheets of an accepted boat are, as a sentence: `last` is that which
    stands of the whole boat, if any."""
    said = "Accepted as it stands"
    if last is None:
        return f"{said}."
    again = _again(one, found, last)
    if again is None and found.recut:
        return (f"{said}: revision {last.letter} is of the boat as designed; frames that change "
                f"({', '.join(found.recut)}) are not re-issued.")
    if again is None:
        return f"{said}: no frame changes, every sheet of revision {last.letter} stands."
    return (f"{said}: revision {again.letter} draws {', '.join(found.recut) or 'no frame'} anew, "
            f"all other sheets of revision {last.letter} stand.")


def _again(one, found, last):
    """The Revision that re-issued frames for this dry fit of the boat of `last`, if any."""
    return reissued(issued(), _record(one, found)) if last is not None else None


def _record(one, found):
    return measured_record(found.measured, found.standing.tape_m, one.length_unit)


def _put_accept(one, job, found, last):
    """The button that accepts the boat; where frames change they are re-issued, once."""
    again = _again(one, found, last)
    if found.recut and again is None:
        if st.button(f"Accept it and re-issue: {', '.join(found.recut)}", type="primary",
                     disabled=last is None):
            _reissue(one, job, _record(one, found))
        return
    which = "no frame changes" if again is None else f"revision {again.letter} is of this boat"
    st.button(f"Accept it: {which}", type="primary", on_click=act, args=(_accept,),
              disabled=one.dry_fit.accepted or last is None)


def _accept():
    change(draft().but(dry_fit=draft().dry_fit.but(accepted=True)))


def _reissue(one, job, record):
    """A new revision of just the frames that change; the job is dry-fitted from then on."""
    due = next_due()
    stamp = stamp_of(due, date.today().isoformat())
    with long_work("Making the files"):
        # from the record, as whoever prints them again
        files = measured_files(job.stamped(stamp), record)
    try:
        issue(one, due, files, job.shop, record)
    except BadInput as error:
        say(str(error))
        st.rerun()
    advance(shop_book()[0], kept_job().key, "dry fit")
    view()["revised"] = kept_job().key, due.letter
    kept("revised", view()["revised"], lambda: files)
    _accept()
    st.rerun()


def _offer():
    """The files that were made last."""
    letter, files = made_last("revised")
    if files is None:
        return
    put(note_html(f"Revision {letter} is issued: frames that it draws anew replace those on the "
                  "bench; take the old ones off.", "pass"))
    put_zip(f"Revised patterns, revision {letter}", letter, files)


def _kept_as(text):
    """The KeptDesign of the job at hand that is this design's file; None where none is."""
    kept = kept_of(shop_book()[0], kept_job().key)[0] if kept_job() else ()
    return next((one for one in kept if one.text.partition("\n")[2] == text), None)


def _keep(job, text):
    """The boat as it stands becomes a base of the shop, its lineage in the file's first line."""
    if kept_job() is None:
        begin_job(draft())
    row, before = kept_job().row, issued()
    revision = f" revision {before[-1].letter}" if before else ""
    lineage = f"{row.code}{revision}, fitted from {job.lines.design.name}, as it stood"
    today = date.today().isoformat()
    keep_design(shop_book()[0], row.key, KeptDesign(
        f"{row.code} as built", lineage, today, f"# {lineage}, {today}\n{text}"))
