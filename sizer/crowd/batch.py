"""Many fits at once: every row of a list of people, on all cores, given back in the list's order.

Each worker process reads the bases once. Few rows are under way at a time, so memory stays flat
however long the list is; a bad row, or one that will not float, is a result like any other.
"""

from collections import deque
from functools import lru_cache
from itertools import count, islice

from sizer.crowd.crew import processes
from sizer.crowd.people import BadRow, request_of
from sizer.design.library import read_base
from sizer.errors import BadInput, NotSolved, SizerError, WillNotFloat
from sizer.fit.check import overall
from sizer.fit.person import person_of
from sizer.fit.request import read_request
from sizer.fit.sizes import factors, sizes_mm
from sizer.fit.solve import fit, fit_many
from sizer.fit.tried import UNKNOWN
from sizer.hull.lines import fair_lines
from sizer.units import MM_PER_M

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


def fitted_lot(rows, trip):
    """The results of some rows; those for one base and use are fitted side by side.

    Parameters
    ----------
    rows : sequence of PersonRow or BadRow
    trip : Trip, of every row that does not say otherwise; gear as the use has it

    Returns
    -------
    list of dict of plain values: row, label, status (one of `sizer.crowd.results.STATUSES`), lists
    of failing and cautioning checks by title and by key, reasons and cautions; and where a boat was
    fitted its base, use, size, factors, freeboard_mm, gm_mm and total_kg, the boat
    included, as a fit's `load` tells it. Lengths to 0.1 mm.
    """
    results, alike = [None] * len(rows), {}
    for index, row in enumerate(rows):
        reasons = row.reasons if isinstance(row, BadRow) else ()
        try:
            if not reasons:
                request = read_request(request_of(row, trip))
                own = request.trip
                alike.setdefault((own.base, own.use), []).append((index, own, person_of(request)))
        except BadInput as error:
            reasons = tuple(map(str, error.faults))
        if reasons:
            results[index] = _without_boat(row, "bad row", reasons)
    for some in alike.values():
        indices, trips, persons = zip(*some, strict=True)
        fitted = _fitted_alike(lines_of(trips[0].base), persons)
        for index, own, one in zip(indices, trips, fitted, strict=True):
            row = rows[index]
            if isinstance(one, SizerError):
                status = "will not float" if isinstance(one, WillNotFloat) else UNKNOWN
                results[index] = _without_boat(row, status, (str(one),))
            else:
                results[index] = _fitted(row, own, *one)
    return results


def _fitted_alike(lines, persons):
    """(Fitted, its checks with the mishaps) of each person, or the error why there is none."""
    try:
        found = fit_many(lines, persons)
    except (NotSolved, BadInput) as error:  # the base's own
        return [error] * len(persons)
    return [one if isinstance(one, SizerError) else _checked(lines, person, one)
            for one, person in zip(found, persons, strict=True)]


def _checked(lines, person, fitted):
    checks = fitted.checks
    if any(check.row.mishap and check.status == "fail" for check in checks):
        try:  # seldom: its sentences have to name these failures too
            fitted = fit(lines, person)
        except SizerError as error:
            return error
    return fitted, fitted.checks


def _fitted(row, trip, fitted, checks):
    assessed = fitted.assessed
    boat = assessed.boat
    return {
        "row": row.number, "label": row.label, "status": overall(checks),
        "base": trip.base, "use": trip.use,
        "size": {key: _plain(size, 1) for key, size in sizes_mm(boat).items()},
        "factors": {key: _plain(one, 4) for key, one in factors(boat.scaling).items()},
        "freeboard_mm": _mm(assessed.upright.freeboard_m),
        "gm_mm": _mm(assessed.upright.gm_m),
        "odds_all_hard": _plain(fitted.odds_all_hard, 2),
        "total_kg": _plain(assessed.loading.load.mass_kg, 1),
        **_by_status(checks),
        "reasons": list(fitted.unmet),
        "cautions": [*row.cautions, *assessed.person.body.cautions],
    }


def _by_status(checks):
    return {f"{name}{suffix}": [getattr(check, field) for check in checks
                                if check.status == status]
            for name, status in (("failing", "fail"), ("cautioning", "caution"))
            for suffix, field in (("", "name"), ("_keys", "key"))}


def _without_boat(row, status, reasons):
    return {"row": row.number, "label": row.label, "status": status, **_by_status(()),
            "reasons": list(reasons),
            "cautions": list(getattr(row, "cautions", ()))}


def _mm(value_m):
    return _plain(value_m * MM_PER_M, 1)


def _plain(value, digits):
    return round(float(value), digits) + 0.0  # + 0.0: no -0.0


@lru_cache(maxsize=32)
def lines_of(base):
    return fair_lines(read_base(base))
