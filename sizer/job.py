"""The whole flow, once: a request in, a fitted and checked boat with its stations out."""

import time
from dataclasses import dataclass

from sizer.fit.cautions import cautions_for
from sizer.fit.mishaps import Mishaps, mishap_cautions
from sizer.fit.person import Person, person_of
from sizer.fit.request import Request
from sizer.fit.solve import Fitted, fit
from sizer.hull.lines import Lines
from sizer.paddler.room import FolkMeasures, folk_measures
from sizer.shop.stations import SettingUp, setting_up


@dataclass(frozen=True, eq=False)
class Job:
    """Everything one request leads to."""

    request: Request
    lines: Lines
    person: Person
    fitted: Fitted
    setting_up: SettingUp
    folk: FolkMeasures
    cautions: tuple[str, ...]
    solve_ms: float

    @property
    def mishaps(self) -> Mishaps:
        """The fitted boat heeled and swamped."""
        return self.fitted.mishaps


def run(request, lines):
    """Fits a request to a base design's lines.

    Raises
    ------
    BadInput, WillNotFloat, NotSolved: see `sizer.fit.solve.fit`.
    """
    begun = time.perf_counter()
    person = person_of(request)
    fitted = fit(lines, person, request.fixed, request.wishes, request.follow)
    stations = setting_up(fitted.assessed.boat)
    cautions = (*fitted.unmet, *lines.design.assumed, *person.body.cautions,
                *mishap_cautions(fitted.mishaps), *cautions_for(person.water))
    return Job(request, lines, person, fitted, stations, folk_measures(person.body),
               cautions, 1000.0 * (time.perf_counter() - begun))
