"""The revisions of the job at hand: what was issued, and what the next sheets will bear."""

import json
from datetime import date
from functools import partial

from sizer.book.issuing import freeze, stamp_of
from sizer.book.jobs import advance
from sizer.book.revisions import due, revisions
from sizer.shop.settings import read_shop
from sizer.stamp import Stamp, no_job
from sizer.web.keeping import shop_book
from sizer.web.look import put_download
from sizer.web.state import begin_job, draft, kept, kept_job, view


def issued():
    """The job's Revisions, the last one last."""
    return revisions(shop_book()[0], kept_job().key) if kept_job() else ()


def stands(one, shop, before):
    """The last of the Revisions `before`, where it is what is entered now for this Shop; else None.

    What re-issued single frames for a dry fit is passed over: the other sheets stand as they were.
    """
    last = next((one for one in reversed(before) if not one.measured), None)
    same = last is not None and not last.forgotten and (
        json.loads(last.request), last.base_text, last.mark, read_shop(last.stock)) == (
        one.request(), one.base_text(), one.mark, shop)
    return last if same else None


def is_of_last(one, before):
    """Whether what is entered leads to the boat of the last whole Revision of `before`, whatever
    the shop works with; where none is whole there is no other boat to take it for."""
    last = next((one for one in reversed(before) if not (one.measured or one.forgotten)), None)
    return last is None or (json.loads(last.request), last.base_text) == (
        one.request(), one.base_text())


def reissued(before, record):
    """The last of the Revisions `before`, where it re-issued frames for just this record of a dry
    fit, in whatever unit its sentences are; else None."""
    last = before[-1] if before else None
    if last is None or last.forgotten or not last.measured:
        return None
    was, now = (json.loads(one) | {"unit": ""} for one in (last.measured, record))
    return last if was == now else None


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


def issue(one, due_one, files, shop, measured=""):
    """Freezes the revision whose files were made; raises BadInput, where that is due no more.

    `measured` is the record of the dry fit that its frames were drawn anew for.
    """
    return freeze(shop_book()[0], kept_job().key, due_one, one.request(), one.base_text(),
                  one.model_dump_json(), date.today().isoformat(), files, shop, measured)
