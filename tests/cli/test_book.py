"""The commands of the book: a job saved, found, issued, printed again, carried and forgotten."""

import json
import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from sizer.book.jobs import job_by_code, new_job, rename
from sizer.book.opening import ELSEWHERE, open_book
from sizer.cli import main
from sizer.cli.book import GROUP
from sizer.design.library import shipped_text
from sizer.errors import BadInput, Fault, WillNotFloat
from sizer.export.answer import job_answer
from sizer.export.package import ANSWER
from sizer.web.draft import Draft
from sizer.web.job_file import job_text
from tests.cli.conftest import one_paper

ROOT = Path(__file__).parents[2]
WEIGHT, STATURE, HIPS = 82.37, 1783.3, 385.7
REQUEST = {"base": "day-boat", "use": "coastal-day", "wishes": {"room": 0.5},
           "water": {"kind": "salt", "temperature_c": 8.0}, "gear_kg": 12.5,
           "fixed": {"beam_mm": 571.0},
           "paddler": {"weight_kg": WEIGHT, "stature_mm": STATURE, "hip_width_mm": HIPS,
                       "hip_measured": "standing", "inseam_mm": 850.25}}

PLAIN = {"LANG": "C", "LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
ON_ONE_PAPER = ("import sys, pytest; from sizer.cli import main; from tests.cli.conftest import "
                "one_paper; one_paper(pytest.MonkeyPatch()); sys.exit(main(sys.argv[1:]))")
pytestmark = pytest.mark.usefixtures("remembered")


@pytest.fixture(autouse=True)
def elsewhere(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv(ELSEWHERE, str(tmp_path / "book.sqlite3"))


@pytest.fixture
def said(capsys):
    """A function that runs a call and gives (exit code, its JSON answer)."""
    def run(*call):
        code = main(["book", *call])
        return code, json.loads(capsys.readouterr().out)

    return run


@pytest.fixture
def refused(capsys):
    """A function that runs a call that is refused and gives what is said."""
    def run(*call):
        assert main(["book", *call]) == 2
        told = capsys.readouterr()
        assert told.out == ""
        return told.err

    return run


@pytest.fixture
def answer_alone(monkeypatch):
    """Packages of the answer alone, for tests that do not look at the sheets."""
    def made(job, *_stock):
        bench = {"pattern_status": "pass", "fairness_status": "pass"}
        return {ANSWER: json.dumps(job_answer(job) | {"bench": bench}).encode()}

    monkeypatch.setattr("sizer.export.package.package", made)


def saved(said, tmp_path, request=REQUEST, mark="tall, red"):
    (tmp_path / "request.json").write_text(json.dumps(request))
    code, answer = said("save", "request.json", "--mark", mark)
    assert code == 0
    return answer["job"]


def held(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes()
            for path in folder.rglob("*") if path.is_file()}


def test_a_saved_request_is_fitted_listed_and_shown_as_it_was_given(said, tmp_path):
    job = saved(said, tmp_path)
    assert (job["state"], job["mark"], job["base"]) == ("fitted", "tall, red", "day-boat")
    assert " x 571 x " in job["size"]
    assert said("list", "--find", "RED fitted")[1]["jobs"] == [job]
    assert said("list", "--find", "blue")[1]["jobs"] == []
    assert said("list", "--put-away")[1]["jobs"] == []
    shown = said("show", job["code"])[1]
    assert Draft.model_validate(shown["draft"]["entered"]).request() == {
        **REQUEST, "wishes": {"room": 0.5}}
    assert shown["revisions"] == []


def test_what_cannot_be_fitted_is_kept_as_asked(said, tmp_path, monkeypatch):
    def sunk(_given):
        raise WillNotFloat("she sinks")

    monkeypatch.setattr("sizer.cli.inputs.Given.job", sunk)
    (tmp_path / "request.json").write_text(json.dumps(REQUEST))
    code, answer = said("save", "request.json")
    assert (code, answer["not_fitted"], answer["job"]["state"]) == (0, "she sinks", "asked")


def test_a_revision_prints_again_byte_for_byte_after_its_base_was_changed_on_disk(
        said, tmp_path, monkeypatch):
    """Every file but the sheets' other paper, which the same drawing goes onto; in a process of its
    own, so that no order of a set or a day of a file can hide; in the plain C language into a
    folder of other scripts, where names are harder than elsewhere."""
    one_paper(monkeypatch)
    again = tmp_path / "ein Ordner 李 ñ" / "пакет -- $(x) '\"&"
    again.parent.mkdir()
    base = tmp_path / "own.toml"
    base.write_text(shipped_text("day-boat"))
    code = saved(said, tmp_path, REQUEST | {"base": "own.toml"})["code"]
    with_book(tmp_path, lambda db: db.execute(
        "INSERT INTO settings VALUES ('shop', '{\"cutter_mm\": 8}')"))
    made = said("issue", code, "--out", "first", "--date", "2026-03-31", "--stock-mm", "2400")[1]
    assert (made["revision"], made["date"], made["replaces"]) == ("A", "2026-03-31", "")
    base.write_text("changed")
    done = subprocess.run(
        [sys.executable, "-c", ON_ONE_PAPER, "book", "print", code, "--rev", "a", "--out",
         str(again)], env=os.environ | PLAIN | {"PYTHONHASHSEED": "7", "PYTHONPATH": str(ROOT)},
        capture_output=True, check=False)
    assert done.returncode in (0, 1), done.stderr
    answer = json.loads(done.stdout.decode("utf-8"))
    assert answer["out"] == str(again)
    assert (answer["same"], answer["differing"], answer["changes"]) == (True, [], [])
    assert "byte for byte" in answer["remark"]
    assert set(held(tmp_path / "first")) == set(made["files"])
    assert len(made["files"]) > 40
    assert held(tmp_path / "first") == held(again)
    shop = json.loads(next(text for name, text in held(tmp_path / "first").items()
                           if name.endswith(ANSWER)))["bench"]["shop"]
    assert (shop["cutter_mm"], shop["stock_lengths_mm"]) == (8, [2400])
    assert answer["cautions"]


@pytest.mark.usefixtures("answer_alone")
def test_another_version_says_so_and_shows_what_changed(said, tmp_path):
    code = saved(said, tmp_path)["code"]
    said("issue", code, "--out", "first")
    with_book(tmp_path, _as_if_issued_by_another_version)
    answer = said("print", code, "--rev", "A", "--out", "again")[1]
    assert not answer["same"]
    assert "by version 0.0.9" in answer["remark"]
    assert {"place": "limits.least_freeboard_mm", "was": 1.0, "now": 110.0} in answer["changes"]
    assert [one["was"] for one in answer["changes"] if one["place"] == "size.length_mm"] == [5.0]
    assert answer["differing"] == [ANSWER]


def _as_if_issued_by_another_version(db):
    """Changes what is frozen, which only a hand on the tables can."""
    db.execute("DROP TRIGGER revisions_stand")
    limits, answer, files = db.execute("SELECT limits, answer, files FROM revisions").fetchone()
    db.execute("UPDATE revisions SET version = '0.0.9', limits = ?, answer = ?, files = ?", (
        json.dumps(json.loads(limits) | {"least_freeboard_mm": 1.0}),
        json.dumps(json.loads(answer) | {"size": {"length_mm": 5.0}}),
        json.dumps(json.loads(files) | {ANSWER: "another"})))


def with_book(tmp_path, deed):
    book = open_book(tmp_path / "book.sqlite3")
    with book.writing() as db:
        deed(db)
    book.close()


@pytest.mark.usefixtures("answer_alone")
def test_the_next_revision_replaces_the_one_before(said, tmp_path):
    code = saved(said, tmp_path)["code"]
    for letter, before in (("A", ""), ("B", "A")):
        made = said("issue", code, "--out", letter)[1]
        assert (made["revision"], made["replaces"]) == (letter, before)
    assert [one["letter"] for one in said("show", code)[1]["revisions"]] == ["A", "B"]
    whole = said("show", code, "--rev", "b")[1]["revision"]
    assert whole["request"]["paddler"]["weight_kg"] == WEIGHT
    assert said("list")[1]["jobs"][0]["state"] == "issued"


@pytest.mark.usefixtures("answer_alone")
def test_a_package_that_cannot_be_written_stands_in_the_book(said, refused, tmp_path, monkeypatch):
    code = saved(said, tmp_path)["code"]

    def full(_files, out):
        raise BadInput([Fault("--out", str(out), "cannot be written: No space left")])

    monkeypatch.setattr("sizer.cli.book_files.write_folder", full)
    told = refused("issue", code, "--out", "first")
    assert "No space left" in told
    assert f"{code} A: stands in the book" in told
    assert len(said("show", code)[1]["revisions"]) == 1


def test_jobs_are_carried_to_another_book_and_clashes_told(said, refused, tmp_path):
    code = saved(said, tmp_path)["code"]
    assert said("export", "jobs.json")[1]["jobs"] == [code]
    assert stat.S_IMODE((tmp_path / "jobs.json").stat().st_mode) == 0o600
    assert "already" in refused("export", "jobs.json")
    other = ("--book", str(tmp_path / "other.sqlite3"))
    assert said("import", "jobs.json", *other)[1]["came"][0]["code"] == code
    assert said("import", "jobs.json", *other)[1]["same"][0]["code"] == code
    book = open_book(tmp_path / "other.sqlite3")
    rename(book, job_by_code(book, code).key, "renamed")
    book.close()
    status, answer = said("import", "jobs.json", *other)
    assert status == 1
    assert answer["clashes"][0]["here"]["mark"] == "renamed"
    assert answer["clashes"][0]["kept_beside"]["mark"] == "tall, red"
    assert len(said("list", *other)[1]["jobs"]) == 2


def test_a_job_saved_by_the_wizard_comes_in(said, refused, tmp_path):
    one = Draft().with_sample().but(notes="red deck")
    path = tmp_path / "job-day-boat.json"
    path.write_text(job_text(one), "utf-8")
    row = said("import", path.name, "--mark", "from before")[1]["came"][0]
    assert row["mark"] == "from before"
    entered = said("show", row["code"])[1]["draft"]["entered"]
    assert Draft.model_validate(entered) == one
    path.write_text(job_text(one).replace("red deck", "red dick"))
    assert "damaged" in refused("import", path.name)


def test_a_job_saved_by_the_wizard_keeps_its_name_and_is_fitted_and_found(said, tmp_path):
    """The boat in the list is that of the same request, fitted by the command line."""
    one = Draft().with_sample().but(mark="tall, red")
    (tmp_path / "job.json").write_text(job_text(one), "utf-8")
    row = said("import", "job.json")[1]["came"][0]
    like = saved(said, tmp_path, one.request())
    assert {name: row[name] for name in ("mark", "state", "base", "size", "status")} == {
        name: like[name] for name in ("mark", "state", "base", "size", "status")}
    assert row["state"] == "fitted"
    assert row in said("list", "--find", f"red {one.base} fitted")[1]["jobs"]


def test_a_saved_job_with_a_measure_missing_comes_in_as_asked_and_says_so(said, tmp_path):
    (tmp_path / "job.json").write_text(job_text(Draft().but(mark="tall, red")), "utf-8")
    code, answer = said("import", "job.json")
    row = answer["came"][0]
    assert (code, row["mark"], row["state"], row["base"]) == (0, "tall, red", "asked", "")
    assert "weight_kg, stature_mm, hip_width_mm missing" in answer["not_fitted"]


@pytest.mark.usefixtures("answer_alone")
def test_what_was_issued_is_told_in_the_list(said, tmp_path):
    """Of a draft that no page has fitted yet."""
    one = Draft().with_sample()
    book = open_book(tmp_path / "book.sqlite3")
    row = new_job(book, one.model_dump_json(), "tall, red")
    book.close()
    assert said("list", "--find", one.base)[1]["jobs"] == []
    said("issue", row.code, "--out", "first")
    told, = said("list", "--find", f"{one.base} issued")[1]["jobs"]
    like = saved(said, tmp_path, one.request())
    assert (told["size"], told["status"]) == (like["size"], like["status"])


@pytest.mark.usefixtures("answer_alone")
def test_forgetting_asks_once_more_and_then_forgets(said, refused, tmp_path):
    code = saved(said, tmp_path)["code"]
    said("issue", code, "--out", "first")
    assert "--yes" in refused("forget", code)
    assert said("forget", code, "--yes")[1]["forgotten"] == [code]
    assert "forgotten" in refused("print", code, "--rev", "A", "--out", "again")
    assert "forgotten" in refused("issue", code, "--out", "again")
    assert said("show", code)[1]["draft"]["entered"] is None
    revision = said("show", code, "--rev", "A")[1]["revision"]
    assert "paddler" not in revision["request"]
    assert revision["answer"]["stations"]


def test_a_backup_is_a_book_of_its_own(said, refused, tmp_path):
    code = saved(said, tmp_path)["code"]
    said("backup", "copy.sqlite3")
    assert said("list", "--book", "copy.sqlite3")[1]["jobs"][0]["code"] == code
    assert "already" in refused("backup", "copy.sqlite3")


def test_the_book_named_before_the_command_counts_as_well(said, tmp_path, capsys):
    open_book("named.sqlite3").close()
    assert main(["--book", "named.sqlite3", "book", "list"]) == 0
    assert json.loads(capsys.readouterr().out)["book"] == str(tmp_path / "named.sqlite3")
    assert not (tmp_path / "book.sqlite3").exists()


@pytest.mark.parametrize("call", [
    "list", "show HK4729", "export jobs.json", "backup copy.sqlite3", "restore", "forget HK4729",
    "issue HK4729 --out a", "print HK4729 --rev A --out a"])
def test_a_book_that_is_not_there_is_told_and_not_begun(refused, tmp_path, call):
    told = refused(*call.split(), "--book", "nothere.sqlite3")
    assert told.startswith(f"book: {tmp_path / 'nothere.sqlite3'}: there is no such book")
    assert list(tmp_path.iterdir()) == []


def test_codes_may_stand_before_the_file_of_an_export(said, refused, tmp_path):
    first, second = saved(said, tmp_path)["code"], saved(said, tmp_path)["code"]
    assert said("export", first, "jobs.json", second.lower())[1]["jobs"] == [first, second]
    assert len(json.loads((tmp_path / "jobs.json").read_text("utf-8"))["jobs"]) == 2
    assert "one new file" in refused("export", first)
    assert "'a.json', 'b.json': one new file" in refused("export", "a.json", "b.json")


def test_a_damaged_book_is_restored_from_its_last_good_copy_when_asked_twice(said, refused,
                                                                              tmp_path):
    kept, later = saved(said, tmp_path)["code"], saved(said, tmp_path)["code"]
    assert "nothing to restore" in refused("restore", "--yes")
    path = tmp_path / "book.sqlite3"
    path.write_bytes(path.read_bytes()[:-1])
    assert "book restore" in refused("list")
    assert "--yes" in refused("restore")
    assert said("restore", "--yes")[0] == 0
    codes = [one["code"] for one in said("list")[1]["jobs"]]
    assert (kept in codes, later in codes) == (True, False)  # the copy is of before the second


@pytest.mark.parametrize(("call", "places"), [
    ("show ZZ9999", ["code"]), ("list --most x", ["--most"]), ("import none.json", ["file"]),
    ("save none.json", ["request"]), ("backup none/copy.sqlite3", ["book"]),
    ("export none/jobs.json", ["file"]),
    ("issue ZZ9999 --out none/new --date soon --stock-mm x", ["--out", "--date", "--stock-mm"]),
    ("print ZZ9999 --out new", ["command line"]), ("", ["command line"]),
    ("burn", ["command line"])])
def test_faults_are_told_in_a_line_each(refused, call, places):
    open_book().close()
    assert [line.split(":")[0] for line in refused(*call.split()).splitlines()] == places


def test_a_draft_with_a_measure_missing_is_not_issued(refused, tmp_path):
    book = open_book(tmp_path / "book.sqlite3")
    codes = [new_job(book, text).code for text in (Draft().model_dump_json(), '{"x": 1}')]
    book.close()
    assert "weight_kg, stature_mm, hip_width_mm missing" in refused("issue", codes[0], "--out", "a")
    assert "cannot be read" in refused("issue", codes[1], "--out", "a")


def test_every_action_tells_of_itself_with_an_example(capsys):
    for action in GROUP.commands:
        with pytest.raises(SystemExit) as left:
            main(["book", action.name, "--help"])
        assert left.value.code == 0
        told = capsys.readouterr().out
        assert f"example: python -m sizer book {action.name} " in told
        assert "--book PATH" in told


def on_a_full_disk(number, way):
    os.close(number)
    return Path("/dev/full").open(way)


def test_an_export_on_a_full_disk_leaves_nothing(said, refused, tmp_path, monkeypatch):
    saved(said, tmp_path)
    monkeypatch.setattr("sizer.cli.folder.os.fdopen", on_a_full_disk)
    assert "No space left" in refused("export", "jobs.json")
    assert not (tmp_path / "jobs.json").exists()
