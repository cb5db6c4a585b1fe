"""The commands `book ...`, declared; those of them that show, save and forget jobs."""

import argparse
import json
from contextlib import closing
from dataclasses import asdict, replace
from datetime import date

from sizer.book.copies import restore as put_back
from sizer.book.drafts import draft
from sizer.book.forget import forget as forget_customer
from sizer.book.jobs import job_by_code, jobs
from sizer.book.opening import ELSEWHERE, NAME, book_path, open_book
from sizer.book.refusals import BookRefused
from sizer.book.revisions import revision, revisions
from sizer.cli import book_files as files
from sizer.cli.answered import put_answer
from sizer.cli.book_drafts import draft_of_request
from sizer.cli.fit import FORCE, OUT
from sizer.cli.inputs import REQUEST, file_bytes
from sizer.cli.options import Command, Group, Option, counted, iso_date, needed, switch
from sizer.cli.shop_options import SHOP_OPTIONS
from sizer.errors import BadInput, Fault, SizerError

HEADS = ("letter", "date", "version", "replaces", "mark", "forgotten")  # of a revision, in `show`
LOST = "what was entered since is not in it: say it again with --yes"
TEXTS = ("request", "limits", "answer", "draft", "stock", "files")  # of a revision: JSON


def list_(book, given):
    """Prints the jobs in which every word of --find stands."""
    files.told(book, jobs=[files.row_answer(one) for one in jobs(
        book, given.find, given.put_away, given.most)])


def show(book, given):
    """Prints one job with its draft and what was issued, or the whole of one revision."""
    row = job_by_code(book, given.code)
    if given.rev:
        one = asdict(revision(book, row.key, given.rev))
        files.told(book, revision=one | {name: _parsed(one[name]) for name in TEXTS})
        return
    kept = draft(book, row.key)
    files.told(book, job=files.row_answer(row) | {"key": row.key, "notes": row.notes},
                 draft={"version": kept.version, "touched": kept.touched, "by": kept.by,
                        "entered": _parsed(kept.draft_json)},
                 revisions=[{name: getattr(one, name) for name in HEADS}
                            for one in revisions(book, row.key)])


def save(book, given):
    """Makes a job of a request, fitted where it can be."""
    entered = draft_of_request(given.request.request)
    try:
        fitted, said = given.request.job(), {}
    except BadInput:
        raise
    except SizerError as error:
        fitted, said = None, {"not_fitted": str(error)}
    made = files.job_of_draft(book, entered, given.mark, fitted, given.notes)
    files.told(book, job=files.row_answer(made), **said)


def forget(book, given):
    """Takes a customer's measures out of the book and its copies."""
    row = job_by_code(book, given.code)
    if not given.yes:
        raise BadInput([Fault("forget", row.code, "cannot be undone: say it again with --yes")])
    gone = forget_customer(book, row.key)
    files.told(book, forgotten=list(gone.codes), copies_cleared=[str(one) for one in gone.copies],
               copies_removed=[str(one) for one in gone.removed],
               sisters_that_stand=list(gone.sisters),
               not_reached="files made before: packages, exports, backups, saved jobs")


def restore(given):
    """Puts the last good copy in the place of a book that is refused."""
    path = book_path(given.book)
    try:
        open_book(path, begin=False).close()
    except BookRefused as error:
        if error.copy is None:
            raise
        if not given.yes:
            raise BadInput([*error.faults, Fault("restore", str(error.copy), LOST)]) from error
        copy, aside = put_back(path)
        put_answer({"book": str(path), "restored": str(copy), "put_aside": str(aside)})
        return
    raise BadInput([Fault("book", str(path), "is whole; there is nothing to restore")])


def _parsed(text):
    try:
        return json.loads(text) if text else None
    except ValueError:
        return text


# suppressed: an action that does not name it leaves what stands before `book`
BOOK = Option("--book", f"the book's file (default: what {ELSEWHERE} names, else {NAME} in your "
              "data folder)", None, {"metavar": "PATH", "default": argparse.SUPPRESS})
CODE = Option("code", "of a job, such as HK4729", None, {"metavar": "CODE"})
MARK = Option("--mark", "the customer's name or mark", None, {"default": ""})
NEW_FILE = Option("file", "a new file; body measures are in it, so keep it as you keep other "
                  "customers' papers", None, {"metavar": "FILE"})


def _action(name, deed, words, example, *options, begins=False):
    """The Command of a deed on the book, which `begins` one where there is none."""
    def run(given):
        with closing(open_book(given.book, begins)) as book:
            return deed(book, given)

    return Command(name, run, words, f"%(prog)s {example}", (*options, BOOK))


GROUP = Group("book", "the shop's book: every job kept, named, found and printed again",
              "%(prog)s list --find fitted. Every action has --help.", (
    _action("list", list_, "list the jobs, the one touched last first",
            "--find 'built day-boat'",
            Option("--find", "words that all stand in code, mark, base, state, size or status",
                   None, {"default": ""}),
            switch("--put-away", "those that were put away instead"),
            Option("--most", "how many at most (default: 200)", counted(int, 1, 1_000_000),
                   {"default": "200"})),
    _action("show", show, "show a job with its draft and what was issued, or one revision whole",
            "HK4729 --rev A", CODE, Option("--rev", "letter of a revision")),
    _action("save", save, "make a job of a request", "request.json --mark 'tall, red boat'",
            REQUEST, MARK, Option("--notes", "the builder's own words", None, {"default": ""}),
            begins=True),
    _action("export", files.export, "write jobs to one file, to carry to another book",
            "jobs.json HK4729", NEW_FILE,
            Option("codes", "of the jobs, before or after the file; all if none is given", None,
                   {"metavar": "CODE", "nargs": "*"})),
    _action("import", files.import_, "take in exported jobs, or one that the wizard saved to a "
            "file; what is here already is never overwritten", "jobs.json",
            Option("file", "an export, or a saved job", file_bytes, {"metavar": "FILE"}),
            replace(MARK, words=f"{MARK.words}, instead of a saved job's own"), begins=True),
    _action("backup", files.backup, "write a checked copy of the whole book, also while it is in "
            "use", "book-on-a-stick.sqlite3", NEW_FILE),
    Command("restore", restore, "put the last good copy in the place of a damaged book, which is "
            "put aside", "%(prog)s --yes", (
                switch("--yes", "what was entered since the copy is lost"), BOOK)),
    _action("forget", forget, "forget a job's customer: every body measure leaves the book and the "
            "copies it keeps; the boats' figures stay", "HK4729 --yes", CODE,
            switch("--yes", "it cannot be undone")),
    _action("issue", files.issue, "fit a job, freeze it as its next revision and write the package",
            "HK4729 --out package", CODE, OUT, FORCE,
            Option("--date", "that the revision bears (default: today)", iso_date,
                   {"default": date.today().isoformat()}), *SHOP_OPTIONS),
    _action("print", files.print_, "write the package of a revision again from what was frozen "
            "with it, and say what is not as it was", "HK4729 --rev A --out package", CODE,
            needed("--rev", "letter of the revision"), OUT, FORCE),
))
