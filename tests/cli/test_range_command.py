"""The commands `range` and `who-fits` end to end."""

import json
import zipfile
from pathlib import Path

import pytest

from sizer.cli import main
from tests.crowd.conftest import drawn_people, few_rows, small_pool

PEOPLE = ["name,weight_kg,stature_mm,hip_width_mm", *(
    f"p{number},{one.weight_kg:.1f},{1000 * one.stature_m:.0f},{1000 * one.hip_width_m:.0f}"
    for number, one in enumerate(drawn_people(14, spread=1.0)))]
RANGE = ["--base", "day-boat", "--use", "coastal-day"]


@pytest.fixture(autouse=True)
def few_boats(monkeypatch, few_files):
    """The packages whole: tests/export/test_every_file.py."""
    small_pool(monkeypatch)
    few_rows(monkeypatch)


@pytest.fixture
def people(tmp_path):
    path = tmp_path / "people.csv"
    path.write_text("\n".join([*PEOPLE, "odd,abc,1700,380", ""]), "utf-8")
    return path


def test_range_prints_the_curve_and_reports_the_bad_row(people, capsys):
    assert main(["range", str(people), *RANGE, "--sizes", "2"]) == 0
    printed = capsys.readouterr()
    answer = json.loads(printed.out)
    assert printed.err == ""
    assert [one["sizes"] for one in answer["curve"]] == [1, 2]
    assert answer["people"] == {"read": 15, "counted": 14, "bad": 1}
    assert answer["bad_rows"][0]["row"] == 16
    assert "abc" in answer["bad_rows"][0]["reasons"][0]
    assert answer["gear_kg"] == 10.0
    assert answer["cautions"]


def test_out_writes_tables_map_and_packages(people, tmp_path, capsys):
    out = tmp_path / "sizes"
    assert main(["range", str(people), *RANGE, "--sizes", "1", "--out", str(out)]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert set(answer["files"]) == {path.name for path in out.iterdir()}
    assert json.loads((out / "range.json").read_text("utf-8"))["sizes"] == answer["sizes"]
    with zipfile.ZipFile(out / "size-packages.zip") as packed:
        assert packed.testzip() is None
        request = json.loads(packed.read("Size-1/request.json"))
    path = tmp_path / "again.json"
    path.write_text(json.dumps(request))
    assert main(["fit", str(path)]) in (0, 1)
    again = json.loads(capsys.readouterr().out)
    assert again["factors"]["beam"] == pytest.approx(answer["sizes"][0]["factors"]["beam"],
                                                     abs=2e-4)
    assert main(["who-fits", str(path)]) == 0
    fits = json.loads(capsys.readouterr().out)
    assert fits["size"]["beam_mm"] == pytest.approx(answer["sizes"][0]["size"]["beam_mm"], abs=0.1)


def test_a_full_disk_leaves_nothing(tmp_path, monkeypatch, capsys):
    people = tmp_path / "people.jsonl"
    people.write_text('{"weight_kg": 70, "stature_mm": 1700, "hip_width_mm": 370}\n')

    def failing(self, _data):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", failing)
    assert main(["range", str(people), *RANGE, "--sizes", "1", "--out", str(tmp_path / "o")]) == 2
    assert capsys.readouterr().out == ""
    assert [path.name for path in tmp_path.iterdir()] == ["people.jsonl"]


def test_json_lines_are_read_too(tmp_path, capsys):
    path = tmp_path / "people.jsonl"
    path.write_text('{"weight_kg": 70, "stature_mm": 1700, "hip_width_mm": 370}\nnot json\n')
    assert main(["range", str(path), *RANGE, "--sizes", "1"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["people"] == {"read": 2, "counted": 1, "bad": 1}


def test_rows_with_a_use_of_their_own_are_counted_for_the_one_asked_and_said_so(tmp_path, capsys):
    path = tmp_path / "people.csv"
    path.write_text("weight_kg,stature_mm,hip_width_mm,use\n70,1700,370,rough-water\n")
    assert main(["range", str(path), *RANGE, "--sizes", "1"]) == 0
    assert "1 rows name" in json.loads(capsys.readouterr().out)["notes"][0]


@pytest.mark.parametrize("wrong", [
    ["--sizes", "0"], ["--sizes", "2.5"], ["--sizes", "1", "--use", "racing"],
    ["--sizes", "1", "--base", "nothing"], ["--sizes", "1", "--gear-kg", "nan"],
    ["--sizes", "1", "--water", "mud"]])
def test_wrong_options_are_refused_with_nothing_on_output(people, capsys, wrong):
    assert main(["range", str(people), *RANGE, *wrong]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err


def test_no_file_and_no_usable_row_are_refused(tmp_path, capsys):
    assert main(["range", str(tmp_path / "none.csv"), *RANGE, "--sizes", "1"]) == 2
    path = tmp_path / "people.csv"
    path.write_text("weight_kg,stature_mm,hip_width_mm\nx,1700,370\n")
    assert main(["range", str(path), *RANGE, "--sizes", "1"]) == 2
    assert capsys.readouterr().out == ""


def test_who_fits_a_base_gives_both_planes_and_the_gearless_extremes(capsys):
    assert main(["who-fits", "day-boat", "--use", "coastal-day", "--gear-kg", "20"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["gear_kg"] == 20.0
    assert answer["weight_against_stature"]["rows"]
    assert answer["weight_against_hip_width"]["rows"]
    assert answer["with_gear"]["heaviest"]["ended_by"]
    assert answer["without_gear"]["lightest"]["weight_kg"] >= 30.0
    clean = answer["without_caution"]["ends"]["weight_kg"]
    assert answer["with_gear"]["lightest"]["weight_kg"] <= clean["least"]["weight_kg"]
    assert clean["least"]["ended_by_key"]
    assert clean["most"]["ended_by_key"]


def test_who_fits_a_request_tells_its_own_paddler_too(tmp_path, capsys, monkeypatch):
    few_rows(monkeypatch)
    path = tmp_path / "request.json"
    path.write_text(json.dumps({"base": "small-cruiser", "use": "sheltered-day", "paddler": {
        "weight_kg": 52, "stature_mm": 1580, "hip_width_mm": 330}}))
    assert main(["who-fits", str(path)]) == 0
    answer = json.loads(capsys.readouterr().out)
    own = answer["paddler"]
    assert (own["weight_kg"], own["stature_mm"], own["status"]) == (52, 1580, "pass")
    assert own["fails"] == own["cautions"] == []
    assert "built like" in answer["note"]
    least, most = (answer["ends"]["weight_kg"][end]["weight_kg"] for end in ("least", "most"))
    assert least < 52 < most


def test_who_fits_refuses_a_use_it_does_not_know(capsys):
    assert main(["who-fits", "day-boat", "--use", "racing"]) == 2
    assert "sheltered-day" in capsys.readouterr().err


@pytest.mark.parametrize("command", ["range", "who-fits"])
def test_help_has_an_example(command, capsys):
    with pytest.raises(SystemExit):
        main([command, "--help"])
    assert f"python -m sizer {command}" in " ".join(capsys.readouterr().out.split())
