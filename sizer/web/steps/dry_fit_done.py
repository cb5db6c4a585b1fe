"""What is done about a dry fit: notches to file, frames re-issued, or the boat kept as a base."""

from datetime import date

import streamlit as st

from sizer.book.built import KeptDesign, keep_design, kept_of
from sizer.book.issuing import stamp_of
from sizer.book.jobs import advance
from sizer.design.write import design_toml
from sizer.errors import BadInput
from sizer.export import built_answer
from sizer.web import issued as revisions
from sizer.web.keeping import shop_book
from sizer.web.look import note_html, press, put, put_download
from sizer.web.state import begin_job, change, draft, kept, kept_job, say, view
from sizer.web.steps.dry_fit_read import asked_for, unread
from sizer.web.turn import long_work


def put_done(one, job, found, last):
    """The three ways on from the revision `last` that stands, or from none; and what was made."""
    st.subheader("What to do about it")
    put("<p>Move the notches, and measure again; or accept the boat as it stands. Revised patterns "
        "are drawn for the mean of starboard and port: where the sides differ, mend the boat.</p>")
    part = revisions.part_of(revisions.issued())
    if last is not None and revisions.frames_of(part) and not one.dry_fit.accepted and _again(
            one, found, last) is None:
        words = _of_others(part)
        put(note_html(f"{words[0].upper()}{words[1:]}", "fail"))
    printed, waits = job.stamped(revisions.stamp_now(one, last)), unread(one, asked_for(job))
    if waits:
        put(note_html("Before it is accepted, read a second time: "
                      f"{'; '.join(this.short for this in waits)}."))
    with st.container(horizontal=True, gap="small"):
        put_download("Notches to file or pack (CSV)",
                     lambda: built_answer.notches_csv(printed, found),
                     printed.stamp.named(built_answer.NOTCHES))
        if not waits:
            _put_accept(one, job, found, last)
        text = design_toml(found.sides.mean.design)
        base = _kept_as(text)
        press("Keep it as a base design of the shop", _keep, job, text,
              disabled=base is not None or bool(waits))
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
    _put_files(one, found, last)


def put_accepted(one, found, last, more=""):
    """Puts what `accepted_words` says of a boat, and what its checks say as it stands."""
    short = [check.name for check in found.built.checks if check.status == "caution"]
    says = (f" It {found.refusal}. Do not cover it." if found.refusal else
            f" A caution as it stands: {', '.join(short)}." if short else "")
    put(note_html(f"{accepted_words(one, found, last)}{says}{more}", found.built.status))


def accepted_words(one, found, last):
    """Of which revisions the sheets of an accepted boat are, as a sentence: `last` is that which
    stands of the whole boat, if any."""
    said, recut = "Accepted as it stands", ", ".join(found.recut)
    if last is None:
        return f"{said}."
    part, again = revisions.part_of(revisions.issued()), _again(one, found, last)
    if again is not None:
        drawn = (f"revision {again.letter} draws {recut} anew, take the old ones off the bench"
                 if recut else f"revision {again.letter} draws no frame anew")
        stand = built_answer.sheets_of(again.measured) or built_answer.Sheets(last.letter)
        return f"{said}: {drawn}. {stand.words}"
    if revisions.frames_of(part):
        return f"{said}, but not issued so: {_of_others(part)}"
    if recut:
        return (f"{said}: revision {last.letter} is of the boat as designed; frames that change "
                f"({recut}) are not re-issued.")
    return f"{said}: no frame changes, every sheet of revision {last.letter} stands."


def _of_others(part):
    """That a revision's frames are of other measures than those typed now."""
    return (f"revision {part.letter} draws {', '.join(revisions.frames_of(part))} by other "
            "measures than those typed now. Saw nothing by it before you accept anew.")


def _again(one, found, last):
    """The Revision that re-issued frames for this dry fit of the boat of `last`, if any."""
    part = revisions.part_of(revisions.issued())
    if last is None or part is None:
        return None
    return part if built_answer.same_measures(part.measured, _record(one, found, last)) else None


def _record(one, found, last):
    part = revisions.part_of(revisions.issued())
    sheets = built_answer.Sheets(last.letter, "" if part is None else part.letter, _back(found))
    return built_answer.measured_record(found.measured, found.standing.tape_m, one.length_unit,
                                        sheets)


def _back(found):
    """Frames that the last revision drew anew, and this dry fit does not."""
    last = revisions.part_of(revisions.issued())
    return tuple(name for name in revisions.frames_of(last) if name not in found.recut)


def _put_accept(one, job, found, last):
    """The button that accepts the boat; where frames change they are re-issued, once, and those
    that a revision drew by other measures go back."""
    again, does = _again(one, found, last), _does(found, last)
    if does and again is None:
        if st.button(f"Accept it and {does}", type="primary", disabled=last is None):
            _reissue(one, job, _record(one, found, last))
        return
    which = "no frame changes" if again is None else f"revision {again.letter} is of this boat"
    press(f"Accept it: {which}", _accept, type="primary",
          disabled=one.dry_fit.accepted or last is None)


def _does(found, last):
    """What accepting does to the frames; "" where nothing."""
    does = [f"re-issue: {', '.join(found.recut)}"] if found.recut else []
    if last is not None and (back := _back(found)):
        does.insert(0, f"take {', '.join(back)} back to revision {last.letter}")
    return ", and ".join(does)


def _accept():
    change(draft().but(dry_fit=draft().dry_fit.but(accepted=True)))


def _reissue(one, job, record):
    """A new revision of just the frames that change; the job is dry-fitted from then on."""
    due = revisions.next_due()
    stamp = stamp_of(due, date.today().isoformat())
    with long_work("Making the files"):
        # from the record, as whoever prints them again
        files = built_answer.measured_files(job.stamped(stamp), record)
    try:
        revisions.issue(one, due, files, job.shop, record)
    except BadInput as error:
        say(str(error))
        st.rerun()
    advance(shop_book()[0], kept_job().key, "dry fit")
    view()["revised"] = kept_job().key, due.letter
    kept("revised", view()["revised"], lambda: files)
    _accept()
    st.rerun()


def _put_files(one, found, last):
    """The files of the revision that is of this dry fit, where they were made here."""
    again, (letter, files) = _again(one, found, last), revisions.made_last("revised")
    if again is not None and files is not None and letter == again.letter:
        revisions.put_zip(f"Files of revision {letter}", letter, files)


def _kept_as(text):
    """The KeptDesign of the job at hand that is this design's file; None where none is."""
    kept = kept_of(shop_book()[0], kept_job().key)[0] if kept_job() else ()
    return next((one for one in kept if one.text.partition("\n")[2] == text), None)


def _keep(job, text):
    """The boat as it stands becomes a base of the shop, its lineage in the file's first line."""
    if kept_job() is None:
        begin_job(draft())
    row, before = kept_job().row, revisions.issued()
    revision = f" revision {before[-1].letter}" if before else ""
    lineage = f"{row.code}{revision}, fitted from {job.lines.design.name}, as it stood"
    today = date.today().isoformat()
    keep_design(shop_book()[0], row.key, KeptDesign(
        f"{row.code} as built", lineage, today, f"# {lineage}, {today}\n{text}"))
