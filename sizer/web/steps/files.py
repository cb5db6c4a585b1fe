"""Step 7: everything to take away, and the job itself to open again."""

import streamlit as st

from sizer.export.answer import full_answer
from sizer.export.fitted_design import fitted_design_toml, fitted_offsets_csv
from sizer.export.numbers import json_text
from sizer.export.station_csv import station_csv
from sizer.web.job_box import put_notes, put_open_job, put_save_job
from sizer.web.look import note_html, put
from sizer.web.session import job_for, study_for
from sizer.web.state import draft, kept
from sizer.web.steps.patterns import bench_for
from sizer.web.strip import put_cautions, put_way_back


def page():
    """Draws the step."""
    one = draft()
    job, faults = job_for(one)
    shop, kept = st.columns([3, 2], gap="large")
    with shop:
        st.header("For the bench")
        if job is None:
            put_way_back(faults)
        else:
            if job.fitted.status == "fail":
                put(note_html("This boat does not pass: see the boat page before you cut "
                              "anything.", "fail"))
            _package(job)
            _single_files(job)
    with kept:
        st.header("This job")
        put_notes()
        put_save_job(one)
        put_open_job()
    if job is not None:
        put_cautions(job.cautions)


@st.fragment
def _package(job):
    """Makes every file once, showing how far it is, then offers each and all of them."""
    put("<p>Setting-up sheet, customer sheet, full-size patterns as PDF, DXF and SVG, sticks, "
        "materials and all figures; cautions are inside every file.</p>")
    # the writers of DXF and PDF load only where they are wanted
    from sizer.export.package import file_names, parts, zip_bytes

    bench = bench_for(job)

    def made():
        names, files = file_names(job, bench), {}
        bar = st.progress(0.0, "Making the files")
        for name, data in parts(job, bench):
            files[name] = data
            bar.progress(len(files) / len(names), f"Made {name}")
        bar.empty()
        return files

    files = kept("package", bench)
    if files is None and st.button("Make the package", type="primary"):
        kept("package", bench, made)
        st.rerun(scope="fragment")
    if files:
        st.download_button("All files in one zip", zip_bytes(files), "shop-package.zip",
                           "application/zip", on_click="ignore", type="primary")
        name = st.selectbox("Or one file", tuple(files))
        st.download_button(f"Download {name}", files[name], name.rsplit("/", 1)[-1],
                           on_click="ignore", key="one_file")


def _single_files(job):
    printed = job.stamped(bench=bench_for(job))
    st.subheader("Lists")
    with st.container(horizontal=True):
        for label, make, name, kind in (
            ("Station list, mm (CSV)", lambda: station_csv(printed, "mm"), "stations-mm.csv",
             "text/csv"),
            ("Station list, inches (CSV)", lambda: station_csv(printed, "in"),
             "stations-inches.csv", "text/csv"),
            ("Offsets, mm (CSV)", lambda: fitted_offsets_csv(printed, "mm"), "offsets-mm.csv",
             "text/csv"),
            ("Offsets, feet-inches-eighths (CSV)", lambda: fitted_offsets_csv(printed, "feet"),
             "offsets-feet.csv", "text/csv"),
            ("As a base design (TOML)", lambda: fitted_design_toml(printed), "fitted-boat.toml",
             "application/toml"),
            ("Everything (JSON)", lambda: json_text(full_answer(printed, study_for(job))),
             "fitted-boat.json", "application/json"),
        ):
            st.download_button(label, make, name, kind, on_click="ignore")
