"""Many fits at once: every row of a list of people, on all cores, given back in the list's order.

Each worker process reads the bases once. Few rows are under way at a time, so memory stays flat
however long the list is; a bad row, or one that will not float, is a result like any other.
"""

import multiprocessing
import os
import signal
import threading
from collections import deque
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from itertools import islice
from multiprocessing import connection

from sizer.crowd.fitted_row import fitted_lot, lines_of
from sizer.errors import SizerError

AT_ONCE = 128  # rows that are fitted side by side
AHEAD = 2  # such lots under way for each worker
MOST_WORKERS = 256
# More threads than one only get into the way of other workers on matrices as small as ours.
ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")


class WorkerLost(SizerError):
    """A worker process ended by itself: too little memory, or ended from outside."""


def cores():
    """How many workers this machine can have at work at once."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count()


def pace_words(done, left, seconds):
    """How fast rows were done in some seconds, and how long what is left will take, in words."""
    to_go = max(left, 0) * seconds / done
    words = (f"{to_go:.0f} s" if to_go < 90.0 else
             f"{to_go / 60.0:.0f} min" if to_go < 5400.0 else f"{to_go / 3600.0:.1f} h")
    return f"{done / seconds:.0f} a second, {words} left"


def fitted_rows(rows, trip, workers):
    """The results of many rows, in their order, as they are done.

    Parameters
    ----------
    rows : iterable of PersonRow and BadRow; read only a little ahead
    trip : Trip
    workers : processes; 1 works in this one

    Yields
    ------
    dict, see `fitted_lot`

    Raises
    ------
    BadInput, where the trip's base cannot be read; WorkerLost.
    """
    lines_of(trip.base)
    rows = iter(rows)
    if workers == 1:
        while lot := tuple(islice(rows, AT_ONCE)):
            yield from fitted_lot(lot, trip)
        return
    under_way = deque()
    with _one_thread_each():
        pool = ProcessPoolExecutor(workers, multiprocessing.get_context("spawn"), _begin, (trip,))
        try:
            while True:
                while len(under_way) < AHEAD * workers and (lot := tuple(islice(rows, AT_ONCE))):
                    under_way.append(pool.submit(fitted_lot, lot, trip))
                if not under_way:
                    return
                yield from under_way.popleft().result()
        except BrokenProcessPool as error:
            raise WorkerLost("a worker process ended by itself, perhaps for want of memory: what "
                             "is written stands; go on with --resume, or fewer --workers"
                             ) from error
        finally:
            pool.shutdown(cancel_futures=True)


def leave_to_parent():
    """In a new process: leaves Ctrl-C to its parent, and ends with it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with, args=(multiprocessing.parent_process(),),
                     daemon=True).start()


def _end_with(parent):
    connection.wait([parent.sentinel])
    os._exit(1)  # a killed parent says no goodbye, and its workers would wait for ever


def _begin(trip):
    """In a new worker."""
    leave_to_parent()
    lines_of(trip.base)


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
