"""What of the measures typed at a dry fit can be used, what is wrong with the others, and what
those that can be used tell."""

from sizer.built.asked import ACROSS, asked_of, measured_of
from sizer.built.behind_risers import BEHIND, INSTEAD, OTHER_FACE, behind_risers, written_words
from sizer.built.dry_fit import dry_fit
from sizer.built.points import points_of
from sizer.errors import SizerError
from sizer.units import MM_PER_M, inches_text, mark_text
from sizer.web.state import kept

SAME = "no difference"
SPREAD_PARTS = 64  # of an inch, that spreads are shown to: 2 mm is 5/64; our judgement


def spread_text(mm, unit):
    """A spread for reading, finer than marks are, so that it can be held against another."""
    return f"{inches_text(mm, SPREAD_PARTS)} in" if unit == "in" else mark_text(mm, unit)


def asked_for(job):
    return kept("asked", job, lambda: asked_of(
        points_of(job.fitted.assessed.boat), job.setting_up))


def behind_for(job):
    """{Asked: m} of what a riser of the job stands in the way of, as `behind_risers`."""
    return kept("behind", job, lambda: behind_risers(job, asked_for(job)))


def starred(job, this):
    """An Asked's short words, with a star where a riser stands in its way."""
    return f"{this.short} {BEHIND}" if this in behind_for(job) else this.short


def behind_text(job, this, said):
    """How an Asked is taped that a riser stands in the way of; "" where none does."""
    more = behind_for(job).get(this)
    if more is None:
        return ""
    instead = f" {INSTEAD}" if this.what == ACROSS else ""
    return f"{BEHIND} {OTHER_FACE} {written_words(more, said)}.{instead}"


def fault_of(one, this):
    """What is wrong with what was typed for an Asked; "" where nothing is, or nothing was typed."""
    entry = one.dry_fit.entries.get(this.key)
    if entry is None or entry.fault:
        return "" if entry is None else entry.fault
    if not this.is_slip(entry.value / MM_PER_M):
        return ""
    return (f"{entry.text}: the design says {one.marked(this.designed_m)}; so far off is a slip of "
            "tape or pen: measure again")


def off_text(this, value_m, said):
    """How far an Asked is off its design; of a breadth across, to each side too."""
    off = value_m - this.designed_m
    if (much := said(abs(off))) == said(0.0):
        return SAME
    more = "more" if off > 0.0 else "less"
    each = f" across, {said(0.5 * abs(off))} to each side" if this.what == ACROSS else ""
    return f"{much} {more}{each}"


def unread(one, asked):
    """The Asked that are to be read a second time, and were not yet."""
    usable = usable_m(one, asked)
    return tuple(this for this in asked if this.key in usable
                 and this.key not in one.dry_fit.read_again
                 and this.is_far(usable[this.key], one.dry_fit.tape_mm / MM_PER_M))


def usable_m(one, asked):
    """{key: m} of the measures typed that can be used, in the order of the Asked."""
    typed = one.dry_fit.values()
    return {this.key: typed[this.key] / MM_PER_M for this in asked
            if this.key in typed and not fault_of(one, this)}


def found_for(one, job):
    """The DryFit of what can be used; None before that, a sentence where it cannot be."""
    asked, base = asked_for(job), job.setting_up.baseline_height_m
    values = usable_m(one, asked)
    if not values:
        return None

    def worked():
        try:
            return dry_fit(job, measured_of(asked, values, base),
                           one.dry_fit.tape_mm / MM_PER_M, one.length_unit)
        except SizerError as error:
            return str(error)

    return kept("dry_fit", (job, repr(sorted(values.items())), one.dry_fit.tape_mm,
                            one.length_unit), worked)


def accepted_for(one, job):
    """The DryFit of a boat that was accepted as it stands; None where none was."""
    found = found_for(one, job) if one.dry_fit.accepted else None
    return None if isinstance(found, str) else found


def at_fault(one, asked):
    return tuple(this for this in asked if fault_of(one, this))
