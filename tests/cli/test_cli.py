"""The command line as a person meets it: its output, its exit code. A process of its own where only
that shows it; elsewhere the same program called here, since a start takes a second."""

import io
import json
import os
import subprocess
import sys
from contextlib import suppress

import pytest

from sizer.cli import main
from sizer.design.library import shipped_folder

REQUEST = {"base": "day-boat", "use": "coastal-day",
           "paddler": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
pytestmark = pytest.mark.usefixtures("remembered")


def process(*arguments, given="", cwd=None):
    return subprocess.run([sys.executable, "-m", "sizer", *arguments], input=given, text=True,
                          capture_output=True, cwd=cwd, timeout=600, check=False)


def sizer(*arguments, given="", cwd="."):
    """The same, by a call."""
    streams = {name: io.TextIOWrapper(io.BytesIO(text.encode()), encoding="utf-8")
               for name, text in (("stdin", given), ("stdout", ""), ("stderr", ""))}
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(cwd)
        for name, stream in streams.items():
            patch.setattr(sys, name, stream)
        try:
            code = main(arguments)
        except SystemExit as ended:
            code = ended.code
    streams["stdout"].flush()
    streams["stderr"].flush()
    said = [streams[name].buffer.getvalue().decode() for name in ("stdout", "stderr")]
    return subprocess.CompletedProcess(arguments, code, *said)


def refused(*arguments, given="", run=sizer, **more):
    """Standard error's lines of a call that must be refused."""
    done = run(*arguments, given=given, **more)
    assert done.returncode == 2, done.stderr
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    return done.stderr.splitlines()


def on_a_terminal(*arguments):
    """What a process writes where its standard output is a terminal."""
    pty = pytest.importorskip("pty")  # not on every system
    reader, terminal = pty.openpty()
    with subprocess.Popen([sys.executable, "-m", "sizer", *arguments], stdout=terminal):
        os.close(terminal)
        said = b""
        with suppress(OSError):  # how some systems tell that the other end is closed
            while more := os.read(reader, 65536):
                said += more
    os.close(reader)
    return said.decode().replace("\r\n", "\n")


def test_an_answer_is_indented_for_eyes_and_one_line_for_a_program():
    call = "sections", "day-boat", "--count", "3", "--date", "2026-03-01"
    piped, seen = sizer(*call).stdout, on_a_terminal(*call)
    assert piped.count("\n") == 1
    assert seen.startswith('{\n  "job": {\n    "code": ')
    assert json.loads(seen) == json.loads(piped)


@pytest.fixture(scope="module")
def fitted(tmp_path_factory):
    """The answer of a process in a folder of no meaning to REQUEST."""
    done = process("fit", "-", given=json.dumps(REQUEST), cwd=tmp_path_factory.mktemp("any"))
    assert (done.returncode, done.stderr) == (0, "")
    return json.loads(done.stdout)


def test_fit_answers_the_contract_from_any_folder(fitted):
    answer = fitted
    assert {"base", "status", "size", "factors", "set_by", "load", "flotation", "checks",
            "cautions", "stations", "solve_ms"} <= set(answer)
    assert {"displacement_kg", "draft_mm", "trim_deg", "waterline_length_mm",
            "waterline_beam_mm", "wetted_area_m2", "gm_mm", "freeboard_mm",
            "rim_freeboard_mm"} <= set(answer["flotation"])
    assert {"name", "value", "limit", "unit", "margin", "status", "meaning",
            "source"} <= set(answer["checks"][0])
    assert {"name", "x_mm", "reference_face", "strongback_mm",
            "spacing_mm"} <= set(answer["stations"][0])


def test_fit_that_fails_a_check_exits_1_and_says_what_mends_it_and_that_holds():
    """That a process ends with the code: test_every_fault_of_a_request_has_its_line."""
    wide = REQUEST | {"fixed": {"beam_mm": 590, "depth_mm": 260}}
    failed = sizer("fit", "-", given=json.dumps(wide))
    assert failed.returncode == 1
    answer = json.loads(failed.stdout)
    assert answer["status"] == "fail"
    first = answer["remedies"][0]
    assert first["do"] == "let go of the held beam"
    del wide["fixed"]["beam_mm"]
    done = json.loads(sizer("fit", "-", given=json.dumps(wide)).stdout)
    assert done["status"] == first["status"] == "pass"
    assert "remedies" not in done


def test_fit_reads_files_and_own_designs_by_path(tmp_path):
    own = tmp_path / "mine.toml"
    own.write_bytes((shipped_folder() / "teaching-boat.toml").read_bytes())
    request = tmp_path / "request.json"
    request.write_text(json.dumps(REQUEST | {"base": str(own), "use": "sheltered-day"}))
    done = sizer("fit", str(request))
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["design"] == "Plain teaching boat"
    shapes = [json.loads(sizer("sections", one).stdout) for one in (str(own), "teaching-boat")]
    assert [one.pop("job")["boat"].split(" 4.")[0] for one in shapes] == [
        "Plain teaching boat", "teaching-boat"]
    assert shapes[0] == shapes[1]


def test_float_gives_flotation_and_righting():
    done = sizer("float", "day-boat", "--mass-kg", "110", "--lcg-mm", "2330", "--vcg-mm", "280",
                 "--water", "salt", "--temperature-c", "15", "--heel-deg", "0,-10,10,90,180")
    assert done.returncode == 0, done.stderr
    answer = json.loads(done.stdout)
    flotation = answer["flotation"]
    assert flotation["displacement_kg"] == pytest.approx(110, rel=1e-6)
    assert flotation["volume_m3"] == pytest.approx(110 / 1025.976, rel=1e-5)
    rows = {row["heel_deg"]: row for row in answer["righting"]}
    assert rows[0]["gz_mm"] == pytest.approx(0, abs=1e-3)
    assert rows[10]["gz_mm"] == pytest.approx(-rows[-10]["gz_mm"], abs=1e-3)
    assert rows[0]["sinkage_mm"] == pytest.approx(flotation["sinkage_mm"], abs=1e-3)
    assert rows[90]["sinkage_mm"] is None
    assert rows[180]["gz_mm"] == pytest.approx(0, abs=1e-3)


def test_float_and_sections_take_a_request_for_its_fitted_boat(fitted):
    given = json.dumps(REQUEST)
    load = fitted["load"]
    done = sizer("float", "-", "--mass-kg", str(load["total_kg"]), "--lcg-mm", str(load["lcg_mm"]),
                 "--vcg-mm", str(load["vcg_mm"]), given=given)
    again = json.loads(done.stdout)["flotation"]
    for key in ("draft_mm", "gm_mm", "freeboard_mm"):
        assert again[key] == pytest.approx(fitted["flotation"][key], abs=0.01)
    rings = json.loads(sizer("sections", "-", "--count", "41", given=given).stdout)
    assert max(rings["x_mm"]) == pytest.approx(fitted["size"]["length_mm"], abs=0.01)
    beam = max(y for ring in rings["rings_mm"] for y, _ in ring)
    assert 2 * beam == pytest.approx(fitted["size"]["beam_mm"], abs=0.5)


def test_fit_tells_which_way_the_boat_turns_in_wind_with_its_error(fitted):
    found = fitted["wind"]["under_way"]
    for case in ("as_fitted", "heeled_10_deg", "seat_50_mm_aft"):
        light, hard = found[case][1], found[case][3]
        assert (light["wind_mps"], light["speed_mps"], hard["wind_mps"]) == (5.0, 1.75, 10.0)
        assert hard["side_force_n"] == pytest.approx(4.0 * light["side_force_n"], rel=1e-4)
        assert f"{abs(light['lead_percent_of_waterline']):.0f} ± 7 %" in light["says"]
        assert f"about {1e4 * light['skeg_m2']:.0f} cm²" in light["says"]
    assert found["lead_plus_minus_percent"] == 7.0
    assert "estimate" in found["note"]
    assert "near shore" in found["note"]
    assert "from memory" in found["source"]


def test_sections_are_closed_rings_of_equal_count():
    answer = json.loads(sizer("sections", "long-tourer", "--count", "31").stdout)
    assert len(answer["x_mm"]) == len(answer["rings_mm"]) == 31
    assert answer["x_mm"] == pytest.approx(
        [5300.0 / 30.0 * step for step in range(31)], abs=1e-3)
    assert len({len(ring) for ring in answer["rings_mm"]}) == 1
    assert all(ring[0] == ring[-1] for ring in answer["rings_mm"])


@pytest.mark.parametrize(("given", "word"), [
    ("", "empty"), ("{", "not JSON"), ("[1]", "JSON object"), ('{"base": NaN}', "base"),
    ("[" * 100_000, "not JSON: brackets in brackets in brackets: mend that place"),
    ('{"paddler": {"weight_kg": 82, "weight_kg": 28}}', "not JSON: weight_kg stands twice"),
    ('{"base": ' + "9" * 5000 + "}", "base: inf: ")])
def test_broken_requests_are_refused_in_a_sentence(given, word):
    assert word in refused("fit", "-", given=given)[0]


def test_every_fault_of_a_request_has_its_line():
    lines = refused("fit", "-", run=process, given=json.dumps(
        {"base": "dayboat", "use": "racing",
         "paddler": {"weight_kg": -80, "stature_mm": 3000, "hip_width_mm": 0.38}}))
    assert [line.split(":")[0] for line in lines] == [
        "base", "use", "paddler.weight_kg", "paddler.stature_mm", "paddler.hip_width_mm"]
    assert "metres" in lines[-1]


@pytest.mark.parametrize("arguments", [
    ("fit", "nowhere.json"), ("fit",), ("float", "day-boat"), ("sections", "no-such-base"),
    ("sections", "nowhere.toml"), ("sections", "day-boat", "--count", "two"),
    ("sections", "day-boat", "--count", "1e9"), ("swim",), ("--port", "80", "--no-browser")])
def test_bad_calls_are_refused_in_one_line(arguments):
    assert len(refused(*arguments)) == 1


@pytest.mark.parametrize(("flag", "value"), [
    ("--mass-kg", "0"), ("--mass-kg", "nan"), ("--mass-kg", "many"), ("--lcg-mm", "inf"),
    ("--heel-deg", "400"), ("--heel-deg", "0,,10"), ("--temperature-c", "90"), ("--water", "mud")])
def test_float_names_the_bad_value(flag, value):
    good = {"--mass-kg": "110", "--lcg-mm": "2330", "--vcg-mm": "280"} | {flag: value}
    lines = refused("float", "day-boat", *(part for pair in good.items() for part in pair))
    assert len(lines) == 1
    assert lines[0].startswith(f"{flag}:")


@pytest.mark.parametrize("mass", ["450", "1000"])
def test_overload_will_not_float_and_gives_no_number(mass):
    lines = refused("float", "day-boat", "--mass-kg", mass, "--lcg-mm", "2330", "--vcg-mm", "280")
    assert lines[0].startswith("will not float this")


def test_a_reader_that_closes_early_gets_no_traceback():
    with subprocess.Popen([sys.executable, "-m", "sizer", "sections", "day-boat"],
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE) as running:
        running.stdout.read(10)
        running.stdout.close()
        assert b"Traceback" not in running.stderr.read()
        running.stderr.close()
        assert running.wait(600) == 0


@pytest.mark.parametrize("command", ["fit", "float", "drag", "flood", "build", "sections"])
def test_every_command_has_help_with_an_example(command):
    done = sizer(command, "--help")
    assert done.returncode == 0
    assert "example: " in done.stdout


def test_drag_gives_its_parts_for_each_speed():
    done = sizer("drag", "day-boat", "--mass-kg", "110", "--lcg-mm", "2330",
                 "--speeds-mps", "1,1.5,2")
    assert done.returncode == 0, done.stderr
    rows = json.loads(done.stdout)["drag"]
    assert [row["speed_mps"] for row in rows] == [1.0, 1.5, 2.0]
    for row in rows:
        assert row["total_n"] == pytest.approx(row["friction_n"] + row["wave_n"], abs=2e-4)


@pytest.mark.parametrize("speeds", ["", "fast", "1,9", "nan", "0"])
def test_drag_refuses_odd_speeds(speeds):
    lines = refused("drag", "day-boat", "--mass-kg", "110", "--lcg-mm", "2330",
                    "--speeds-mps", speeds)
    assert lines[0].startswith("--speeds-mps:")


def test_flood_answers_for_bases_and_requests():
    given = json.dumps(REQUEST)
    without = json.loads(sizer("flood", "-", given=given).stdout)
    bags = without["float_bags"]
    kept = json.loads(sizer("flood", "-", "--bow-bag-l", str(bags["bow_l"]), "--stern-bag-l",
                            str(bags["stern_l"]), given=given).stdout)["flooded"]
    assert without["flooded"]["state"] == "sinks"
    assert without["flooded"]["rim_clearance_mm"] is None
    assert kept["rim_clearance_mm"] >= bags["margin_mm"]
    out = json.loads(sizer("flood", "day-boat", "--paddler", "out").stdout)
    assert out["flooded"]["rim_clearance_mm"] > kept["rim_clearance_mm"]
    assert any("PFD" in caution for caution in out["cautions"])


@pytest.mark.parametrize(("flag", "value"), [("--bow-bag-l", "-1"), ("--stern-bag-l", "nan"),
                                             ("--paddler", "under"), ("--bow-bag-l", "400")])
def test_flood_refuses_odd_bags(flag, value):
    assert len(refused("flood", "day-boat", flag, value)) == 1


def test_fit_carries_what_the_water_does(fitted):
    answer = fitted
    upright = answer["stability"]["paddler_upright"]
    assert upright["vanishing_deg"] > answer["stability"]["paddler_rigid"]["vanishing_deg"]
    assert upright["gm_mm"] > answer["flotation"]["gm_mm"]
    assert answer["flooded"]["float_bags"]["bow_l"] > 0
    efforts = [row["speed_mps"] for row in answer["drag"]["at_effort"]]
    assert efforts == sorted(efforts)
    assert any(caution.startswith("Without float bags") for caution in answer["cautions"])
