"""Step 7: everything to take away, and the job itself to open again."""

from datetime import date

import streamlit as st

from sizer.book.issuing import print_again, stamp_of
from sizer.errors import BadInput
from sizer.export.answer import full_answer
from sizer.export.fitted_design import fitted_design_toml, fitted_offsets_csv
from sizer.export.numbers import json_text
from sizer.export.parts_csv import station_csv
from sizer.export.tiles import PAPERS_MM
from sizer.fit.study import study
from sizer.web import issued as revisions
from sizer.web.job_box import put_notes, put_open_job, put_save_job
from sizer.web.keeping import shop_now
from sizer.web.look import note_html, put, put_download
from sizer.web.session import job_for
from sizer.web.state import draft, kept, kept_job, say, take_in_hand, view
from sizer.web.steps.dry_fit_done import put_accepted
from sizer.web.steps.dry_fit_read import accepted_for
from sizer.web.steps.patterns import bench_for
from sizer.web.steps.quote import put_quote
from sizer.web.strip import put_cautions, put_way_back
from sizer.web.turn import long_work, out_of_turn

SETTING_UP = "setting-up"  # the sheet that goes to the strongback
OLD_OFF = "Sheets of both look alike: take the old ones off the bench when you issue this."


def page():
    one = draft()
    job, faults = job_for(one)
    shop, beside = st.columns([3, 2], gap="large")
    with shop:
        st.header("For the bench")
        if job is None:
            put_way_back(faults)
        else:
            if job.fitted.status == "fail":
                put(note_html("This boat does not pass: see the boat page before you cut "
                              "anything.", "fail"))
            before = revisions.issued()
            last = revisions.stands(one, before)
            since = revisions.since_words(one, job, last) if last else ()
            _package(one, job, before, last, since)
            printed = job.stamped(revisions.stamp_now(one, None if since else last), bench_for(job))
            _single_files(job, printed)
            put_quote(printed, bench_for(job))
    with beside:
        st.header("This job")
        put_notes()
        put_save_job(one)
        put_open_job()
    if job is not None:
        put_cautions(job.cautions, folded=False)


def _package(one, job, before, last, since):
    """Issues what is entered now, or prints a revision again, and offers its files.

    `last` is the revision that stands, if any, and `since` what is printed otherwise now.
    """
    put("<p>Setting-up sheet, customer sheet, full-size patterns as PDF, DXF and SVG, sticks, "
        "materials and all figures; the job, its revision and cautions are in every file.</p>")
    bench, shop = bench_for(job), shop_now()
    if last is not None:
        put(note_html(f"Revision {last.letter} of {last.date} is this boat as entered now.",
                      "pass"))
        if (found := accepted_for(one, revisions.as_issued(one, job, last))) is not None:
            put_accepted(one, found, last)
        if since:
            put(note_html(f"Changed since: {'; '.join(since)}. A boat begun from revision "
                          f"{last.letter} goes on with it, dry fit and launch too. Issue anew only "
                          f"to make the boat for what is settled now. {OLD_OFF}"))
    elif before:
        put(note_html(f"Changed since revision {before[-1].letter}. "
                      f"{revisions.not_last_words(one, before)} {OLD_OFF}"))
    letter = revisions.next_due().letter if before else "A"
    issues = last is None or since
    if issues and st.button(f"Issue revision {letter} and make its files", type="primary"):
        _issue(one, job, bench, shop)
    for revision in reversed(before):
        told = f"{revision.letter}, {revision.date}{revisions.about(revision, before)}"
        if st.button(f"Files of revision {told}",
                     key=f"again_{revision.letter}", disabled=revision.forgotten):
            _print_again(revision)
    with st.container(key="offer"):
        _offer()


def _issue(one, job, bench, shop):
    """Makes every file once, showing how far it is, and freezes the revision."""
    from sizer.export.package import file_names, parts  # writers load where they are wanted

    due = revisions.next_due()
    stamp = stamp_of(due, date.today().isoformat())
    names, files = file_names(job, bench, stamp), {}
    bar = st.progress(0.0, "Making the files")
    with out_of_turn():
        for name, data in parts(job, bench, stamp=stamp):
            files[name] = data
            bar.progress(len(files) / len(names), f"Made {name}")
    bar.empty()
    try:
        revisions.issue(one, due, files, shop)
    except BadInput as error:
        say(str(error))
    else:
        view()["package"] = kept_job().key, due.letter, "first"
        kept("package", view()["package"], lambda: (files, ""))
        take_in_hand("offer")
    st.rerun()


def _print_again(revision):
    with long_work("Making the files again"):
        printed = print_again(revision)
    view()["package"] = revision.job_key, revision.letter, "again"
    kept("package", view()["package"], lambda: (printed.files, printed.remark))


def _offer():
    letter, made = revisions.made_last("package")
    if made is None:
        return

    from sizer.export.package import sheet_name  # the writers load only where they are wanted

    files, remark = made
    if remark:
        put(note_html(remark, "pass" if "byte for byte" in remark else "caution"))
    revisions.put_zip(f"All files of revision {letter} in one zip", letter, files)
    with st.container(horizontal=True, gap="small"):
        for paper in PAPERS_MM:
            for name in files:  # a dry fit re-issues frames alone
                if name.endswith(f"-{sheet_name(SETTING_UP, paper)}"):
                    put_download(f"The setting-up sheet alone, {paper} (PDF)", files[name],
                                 name.rpartition("/")[2], key=f"{SETTING_UP}_{paper}")
    name = st.selectbox("Or one file", tuple(files))
    st.download_button(f"Download {name}", files[name], name.rsplit("/", 1)[-1],
                       on_click="ignore", key="one_file")


def _single_files(job, printed):
    """Lists alone; those of a boat that is not issued bear no revision."""
    st.subheader("Lists")
    with st.container(horizontal=True):
        for label, make, name in (
            ("Station list, mm (CSV)", lambda: station_csv(printed, "mm"), "stations-mm.csv"),
            ("Station list, inches (CSV)", lambda: station_csv(printed, "in"),
             "stations-inches.csv"),
            ("Offsets, mm (CSV)", lambda: fitted_offsets_csv(printed, "mm"), "offsets-mm.csv"),
            ("Offsets, feet-inches-eighths (CSV)", lambda: fitted_offsets_csv(printed, "feet"),
             "offsets-feet.csv"),
            ("As a base design (TOML)", lambda: fitted_design_toml(printed), "fitted-boat.toml"),
            ("Everything (JSON)", lambda: json_text(full_answer(printed, study(
                job.fitted.assessed, job.mishaps.rigid))),
             "fitted-boat.json"),
        ):
            put_download(label, make, printed.stamp.named(name))
