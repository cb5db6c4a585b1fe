"""What only the finished boat shows at the bench, as Checks among those of the fit.

So one status says everything that is known. A boat that is fair and whose patterns hold has none.
"""

import numpy as np

from sizer.fit.check import OPEN, STATUSES, Check
from sizer.fit.checks import FAIR, SAWN
from sizer.hull.fairness import fairness, surely_fair


def unfair_checks(boat, quick=False):
    """A tuple of the Check of the worst hollow or bump of a boat's sticks; empty where all pass.

    `quick` asks `surely_fair` first, which pays where many boats of one base are asked.
    """
    if quick and surely_fair(boat):
        return ()
    found = [one for one in fairness(boat) if one.status != "pass"]
    if not found:
        return ()
    worst = max(found, key=lambda one: (STATUSES.index(one.status), abs(one.offset_m) / one.fail_m))
    others = f", and {len(found) - 1} more" if len(found) > 1 else ""
    says = f"{worst.stringer}, {worst.place}: {worst.what} in {worst.axis}{others}"
    # what is exactly on a limit is past it, as `fairness` has it
    window = (-OPEN, -OPEN, *(np.nextafter(side, 0.0)
                              for side in (worst.caution_m, worst.fail_m)))
    return (Check(FAIR, abs(worst.offset_m), window, says),)


def sawn_checks(checks):
    """A tuple of the Check that stands for those of the patterns; empty where all of them pass.

    `checks` are `sizer.shop.pattern_checks.PatternCheck`s.
    """
    off = [one for one in checks if one.status != "pass"]
    if not off:
        return ()
    worst = max(off, key=lambda one: STATUSES.index(one.status))
    others = f", and {len(off) - 1} more" if len(off) > 1 else ""
    says = (f"{worst.frame}, {worst.place}: {worst.name} {worst.value:.4g} {worst.unit}, "
            f"{worst.sense} {worst.limit:.4g} wanted{others}")
    least = 1.0 if worst.status == "fail" else -OPEN
    return (Check(SAWN, 0.0, (least, 1.0, OPEN, OPEN), says),)
