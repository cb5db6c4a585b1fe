"""One row of a list of people fitted: a plain record of the boat, or of why there is none."""

from dataclasses import dataclass, replace
from functools import lru_cache

from sizer.crowd.people import BadRow, request_of
from sizer.design.library import read_base
from sizer.errors import BadInput, NotSolved, WillNotFloat
from sizer.fit.checks import checks_of, overall
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import mishap_facts
from sizer.fit.person import person_of
from sizer.fit.request import read_request
from sizer.fit.sizes import factors, sizes_mm
from sizer.fit.solve import fit
from sizer.fit.tried import UNKNOWN
from sizer.hull.lines import fair_lines
from sizer.units import MM_PER_M


@dataclass(frozen=True)
class Wish:
    """What holds for every row that does not say otherwise."""

    base: str  # shipped name or path
    use: str
    water: str = "fresh"
    temperature_c: float = 10.0


def fitted_row(row, wish):
    """The result of one row.

    Parameters
    ----------
    row : PersonRow or BadRow
    wish : Wish

    Returns
    -------
    dict of plain values: row, label, status (one of `sizer.crowd.results.STATUSES`), lists of
    failing and cautioning checks by title and by key, reasons and cautions; and where a boat was
    fitted its base, use, size, factors, freeboard_mm, gm_mm and load_kg. Lengths to 0.1 mm.
    """
    if isinstance(row, BadRow):
        return _without_boat(row, "bad row", row.reasons)
    try:
        request = read_request(request_of(row, wish.base, wish.use, {
            "kind": wish.water, "temperature_c": wish.temperature_c}))
        person = person_of(request)
    except BadInput as error:
        return _without_boat(row, "bad row", tuple(map(str, error.faults)))
    try:
        return _fitted(row, request, *_checked_fit(lines_of(request.base), person, request))
    except WillNotFloat as error:
        return _without_boat(row, "will not float", (str(error),))
    except (NotSolved, BadInput) as error:  # BadInput: a centre outside the hull
        return _without_boat(row, UNKNOWN, (str(error),))


def _checked_fit(lines, person, request):
    """The Fitted of a person, and every check of it."""
    wanted = (lines, person, request.fixed, request.wishes, request.follow)
    fitted = fit(*wanted, explained=False)
    checks = checks_of(replace(facts_of(fitted.assessed), mishap=mishap_facts(fitted.assessed)))
    if any(check.row.mishap and check.status == "fail" for check in checks):
        fitted = fit(*wanted)  # seldom: its sentences have to name these failures too
        checks = fitted.checks
    return fitted, checks


def _fitted(row, request, fitted, checks):
    """The result of a row that was fitted."""
    assessed = fitted.assessed
    boat = assessed.boat
    return {
        "row": row.number, "label": row.label, "status": overall(checks),
        "base": request.base, "use": request.use,
        "size": {key: _plain(size, 1) for key, size in sizes_mm(boat).items()},
        "factors": {key: _plain(one, 4) for key, one in factors(boat.scaling).items()},
        "freeboard_mm": _mm(assessed.particulars.freeboard_m),
        "gm_mm": _mm(assessed.particulars.gm_m),
        "load_kg": _plain(assessed.loading.load.mass_kg, 1),
        **_by_status(checks),
        "reasons": list(fitted.unmet),
        "cautions": [*row.cautions, *assessed.person.body.cautions],
    }


def _by_status(checks):
    """Titles and keys of the checks that fail or caution."""
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
