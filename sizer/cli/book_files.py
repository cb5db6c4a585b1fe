"""Files in and out of the shop's book: `book export|import|backup|issue|print`."""

import json
import sys
from dataclasses import asdict

from sizer.book.copies import backup as back_up
from sizer.book.drafts import draft
from sizer.book.exchange import export_jobs, import_jobs
from sizer.book.jobs import is_code, job_by_code, new_job
from sizer.book.revisions import revision
from sizer.book.settings import shop_of as settled
from sizer.book.summary import summary_of
from sizer.cli.answered import put_answer
from sizer.cli.book_drafts import draft_of_job_file, is_job_file, request_of_draft
from sizer.cli.folder import write_folder, write_new
from sizer.cli.shop_options import shop_of
from sizer.errors import BadInput, Fault, SizerError
from sizer.fit.cautions import standing_cautions
from sizer.fit.check import STATUSES

OF_BENCH = ("pattern_status", "fairness_status")  # of the bench, in an answer


def export(book, given):
    """Writes jobs to one file, readable by its owner only; their codes may stand before it."""
    names = [given.file, *given.codes]
    files = [name for name in names if not is_code(name)]
    if len(files) != 1:
        raise BadInput([Fault("file", ", ".join(map(repr, files)) or "missing",
                              "one new file, and codes such as HK4729")])
    file, = files
    rows = [job_by_code(book, name) for name in names if name != file]
    text = export_jobs(book, [row.key for row in rows] or None)
    write_new(file, text.encode("utf-8"), "file", 0o600)
    told(book, file=file, jobs=[one["code"] for one in json.loads(text)["jobs"]])


def import_(book, given):
    """Takes in exported jobs, or one saved by the wizard; returns 1 where one clashes."""
    if is_job_file(given.file):
        return _import_saved(book, given)
    found = import_jobs(book, given.file)
    told(book, came=[row_answer(one) for one in found.came],
         same=[row_answer(one) for one in found.same],
         clashes=[{"here": row_answer(here), "kept_beside": row_answer(beside)}
                  for here, beside in found.clashes],
         recoded=[{"was": was, "job": row_answer(one)} for was, one in found.recoded])
    return 1 if found.clashes else 0


def _import_saved(book, given):
    """Takes in a job that the wizard saved, whatever is missing in it; fitted where it can be."""
    from sizer.book.issuing import job_of

    entered, mark, remarks = draft_of_job_file(given.file)
    try:
        fitted, said = job_of(*request_of_draft(entered, "the file")), {}
    except SizerError as error:
        fitted, said = None, {"not_fitted": str(error)}
    row = job_of_draft(book, entered, given.mark or mark, fitted)
    told(book, came=[row_answer(row)], same=[], clashes=[], recoded=[], remarks=list(remarks),
         **said)


def job_of_draft(book, entered, mark, fitted, notes=""):
    """The JobRow of a new job of a draft; `fitted` is its Job, None where it cannot be fitted."""
    more = {"summary": summary_of(fitted), "state": "fitted"} if fitted else {}
    return new_job(book, entered, mark, notes=notes, by="command line", **more)


def backup(book, given):
    """Writes a whole copy of the book, checked."""
    told(book, backup=str(back_up(book, given.file)))


def issue(book, given):
    """Fits a job, freezes its next revision and writes the package; returns 1 where it fails."""
    # the writers of DXF and PDF load only where they are wanted
    from sizer.book.issuing import issue_files

    row = job_by_code(book, given.code)
    kept = draft(book, row.key).draft_json
    made, files = issue_files(book, row.key, *request_of_draft(kept, row.code), kept,
                              given.date, shop_of(given, settled(book)))
    return _written(book, made, files, given.out)


def print_(book, given):
    """Writes the package of a revision again; returns 1 where something of it fails."""
    from sizer.book.issuing import print_again

    one = revision(book, job_by_code(book, given.code).key, given.rev)
    made = print_again(one)
    return _written(book, one, made.files, given.out, same=not made.differing,
                    remark=made.remark, differing=list(made.differing),
                    changes=[asdict(change) for change in made.changes])


def _written(book, one, files, out, **more):
    try:
        write_folder(files, out)
    except BadInput as error:
        raise BadInput([*error.faults, Fault("revision", f"{one.code} {one.letter}", "stands in "
                                             "the book; `book print` writes its files")]) from error
    answer = json.loads(one.answer)
    of_bench = {name: answer["bench"][name] for name in OF_BENCH}
    status = max(answer["status"], *of_bench.values(), key=STATUSES.index)
    told(book, code=one.code, revision=one.letter, date=one.date, replaces=one.replaces,
         out=str(out), files=list(files), status=status, fit_status=answer["status"], **of_bench,
         cautions=answer["cautions"], **more)
    return 1 if status == "fail" else 0


def told(book, **answer):
    """Prints an answer, and on standard error where today's copy could not be kept."""
    put_answer({"book": str(book.path), "cautions": list(standing_cautions()), **answer})
    if book.copy_fault:
        print(f"today's copy of the book could not be kept: {book.copy_fault}", file=sys.stderr)


def row_answer(row):
    return {name: getattr(row, name) for name in (
        "code", "mark", "state", "base", "size", "status", "put_away", "created", "touched")}
