"""Jobs and drafts as a book hands them out; times are UTC, ISO 8601."""

from dataclasses import dataclass
from unicodedata import category

from sizer.errors import BadInput, Fault

CONTROL = "Cc"  # Unicode's category of what is no letter, such as a bell
LONGEST_MARK = 60  # letters, so that it fits the head of a sheet; our judgement


@dataclass(frozen=True)
class Summary:
    """What the list of jobs says of a boat; no body measure belongs in it."""

    base: str = ""
    size: str = ""
    status: str = ""


@dataclass(frozen=True)
class JobRow:
    key: str  # for addresses; cannot be guessed
    code: str  # for people and sheets, such as HK4729
    mark: str  # the customer's name or mark
    notes: str
    state: str  # one of STATES
    put_away: bool
    base: str
    size: str
    status: str
    created: str
    touched: str
    copied_from: str  # key of the job it is a sister of, or ""


@dataclass(frozen=True)
class KeptDraft:
    """A draft as it stands; both texts are the wizard's own and are "" once forgotten."""

    draft_json: str
    history_json: str
    version: int  # goes up with each write
    touched: str
    by: str  # who wrote it, such as a screen's name


def checked_mark(mark):
    """A customer's mark on one line; raises BadInput where it is longer than a sheet can bear."""
    plain = "".join(" " if category(one) == CONTROL else one for one in mark)
    line = " ".join(plain.split())
    if len(line) > LONGEST_MARK:
        raise BadInput([Fault("mark", f"{line!r:.60}", f"at most {LONGEST_MARK} letters")])
    return line
