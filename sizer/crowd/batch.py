"""Many fits at once: every row of a list of people, on all cores, given back in the list's order.

Each worker process reads the bases once. Few rows are under way at a time, so memory stays flat
however long the list is; a bad row, or one that will not float, is a result like any other.
"""

from collections import deque
from itertools import count, islice

from sizer.crowd.crew import processes
from sizer.crowd.fitted_row import fitted_lot, lines_of

# Rows that are fitted side by side: few at first, so that a short list too keeps every worker busy,
# then more, which is less work for each.
FIRST, AT_ONCE = 32, 128
AHEAD = 2  # such lots under way for each worker
MOST_WORKERS = 256


def pace_words(done, left, seconds):
    """How fast rows were done in some seconds, and how long what is left will take, in words."""
    to_go = max(left, 0) * seconds / done
    words = (f"{to_go:.0f} s" if to_go < 90.0 else
             f"{to_go / 60.0:.0f} min" if to_go < 5400.0 else f"{to_go / 3600.0:.1f} h")
    return f"{done / seconds:.0f} a second, {words} left"


def fitted_rows(rows, trip, workers):
    """The results of many rows, in their order, as they are done; dicts of `fitted_lot`. `rows` are
    PersonRow and BadRow, read only a little ahead; with 1 of `workers` this process does it. Raises
    BadInput, where the trip's base cannot be read, and WorkerLost."""
    lines_of(trip.base)
    lots = _lots(iter(rows), workers)
    if workers == 1:
        for lot in lots:
            yield from fitted_lot(lot, trip)
        return
    under_way = deque()
    with processes(workers, "what is written stands; go on with --resume, or fewer --workers",
                   lines_of, trip.base) as pool:
        while True:
            while len(under_way) < AHEAD * workers and (lot := next(lots, None)):
                under_way.append(pool.submit(fitted_lot, lot, trip))
            if not under_way:
                return
            yield from under_way.popleft().result()


def _lots(rows, workers):
    """Tuples of rows, for each worker one of FIRST, then of twice as many, up to AT_ONCE."""
    for doublings in count():
        for _ in range(workers):
            lot = tuple(islice(rows, min(FIRST * 2**doublings, AT_ONCE)))
            if not lot:
                return
            yield lot
