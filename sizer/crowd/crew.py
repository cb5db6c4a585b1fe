"""Work shared out to processes that each hold what all of it reads; its answers come in order.

Whatever their number, each piece is worked out as if alone, so the answers are the same.
"""

import multiprocessing
import os
import pickle
import signal
import sys
import threading
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from itertools import repeat
from multiprocessing import connection, resource_tracker
from types import ModuleType

from sizer.errors import SizerError

# More threads than one only get into the way of other workers on matrices as small as ours.
ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")
_read = []  # in a process of a crew: what all of the work reads


class WorkerLost(SizerError):
    """A worker process ended by itself: too little memory, or ended from outside."""


def cores():
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count()


@contextmanager
def crew(read, workers):
    """A function like `map`, shared(work, *columns), which gives work(read, *row) of each row.

    Parameters
    ----------
    read : what all of the work reads; sent to each process once
    workers : processes; 1 works in this one, row by row as the answers are taken

    Raises WorkerLost.
    """
    if workers == 1:
        yield lambda work, *columns: (work(read, *row) for row in zip(*columns, strict=True))
        return
    with processes(workers, "the run was not finished: begin it again with more memory free",
                   _keep, pickle.dumps(read)) as pool:
        yield lambda work, *columns: pool.map(_worked, repeat(work), *columns)


class _Pool(ProcessPoolExecutor):
    """One whose processes, begun as work comes in, have no Ctrl-C from their first moment on."""

    def submit(self, work, /, *given, **named):
        with ctrl_c_held():
            return super().submit(work, *given, **named)

    def give_up(self):
        """Ends the processes without waiting for what they are at."""
        for process in tuple(self._processes.values()):
            process.terminate()


@contextmanager
def processes(workers, lost, begin, *given):
    """A ProcessPoolExecutor of processes that each first call begin(*given), leave Ctrl-C to this
    one and end with it. WorkerLost says what is `lost` where one ends by itself."""
    with _one_thread_each(), without_main():
        pool = _Pool(workers, multiprocessing.get_context("spawn"), _begin, (begin, *given))
        try:
            yield pool
        except BrokenProcessPool as error:
            raise WorkerLost("a worker process ended by itself, perhaps for want of memory: "
                             + lost) from error
        except (KeyboardInterrupt, GeneratorExit):  # nobody takes what is under way
            pool.give_up()
            raise
        finally:
            pool.shutdown(cancel_futures=True)


@contextmanager
def without_main():
    """Processes begun within do not load the `__main__` of this one, as they else would: that may
    be the script of a page, which is not to be drawn there."""
    before = sys.modules["__main__"]
    sys.modules["__main__"] = ModuleType("__main__")
    try:
        yield
    finally:
        sys.modules["__main__"] = before


@contextmanager
def ctrl_c_held():
    """Ctrl-C waits until the end; a process begun within never has it, from its first moment on."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    resource_tracker.ensure_running()  # its own beginning would let Ctrl-C through again
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def leave_to_parent():
    """In a new process: leaves Ctrl-C to its parent, and ends with it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with, args=(multiprocessing.parent_process(),),
                     daemon=True).start()


def _end_with(parent):
    connection.wait([parent.sentinel])
    os._exit(1)  # a killed parent says no goodbye, and its workers would wait for ever


def _begin(begin, *given):
    """In a new worker."""
    leave_to_parent()
    begin(*given)


def _keep(pickled):
    """Takes what all of the work reads. Plain bytes, since a process is begun when the one before
    has taken what it is given, and to make records of it imports half of us first."""
    _read[:] = [pickle.loads(pickled)]


def _worked(work, *row):
    return work(*_read, *row)


@contextmanager
def _one_thread_each():
    """Workers that begin within take one thread for matrices."""
    before = {key: os.environ.get(key) for key in ONE_THREAD}
    os.environ.update(dict.fromkeys(ONE_THREAD, "1"))
    try:
        yield
    finally:
        for key, value in before.items():
            if value is None:
                del os.environ[key]
            else:
                os.environ[key] = value
