"""What comes from outside: full disks, closed pipes, sudden ends, odd languages. Never a traceback,
never half a package, never an answer that is not whole."""

import io
import json
import os
import random
import shutil
import signal
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path

import pytest

from sizer.cli import main
from sizer.cli.folder import checked_out, write_folder
from sizer.errors import BadInput
from tests.cli.test_cli import sizer as called
from tests.knocks.conftest import NAMED

ROOT = Path(__file__).parents[2]
REQUEST = {"base": "day-boat", "use": "coastal-day",
           "paddler": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
PEOPLE = "name,weight_kg,stature_mm,hip_width_mm\nAnn,82,1780,385\nBo,70,1700,390\n"
BATCH = ("--base", "day-boat", "--use", "coastal-day", "--workers", "1")
PLAIN = {"LANG": "C", "LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
DAY = "2026-03-31"  # stands in the answer; elsewhere it may be tomorrow already
SMALL = 20_000  # bytes a file may have on the full disk
FILES = [f"{folder}{number}.dxf" for folder in ("", "frames/", "kit/") for number in range(25)]
# What `build` does with its files once they are made. For each line, how many processes, the most
# bytes a file of theirs may have and the folder, it starts them and tells their ids, then how they
# ended: what they need is loaded once.
WRITES = """import os, resource, sys
from pathlib import Path
from sizer.cli.folder import checked_out, write_folder
from sizer.errors import BadInput

def write(out, most):
    if most:
        resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
    try:
        write_folder(files, checked_out(out, force=True))
    except BadInput as error:
        print(error, file=sys.stderr, flush=True)
        return 2
    return 0

held = Path(sys.argv[1])
files = {one.relative_to(held).as_posix(): one.read_bytes()
         for one in sorted(held.rglob("*")) if one.is_file()}
for line in sys.stdin:
    count, most, out = line.rstrip().split(" ", 2)
    begun = [os.fork() or os._exit(write(out, int(most))) for _ in range(int(count))]
    print(*begun, flush=True)
    print(*(os.waitstatus_to_exitcode(os.waitpid(one, 0)[1]) for one in begun), flush=True)"""
posix = pytest.mark.skipif(os.name != "posix", reason="needs POSIX's limits and signals")


def sizer(*arguments, program=("-m", "sizer"), flags=(), before="", after="", env=None, **more):
    """A finished run of the command line, by way of a shell where something stands before it."""
    call = [sys.executable, *flags, *program, *map(str, arguments)]
    env = {**os.environ, "PYTHONPATH": str(ROOT), "OPENBLAS_NUM_THREADS": "1", **(env or {})}
    env = {key: value for key, value in env.items() if value is not None}
    if before or after:
        call = ["bash", "-c", f'{before}"$@" {after}', "sizer", *call]
    return subprocess.run(call, capture_output=True, timeout=600, env=env, check=False, **more)


def said(done, code, *words):
    """That a run ended so, with these words on its error output and no traceback."""
    error = done.stderr.decode()
    assert "Traceback" not in error, error
    assert done.returncode == code, error
    for word in words:
        assert word in error
    return done


@pytest.fixture
def request_file(tmp_path):
    path = tmp_path / "request.json"
    path.write_text(json.dumps(REQUEST))
    return path


@pytest.fixture
def people_file(tmp_path):
    path = tmp_path / "people.csv"
    path.write_text(PEOPLE)
    return path


@pytest.fixture(scope="module")
def usual(tmp_path_factory):
    """The answer to REQUEST as it is everywhere, without the time it took."""
    path = tmp_path_factory.mktemp("usual") / "request.json"
    path.write_text(json.dumps(REQUEST))
    done = called("fit", str(path), "--date", DAY)
    assert done.returncode == 0
    return untimed(done.stdout.encode())


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    """A folder with files as many and as large as those of a package."""
    out = tmp_path_factory.mktemp("built")
    chance = random.Random(2)
    for name in FILES:
        path = out / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(chance.randbytes(chance.randint(2 * SMALL, 10 * SMALL)))
    return out


@pytest.fixture(scope="module")
def writer(built, tmp_path_factory):
    """By `begin(out)`, the ids of processes that begin to write the package of `built`; by
    `ended()`, their exit codes once they have; and the file with their error output."""
    said = tmp_path_factory.mktemp("said") / "errors.txt"
    with said.open("wb") as errors, subprocess.Popen(
            [sys.executable, "-c", WRITES, str(built)], stdin=subprocess.PIPE,
            stdout=subprocess.PIPE, stderr=errors, text=True,
            env={**os.environ, "PYTHONPATH": str(ROOT)}) as server:
        def begin(out, count=1, most=0):
            print(count, most, out, file=server.stdin, flush=True)
            return ended()

        def ended():
            return [int(one) for one in server.stdout.readline().split()]

        yield begin, ended, said
    assert "Traceback" not in said.read_text()


def untimed(raw):
    answer = json.loads(raw.decode("utf-8"))
    answer.pop("solve_ms")
    return answer


@posix
@pytest.mark.parametrize("after", ["> /dev/full", ">&-"])  # a closed one is seen before any command
def test_an_output_that_takes_nothing_is_told_in_a_line(after):
    said(sizer("population", "--count", 5000, "--seed", 1, after=after), 2, "standard output")


@posix
@pytest.mark.parametrize("command", ["fit", "batch"])
def test_an_answer_that_an_output_does_not_take_is_told_in_a_line(
        command, request_file, people_file, monkeypatch, capsys):
    """That the process then ends so: the test before."""
    given = {"fit": [request_file], "batch": [people_file, *BATCH]}[command]
    with open("/dev/full", "w") as full:
        monkeypatch.setattr("sys.stdout", full)
        assert main([command, *map(str, given)]) == 2
    assert "standard output" in capsys.readouterr().err


@posix
def test_a_closed_input_is_told_in_a_line():
    said(sizer("fit", "-", after="<&-"), 2, "standard input is closed")


@posix
def test_a_full_disk_leaves_no_half_package_and_what_was_there(writer, tmp_path):
    begin, ended, said = writer
    out, before = tmp_path / "package", said.stat().st_size
    out.mkdir()
    (out / "old.txt").write_text("old")
    begin(out, most=SMALL)
    assert ended() == [2]
    error = said.read_text()[before:]
    assert "cannot be written" in error
    assert "nothing was changed" in error
    assert [one.name for one in tmp_path.iterdir()] == ["package"]
    assert [one.name for one in out.iterdir()] == ["old.txt"]


@posix
def test_a_full_disk_in_a_batch_keeps_whole_rows_and_goes_on(people_file, tmp_path):
    people_file.write_text(PEOPLE + "".join(f"P{one},82,1780,385\n" for one in range(38)))
    out = tmp_path / "results.csv"
    said(sizer("batch", people_file, *BATCH, "--out", out, before="ulimit -f 6; "), 2,
         "--resume goes on")
    main(["batch", str(people_file), *BATCH, "--out", str(out), "--resume"])
    whole = tmp_path / "whole.csv"
    main(["batch", str(people_file), *BATCH, "--out", str(whole)])
    assert out.read_bytes() == whole.read_bytes()


@posix
@pytest.mark.parametrize("place", ["/proc/package", "/dev/null/package", "/proc/self/mem"])
def test_a_place_that_takes_nothing_is_refused(place):
    with pytest.raises(BadInput, match="--out"):
        write_folder({"answer.json": b"{}"}, checked_out(place, force=True))


@posix
def test_no_room_for_temporary_files_is_told(people_file, monkeypatch, capsys):
    monkeypatch.setattr("tempfile.tempdir", "/proc")
    with people_file.open("rb") as given:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(given))
        assert main(["batch", "-", *BATCH]) == 2
    assert "cannot be read" in capsys.readouterr().err


@pytest.mark.parametrize(("flags", "env"), [
    (("-O", "-W", "error"), {"HOME": None, "TZ": "UTC-14", "LC_ALL": "C.UTF-8"}),
    (("-X", "dev"), PLAIN | {"TZ": "Pacific/Kiritimati"})],
    ids=["optimised, warnings are errors, no home, by offset", "development, plain C, far east"])
def test_the_answer_is_the_same_everywhere(flags, env, request_file, usual):
    done = sizer("fit", request_file, "--date", DAY, flags=flags, env=env)
    assert untimed(said(done, 0).stdout) == usual


@posix
def test_two_at_once_on_one_folder_leave_one_whole_package(writer, tmp_path):
    begin, ended, _ = writer
    out = tmp_path / "package"
    begin(out, count=2)
    codes = set(ended())
    assert codes <= {0, 2}
    assert 0 in codes
    assert all((out / name).stat().st_size for name in FILES)
    assert [one.name for one in tmp_path.iterdir() if one.name.startswith(".sizer-")] == []


@posix
def test_a_sudden_end_leaves_the_older_package_or_the_new_one_whole(writer, tmp_path):
    """Killed at one moment of many: as soon as its hidden folder stands, or some time after."""
    begin, ended, _ = writer
    out, chance = tmp_path / "package", random.Random(1)
    begin(out)
    assert ended() == [0]
    stamp = {name: (out / name).stat().st_mtime_ns for name in FILES}
    for _ in range(max(4, min(NAMED, 40))):
        hidden = set(tmp_path.glob(".sizer-*"))
        run, = begin(out)
        with suppress(ProcessLookupError):  # it was done already
            while not set(tmp_path.glob(".sizer-*")) - hidden:
                os.kill(run, 0)
                time.sleep(0.001)
            time.sleep(chance.uniform(0.0, 0.03))
            os.kill(run, signal.SIGKILL)
        assert set(ended()) <= {0, -signal.SIGKILL}
        there = out if out.is_dir() else next(  # between two names: the older stands beside
            one / "old" for one in tmp_path.glob(".sizer-*") if (one / "old").is_dir())
        now = {name: (there / name).stat().st_mtime_ns for name in FILES}
        assert now == stamp or not set(now.values()) & set(stamp.values()), "of two packages"
        if there is not out:
            there.rename(out)
        stamp = now
    begin(out)
    assert ended() == [0]


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    """A folder with the package as its wheel holds it, in which nothing may be written."""
    pytest.importorskip("hatchling.build")
    folder = tmp_path_factory.mktemp("wheel")
    build = "import hatchling.build, sys; print(hatchling.build.build_wheel(sys.argv[1]))"
    subprocess.run([sys.executable, "-c", build, str(folder)], cwd=ROOT, check=True,
                   capture_output=True, timeout=600)
    (wheel,) = folder.glob("*.whl")
    place = folder / "installed"
    subprocess.run([sys.executable, "-m", "zipfile", "-e", str(wheel), str(place)], check=True)
    for one in (place, *place.rglob("*")):
        one.chmod(0o555 if one.is_dir() else 0o444)
    yield place
    for one in (place, *place.rglob("*")):
        one.chmod(0o755)


def as_another():
    """What a call of root begins with: another user, who may read all and write nothing here."""
    if os.geteuid():
        return []  # the files' own rights hold
    if not shutil.which("setpriv"):
        pytest.skip("root may write anywhere")
    return ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups",
            "--inh-caps=+dac_read_search", "--ambient-caps=+dac_read_search"]


@posix
def test_another_user_gets_the_same_from_a_read_only_installation(installed, capsys):
    """Where no loop that was compiled can be kept: of a command that needs few of them. Without
    docstrings too, since then every loop is another and would be compiled anew elsewhere."""
    call = ["sections", "day-boat", "--count", "5", "--date", DAY]
    env = {**os.environ, "PYTHONPATH": str(installed), "HOME": "/nonexistent"}
    for name in ("PYTHONDONTWRITEBYTECODE", "NUMBA_CACHE_DIR", "SIZER_BOOK"):
        env.pop(name, None)
    before = sorted(installed.rglob("*"))
    done = subprocess.run([*as_another(), sys.executable, "-OO", "-m", "sizer", *call], cwd="/",
                          capture_output=True, timeout=600, check=False, env=env)
    assert main(call) == 0
    assert json.loads(said(done, 0).stdout) == json.loads(capsys.readouterr().out)
    assert sorted(installed.rglob("*")) == before
