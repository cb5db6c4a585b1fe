"""What every sheet and file says of itself: which job, whose, which revision and day, which boat.

And, where the boat does not pass, that it does not, with the first check that it fails. A stamp
never holds a body measure, and nothing of one goes into a file's name.
"""

import datetime
import re
from dataclasses import dataclass

from sizer.design.library import shipped_names
from sizer.fit.checks import BENCH

NO_JOB = "no job"  # the code of what is printed outside a shop's book
APART = " · "
REFUSED = "DOES NOT PASS"


@dataclass(frozen=True)
class Stamp:
    """Which job and revision a file belongs to."""

    code: str  # of the job, or NO_JOB
    mark: str  # by which the shop knows the customer; "" where there is none
    revision: str  # its letter; "" where nothing was issued
    date: str  # ISO, as 2026-11-28
    replaces: str  # the letter of the revision that this one replaces; "" where there is none
    lengths: str = "mm"  # or "cm", "in": unit of the sheets that a hand fills in

    @property
    def words(self):
        """Everything but the boat, in one line."""
        replaced = f": replaces {self.replaces}" if self.replaces else ""
        revision = f"REV {self.revision}{replaced}" if self.revision else ""
        return APART.join(filter(None, map(_one_line, (
            self.code, self.mark, revision, self.date))))

    @property
    def told(self):
        """Whose an answer is, by the keys that answers tell it by."""
        return {name: getattr(self, name) for name in (
            "code", "mark", "revision", "date", "replaces")}

    @property
    def lead(self):
        """What names of files and folders begin with: code and revision; "" without a job."""
        if self.code == NO_JOB:
            return ""
        parts = (self.code, f"rev {self.revision}" if self.revision else "")
        plain = re.sub(r"[^A-Za-z0-9]+", "-", " ".join(filter(None, parts))).strip("-")
        return f"{plain}-" if plain else ""

    def named(self, name):
        """A file's name, and its folder's, with that before it."""
        return "/".join(f"{self.lead}{part}" for part in name.split("/"))


@dataclass(frozen=True)
class Imprint:
    """What one file says of itself: its stamp, its boat, whether that passes, the cautions."""

    stamp: Stamp
    boat: str  # the base with the boat's size, or whatever else the file is about
    refusal: str  # as `refusal`
    cautions: tuple[str, ...]

    @property
    def line(self):
        """The one line that stands on every page and in every file."""
        return self.stamp.words + APART + _one_line(self.boat)


def no_job():
    """The Stamp of what is printed outside a shop's book, of today."""
    return Stamp(NO_JOB, "", "", datetime.date.today().isoformat(), "")


def base_name(base, design):
    """The name of a shipped base; for another, its design's own name stands for its path."""
    return base if base in shipped_names() else design.name


def boat_words(base, boat):
    """A boat as a stamp tells it, such as "day-boat 4.64 m x 0.56 m"."""
    return f"{base_name(base, boat.design)} {boat.length_m:.2f} m x {boat.beam_m:.2f} m"


def refusal(fitted, bench_failures=()):
    """Across a boat that does not pass: that, and the first failed check; "" where it passes.

    Parameters
    ----------
    fitted : sizer.fit.solve.Fitted
    bench_failures : what fails of patterns and sticks, in words
    """
    told = BENCH if bench_failures else ()  # more closely
    failed = [failed_words(check) for check in fitted.checks
              if check.status == "fail" and check.row not in told]
    if fitted.status == "fail" and not failed:
        failed = ["see its checks"]
    failed += bench_failures
    if not failed:
        return ""
    others = f" (and {len(failed) - 1} more)" if len(failed) > 1 else ""
    return f"{REFUSED}: {failed[0]}{others}"


def failed_words(check):
    """A failed check without its figures, which may tell a body measure."""
    if check.unit == "of 1":  # a question with two answers
        return f"{check.name}: no"
    return f"{check.name}, too {'little' if check.too == 'small' else 'much'}"


def bench_failures(bench):
    """What fails of a Bench's patterns and sticks, in words."""
    return (*(f"{one.frame}, {one.place}: {one.name}" for one in bench.checks
              if one.status == "fail"),
            *(f"{one.stringer}, {one.place}: {one.what} in {one.axis}" for one in bench.unfair
              if one.status == "fail"))


def _one_line(text):
    """The text without line breaks and other letters that no file can hold."""
    return " ".join("".join(one if one.isprintable() else " " for one in text).split())
