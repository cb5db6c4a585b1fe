"""Batches: the same answers as single fits, in order, through bad rows, crashes and resumes."""

import csv
import hashlib
import io
import json
import os
import signal
import subprocess
import sys
import time
from collections import Counter
from functools import partial
from itertools import count

import pytest

from sizer.cli import main
from sizer.crowd import batch as batch_module
from sizer.crowd.batch import AHEAD, AT_ONCE, fitted_lot, fitted_rows
from sizer.crowd.crew import processes
from sizer.crowd.people import BadRow, PersonRow, read_people, request_of
from sizer.crowd.population import Recipe, drawn_people, population_lines
from sizer.crowd.results import STATUSES, everyone
from sizer.errors import BadInput, Fault, NotSolved
from sizer.fit.request import Trip, read_request
from sizer.fit.solve import only_fitted
from sizer.fit.uses import USES
from sizer.hydro.water import water_at
from sizer.job import searched_for
from tests.crowd.conftest import TRIP

PEOPLE = """name,weight_kg,stature_mm,hip_width_mm,use
=SUM(A1),82,1780,385,
@Bo,61,1650,390,rough-water
wrong,82,178,385,
+heavy,199,1800,560,camp-touring
-Di,74,1700,400,
"""
OPTIONS = ("--base", "day-boat", "--use", "coastal-day")


@pytest.fixture
def people(tmp_path):
    path = tmp_path / "people.csv"
    path.write_text(PEOPLE)
    return path


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """{kind: bytes} of the results of PEOPLE, worked out once each."""
    folder, found = tmp_path_factory.mktemp("whole"), {}
    (folder / "people.csv").write_text(PEOPLE)
    for kind in ("csv", "jsonl"):
        out = folder / f"r.{kind}"
        assert main(["batch", str(folder / "people.csv"), *OPTIONS, "--out", str(out),
                     "--workers", "1"]) == 1
        found[kind] = out.read_bytes()
    return found


def rows_in(results):
    """The lead's lines, and the table's rows as dicts, of a file's bytes."""
    lines = results.decode("utf-8-sig").splitlines()
    first = next(index for index, line in enumerate(lines) if line.startswith("row,"))
    return lines[:first], list(csv.DictReader(lines[first:]))


SEA = water_at("salt", 8.0)


def crowd_for_every_base(base_lines):
    """Somebody in each, for another use every time."""
    people = drawn_people(Recipe(len(base_lines), 8, 0.5, 25.0, 1.8))
    for index, one in enumerate(people):
        base, use = sorted(base_lines)[index], list(USES)[index % len(USES)]
        yield PersonRow(index, "", {"paddler": one.measures}, ()), Trip(base, use, SEA)


def test_fitted_row_says_what_a_single_fit_says(base_lines):
    statuses = set()
    for row, trip in crowd_for_every_base(base_lines):
        request = read_request(request_of(row, trip))
        fitted = only_fitted(searched_for([request], base_lines[trip.base]))  # nothing is sawn yet
        result, boat, checks = fitted_lot((row,), trip)[0], fitted.assessed.boat, fitted.checks
        assert result["status"] == fitted.status
        for key, status in (("failing", "fail"), ("cautioning", "caution")):
            there = [one for one in checks if one.status == status]
            assert result[key] == [one.name for one in there]
            assert result[f"{key}_keys"] == [one.key for one in there]
        assert result["reasons"] == list(fitted.unmet)
        assert result["size"]["length_mm"] == round(boat.length_m * 1000.0, 1)
        assert result["factors"]["beam"] == round(boat.scaling.beam, 4)
        assert result["freeboard_mm"] == round(
            fitted.assessed.particulars.freeboard_m * 1000.0, 1)
        afloat = fitted.assessed.loading
        assert result["total_kg"] == pytest.approx(  # by its parts: the boat is among them
            afloat.paddler_kg + afloat.gear_kg + afloat.boat_kg, abs=0.06)
        statuses.add(result["status"])
    assert statuses == {"pass", "caution", "fail"}


@pytest.mark.parametrize("error", [
    NotSolved("no rest"), BadInput([Fault("lcg", "9 m", "a centre within the hull")])])
def test_a_row_that_cannot_be_worked_out_is_called_that(monkeypatch, error):
    def failing(*_given, **_more):
        raise error

    monkeypatch.setattr(batch_module, "fit_many", failing)
    row = PersonRow(2, "A", {"paddler": {"weight_kg": 82, "stature_mm": 1780,
                                         "hip_width_mm": 385}}, ())
    result = fitted_lot((row,), TRIP)[0]
    assert result["status"] == "could not be worked out"
    assert result["status"] in STATUSES
    assert result["reasons"] == [str(error)]


def test_batch_goes_on_past_rows_that_are_bad_or_will_not_float(whole):
    lead, *results = map(json.loads, whole["jsonl"].splitlines())
    assert [one["row"] for one in results] == [2, 3, 4, 5, 6]
    assert [one["status"] in ("pass", "caution") for one in results] == [
        True, True, False, False, True]
    assert results[2]["status"] == "bad row"
    assert "looks like centimetres" in results[2]["reasons"][0]
    assert results[3]["status"] in ("fail", "will not float")
    assert results[3]["reasons"]
    assert results[1]["use"] == "rough-water"
    assert lead["cautions"]
    assert lead["batch"]["base"] == "day-boat"


