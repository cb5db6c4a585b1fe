"""What comes from outside: full disks, closed pipes, sudden ends, odd languages. Never a traceback,
never half a package, never an answer that is not whole."""

import json
import os
import random
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from sizer.cli import main
from sizer.cli.folder import checked_out, write_folder
from sizer.errors import BadInput
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
# What `build` does with its files once they are made
WRITES = """import sys
from pathlib import Path
from sizer.cli.folder import checked_out, write_folder
from sizer.errors import BadInput
held, out = Path(sys.argv[1]), sys.argv[2]
files = {one.relative_to(held).as_posix(): one.read_bytes()
         for one in sorted(held.rglob("*")) if one.is_file()}
try:
    write_folder(files, checked_out(out, force=True))
except BadInput as error:
    print(error, file=sys.stderr)
    sys.exit(2)"""
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
    return untimed(said(sizer("fit", path, "--date", DAY), 0).stdout)


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


@pytest.fixture
def writes(built):
    """What comes after the interpreter in a call that writes the package of `built` to a folder."""
    return "-c", WRITES, str(built)


def untimed(raw):
    answer = json.loads(raw.decode("utf-8"))
    answer.pop("solve_ms")
    return answer


@posix
@pytest.mark.parametrize(("command", "after"), [
    ("fit", "> /dev/full"), ("population", "> /dev/full"), ("batch", "> /dev/full"),
    ("fit", ">&-")])  # a closed one is seen before any command
def test_an_output_that_takes_nothing_is_told_in_a_line(command, after, request_file, people_file):
    arguments = {"fit": ("fit", request_file), "batch": ("batch", people_file, *BATCH),
                 "population": ("population", "--count", 5000, "--seed", 1)}[command]
    said(sizer(*arguments, after=after), 2, "standard output")


@posix
def test_a_closed_input_is_told_in_a_line():
    said(sizer("fit", "-", after="<&-"), 2, "standard input is closed")


@posix
def test_a_full_disk_leaves_no_half_package_and_what_was_there(writes, tmp_path):
    out = tmp_path / "package"
    out.mkdir()
    (out / "old.txt").write_text("old")
    done = sizer(out, program=writes, before=f"ulimit -f {SMALL // 1024}; ")
    said(done, 2, "cannot be written", "nothing was changed")
    assert [one.name for one in tmp_path.iterdir()] == ["package"]
    assert [one.name for one in out.iterdir()] == ["old.txt"]


@posix
def test_a_full_disk_in_a_batch_keeps_whole_rows_and_goes_on(people_file, tmp_path):
    people_file.write_text(PEOPLE + "".join(f"P{one},82,1780,385\n" for one in range(38)))
    out = tmp_path / "results.csv"
    said(sizer("batch", people_file, *BATCH, "--out", out, before="ulimit -f 6; "), 2,
         "--resume goes on")
    sizer("batch", people_file, *BATCH, "--out", out, "--resume")
    whole = tmp_path / "whole.csv"
    main(["batch", str(people_file), *BATCH, "--out", str(whole)])
    assert out.read_bytes() == whole.read_bytes()


@posix
@pytest.mark.parametrize("place", ["/proc/package", "/dev/null/package", "/proc/self/mem"])
def test_a_place_that_takes_nothing_is_refused(place):
    with pytest.raises(BadInput, match="--out"):
        write_folder({"answer.json": b"{}"}, checked_out(place, force=True))


@posix
def test_no_room_for_temporary_files_is_told(people_file):
    code = ("import sys, tempfile; tempfile.tempdir = '/proc'; from sizer.cli import main; "
            f"sys.exit(main(['batch', '-', *{BATCH!r}]))")
    with people_file.open("rb") as given:
        done = subprocess.run([sys.executable, "-c", code], stdin=given, capture_output=True,
                              timeout=600, env={**os.environ, "PYTHONPATH": str(ROOT)}, check=False)
    said(done, 2, "cannot be read")


@pytest.mark.parametrize(("flags", "env"), [
    (("-OO", "-W", "error"), {"HOME": None, "TZ": "UTC-14", "LC_ALL": "C.UTF-8"}),
    (("-X", "dev"), PLAIN | {"TZ": "Pacific/Kiritimati"})],
    ids=["optimised, warnings are errors, no home, by offset", "development, plain C, far east"])
def test_the_answer_is_the_same_everywhere(flags, env, request_file, usual):
    done = sizer("fit", request_file, "--date", DAY, flags=flags, env=env)
    assert untimed(said(done, 0).stdout) == usual


@posix
def test_two_at_once_on_one_folder_leave_one_whole_package(writes, tmp_path):
    out = tmp_path / "package"
    runs = [subprocess.Popen(
        [sys.executable, *writes, str(out)], env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE, stderr=subprocess.PIPE) for _ in range(2)]
    ended = [(run.communicate(timeout=600), run.returncode) for run in runs]
    assert {code for _, code in ended} <= {0, 2}
    assert any(code == 0 for _, code in ended)
    assert not any(b"Traceback" in error for (_, error), _ in ended)
    assert all((out / name).stat().st_size for name in FILES)
    assert [one.name for one in tmp_path.iterdir() if one.name.startswith(".sizer-")] == []


@posix
def test_a_sudden_end_leaves_the_older_package_or_the_new_one_whole(writes, tmp_path):
    """Killed at one moment of many: as soon as its hidden folder stands, or some time after."""
    out, chance = tmp_path / "package", random.Random(1)
    said(sizer(out, program=writes), 0)
    stamp = {name: (out / name).stat().st_mtime_ns for name in FILES}
    for _ in range(max(4, min(NAMED, 40))):
        run = subprocess.Popen(
            [sys.executable, *writes, str(out)], env={**os.environ, "PYTHONPATH": str(ROOT)},
            stdout=subprocess.DEVNULL)
        hidden = set(tmp_path.glob(".sizer-*"))
        while run.poll() is None and not set(tmp_path.glob(".sizer-*")) - hidden:
            time.sleep(0.001)
        time.sleep(chance.uniform(0.0, 0.03))
        run.send_signal(signal.SIGKILL)
        run.wait(600)
        there = out if out.is_dir() else next(  # between two names: the older stands beside
            one / "old" for one in tmp_path.glob(".sizer-*") if (one / "old").is_dir())
        now = {name: (there / name).stat().st_mtime_ns for name in FILES}
        assert now == stamp or not set(now.values()) & set(stamp.values()), "of two packages"
        if there is not out:
            there.rename(out)
        stamp = now
    said(sizer(out, program=writes), 0)


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
def test_another_user_gets_the_same_from_a_read_only_installation(installed, usual):
    env = {**os.environ, "PYTHONPATH": str(installed), "HOME": "/nonexistent"}
    for name in ("PYTHONDONTWRITEBYTECODE", "NUMBA_CACHE_DIR", "SIZER_BOOK"):
        env.pop(name, None)
    before = sorted(installed.rglob("*"))
    done = subprocess.run(
        [*as_another(), sys.executable, "-m", "sizer", "fit", "-", "--date", DAY], cwd="/",
        input=json.dumps(REQUEST).encode(), capture_output=True, timeout=600, check=False, env=env)
    assert untimed(said(done, 0).stdout) == usual
    assert sorted(installed.rglob("*")) == before
