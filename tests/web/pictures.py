"""Draws README's two pictures anew: `bash tests/run tests/web/pictures.py`."""

import io
from dataclasses import replace
from pathlib import Path

from PIL import Image
from screens import go

import sizer.web
from sizer.design.library import read_base
from sizer.drawing.file_svg import svg_text
from sizer.fit.request import drawn_request
from sizer.hull.lines import fair_lines
from sizer.job import run
from sizer.scenes.strongback import strongback_drawing
from sizer.shop.bench import bench_of
from sizer.stamp import NO_JOB, Stamp

FOLDER = Path(sizer.web.__file__).parent / "pictures"
BASE = "day-boat"
ONE_TO = 12.0  # scale of the strongback's picture
LETTERS_MM = 3.0
COLOURS = 64
UNDATED = Stamp(NO_JOB, "", "", "", "")


def test_wizard_picture(open_page):
    page = open_page(1280, 860)
    go(page, "Boat")
    picture = Image.open(io.BytesIO(page.screenshot()))
    picture.quantize(COLOURS).save(FOLDER / "wizard.png", optimize=True)
    assert picture.size == (1280, 860)


def test_setting_up_picture():
    lines = fair_lines(read_base(BASE))
    job = run(drawn_request(BASE, lines), lines)
    drawing = strongback_drawing(job, bench_of(job), ONE_TO * LETTERS_MM / 1000.0)
    text = svg_text(drawing.scaled(1.0 / ONE_TO), replace(
        job.stamped(UNDATED).imprint, cautions=job.cautions[:1]), true_size=False)
    (FOLDER / "setting-up.svg").write_text(text, encoding="utf-8")
    assert "<svg" in text
