"""The whole flow, once: a request in, a fitted and checked boat with its stations out."""

import time
from dataclasses import dataclass, field, replace
from functools import lru_cache

from sizer.design.records import DrawnFor
from sizer.fit.bench_found import sawn_checks
from sizer.fit.cautions import cautions_for, tender_cautions
from sizer.fit.check import STATUSES, overall
from sizer.fit.dressed import dressed_cautions
from sizer.fit.mishaps import Mishaps, mishap_cautions
from sizer.fit.person import Person, person_of
from sizer.fit.reasons import unmet
from sizer.fit.request import Request
from sizer.fit.solve import Fitted, only_fitted, searched, searched_freely
from sizer.hull.lines import Lines
from sizer.paddler.room import FolkMeasures, folk_measures
from sizer.shop.patterns import Patterns, patterns_of
from sizer.shop.settings import SHOP, Shop
from sizer.shop.stations import SettingUp, setting_up
from sizer.stamp import Imprint, Stamp, bench_failures, boat_words, no_job, refusal

FREE_KEPT = 16  # people's freely fitted boats


@dataclass(frozen=True, eq=False)
class Job:
    """Everything one request leads to."""

    request: Request
    lines: Lines
    person: Person
    fitted: Fitted
    patterns: Patterns
    setting_up: SettingUp
    folk: FolkMeasures
    cautions: tuple[str, ...]
    solve_ms: float
    shop: Shop = SHOP  # that the patterns are for
    stamp: Stamp = field(default_factory=no_job)
    bench_status: str = "pass"  # known once `stamped` with its bench
    bench_failures: tuple[str, ...] = ()  # the same

    @property
    def status(self):
        """One of STATUSES: of all that is known, with its bench once `stamped` with it."""
        return max(self.fitted.status, self.bench_status, key=STATUSES.index)

    @property
    def mishaps(self) -> Mishaps:
        """The fitted boat heeled and swamped."""
        return self.fitted.mishaps

    @property
    def drawn_for(self):
        """The DrawnFor of its boat taken as a base of its own."""
        assessed, person = self.fitted.assessed, self.person
        return DrawnFor(
            weight_kg=person.body.weight_kg, stature_m=person.body.stature.value_m,
            hip_width_m=person.body.hip_sitting.value_m, gear_kg=person.gear_kg,
            use=person.use.key, water=person.water.kind,
            waterline_length_m=assessed.particulars.waterline_length_m,
            draft_m=assessed.particulars.draft_m)

    @property
    def imprint(self):
        """The Imprint of every file of the job."""
        return Imprint(self.stamp, boat_words(self.request.trip.base, self.fitted.assessed.boat),
                       refusal(self.fitted, self.bench_failures), self.cautions)

    def stamped(self, stamp=None, bench=None):
        """The job as it is printed.

        Parameters
        ----------
        stamp : Stamp; without one the job keeps its own, from `run` that of no job, of the day
        bench : Bench of the job, whose status and failures then stand on every file too
        """
        stamped = replace(self, stamp=stamp or self.stamp)
        return stamped if bench is None else replace(
            stamped, bench_status=bench.status, bench_failures=bench_failures(bench))


def searched_for(requests, lines):
    """The Searched of requests that differ by person or gear alone; BadInput as `run`."""
    requests, first = tuple(requests), requests[0]
    persons = [person_of(one) for one in requests]

    def freely(seat):
        return _freely(tuple(replace(one, fixed=seat) for one in requests), lines)

    return searched(lines, persons, first.fixed, first.wishes, first.follow, freely)


@lru_cache(maxsize=FREE_KEPT)
def _freely(requests, lines):
    """What `searched_freely` finds for requests that hold no size: kept, since a size that is moved
    step by step, or let go of, leaves the rest as it was found without it."""
    first = requests[0]
    return searched_freely(lines, [person_of(one) for one in requests], first.fixed, first.wishes)


def run(request, lines, found=None, shop=SHOP):
    """Fits a request to a base design's lines; `found` is its own Searched, where known, `shop` the
    Shop whose plywood it is sawn from.

    Raises
    ------
    BadInput, WillNotFloat, NotSolved: see `sizer.fit.solve.fit` and `sizer.shop.patterns`.
    """
    begun = time.perf_counter()
    found = found or searched_for([request], lines)
    person, = found.persons
    fitted = only_fitted(found)
    patterns = patterns_of(fitted.assessed, shop)
    fitted = _with_checks(fitted, sawn_checks(patterns.checks))
    stations = setting_up(fitted.assessed.boat)
    bias = request.shop_bias.words
    cautions = (*((bias,) if bias else ()), *fitted.unmet, *tender_cautions(fitted.checks),
                *dressed_cautions(person, fitted.mishaps.swamped), *cautions_for(person.water),
                *lines.design.assumed, *person.body.cautions, *mishap_cautions(fitted.mishaps))
    return Job(request, lines, person, fitted, patterns, stations, folk_measures(person.body),
               cautions, 1000.0 * (time.perf_counter() - begun), shop)


def _with_checks(fitted, more):
    """The Fitted with further Checks, and the status of all of them."""
    checks = (*fitted.checks, *more)
    return replace(fitted, checks=checks, status=overall(checks),
                   unmet=(*fitted.unmet, *unmet(more, (), ())))
