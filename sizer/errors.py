"""What can go wrong, in words a builder can act on."""

import errno
from dataclasses import dataclass

# What to do about what a system says of a file or a folder.
FILE_REMEDIES = {
    errno.ENOENT: "see how it is spelled, and name one that is there",
    errno.ENOTDIR: "see how it is spelled: part of it is a file, and no folder",
    errno.EISDIR: "name a file, and no folder",
    errno.EACCES: "give yourself the right to it, or name another",
    errno.EPERM: "give yourself the right to it, or name another",
    errno.EROFS: "name one on a disk that may be written",
    errno.ENOSPC: "make room on the disk, or name one on another",
    errno.EDQUOT: "make room on the disk, or name one on another",
    errno.ENAMETOOLONG: "name one that is shorter"}
OTHER_REMEDY = "have the disk looked at, or name another"


@dataclass(frozen=True)
class Fault:
    """One thing wrong with what was given: the place, the value found, what is allowed there.

    `at` is the place as data, where what was given is a table: paths of keys and numbers into it,
    such as ("frame", 2, "points_mm", "chine", 0).
    """

    place: str
    value: str
    allowed: str
    at: tuple[tuple, ...] = ()

    def __str__(self):
        return f"{self.place}: {self.value}: {self.allowed}"


class SizerError(Exception):
    """Root of every error that a person can mend; anything else is a bug of ours."""


class BadInput(SizerError):
    """What was given cannot be used; holds every fault found, not just the first."""

    def __init__(self, faults):
        self.faults = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


def caught(read, faults):
    """What `read()` gives; None where it raises BadInput, whose faults are added to a list."""
    try:
        return read()
    except BadInput as error:
        faults.extend(error.faults)
        return None


def file_trouble(error):
    """What the system says of a file, and what to do about it, for its OSError."""
    remedy = FILE_REMEDIES.get(error.errno, OTHER_REMEDY)
    return f"{error.strerror or error}: {remedy}"


class WillNotFloat(SizerError):
    """The hull cannot carry this mass with its cockpit rim above water."""


class NotSolved(SizerError):
    """A solver stopped before it reached its stated accuracy; no number is handed on."""
