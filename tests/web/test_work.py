"""Work in a process of its own: what it says, what it comes to, and that it ends with its owner."""

import gc
import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path
from types import ModuleType

import pytest

from sizer.crowd.crew import crew
from sizer.errors import BadInput, Fault, NotSolved
from sizer.web import work as work_module
from sizer.web.work import begin

WAIT_S = 600


def tripled(number, progress):
    for done in range(200):  # more than a pipe holds of words of this length
        progress(done, 200, "x" * 2000)
    return {"tripled": 3 * number, "read": Path("given.txt").read_text("utf-8"),
            "pid": os.getpid()}


def refused(error, progress):
    raise error


def buggy(progress):
    sys.stderr = None  # the traceback is not what is looked at here
    return 1 / 0


def endless(progress):
    progress(1, 2, "asleep")
    while True:
        time.sleep(0.1)


def with_a_crew(progress):
    with crew(bytes(5_000_000), 2) as shared:
        list(shared(slept, range(2)))


def slept(read, number):
    time.sleep(WAIT_S)


def loaded(progress):
    return "streamlit" in sys.modules


def ended(work):
    work.listener.join(WAIT_S)
    assert not work.going
    return work.outcome()


def asleep(work):
    until = time.monotonic() + WAIT_S
    while work.progress() != "asleep: 1 of 2":
        assert work.going
        assert time.monotonic() < until
        time.sleep(0.01)


def test_a_record_comes_back_whoever_looks_at_what_is_said_meanwhile():
    work = begin(tripled, 14, files=[("given.txt", "näh")])
    record = ended(work).record
    assert (record["tripled"], record["read"]) == (42, "näh")
    assert record["pid"] == work.process.pid != os.getpid()
    assert ended(work).faults == ()


@pytest.mark.parametrize(("error", "faults"), [
    (BadInput([Fault("a", "1", "2"), Fault("b", "3", "4")]), ("a: 1: 2", "b: 3: 4")),
    (NotSolved("no rest"), ("no rest",))])
def test_what_was_wrong_comes_back_fault_by_fault(error, faults):
    assert ended(begin(refused, error)).faults == faults


def test_a_bug_ends_it_with_a_plain_sentence():
    outcome = ended(begin(buggy))
    assert (outcome.record, outcome.faults) == (None, ("the run was ended",))


def test_it_is_stopped():
    work = begin(endless)
    asleep(work)
    work.stop()
    assert work.process.exitcode == -signal.SIGTERM
    assert ended(work).record is None


def test_it_ends_when_nothing_holds_it_and_its_folder_goes():
    work = begin(endless)
    asleep(work)
    process, folder = work.process, Path(work.folder.name)
    assert folder.is_dir()
    del work
    gc.collect()
    process.join(WAIT_S)
    assert not process.is_alive()
    assert not folder.exists()


def test_it_ends_when_it_has_not_been_wanted_for_a_while(monkeypatch):
    monkeypatch.setattr(work_module, "PATIENCE_S", 0.2)
    monkeypatch.setattr(work_module, "LOOKED_EVERY_S", 0.01)
    wanted = [True]
    work = begin(endless, wanted=lambda: wanted[0])
    asleep(work)
    work.listener.join(0.5)
    assert work.going
    wanted[0] = False
    assert ended(work).record is None
    work.process.join(WAIT_S)
    assert work.process.exitcode == -signal.SIGTERM


@pytest.mark.parametrize("end", ["pass", "os.kill(os.getpid(), signal.SIGKILL)"])
def test_it_ends_with_the_wizard_however_that_ends(end):
    words = ("import os, signal, sys, test_work; from sizer.web.work import begin\n"
             "work = begin(test_work.endless); test_work.asleep(work)\n"
             f"print(work.process.pid, flush=True); {end}")
    done = subprocess.run([sys.executable, "-c", words], stdout=subprocess.PIPE, text=True,
                          timeout=WAIT_S, check=False, env={
                              **os.environ, "PYTHONPATH": os.pathsep.join(sys.path)})
    until = time.monotonic() + WAIT_S
    while is_alive(int(done.stdout)):
        assert time.monotonic() < until
        time.sleep(0.05)


def begun_by(pid):
    """Processes whose parent this is."""
    found = set()
    for stat in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            if int(stat.read_text().rpartition(")")[2].split()[1]) == pid:
                found.add(int(stat.parent.name))
    return found


@pytest.mark.skipif(not Path("/proc").exists(), reason="looks at processes as Linux shows them")
def test_a_crew_that_is_just_beginning_ends_with_it_without_a_word(capfd):
    work = begin(with_a_crew)
    until = time.monotonic() + WAIT_S
    while not (crew_of := begun_by(work.process.pid)):
        assert work.going
        assert time.monotonic() < until
    work.stop()
    while any(map(is_alive, crew_of)):
        assert time.monotonic() < until
        time.sleep(0.05)
    assert capfd.readouterr().err == ""


def is_alive(pid):
    try:
        return "\nState:\tZ" not in Path(f"/proc/{pid}/status").read_text()
    except OSError:
        return False


def test_a_process_at_work_loads_no_page(monkeypatch, tmp_path):
    page = ModuleType("__main__")
    page.__file__ = str(tmp_path / "page.py")
    Path(page.__file__).write_text("import streamlit")
    monkeypatch.setitem(sys.modules, "__main__", page)
    assert ended(begin(loaded)).record is False
