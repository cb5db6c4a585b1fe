"""The build command: a whole package in a folder, or nothing changed."""

import csv
import errno
import io
import json
from pathlib import Path

import pytest
from ezdxf import recover
from pypdf import PdfReader

from sizer.cli import main
from sizer.cli.folder import checked_out, write_folder
from sizer.errors import BadInput
from tests.cli.conftest import few_files

REQUEST = {"base": "day-boat", "use": "coastal-day",
           "paddler": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
SHEETS = ("setting-up.pdf", "customer.pdf", "patterns-large.pdf", "plywood-layout.pdf")
pytestmark = pytest.mark.usefixtures("remembered")
FILES = {"read-me-first.txt": b"new", "frames/F1.dxf": b"new"}


@pytest.fixture
def request_path(tmp_path):
    path = tmp_path / "request.json"
    path.write_text(json.dumps(REQUEST))
    return path


def held(folder):
    """{name: bytes} of everything under a folder."""
    return {path.relative_to(folder).as_posix(): path.read_bytes()
            for path in folder.rglob("*") if path.is_file()}


def test_build_writes_what_it_says_and_the_files_read_back(request_path, tmp_path, capsys,
                                                           monkeypatch):
    """The package whole: `book issue` in test_book.py."""
    few_files(monkeypatch, *SHEETS, "frames/F4.dxf", "stations-mm.csv")
    out = tmp_path / "package"
    assert main(["build", str(request_path), "--out", str(out)]) == 0
    printed = capsys.readouterr()
    assert printed.err == ""
    answer = json.loads(printed.out)
    assert Path(answer["out"]) == out
    assert set(answer["files"]) == set(held(out))
    assert answer["status"] in ("pass", "caution")
    full = json.loads((out / "everything.json").read_text("utf-8"))
    assert full["cautions"] == answer["cautions"]
    document, _ = recover.readfile(out / "frames/F4.dxf")
    assert len(document.modelspace().query("LWPOLYLINE[layer=='cut']")) >= 1
    marks = [mark["strongback_mm"] for mark in full["stations"]]
    text = (out / "stations-mm.csv").read_text("utf-8-sig")
    rows = list(csv.DictReader(line for line in io.StringIO(text) if line[0] not in '#"'))
    assert [float(row["strongback mark mm"]) for row in rows] == pytest.approx(marks, abs=0.06)
    for name in SHEETS:
        assert len(PdfReader(out / name).pages) >= 1
    assert sorted(path.name for path in tmp_path.iterdir()) == ["package", "request.json"]


@pytest.mark.usefixtures("few_files")
def test_stock_cloth_and_sheet_are_taken_from_the_options(request_path, tmp_path):
    out = tmp_path / "package"
    assert main(["build", str(request_path), "--out", str(out), "--stock-mm", "2400",
                 "--cloth-width-mm", "1700", "--sheet-mm", "1220,1525"]) == 0
    bench = json.loads((out / "everything.json").read_text("utf-8"))["bench"]
    sizes = {row["part"]: row["size_mm"] for row in bench["materials"]}
    assert sizes["timber"][2] == 2400
    assert bench["shop"]["stock_lengths_mm"] == [2400]
    assert 1700 in {row["size_mm"][0] for row in bench["materials"] if row["part"] == "skin"
                    and row["size_mm"]}
    assert bench["shop"]["sheet_mm"] == [1525, 1220]
    for row in bench["plywood"]:
        for sheet in row["sheets"]:
            assert 1525 % sheet["sheet_mm"][0] == 0 or 1220 % sheet["sheet_mm"][0] == 0


@pytest.mark.usefixtures("few_files")
def test_a_file_of_the_shops_settings_is_taken_and_options_go_before_it(request_path, tmp_path):
    settings = tmp_path / "shop.toml"
    settings.write_text("cutter_mm = 8\nrelief = 't-bone'\nstock_lengths_mm = [3000, 2400]\n"
                        "[[plywood]]\nnominal_mm = 12\ntrue_mm = 11.6\n")
    out = tmp_path / "package"
    assert main(["build", str(request_path), "--out", str(out), "--shop", str(settings),
                 "--relief", "dog-bone", "--plywood-mm", "12:11.7,18:17.6",
                 "--risers", "hung"]) == 0
    bench = json.loads((out / "everything.json").read_text("utf-8"))["bench"]
    assert bench["shop"] == {
        "cutter_mm": 8, "relief": "dog-bone", "sheet_mm": [2440, 1220], "patterns": "whole",
        "risers": "hung",
        "stock_lengths_mm": [2400, 3000], "cloth_widths_mm": [1500],
        "plywood": [{"nominal_mm": 12, "true_mm": 11.7}, {"nominal_mm": 18, "true_mm": 17.6}]}
    assert [(row["thickness_mm"], row["true_mm"]) for row in bench["plywood"]] == [
        (6, 6), (12, 11.7), (18, 17.6)]
    assert {row["size_mm"][2] for row in bench["materials"] if row["part"] == "timber"} <= {
        2400, 3000}


@pytest.mark.parametrize("wrong", [
    ["--cutter-mm", "0"], ["--plywood-mm", "12"], ["--plywood-mm", "12:x"],
    ["--stock-mm", "long"], ["--stock-mm", "100"], ["--cloth-width-mm", "nan"],
    ["--sheet-mm", "2440"], ["--sheet-mm", "2440,1220,3"], ["--sheet-mm", "2440,-1"],
    ["--sheet-mm", "310,310"]])
def test_wrong_options_are_refused_before_anything_is_written(request_path, tmp_path, capsys,
                                                              wrong):
    assert main(["build", str(request_path), "--out", str(tmp_path / "package"), *wrong]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert all("mm" in line for line in printed.err.splitlines())
    assert [path.name for path in tmp_path.iterdir()] == ["request.json"]


def test_a_folder_that_is_not_empty_is_refused_without_force(request_path, tmp_path, capsys):
    out = tmp_path / "package"
    out.mkdir()
    (out / "mine.txt").write_text("mine")
    assert main(["build", str(request_path), "--out", str(out)]) == 2
    printed = capsys.readouterr()
    assert (printed.out, len(printed.err.splitlines())) == ("", 1)
    assert "--force" in printed.err
    assert held(out) == {"mine.txt": b"mine"}


def test_force_replaces_an_older_package_whole_and_keeps_what_is_not_of_it(tmp_path):
    out = tmp_path / "package"
    write_folder(FILES | {"frames/F12.dxf": b"old"}, out)
    (out / "mine.txt").write_text("mine")
    (out / "photos").mkdir()
    (out / "photos/dry-fit.jpg").write_bytes(b"jpg")
    write_folder(FILES, checked_out(str(out), force=True))
    assert held(out) == FILES | {"mine.txt": b"mine", "photos/dry-fit.jpg": b"jpg"}


def test_a_new_or_empty_folder_needs_no_force(tmp_path):
    (tmp_path / "empty").mkdir()
    for name in ("empty", "new"):
        out = checked_out(str(tmp_path / name), force=False)
        write_folder(FILES, out)
        assert held(out) == FILES


def full_disk(monkeypatch, method, from_call):
    """Makes a method of Path fail from its n-th call on."""
    calls, real = [], getattr(Path, method)

    def failing(self, *given):
        calls.append(self)
        if len(calls) >= from_call:
            raise OSError(errno.ENOSPC, "No space left on device")
        return real(self, *given)

    monkeypatch.setattr(Path, method, failing)


@pytest.mark.parametrize("older", [False, True])
@pytest.mark.parametrize(("method", "from_call"), [("write_bytes", 1), ("write_bytes", 2)])
def test_a_full_disk_leaves_nothing_new_and_the_older_untouched(tmp_path, monkeypatch, older,
                                                                method, from_call):
    out = tmp_path / "package"
    if older:
        write_folder({"frames/F12.dxf": b"old"}, out)
    before = held(tmp_path)
    full_disk(monkeypatch, method, from_call)
    with pytest.raises(BadInput, match=r"No space left on device: .+; nothing was changed"):
        write_folder(FILES, out)
    assert held(tmp_path) == before
    assert [path.name for path in tmp_path.iterdir()] == (["package"] if older else [])


def test_an_older_folder_comes_back_when_the_new_one_cannot_take_its_place(tmp_path, monkeypatch):
    out = tmp_path / "package"
    write_folder({"frames/F12.dxf": b"old"}, out)
    real = Path.rename

    def failing(self, target):
        if self.name == "new":
            raise OSError(errno.EIO, "Input/output error")
        return real(self, target)

    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises(BadInput, match="Input/output error"):
        write_folder(FILES, out)
    assert held(tmp_path) == {"package/frames/F12.dxf": b"old"}
    assert [path.name for path in tmp_path.iterdir()] == ["package"]


@pytest.mark.usefixtures("few_files")
def test_a_full_disk_is_one_line_and_exit_2(request_path, tmp_path, monkeypatch, capsys):
    full_disk(monkeypatch, "write_bytes", 2)
    assert main(["build", str(request_path), "--out", str(tmp_path / "package")]) == 2
    printed = capsys.readouterr()
    assert (printed.out, len(printed.err.splitlines())) == ("", 1)
    assert [path.name for path in tmp_path.iterdir()] == ["request.json"]


def test_places_that_cannot_be_a_package_are_refused(tmp_path, monkeypatch):
    (tmp_path / "file").write_text("a file")
    (tmp_path / "within").mkdir()
    monkeypatch.chdir(tmp_path / "within")
    for text in (str(tmp_path / "file"), str(tmp_path / "none" / "package"), ".", "..", " ",
                 str(tmp_path / "file" / "package")):
        with pytest.raises(BadInput) as refused:
            checked_out(text, force=True)
        assert str(refused.value).startswith("--out: ")
