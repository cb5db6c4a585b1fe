"""A long computation in a process of its own, beside the wizard.

So the wizard stays quick, the work goes on while other pages are looked at, and it can be stopped.
It ends with whoever wants it: when its browser has been gone for a while, or with the wizard.
"""

import atexit
import multiprocessing
import os
import secrets
import signal
import tempfile
import threading
import time
import weakref
from collections import deque
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from sizer.crowd.crew import ctrl_c_held, leave_to_parent, without_main
from sizer.errors import BadInput, SizerError

PATIENCE_S = 120.0  # how long a browser may be gone, as when a phone sleeps
LOOKED_EVERY_S = 5.0
CONTEXT = multiprocessing.get_context("spawn")
_begun = weakref.WeakValueDictionary()  # every Work by its token: its page asks without a session


@dataclass(frozen=True, eq=False)
class Outcome:
    """What a work came to: its record, or what was wrong."""

    record: object = None
    faults: tuple[str, ...] = ()


@dataclass(frozen=True, eq=False)
class Work:
    """One computation under way; it is stopped when nothing holds this any more."""

    process: multiprocessing.Process
    listener: threading.Thread
    heard: deque  # the last that it said: how far it is, in words, or its Outcome
    folder: tempfile.TemporaryDirectory
    token: str  # nobody but its own session knows it
    asked: object = None  # what it was begun with, for whoever shows what it came to

    @property
    def going(self):
        """Whether something is still to be heard of it."""
        return self.listener.is_alive()

    def progress(self):
        """How far it is, in words; "" before it has said so."""
        return self.heard[-1] if isinstance(self.heard[-1], str) else ""

    def stop(self):
        """Ends it; nothing of it is kept."""
        _end(self.process, self.folder)

    def outcome(self):
        """The Outcome of a work that is no longer going."""
        last = self.heard[-1]
        return Outcome(faults=("the run was ended",)) if isinstance(last, str) else last


def begin(function, *given, files=(), wanted=lambda: True, asked=None):
    """The Work of a function on what it is given.

    Parameters
    ----------
    function : of a module; called as function(*given, progress=...), where progress(done, of,
        words) says how far it is. It returns one record, or raises SizerError
    files : (name, text) pairs that it finds in the folder it works in
    wanted : asked now and then; the work is stopped when that has been false for PATIENCE_S
    asked : as of Work
    """
    folder = tempfile.TemporaryDirectory(prefix="sizer-", ignore_cleanup_errors=True)
    for name, text in files:
        (Path(folder.name) / name).write_text(text, "utf-8")
    ours, theirs = CONTEXT.Pipe(duplex=False)
    process = CONTEXT.Process(target=_work, args=(theirs, folder.name, function, given))
    with without_main(), ctrl_c_held():
        process.start()
    theirs.close()  # so that ours ends when the process does
    heard = deque([""], maxlen=1)
    listener = threading.Thread(target=_listen, args=(ours, heard, process, wanted),
                                daemon=True)
    listener.start()
    work = Work(process, listener, heard, folder, secrets.token_urlsafe(), asked)
    _begun[work.token] = work
    weakref.finalize(work, _end, process, folder)
    return work


def work_of(token):
    """The Work of a token; None where it is no more."""
    return _begun.get(token)


def _listen(connection, heard, process, wanted):
    seen = time.monotonic()
    with connection, suppress(EOFError, OSError):
        while True:
            if connection.poll(LOOKED_EVERY_S):
                heard.append(connection.recv())
            if wanted():
                seen = time.monotonic()
            elif time.monotonic() - seen > PATIENCE_S:
                _terminate(process)


@atexit.register
def _end_all():
    """At the wizard's end, which else would wait for them."""
    for work in list(_begun.values()):
        _terminate(work.process)


def _end(process, folder):
    _terminate(process)
    process.join()
    folder.cleanup()


def _terminate(process):
    """Ends it with all that it began, at one stroke: none is left to complain of its parent."""
    if process.is_alive():
        with suppress(AttributeError, ProcessLookupError, PermissionError):
            os.killpg(process.pid, signal.SIGTERM)
        process.terminate()


def _work(says, folder, function, given):
    """In the new process."""
    if hasattr(os, "setpgrp"):
        os.setpgrp()
        os.nice(4)  # whoever moves a slider goes first; on a busy machine it still gets on
    leave_to_parent()
    os.chdir(folder)

    def progress(done, of, words):
        says.send(f"{words}: {done} of {of}")

    try:
        outcome = Outcome(function(*given, progress=progress))
    except BadInput as error:
        outcome = Outcome(faults=tuple(map(str, error.faults)))
    except SizerError as error:
        outcome = Outcome(faults=(str(error),))
    says.send(outcome)