def test_batch_ends_with_0_where_every_row_passes_or_cautions(tmp_path, capsys):
    people = tmp_path / "p.jsonl"
    people.write_text('{"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}\n')
    assert main(["batch", str(people), *OPTIONS, "--workers", "1"]) == 0
    said = capsys.readouterr()
    assert [json.loads(line)["row"] for line in said.out.splitlines()[1:]] == [1]
    assert said.err.startswith("1 rows: 1 ")


def test_batch_reads_json_lines_from_standard_input(tmp_path, monkeypatch):
    line = b'{"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385, "name": "A"}\n'
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(2 * line)))
    out = tmp_path / "r.csv"
    assert main(["batch", "-", *OPTIONS, "--out", str(out), "--workers", "1"]) == 0
    _, rows = rows_in(out.read_bytes())
    assert [(row["row"], row["label"]) for row in rows] == [("1", "A"), ("2", "A")]


def test_results_csv_carries_cautions_and_is_safe_in_a_spreadsheet(whole):
    lead, rows = rows_in(whole["csv"])
    assert all(line.startswith(("#", '"#')) for line in lead)
    assert sum("CAUTION: " in line for line in lead) > 9
    assert [row["label"] for row in rows] == [
        "'=SUM(A1)", "'@Bo", "wrong", "'+heavy", "'-Di"]


def test_everyone_as_one_record_is_what_the_command_writes(whole):
    said = []
    rows = tuple(read_people(PEOPLE.splitlines(), "csv"))
    made = everyone(rows, hashlib.sha256(PEOPLE.encode()).hexdigest(),
                    TRIP, lambda *how_far: said.append(how_far))
    assert made.csv.encode() == whole["csv"]
    assert dict(made.statuses) == Counter(row["status"] for row in rows_in(whole["csv"])[1])
    assert [(done, of) for done, of, _ in said] == [(done, 5) for done in range(1, 6)]


@pytest.mark.parametrize("kind", ["csv", "jsonl"])
def test_batch_resumes_a_file_cut_off_anywhere(people, tmp_path, kind, whole):
    command = ["batch", str(people), *OPTIONS, "--workers", "1"]
    data = whole[kind]
    ends = [index + 1 for index, byte in enumerate(data) if byte == ord("\n")]
    cut = tmp_path / f"cut.{kind}"
    cuts = 0, 7, ends[-6] - 2, ends[-6], ends[-4] - 1, ends[-3] + 9, ends[-1]
    for size in cuts if kind == "csv" else cuts[1::2]:
        cut.write_bytes(data[:size])
        assert main([*command, "--out", str(cut), "--resume"]) == 1
        assert cut.read_bytes() == data, size


@pytest.mark.parametrize("change", [
    ("--use", "rough-water"), ("--water", "salt"), ("--temperature-c", "4"),
    ("--base", "long-tourer"), "people"])
def test_batch_refuses_to_resume_the_results_of_others(people, tmp_path, capsys, change, whole):
    out, before = tmp_path / "r.csv", whole["csv"]
    command = ["batch", str(people), *OPTIONS, "--out", str(out), "--workers", "1"]
    out.write_bytes(before)
    if change == "people":
        people.write_text(PEOPLE.replace("82", "83"))
        change = ()
    assert main([*command, "--resume", *change]) == 2
    assert "holds other results" in capsys.readouterr().err
    assert out.read_bytes() == before


def test_batch_refuses_to_resume_results_that_were_changed(people, tmp_path, capsys, whole):
    out = tmp_path / "r.jsonl"
    command = ["batch", str(people), *OPTIONS, "--out", str(out), "--workers", "1"]
    lines = whole["jsonl"].decode().splitlines(keepends=True)
    for changed in (lines[0] + lines[2], lines[0] + "{}\n", "".join(lines) + lines[-1]):
        out.write_text(changed)
        assert main([*command, "--resume"]) == 2
        assert "the file was changed" in capsys.readouterr().err


def test_batch_overwrites_nothing(people, tmp_path, capsys):
    out = tmp_path / "r.csv"
    out.write_text("mine")
    assert main(["batch", str(people), *OPTIONS, "--out", str(out)]) == 2
    assert "a new file" in capsys.readouterr().err
    assert out.read_text() == "mine"


