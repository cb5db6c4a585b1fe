"""Every file of every package, opened by a parser of its kind: whose, which revision, day, boat."""

import csv
import io
import json
import re
import tomllib
import zipfile
from dataclasses import replace
from xml.etree import ElementTree

import ezdxf
import pytest
from pdf_reading import joined, shown
from pypdf import PdfReader

from sizer.crowd.people import PersonRow
from sizer.export.package import file_names, parts
from sizer.export.range_answer import range_answer
from sizer.export.range_package import range_files
from sizer.fit.request import read_request
from sizer.job import run
from sizer.shop.bench import bench_of
from sizer.stamp import Stamp
from tests.cli.conftest import few_files
from tests.crowd.conftest import day_boat, small_range

__all__ = ["day_boat", "small_range"]  # fixtures
STAMP = Stamp("AB-1234", "blue paddle", "B", "2026-11-28", "A")
WORDS = "AB-1234 · blue paddle · REV B: replaces A · 2026-11-28"
LEAD = "AB-1234-rev-B-"
SVG = "{http://www.w3.org/2000/svg}"
REFUSED, DANGER = "DOES NOT PASS", "PFD"  # of a boat, and of the cautions in every file
OF_A_SIZE = ("setting-up.pdf", "frames/F1.dxf", "frames/F1.svg", "stations-mm.csv",
             "fitted-boat.toml")  # of every kind, of the package of a size
# Not made of the boat that does not pass: what is stamped across its pages on Letter is seen on its
# seat's sheet, owner's and setting up of that paper, and on all of its papers on A4
LONG = tuple(f"{name}-Letter.pdf" for name in ("plans", "patterns", "sticks", "dry-fit", "launch"))
PEOPLE = {  # base: its paddler
    "day-boat": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385},
    "small-cruiser": {"weight_kg": 143.7, "stature_mm": 1913, "hip_width_mm": 523},
}


def packed(base, base_lines):
    """(job, bench, files) of a base, from its request on."""
    job = run(read_request({"base": base, "use": "coastal-day", "paddler": PEOPLE[base]}),
              base_lines[base])
    bench = bench_of(job)
    with pytest.MonkeyPatch.context() as patch:
        few_files(patch, *(name for name in file_names(job, bench)
                           if job.status != "fail" or name not in LONG))
        return job, bench, dict(parts(job, bench, stamp=STAMP))


@pytest.fixture(scope="module")
def made(base_lines):
    """{base: (job, bench, files)}."""
    return {base: packed(base, base_lines) for base in PEOPLE}


@pytest.fixture(params=PEOPLE)
def package(request, made):
    job, _, files = made[request.param]
    boat = job.fitted.assessed.boat
    line = f"{WORDS} · {request.param} {boat.length_m:.2f} m x {boat.beam_m:.2f} m"
    return files, line, job.fitted.status == "fail"


@pytest.fixture(scope="module")
def sizes(small_range):
    """(files of a range of one size, the zip among them, all that was told of its progress)."""
    choice = small_range.choices[0]
    rows = [PersonRow(number, f"p{number}", {}, ())
            for number in range(2, 2 + len(small_range.measured))]
    answer = range_answer(small_range, choice, rows, [], stamp=STAMP)
    told = []
    with pytest.MonkeyPatch.context() as patch:
        few_files(patch, *OF_A_SIZE)  # every file of a package is opened below
        return range_files(small_range, choice, rows, answer, lambda *given: told.append(given),
                           STAMP), told


def one_line(text):
    return " ".join(text.split())


def in_pdf(data, line, refused):
    """On each page the line, its number among all and, across it in outlines, the refusal."""
    reader = PdfReader(io.BytesIO(data))
    count, said = len(reader.pages), [read(page) for page in reader.pages]
    assert DANGER in " ".join(text for text, _ in said)
    assert reader.metadata.title.startswith(f"{line} · ")
    for number, (page, (text, large)) in enumerate(zip(reader.pages, said, strict=True), start=1):
        assert line in text
        assert f"page {number} of {count}" in text
        assert len(re.findall(r"page \d+ of \d+", text)) == 1
        assert (f"{REFUSED}: " in text) == refused
        assert large == refused
        outlined = re.findall(rb"\b1 Tr\b", page.get_contents().get_data())
        assert bool(outlined) == refused


def read(page):
    """The words of a page in one line, and whether letters of 14 mm and more say it is refused."""
    said = list(shown(page))
    return joined(said), any(one.text.strip() == REFUSED and one.size > 40.0 for one in said)


def in_dxf(data, line, refused):
    document = ezdxf.read(io.StringIO(data.decode("utf-8")))
    assert document.header.custom_vars.get("Job") == line
    texts = {(one.dxf.layer, one.dxf.text) for one in document.modelspace().query("TEXT")}
    assert {text for layer, text in texts if layer == "title"} == {line}
    told = {text for layer, text in texts if layer == "does-not-pass"}
    assert any(DANGER in text for _, text in texts)
    assert (REFUSED in told) == refused
    assert any(text.startswith(f"{REFUSED}: ") for text in told) == refused
    assert (document.header.custom_vars.get("Status") or "").startswith(REFUSED) == refused


