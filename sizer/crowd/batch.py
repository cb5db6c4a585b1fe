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
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice
from multiprocessing import connection

from sizer.crowd.people import BadRow, request_of
from sizer.design.library import read_base
from sizer.errors import BadInput, NotSolved, SizerError, WillNotFloat
from sizer.fit.mishaps import quick_mishap_checks, with_checks
from sizer.fit.person import person_of
from sizer.fit.request import read_request
from sizer.fit.solve import fit
from sizer.hull.lines import fair_lines
from sizer.units import MM_PER_M

AT_ONCE = 8  # rows that go to a worker together
AHEAD = 4  # such lots under way for each worker
# More threads than one only get into the way of other workers on matrices as small as ours.
ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")


@dataclass(frozen=True)
class Wish:
    """What holds for every row that does not say otherwise."""

    base: str  # shipped name or path
    use: str
    water: str = "fresh"
    temperature_c: float = 10.0


class WorkerLost(SizerError):
    """A worker process ended by itself: too little memory, or ended from outside."""


def fitted_row(row, wish):
    """The result of one row.

    Parameters
    ----------
    row : PersonRow or BadRow
    wish : Wish

    Returns
    -------
    dict of plain values: row, label, status (one of `sizer.crowd.results.STATUSES`), lists of
    failing and cautioning checks, reasons and cautions; and where a boat was fitted its base, use,
    size, factors, freeboard_mm, gm_mm and load_kg. Lengths to 0.1 mm.
    """
    if isinstance(row, BadRow):
        return _without_boat(row, "bad row", row.reasons)
    try:
        request = read_request(request_of(row, wish.base, wish.use, {
            "kind": wish.water, "temperature_c": wish.temperature_c}))
        person = person_of(request)
        fitted = fit(_lines(request.base), person, request.fixed, explained=False)
        fitted = with_checks(fitted, quick_mishap_checks(fitted.assessed))
    except WillNotFloat as error:
        return _without_boat(row, "will not float", (str(error),))
    except NotSolved as error:
        return _without_boat(row, "not solved", (str(error),))
    except BadInput as error:
        return _without_boat(row, "bad row", tuple(map(str, error.faults)))
    assessed = fitted.assessed
    boat, scaling = assessed.boat, assessed.boat.scaling
    return {
        "row": row.number, "label": row.label, "status": fitted.status,
        "base": request.base, "use": request.use,
        "size": {"length_mm": _mm(boat.length_m), "beam_mm": _mm(boat.beam_m),
                 "depth_mm": _mm(boat.depth_m), "cockpit_length_mm": _mm(boat.opening.length_m),
                 "cockpit_width_mm": _mm(boat.opening.width_m)},
        "factors": {"length": _plain(scaling.length, 4), "beam": _plain(scaling.beam, 4),
                    "depth": _plain(scaling.depth, 4), "deck_crown": _plain(scaling.crown, 4)},
        "freeboard_mm": _mm(assessed.particulars.freeboard_m),
        "gm_mm": _mm(assessed.particulars.gm_m),
        "load_kg": _plain(assessed.loading.load.mass_kg, 1),
        "failing": [check.name for check in fitted.checks if check.status == "fail"],
        "cautioning": [check.name for check in fitted.checks if check.status == "caution"],
        "reasons": list(fitted.unmet), "cautions": [*row.cautions, *person.body.cautions],
    }


def _without_boat(row, status, reasons):
    return {"row": row.number, "label": row.label, "status": status, "failing": [],
            "cautioning": [], "reasons": list(reasons),
            "cautions": list(getattr(row, "cautions", ()))}


def _mm(value_m):
    return _plain(value_m * MM_PER_M, 1)


def _plain(value, digits):
    return round(float(value), digits) + 0.0  # + 0.0: no -0.0


@lru_cache(maxsize=32)
def _lines(base):
    return fair_lines(read_base(base))


def fitted_rows(rows, wish, workers):
    """The results of many rows, in their order, as they are done.

    Parameters
    ----------
    rows : iterable of PersonRow and BadRow; read only a little ahead
    wish : Wish
    workers : processes; 1 works in this one

    Yields
    ------
    dict, see `fitted_row`

    Raises
    ------
    BadInput, where the wish's base cannot be read; WorkerLost.
    """
    _lines(wish.base)
    rows = iter(rows)
    if workers == 1:
        for row in rows:
            yield fitted_row(row, wish)
        return
    under_way = deque()
    with _one_thread_each():
        pool = ProcessPoolExecutor(workers, multiprocessing.get_context("spawn"), _begin, (wish,))
        try:
            while True:
                while len(under_way) < AHEAD * workers and (lot := tuple(islice(rows, AT_ONCE))):
                    under_way.append(pool.submit(_fitted_lot, lot, wish))
                if not under_way:
                    return
                yield from under_way.popleft().result()
        except BrokenProcessPool as error:
            raise WorkerLost("a worker process ended by itself, perhaps for want of memory: what "
                             "is written stands; go on with --resume, or fewer --workers"
                             ) from error
        finally:
            pool.shutdown(cancel_futures=True)


def _begin(wish):
    """In a new worker: leaves Ctrl-C to the parent, ends with it, and reads the base."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with, args=(multiprocessing.parent_process(),),
                     daemon=True).start()
    _lines(wish.base)


def _end_with(parent):
    connection.wait([parent.sentinel])
    os._exit(1)  # a killed parent says no goodbye, and its workers would wait for ever


def _fitted_lot(lot, wish):
    return [fitted_row(row, wish) for row in lot]


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