@pytest.mark.parametrize(("words", "said"), [
    (["p.txt", *OPTIONS], "a file that ends in .csv or .jsonl"),
    (["none.csv", *OPTIONS], "cannot be read"),
    (["p.csv", *OPTIONS, "--out", "r.txt"], "a file that ends in"),
    (["p.csv", *OPTIONS, "--resume"], "without --out"),
    (["p.csv", *OPTIONS, "--workers", "0"], "1 to 256"),
    (["p.csv", "--base", "no-boat", "--use", "war", "--water", "tea"], "--water: 'tea'"),
    (["empty.csv", *OPTIONS, "--out", "r.csv"], "no rows"),
    (["odd.csv", *OPTIONS, "--out", "r.csv"], "did you mean weight_kg?"),
])
def test_batch_refuses_bad_input_and_writes_nothing(tmp_path, monkeypatch, capsys, words, said):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "p.csv").write_text(PEOPLE)
    (tmp_path / "empty.csv").write_text("weight_kg,stature_mm,hip_width_mm\n")
    (tmp_path / "odd.csv").write_text("weihgt_kg,stature_mm,hip_width_mm\n82,1780,385\n")
    before = sorted(tmp_path.iterdir())
    assert main(["batch", *words]) == 2
    assert said in capsys.readouterr().err
    assert sorted(tmp_path.iterdir()) == before


def test_fitted_rows_keep_the_order_and_read_little_ahead():
    taken = count()

    def rows():
        while True:
            number = next(taken)
            yield BadRow(number, "", ("bad",))

    results = fitted_rows(rows(), TRIP, 2)
    assert [next(results)["row"] for _ in range(100)] == list(range(100))
    results.close()
    assert next(taken) <= 100 + 2 * AHEAD * AT_ONCE + AT_ONCE


def begun(people, out, *more):
    """The batch in a process group of its own, once it has written some rows."""
    process = subprocess.Popen(
        [sys.executable, "-m", "sizer", "batch", str(people), *OPTIONS, "--out", str(out),
         "--workers", "2", *more], stderr=subprocess.PIPE, text=True, start_new_session=True,
        preexec_fn=partial(signal.signal, signal.SIGINT, signal.SIG_DFL))  # else as it finds it
    while not out.exists() or out.read_bytes().count(b"\n") < 30:
        with pytest.raises(subprocess.TimeoutExpired):
            process.wait(0.02)
    return process


@pytest.fixture
def crowd(tmp_path):
    path = tmp_path / "crowd.csv"
    path.write_text("\n".join(population_lines(Recipe(100, 3))) + "\n")
    return path


def test_batch_killed_in_the_middle_loses_and_doubles_nothing(crowd, tmp_path):
    out, whole = tmp_path / "r.csv", tmp_path / "whole.csv"
    process = begun(crowd, out)
    process.send_signal(signal.SIGKILL)
    process.communicate(timeout=600)  # ends only when the workers have let go of it too
    assert process.returncode == -signal.SIGKILL
    killed = out.read_bytes()
    main(["batch", str(crowd), *OPTIONS, "--out", str(whole), "--workers", "1"])
    assert len(killed) < len(whole.read_bytes())
    main(["batch", str(crowd), *OPTIONS, "--out", str(out), "--workers", "1", "--resume"])
    assert out.read_bytes() == whole.read_bytes()


def test_batch_interrupted_leaves_whole_lines_and_says_how_to_go_on(crowd, tmp_path):
    out = tmp_path / "r.jsonl"
    crowd.write_text("\n".join(population_lines(Recipe(900, 3))) + "\n")  # never done by then
    process = begun(crowd, out)
    os.killpg(process.pid, signal.SIGINT)  # as a terminal does, workers and all
    _, said = process.communicate(timeout=600)
    assert process.returncode == 130
    assert "--resume goes on" in said
    assert "Traceback" not in said
    lines = out.read_text().splitlines(keepends=True)
    assert lines[-1].endswith("\n")
    assert [json.loads(line)["row"] for line in lines[1:]] == list(range(5, 4 + len(lines)))


def test_what_is_under_way_is_given_up_on_ctrl_c():
    """It was waited for, several seconds of fits that nobody took."""
    def stopped_by_hand():
        with processes(1, "", abs, 0) as pool:
            pool.submit(time.sleep, 60.0)
            raise KeyboardInterrupt

    started = time.monotonic()
    with pytest.raises(KeyboardInterrupt):
        stopped_by_hand()
    assert time.monotonic() - started < 30.0


def test_workers_that_are_only_beginning_never_have_ctrl_c():
    """Once a slow machine had one at work and the other still loading, which then broke off loud.
    Here the parent cares for none of fifty of them, all while its workers begin."""
    script = ("import signal\nfrom sizer.crowd.crew import processes\n"
              "with processes(2, '', abs, 0) as pool:\n"
              "    done = [pool.submit(abs, one) for one in (-1, -2)]\n"
              "    signal.signal(signal.SIGINT, signal.SIG_IGN)\n"
              "    print('begun', flush=True)\n    input()\n"
              "    print(*(one.result() for one in done))\n")
    process = subprocess.Popen(
        [sys.executable, "-c", script], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
        stderr=subprocess.PIPE, text=True, start_new_session=True)
    assert process.stdout.readline() == "begun\n"
    for _ in range(50):
        os.killpg(process.pid, signal.SIGINT)
        time.sleep(0.02)
    answered, said = process.communicate("\n", timeout=600)
    assert (answered, said) == ("1 2\n", "")
