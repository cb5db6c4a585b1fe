"""Jobs and drafts as a book hands them out; times are UTC, ISO 8601."""

from dataclasses import dataclass

from sizer.errors import BadInput, Fault

LONGEST_MARK = 40  # letters, so that it fits the head of a sheet; our judgement


@dataclass(frozen=True)
class Summary:
    """What the list of jobs says of a boat; no body measure belongs in it."""

    base: str = ""
    size: str = ""
    status: str = ""


@dataclass(frozen=True)
class JobRow:
    """One job as the list shows it."""

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
    """A customer's mark without blanks around it; raises BadInput where no sheet could bear it."""
    mark = mark.strip()
    if len(mark) > LONGEST_MARK or not mark.isprintable():
        allowed = f"one line of at most {LONGEST_MARK} letters"
        raise BadInput([Fault("mark", f"{mark!r:.60}", allowed)])
    return mark
