"""Every command, of a boat that does not pass: what it prints and writes tells danger and status.

A command that is not run here fails the test, so that no new one is forgotten.
"""

import io
import json
import re

import pytest
from pypdf import PdfReader

from sizer.cli import COMMANDS, main
from sizer.cli.options import Group
from tests.cli.conftest import few_files, remembered
from tests.crowd.conftest import drawn_people, few_rows, fewest_boats

DANGER, REFUSED = "PFD", "DOES NOT PASS"
FAILS = {"base": "day-boat", "use": "coastal-day", "fixed": {"beam_mm": 590, "depth_mm": 240},
         "paddler": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
AFLOAT = ["--mass-kg", "180", "--lcg-mm", "2100"]
CROWD = ["people.csv", "--base", "day-boat", "--use", "coastal-day"]
CODE = "CODE"  # of the job that `book save` made
CALLS = {  # in this order: later ones stand on what earlier ones wrote
    "fit": ["request.json"], "build": ["request.json", "--out", "built"],
    "plans": ["request.json", "--out", "planned"],
    "quote": ["request.json", "--out", "quote.pdf"],
    "float": ["request.json", *AFLOAT, "--vcg-mm", "280", "--heel-deg", "0,10"],
    "drag": ["request.json", *AFLOAT, "--speeds-mps", "1.5"],
    "flood": ["request.json"], "sections": ["request.json", "--count", "5"],
    "dry-fit": ["request.json", "measured.csv", "--out", "fitted"],
    "launch": ["request.json", "trial.json"],
    "batch": [*CROWD, "--out", "results.csv", "--workers", "1"],
    "population": ["--count", "20", "--seed", "1"],
    "range": [*CROWD, "--sizes", "1"],  # its files: tests/export/test_range.py
    "who-fits": ["request.json"],
    "book save": ["request.json", "--mark", "blue"], "book list": [],
    "book issue": [CODE, "--out", "issued"], "book show": [CODE],
    "book print": [CODE, "--rev", "A", "--out", "printed"],
    "book export": ["jobs.json"], "book backup": ["copy.sqlite3"], "book import": ["jobs.json"],
    "book forget": [CODE, "--yes"]}
ABOUT_NO_BOAT = ("range", "book export", "book backup", "book import", "book forget")  # in print
PACKAGES = ("build", "book issue", "book print", "book backup")  # opened: export/test_package.py
PLANS = ("patterns-large.pdf", "materials-mm.csv", "frames/F1.dxf", "frames/F1.svg")  # some
NOT_RUN = ("book restore",)  # puts a file in place, of a damaged book alone


@pytest.fixture(scope="module")
def outputs(tmp_path_factory):
    """{command: (what it printed, {name: bytes of each file it wrote})}."""
    place, found = tmp_path_factory.mktemp("outputs"), {}
    (place / "request.json").write_text(json.dumps(FAILS))
    (place / "trial.json").write_text('{"boat_kg": 16}')
    (place / "measured.csv").write_text("side,frame,stringer,half_breadth_mm,height_mm\n"
                                        "both,F4,keel,,130\n")
    (place / "people.csv").write_text("\n".join(["weight_kg,stature_mm,hip_width_mm", *(
        f"{one.weight_kg:.1f},{1e3 * one.stature_m:.0f},{1e3 * one.hip_width_m:.0f}"
        for one in drawn_people(6, spread=1.0)), "150,1700,560"]))
    with pytest.MonkeyPatch.context() as patch:
        fewest_boats(patch)
        few_rows(patch)
        remembered(patch)
        patch.chdir(place)
        patch.setenv("SIZER_BOOK", str(place / "shop" / "book.sqlite3"))
        code = None
        for name, given in CALLS.items():
            before, out = files(place), io.TextIOWrapper(io.BytesIO())
            patch.setattr("sys.stdout", out)
            with pytest.MonkeyPatch.context() as small:
                if name in (*PACKAGES, "plans"):
                    few_files(small, *(PLANS if name == "plans" else ()))
                ended = main([*name.split(), *(code if one == CODE else one for one in given)])
            assert ended in (0, 1), name
            printed = out.buffer.getvalue().decode("utf-8")
            found[name] = printed, {
                one: data for one, data in files(place).items() if before.get(one) != data}
            if name == "book save":
                code = json.loads(printed)["job"]["code"]
    return found


def files(place):
    return {str(one.relative_to(place)): one.read_bytes()
            for one in place.rglob("*") if one.is_file() and "shop" not in one.parts}


def test_every_command_is_run():
    every = [f"{one.name} {part.name}" if isinstance(one, Group) else one.name for one in COMMANDS
             for part in (one.commands if isinstance(one, Group) else (one,))]
    assert sorted(every) == sorted((*CALLS, *NOT_RUN))


def said_in(name, data):
    """The words of a file."""
    if not name.endswith(".pdf"):
        return data.decode("utf-8")
    return " ".join(" ".join(page.extract_text().split())
                    for page in PdfReader(io.BytesIO(data)).pages)


@pytest.mark.parametrize("name", CALLS)
def test_what_is_printed_and_written_tells_danger_and_a_boat_that_does_not_pass(name, outputs):
    printed, written = outputs[name]
    if name == "population":
        assert "# CAUTION: nobody's own measures" in printed
        return
    answer = json.loads(printed) if printed else {"cautions": [DANGER]}  # of batch in its file
    assert any(DANGER in one for one in answer["cautions"])
    if name == "fit":
        assert answer["job"]["does_not_pass"].startswith("DOES NOT PASS: ")
    if printed and name not in ABOUT_NO_BOAT:
        assert re.search(f'"{REFUSED}|"status": "fail"', printed)
    assert written or not {"--out", "jobs.json"} & {*CALLS[name]} or name == "book import"
    for file in written if name not in PACKAGES else ():
        text = said_in(file, written[file])
        assert DANGER in text, file
        assert re.search(f'{REFUSED}|"status": ?"fail"', text), file
        assert name != "batch" or re.search(",fail,", text)
