"""What is refused says what was given, what is allowed and what to do, before any work is done."""

import json
import os

import pytest

from sizer.cli import main
from tests.cli.conftest import few_files, remembered

REQUEST = {"base": "day-boat", "use": "coastal-day", "paddler": {
    "weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
NOWHERE = "/proc/sizer"  # of the system's own: nobody can write there
BATCH = ("batch", "people.csv", "--base", "day-boat", "--use", "coastal-day", "--out")


@pytest.fixture(autouse=True)
def at_work(tmp_path, monkeypatch):
    """A folder with a request, a list and a full folder, where no boat is worked out."""
    def worked(*_given, **_more):
        raise AssertionError("it was worked out first")

    monkeypatch.setattr("sizer.cli.inputs.run", worked)
    monkeypatch.setattr("sizer.cli.crowd.fitted_rows", worked)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "request.json").write_text(json.dumps(REQUEST))
    (tmp_path / "people.csv").write_text("weight_kg,stature_mm,hip_width_mm\n82,1780,385\n")
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "notes.txt").write_text("kept")
    (tmp_path / "there.csv").write_text("kept")


@pytest.mark.skipif(not os.path.isdir("/proc"), reason="no folder that nobody can write in")
@pytest.mark.parametrize("command", [
    ("build", "request.json", "--out", NOWHERE), ("plans", "day-boat", "--out", NOWHERE),
    ("quote", "request.json", "--out", f"{NOWHERE}.pdf"), (*BATCH, f"{NOWHERE}.csv")])
def test_where_nothing_can_be_written_is_refused_before_the_work(command, capsys):
    assert main(command) == 2
    out, said = capsys.readouterr()
    assert (out, len(said.splitlines())) == ("", 1)
    assert said.startswith(f"--out: {command[-1]}: cannot be written: ")
    assert said.strip().endswith("; nothing was changed")


@pytest.mark.parametrize(("command", "said"), [
    (("build", "request.json", "--out", "full"),
     "--out: full: is not empty: name a new folder, or say --force"),
    (("build", "request.json", "--out", "there.csv"), "--out: there.csv: is a file: name a new"),
    (("build", "request.json", "--out", "no/such"), "there is no folder "),
    (("build", "request.json", "--out", "."), "is the folder you stand in"),
    (("quote", "request.json", "--out", "there.csv"), "is there already: name a new file"),
    ((*BATCH, "there.csv"), "is there already: name a new file, or say --resume"),
    (("build", "none.json", "--out", "new"), "see how it is spelled, and name one that is there"),
    (("build", "full/", "--out", "new"), "name a file, and no folder"),
    (("who-fits", "none.toml"), "see how it is spelled, and name one that is there")])
def test_a_refusal_says_what_to_do(command, said, capsys):
    assert main(command) == 2
    assert said in capsys.readouterr().err


def test_nothing_is_left_of_trying_whether_a_folder_can_be_written(tmp_path, capsys):
    with pytest.raises(AssertionError, match="worked out first"):
        main(("build", "request.json", "--out", "new"))
    assert sorted(os.listdir(tmp_path)) == ["full", "people.csv", "request.json", "there.csv"]


def test_a_revision_that_is_not_there_is_told_with_those_that_are(tmp_path, capsys, monkeypatch):
    monkeypatch.undo()
    monkeypatch.chdir(tmp_path)
    few_files(monkeypatch)
    remembered(monkeypatch)
    book = ("--book", str(tmp_path / "book.sqlite3"))
    assert main(("book", "save", "request.json", *book)) == 0
    code = json.loads(capsys.readouterr().out)["job"]["code"]
    assert main(("book", "show", code, "--rev", "Q", *book)) == 2
    assert "`book issue` makes the first" in capsys.readouterr().err
    for package in ("one", "two"):
        assert main(("book", "issue", code, "--out", package, *book)) in (0, 1)
    capsys.readouterr()
    assert main(("book", "show", code, "--rev", "Q", *book)) == 2
    assert "revision: 'Q': not in this book; of this job there are A, B" in capsys.readouterr().err
