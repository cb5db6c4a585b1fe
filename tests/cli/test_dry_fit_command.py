"""The command `dry-fit`, as a person meets it."""

import json

import pytest

from sizer.design.read import read_design
from tests.cli.test_cli import REQUEST, refused, sizer

pytestmark = pytest.mark.usefixtures("remembered")
HEAD = "side,frame,stringer,half_breadth_mm,height_mm\n"


@pytest.fixture(scope="module")
def stations():
    return json.loads(sizer("fit", "-", given=json.dumps(REQUEST)).stdout)["stations"]


@pytest.fixture
def request_json(tmp_path):
    (tmp_path / "request.json").write_text(json.dumps(REQUEST))
    return tmp_path


def table(stations, high=""):
    """Gunwale and keel at every station as the sheet has them, one frame 8 mm high."""
    rows = []
    for one in stations:
        up = 8.0 if one["name"] == high else 0.0
        rows += [f"{side},{one['name']},gunwale,{one['half_breadths_mm']['gunwale']},"
                 f"{one['heights_mm']['gunwale'] + up}" for side in ("starboard", "port")]
        if "keel" in one["heights_mm"]:
            rows.append(f"both,{one['name']},keel,,{one['heights_mm']['keel'] + up}")
    return HEAD + "\n".join(rows)


def test_boat_as_on_its_sheet_comes_out_as_designed(request_json, stations):
    (request_json / "measured.csv").write_text(table(stations))
    done = sizer("dry-fit", "request.json", "measured.csv", cwd=request_json)
    assert (done.returncode, done.stderr) == (0, "")
    answer = json.loads(done.stdout)
    assert next(iter(answer)) == "cautions"
    assert any("PFD" in one for one in answer["cautions"])
    assert (answer["recut"], answer["odd"], answer["says"]) == ([], [], [])
    assert all(abs(one["off_height_mm"]) < 0.2 and abs(one["off_half_breadth_mm"]) < 0.2
               for one in answer["frames"])
    assert answer["as_built"]["flotation"]["gm_mm"] == pytest.approx(
        answer["designed"]["flotation"]["gm_mm"], abs=0.2)


def test_frame_8_mm_high_is_named_and_its_files_written(request_json, stations):
    high = stations[len(stations) // 2]["name"]
    (request_json / "measured.csv").write_text(table(stations, high))
    done = sizer("dry-fit", "request.json", "measured.csv", "--out", "out", cwd=request_json)
    answer = json.loads(done.stdout)
    assert [(one["frame"], one["way"]) for one in answer["odd"]] == [(high, "height")]
    assert answer["odd"][0]["off_mm"] == pytest.approx(8.0, abs=3.0)
    assert "lower it" in answer["says"][0]
    twice = [one for one in answer["says"] if "reads the same a second time" in one]
    assert len(twice) == 3  # the keel and both gunwales
    assert all(f"at {high} is 8.0 mm more than designed" in one for one in twice)
    assert high in answer["recut"]
    files = {path.name: path for path in (request_json / "out").rglob("*") if path.is_file()}
    built = next(path for name, path in files.items() if name.endswith("as-built.toml"))
    design = read_design(built.read_text("utf-8"))
    point = next(one for one in design.frames if one.name == high).points_m["keel"]
    sheet = next(one for one in stations if one["name"] == high)
    assert 1e3 * point[1] + 100.0 - sheet["heights_mm"]["keel"] == pytest.approx(8.0, abs=2.0)
    assert sum(name.endswith(".dxf") for name in files) == len(answer["recut"])
    assert "CAUTION" in built.read_text("utf-8")


def test_every_fault_of_a_table_is_told_at_once(request_json):
    """What cannot be read beside what no boat of this design has, and every cell of one row."""
    (request_json / "measured.csv").write_text(HEAD.replace("\n", ",mark_mm\n") + "\n".join((
        "left,F4,gunwale,250,,", "port,F4,gunwale,abc,def,", "port,X9,gunwale,250,,",
        "port,F4,gunwale,999,,", "port,F3,nothing,9,,", "left,F4,gunwale,abc,,", ",F99,,,,100",
        ",,,,,100")))
    told = refused("dry-fit", "request.json", "measured.csv", cwd=request_json)
    assert [line.split(": ")[0] for line in told] == [
        "row 1, side", "row 2, half_breadth_mm", "row 2, height_mm", "row 6, half_breadth_mm",
        "row 6, side", "row 3, half_breadth_mm", "row 4, half_breadth_mm",
        "row 5, half_breadth_mm", "mark/F99", "mark/"]


def test_bad_tables_get_a_sentence(request_json):
    for text, says in (
        ("", "no side, frame, stringer"),
        (HEAD, "nothing"),
        (HEAD + "left,F4,gunwale,250,", "starboard, port or both"),
        (HEAD + "port,F4,gunwale,abc,", "cannot be read"),
        (HEAD + "port,F4,gunwale,-3,", "not below zero"),
        (HEAD + "port,X9,gunwale,250,", "one of"),
        (HEAD + "port,F4,gunwale,999,", "measure again"),
        ("side,frame,stringer,hight_mm\n", "unknown key"),
        (HEAD + "port,F4,gunwale,250,300,7", "one cell a column"),
    ):
        (request_json / "measured.csv").write_text(text)
        lines = refused("dry-fit", "request.json", "measured.csv", cwd=request_json)
        assert any(says in line for line in lines), (text, lines)
