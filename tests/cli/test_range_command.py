"""The commands `range` and `who-fits` end to end."""

import json
import zipfile
from pathlib import Path

import pytest

from sizer.cli import main
from tests.cli.conftest import few_files
from tests.cli.test_cli import sizer
from tests.cli.test_stamp_options import STAMP, WORDS
from tests.crowd.conftest import drawn_people, few_rows, fewest_boats

PEOPLE = ["name,weight_kg,stature_mm,hip_width_mm", *(
    f"p{number},{one.weight_kg:.1f},{1000 * one.stature_m:.0f},{1000 * one.hip_width_m:.0f}"
    for number, one in enumerate(drawn_people(14, spread=1.0)))]
LEAD = "AB-1234-rev-B-"  # of the files' names, by STAMP
RANGE = ["--base", "day-boat", "--use", "coastal-day"]


@pytest.fixture(scope="module", autouse=True)
def few_boats():
    """The packages whole: tests/export/test_range.py."""
    with pytest.MonkeyPatch.context() as patch:
        few_files(patch)
        fewest_boats(patch)
        few_rows(patch)
        yield


@pytest.fixture(scope="module")
def people(tmp_path_factory):
    path = tmp_path_factory.mktemp("people") / "people.csv"
    path.write_text("\n".join([*PEOPLE, "odd,abc,1700,380", ""]), "utf-8")
    return path


@pytest.fixture(scope="module")
def ranged(people):
    """(answer of a stamped range, the folder that it wrote)."""
    out = people.parent / "sizes"
    done = sizer("range", str(people), *RANGE, "--sizes", "2", *STAMP, "--out", str(out))
    assert (done.returncode, done.stderr) == (0, "")
    return json.loads(done.stdout), out


def test_range_prints_the_curve_and_reports_the_bad_row(ranged):
    answer, _ = ranged
    assert [one["sizes"] for one in answer["curve"]] == [1, 2]
    assert answer["people"] == {"read": 15, "counted": 14, "bad": 1}
    assert answer["bad_rows"][0]["row"] == 16
    assert "abc" in answer["bad_rows"][0]["reasons"][0]
    assert answer["gear_kg"] == 10.0
    assert answer["cautions"]


def test_a_range_names_its_job_in_answer_and_files(ranged):
    answer, out = ranged
    assert answer["job"]["line"] == f"{WORDS}day-boat, {len(answer['sizes'])} sizes"
    names = [f"{LEAD}{name}" for name in (
        "range.json", "sizes.csv", "people.csv", "people-map.svg", "size-packages.zip")]
    assert answer["files"] == names
    assert sorted(names) == sorted(path.name for path in out.iterdir())


def test_out_writes_tables_map_and_packages_whose_requests_are_taken(ranged, tmp_path, capsys):
    """By `who-fits`, which tells its own paddler too."""
    answer, out = ranged
    told = json.loads((out / f"{LEAD}range.json").read_text("utf-8"))
    assert told["sizes"] == answer["sizes"]
    with zipfile.ZipFile(out / f"{LEAD}size-packages.zip") as packed:
        assert packed.testzip() is None
        requests = {name.split("Size-")[1][0]: packed.read(name) for name in packed.namelist()
                    if name.endswith("request.json")}
    assert sorted(requests) == [str(number + 1) for number in range(len(answer["sizes"]))]
    path = tmp_path / "again.json"
    path.write_bytes(requests["1"])
    assert main(["fit", str(path)]) in (0, 1)
    again = json.loads(capsys.readouterr().out)
    assert again["factors"]["beam"] == pytest.approx(answer["sizes"][0]["factors"]["beam"],
                                                     abs=2e-4)
    assert main(["who-fits", str(path), *STAMP]) == 0
    fits = json.loads(capsys.readouterr().out)
    assert fits["job"]["line"].startswith(f"{WORDS}day-boat 4.")
    assert fits["job"]["does_not_pass"] is None
    assert fits["size"]["beam_mm"] == pytest.approx(answer["sizes"][0]["size"]["beam_mm"], abs=0.1)
    own, given = fits["paddler"], json.loads(requests["1"])["paddler"]
    assert (own["weight_kg"], own["stature_mm"], own["status"]) == (
        given["weight_kg"], pytest.approx(given["stature_mm"], abs=1e-3), "pass")
    assert own["fails"] == own["cautions"] == []
    assert "built like" in fits["note"]
    least, most = (fits["ends"]["weight_kg"][end]["weight_kg"] for end in ("least", "most"))
    assert least < own["weight_kg"] < most


def test_a_full_disk_leaves_nothing(tmp_path, monkeypatch, capsys):
    people = tmp_path / "people.jsonl"
    people.write_text('{"weight_kg": 70, "stature_mm": 1700, "hip_width_mm": 370}\n')

    def failing(self, _data):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", failing)
    assert main(["range", str(people), *RANGE, "--sizes", "1", "--out", str(tmp_path / "o")]) == 2
    assert capsys.readouterr().out == ""
    assert [path.name for path in tmp_path.iterdir()] == ["people.jsonl"]


def test_json_lines_are_read_and_a_use_of_their_own_is_said_not_to_count(tmp_path, capsys):
    path = tmp_path / "people.jsonl"
    path.write_text('{"weight_kg": 70, "stature_mm": 1700, "hip_width_mm": 370, '
                    '"use": "rough-water"}\nnot json\n')
    assert main(["range", str(path), *RANGE, "--sizes", "1"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["people"] == {"read": 2, "counted": 1, "bad": 1}
    assert "1 rows name" in answer["notes"][0]


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


def test_who_fits_refuses_a_use_it_does_not_know(capsys):
    assert main(["who-fits", "day-boat", "--use", "racing"]) == 2
    assert "sheltered-day" in capsys.readouterr().err


@pytest.mark.parametrize("command", ["range", "who-fits"])
def test_help_has_an_example(command, capsys):
    with pytest.raises(SystemExit):
        main([command, "--help"])
    assert f"python -m sizer {command}" in " ".join(capsys.readouterr().out.split())
