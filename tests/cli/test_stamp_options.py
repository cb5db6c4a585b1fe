"""--code, --mark, --rev and --date of every command that answers for one boat or one range."""

import json

import pytest

from sizer.cli import main
from sizer.cli.folder import checked_out, write_folder
from sizer.errors import BadInput

REQUEST = {"base": "day-boat", "use": "coastal-day",
           "paddler": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
TOO_LARGE = {"base": "small-cruiser", "use": "coastal-day",
             "paddler": {"weight_kg": 143.7, "stature_mm": 1913, "hip_width_mm": 523}}
STAMP = ["--code", "AB-1234", "--mark", "blue paddle", "--rev", "B", "--date", "2026-11-28"]
WORDS = "AB-1234 · blue paddle · REV B · 2026-11-28 · "
pytestmark = pytest.mark.usefixtures("remembered")
LOAD = ["--mass-kg", "110", "--lcg-mm", "2330"]


@pytest.fixture
def request_path(tmp_path):
    path = tmp_path / "request.json"
    path.write_text(json.dumps(REQUEST))
    return str(path)


@pytest.mark.parametrize("call", [
    ["fit", "REQUEST"], ["float", "day-boat", *LOAD, "--vcg-mm", "280"],
    ["float", "REQUEST", *LOAD, "--vcg-mm", "280"],
    ["drag", "day-boat", *LOAD, "--speeds-mps", "1.5"], ["sections", "day-boat", "--count", "5"],
    ["flood", "REQUEST"]], ids=" ".join)
def test_every_answer_names_its_job(call, request_path, capsys):
    """Those of `range` and `who-fits`: test_range_command.py."""
    call = [request_path if word == "REQUEST" else word for word in call]
    assert main([*call, *STAMP]) == 0
    job = json.loads(capsys.readouterr().out)["job"]
    assert job["line"].startswith(f"{WORDS}day-boat 4.")
    assert (job["code"], job["mark"], job["revision"], job["date"], job["replaces"]) == (
        "AB-1234", "blue paddle", "B", "2026-11-28", "")
    assert job["does_not_pass"] is None


def test_an_answer_for_a_boat_that_does_not_pass_says_so_in_its_job(tmp_path, capsys):
    """That of `fit` too: test_every_output.py."""
    path = tmp_path / "request.json"
    path.write_text(json.dumps(TOO_LARGE))
    for call in (["sections", str(path), "--count", "3"], ["flood", str(path)]):
        main(call)
        job = json.loads(capsys.readouterr().out)["job"]
        assert job["does_not_pass"].startswith("DOES NOT PASS: "), call
        assert (job["code"], job["revision"]) == ("no job", "")


@pytest.mark.parametrize(("option", "text"), [
    ("--code", " "), ("--code", "A" * 25), ("--code", "a\nb"), ("--code", "../.."),
    ("--mark", "x" * 41), ("--rev", "123456789"), ("--rev", "-"), ("--date", "28.11.2026"),
    ("--date", "2026-02-30")])
def test_a_stamp_that_cannot_be_is_refused_with_its_option(option, text, request_path, capsys):
    assert main(["fit", request_path, f"{option}={text}"]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.startswith(f"{option}: ")
    assert len(printed.err.splitlines()) == 1


def test_a_package_of_another_revision_is_never_mixed_in(tmp_path):
    out = tmp_path / "package"
    first = {"AB-1-rev-A-read-me-first.txt": b"a", "AB-1-rev-A-frames/AB-1-rev-A-F1.dxf": b"a"}
    write_folder(first, out)
    later = {"AB-1-rev-B-read-me-first.txt": b"b", "AB-1-rev-B-frames/AB-1-rev-B-F1.dxf": b"b"}
    for files in (later, {"read-me-first.txt": b"b"}):
        with pytest.raises(BadInput, match=r"AB-1-rev-A-read-me-first\.txt"):
            write_folder(files, checked_out(str(out), force=True))
        assert sorted(path.name for path in out.iterdir()) == [
            "AB-1-rev-A-frames", "AB-1-rev-A-read-me-first.txt"]
    write_folder(first | {"AB-1-rev-A-read-me-first.txt": b"new"}, out)
    assert (out / "AB-1-rev-A-read-me-first.txt").read_bytes() == b"new"
