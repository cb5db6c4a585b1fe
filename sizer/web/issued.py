"""The revisions of the job at hand: what was issued, and what the next sheets will bear."""

import json
from dataclasses import replace
from datetime import date
from functools import partial

import streamlit as st

from sizer.book.issuing import freeze, stamp_of
from sizer.book.jobs import advance
from sizer.book.revisions import due, revisions
from sizer.shop.plywood import sold_m, taken
from sizer.shop.settings import read_shop
from sizer.stamp import Stamp, no_job
from sizer.web.differences import differences
from sizer.web.draft import Draft
from sizer.web.keeping import shop_book, shop_now
from sizer.web.look import put_download, put_papers
from sizer.web.session import job_for
from sizer.web.setting_fields import setting_changes
from sizer.web.state import begin_job, draft, kept, kept_job, view

NO_REQUESTS = ("bags_l", "speed_mps", "sample", "own_name")  # of a Draft: they change no boat


def issued():
    return revisions(shop_book()[0], kept_job().key) if kept_job() else ()


def last_whole(before):
    """The last of the Revisions `before` that is of a whole boat; None where none is.

    What re-issued single frames for a dry fit is passed over: the other sheets stand as they were.
    """
    return next((one for one in reversed(before) if not one.measured), None)


def stands(one, before):
    """The last whole of the Revisions `before`, where its boat is the one that is entered now,
    whatever the shop works with by now; else None."""
    last = last_whole(before)
    same = last is not None and not last.forgotten and (
        json.loads(last.request), last.base_text) == (one.request(), one.base_text())
    return last if same else None


def is_of_last(one, before):
    """Whether what is entered leads to the boat of the last whole Revision of `before`; where none
    is whole, or it is forgotten, there is no other boat to take it for."""
    last = last_whole(before)
    return last is None or last.forgotten or stands(one, before) is not None


def as_issued(one, job, last):
    """The Job as it was issued, for the shop as it was settled then: of the Revision `last` that
    stands; the same Job where none does."""
    return job if last is None else job_for(one, shop=read_shop(last.stock))[0]


def since_words(one, job, last):
    """What is printed otherwise now than in the Revision `last` that stands, in words: the mark,
    and what the shop has settled since that makes a difference to this boat; () where nothing."""
    marks = () if one.mark == last.mark else (
        f"the mark, {last.mark or 'none'} → {one.mark or 'none'}",)
    return (*marks, *setting_changes(
        *(_for_boat(shop, job) for shop in (read_shop(last.stock), shop_now())), one.length_unit))


def _for_boat(shop, job):
    """A Shop with just those true thicknesses that a Job's boat takes, under its own names."""
    found = taken(shop.plywoods, sold_m(job.lines.design))
    return replace(shop, plywoods=tuple(
        replace(entry, nominal_m=own) for own, entry in zip(found.sold_m, found.entries,
                                                            strict=True) if entry))


def not_last_words(one, before):
    """A sentence: what is entered is another boat than the last whole of the Revisions `before`."""
    last = last_whole(before)
    return "What is entered now is not what was issued last" + (
        f": {'; '.join(words)}." if last and (words := boat_words(one, last)) else ".")


def boat_words(one, last):
    """What is entered otherwise than in a Revision that does not stand, in words; () if unknown."""
    try:
        was = Draft.model_validate_json(last.draft)
    except ValueError:  # forgotten, or of a later program
        return ()
    was = one.taking(was.but(**{name: one[name] for name in NO_REQUESTS}))
    was = was.but(entries=was.entries.but(**{
        key: one.entries[key] for key, entry in was.entries
        if entry.value == one.entries[key].value is not None}))
    return tuple(differences(was, one)) or ("the base design's file",)


def part_of(before):
    """The last of the Revisions `before`, where it re-issued frames of the boat; else None. Each
    holds in place of those before it."""
    last = before[-1] if before else None
    return last if last is not None and last.measured and not last.forgotten else None


def frames_of(part):
    """Names of the frames that a revision of a dry fit drew anew; none of None."""
    return () if part is None else tuple(json.loads(part.answer).get("recut", ()))


def about(revision, before):
    """What is told beside a revision in the list of all, after its date."""
    if not revision.measured:
        return ""
    if revision != part_of(before):
        return ": frames of a dry fit, hold no longer"
    return ": frames of the dry fit" if frames_of(revision) else ": no frame of the dry fit"


def moved_on(state):
    """Says once a session that an issued job is that far; never back."""
    if kept_job() is not None and issued():
        kept("moved_on", (kept_job().key, state),
             lambda: advance(shop_book()[0], kept_job().key, state), most=4)


def stamp_now(one, last):
    """The Stamp of what is printed now: of the revision `last` that stands, else of none yet."""
    if last is not None:
        return stamp_of(last, last.date)
    if kept_job() is None:
        return no_job()
    return Stamp(kept_job().row.code, one.mark, "", date.today().isoformat(), "")


def next_due():
    """What the sheets of the next revision will bear; the job comes into the book for it."""
    if kept_job() is None:
        begin_job(draft())
    return due(shop_book()[0], kept_job().key)


def made_last(name):
    """(letter, what was kept of a revision) that the view has under a name, of the job at hand;
    ("", None) where there is none."""
    key, letter, *_ = of = view().get(name, ("", ""))
    return letter, kept(name, of) if kept_job() and kept_job().key == key else None


def put_zip(label, letter, files):
    """Puts the button that hands over a revision's files in one zip."""
    from sizer.export.package import zip_bytes  # the writers load only where they are wanted

    put_download(label, partial(zip_bytes, files), f"{kept_job().row.code}-rev-{letter}.zip",
                 type="primary")


def put_sheet(one, job, which, last):
    """The "dry-fit" or "launch" sheet to fill in by hand, of the revision `last` that stands."""
    printed = job.stamped(stamp_now(one, last))

    def made(paper):  # the writers load only where they are wanted
        if which == "launch":
            from sizer.export.launch_sheet import launch_pdf

            return launch_pdf(printed, paper)
        from sizer.export.dry_fit_sheet import dry_fit_pdf

        return dry_fit_pdf(printed, one.length_unit, paper)

    with st.container(horizontal=True):
        put_papers("Sheet to fill in by hand", made, printed.stamp, which)


def issue(one, due_one, files, shop, measured=""):
    """Freezes the revision whose files were made; raises BadInput, where that is due no more.

    `measured` is the record of the dry fit that its frames were drawn anew for.
    """
    return freeze(shop_book()[0], kept_job().key, due_one, one.request(), one.base_text(),
                  one.model_dump_json(), date.today().isoformat(), files, shop, measured)