def in_svg(data, line, refused):
    root = ElementTree.fromstring(data.decode("utf-8"))
    assert root.find(f"{SVG}title").text.startswith(f"{line} · ")
    notes = one_line(" ".join(one.text for one in root.find(f"{SVG}g[@id='notes']")))
    assert line in notes
    assert DANGER in notes
    across = root.find(f"{SVG}g[@id='does-not-pass']/{SVG}text")
    assert (across is not None) == refused
    assert notes.startswith(f"{REFUSED}: ") == refused
    if refused:
        assert across.text == REFUSED
        assert root.find(f"{SVG}g[@id='does-not-pass']").get("fill") == "none"


def in_csv(data, line, refused):
    text = data.decode("utf-8-sig")
    head = [",".join(row) for row in csv.reader(io.StringIO(text)) if row[0].startswith("# ")]
    assert f"# {line}" in head[:4]
    assert any(DANGER in row for row in head)
    assert any(row.startswith(f"# {REFUSED}: ") for row in head[:3]) == refused


def in_json(data, line, refused):
    job = json.loads(data)["job"]
    if "paddler" not in json.loads(data):  # a request tells of no boat
        assert any(DANGER in one for one in json.loads(data)["cautions"])
    for key in ("code", "mark", "revision", "date", "replaces"):
        assert job[key] == getattr(STAMP, key)
    assert job["line"] == line
    assert (job["does_not_pass"] or "").startswith(f"{REFUSED}: ") == refused


def in_toml(data, line, refused):
    text = data.decode("utf-8")
    assert tomllib.loads(text)["name"]
    head = [row for row in text.splitlines()[:3] if row.startswith("# ")]
    assert f"# {line}" in head
    assert re.search(f"# .*{DANGER}", text)
    assert head[0].startswith(f"# {REFUSED}: ") == refused


def in_txt(data, line, refused):
    text = one_line(data.decode("utf-8"))
    assert line in text[:300]
    assert DANGER in text
    assert text.startswith(f"{REFUSED}: ") == refused


OPENED = {"pdf": in_pdf, "dxf": in_dxf, "svg": in_svg, "csv": in_csv, "json": in_json,
          "toml": in_toml, "txt": in_txt}


def test_every_file_of_a_fit_names_its_job_and_a_boat_that_does_not_pass_is_stamped(package):
    files, line, refused = package
    assert {name.rsplit(".", 1)[1] for name in files} == set(OPENED)
    for name, data in files.items():
        assert all(part.startswith(LEAD) for part in name.split("/")), name
        OPENED[name.rsplit(".", 1)[1]](data, line, refused)


def test_one_of_the_two_boats_does_not_pass(made):
    """So that both sides above are seen."""
    assert [job.fitted.status == "fail" for job, _, _ in made.values()] == [False, True]


def test_every_file_of_a_range_names_its_job(sizes):
    sizes, told = sizes
    assert told[0][:2] == (0, 1)
    line = f"{WORDS} · day-boat, 1 size"
    assert {name.rsplit(".", 1)[1] for name in sizes} == {"json", "csv", "svg", "zip"}
    for name, data in sizes.items():
        assert name.startswith(LEAD)
        if not name.endswith(".zip"):
            OPENED[name.rsplit(".", 1)[1]](data, line, False)


def test_every_file_of_every_size_names_its_job_its_own_size_and_whether_it_passes(sizes,
                                                                                    small_range):
    with zipfile.ZipFile(io.BytesIO(sizes[0][f"{LEAD}size-packages.zip"])) as opened:
        files = {name: opened.read(name) for name in opened.namelist()}
    assert {name.rsplit(".", 1)[1] for name in files} == set(OPENED)
    folders = {name.split("/")[0] for name in files}
    assert folders == {f"{LEAD}Size-1"}
    for folder in folders:
        size = json.loads(files[f"{folder}/{LEAD}everything.json"])["size"]
        job = json.loads(files[f"{folder}/{LEAD}everything.json"])["job"]
        line = (f"{WORDS} · day-boat {size['length_mm'] / 1000:.2f} m x "
                f"{size['beam_mm'] / 1000:.2f} m")
        for name, data in files.items():
            if name.startswith(f"{folder}/"):
                OPENED[name.rsplit(".", 1)[1]](data, line, job["does_not_pass"] is not None)
        request = read_request(json.loads(files[f"{folder}/{LEAD}request.json"]))
        assert request.trip.base == "day-boat"
        lead = f"{folder}/{LEAD}"
        assert {f"{lead}read-me-first.txt", f"{lead}setting-up.pdf",
                f"{lead}frames/{LEAD}F1.dxf"} <= set(files)
        factors = json.loads(files[f"{lead}everything.json"])["factors"]
        assert factors["beam"] == pytest.approx(
            small_range.choices[0].sizes[0].hull.scaling.beam, abs=1e-4)


def test_another_revision_is_another_file_throughout(made):
    """By its name; that each file tells its own revision is seen above."""
    job, bench, files = made["day-boat"]
    later = file_names(job, bench, replace(STAMP, revision="C", replaces="B"))
    assert len(later) == len(files) > 40
    assert not set(later) & set(files)
