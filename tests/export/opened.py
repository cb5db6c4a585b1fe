"""A file of a package opened by a parser of its kind: whose, which revision, day, boat, and whether
it says that the boat does not pass."""

import csv
import io
import json
import re
import tomllib
from xml.etree import ElementTree

import ezdxf
from pdf_reading import said_by_page
from pypdf import PdfReader

from sizer.stamp import Stamp

STAMP = Stamp("AB-1234", "blue paddle", "B", "2026-11-28", "A")
WORDS = "AB-1234 · blue paddle · REV B: replaces A · 2026-11-28"
LEAD = "AB-1234-rev-B-"
SVG = "{http://www.w3.org/2000/svg}"
SVG = "{http://www.w3.org/2000/svg}"
REFUSED, DANGER = "DOES NOT PASS", "PFD"  # of a boat, and of the cautions in every file


def one_line(text):
    return " ".join(text.split())


def in_pdf(data, line, refused):
    """On each page the line, its number among all and, across it in outlines, the refusal."""
    reader = PdfReader(io.BytesIO(data))
    count, said = len(reader.pages), said_by_page(data)
    assert DANGER in " ".join(text for text, _ in said)
    assert reader.metadata.title.startswith(f"{line} · ")
    for number, (page, (text, large)) in enumerate(zip(reader.pages, said, strict=True), start=1):
        assert line in text
        assert f"page {number} of {count}" in text
        assert len(re.findall(r"page \d+ of \d+", text)) == 1
        assert (f"{REFUSED}: " in text) == refused
        assert (REFUSED in large) == refused
        outlined = re.findall(rb"\b1 Tr\b", page.get_contents().get_data())
        assert bool(outlined) == refused


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
