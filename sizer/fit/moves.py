"""One size moved by any amount, all else left where it is: what is gained and what is lost.

Both boats are tried the same way (`sizer.fit.tried`), so that a difference is the move's own. What
only the bench shows of the moved boat, its sawn pieces, is known once the size is held.
"""

from dataclasses import dataclass

import numpy as np

from sizer.errors import BadInput, Fault
from sizer.fit.assess import Assessed
from sizer.fit.check import Check, overall
from sizer.fit.tried import (
    DIMENSIONS,
    Dimension,
    ends_of,
    today_setting,
    tried,
    unit_size,
)
from sizer.fit.what_if import drag_N


@dataclass(frozen=True)
class Figure:
    """One of the figures that a move is told by."""

    key: str
    words: str
    unit: str  # "m", "N", "kg" or "deg"
    check: str = ""  # key of the check of the same matter; "" for none
    room: bool = False  # told as more or less of it


FIGURES = (
    Figure("gm", "GM", "m", "gm"), Figure("freeboard", "freeboard", "m", "freeboard"),
    Figure("drag", "drag", "N"), Figure("hips", "hips", "m", "hips", room=True),
    Figure("knees", "knees", "m", "knees", room=True),
    Figure("feet", "feet", "m", "feet", room=True),
    Figure("weight", "boat weight", "kg"), Figure("range", "range of stability", "deg", "range"))


@dataclass(frozen=True)
class Change:
    """A figure before and after, in its unit; `status` is its check's after the move."""

    figure: Figure
    before: float
    after: float
    status: str = "pass"

    @property
    def by(self):
        """What the move adds."""
        return self.after - self.before


@dataclass(frozen=True, eq=False)
class Move:
    """One move and what it does; no changes where `why_not` says why there is no boat."""

    dimension: Dimension
    before: float  # the size in the dimension's unit
    after: float
    changes: tuple[Change, ...] = ()
    turned: tuple[tuple[Check, str], ...] = ()  # checks of another status, and what it was before
    status: tuple[str, str] = ("", "")  # of every check before and after
    assessed: Assessed | None = None  # the moved boat
    why_not: str = ""


def allowed(assessed, dimension):
    """Least and most of a dimension in its unit."""
    size = unit_size(assessed, dimension)
    return tuple(size * end for end in ends_of(assessed, dimension))


def moves(assessed, seat_held, dimension, amounts, speed_mps):
    """What each of some moves of one dimension does; many cost little more than one.

    Parameters
    ----------
    assessed : Assessed, today's fitted boat
    seat_held : whether its seat is held, or else slides to level trim
    dimension : key of `sizer.fit.tried.DIMENSIONS`
    amounts : (n,) by how much, in the dimension's unit: m, kg, or of the base for the crown
    speed_mps : of the drag

    Returns
    -------
    tuple of n Move

    Raises
    ------
    BadInput at "dimension", and at "amount" for what lies outside `allowed`; at "speed_mps" as
    `sizer.hydro.drag.drag_curve`.
    """
    if dimension not in DIMENSIONS:
        raise BadInput([Fault("dimension", f"{dimension!r:.40}",
                              "one of " + ", ".join(DIMENSIONS))])
    size = unit_size(assessed, dimension)
    now = today_setting(assessed, dimension) * size
    _refuse_outside(now, amounts, *allowed(assessed, dimension))
    settings = [(now + amount) / size for amount in (0.0, *amounts)]
    own, *others = tried(assessed, seat_held, {dimension: np.array(settings)})
    return tuple(_move(DIMENSIONS[dimension], now, now + amount, own, other, speed_mps)
                 for amount, other in zip(amounts, others, strict=True))


def _refuse_outside(now, amounts, low, high):
    slack = 1e-9 * max(abs(low), abs(high))
    faults = [Fault("amount", f"{amount:g}", f"{low - now:.4g} to {high - now:.4g}, which the "
                    "base allows") for amount in amounts
              if not low - slack <= now + amount <= high + slack]
    if faults:
        raise BadInput(faults)


def _move(dimension, before, after, own, other, speed_mps):
    """The Move between two Tried."""
    why_not = own.why_not or other.why_not
    if why_not:
        return Move(dimension, before, after, why_not=why_not)
    checks = (own.checks, other.checks)
    earlier, later = ({check.key: check for check in each} for each in checks)
    values = [_figures(one.assessed, each, speed_mps)
              for one, each in ((own, earlier), (other, later))]
    changes = tuple(Change(figure, *(each[figure.key] for each in values),
                           later[figure.check].status if figure.check else "pass")
                    for figure in FIGURES)
    was = {key: check.status for key, check in earlier.items()}
    turned = [(check, was.get(key, "pass")) for key, check in later.items()
              if check.status != was.get(key, "pass")]
    return Move(dimension, before, after, changes, tuple(turned),
                tuple(overall(each) for each in checks), other.assessed)


def _figures(assessed, checks, speed_mps):
    """{key of a Figure: its value in its unit}."""
    return {"drag": drag_N(assessed, speed_mps), "weight": assessed.weight.mass_kg,
            **{figure.key: checks[figure.check].value_si for figure in FIGURES if figure.check}}
