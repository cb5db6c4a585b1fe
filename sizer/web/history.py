"""Undo and redo of whole frozen values, for the wizard and for the own-design table alike."""

from dataclasses import dataclass, replace
from typing import Any

MOST_STEPS = 100
PAUSE_S = 8.0


@dataclass(frozen=True, eq=False)
class History:
    """A value with those before it, oldest first, and those undone, the next one last."""

    present: Any
    past: tuple = ()
    future: tuple = ()
    going_on: tuple | None = None  # what the last step changed, and when

    def step(self, value, what=None, at_s=0.0, anew=False, pause_s=PAUSE_S):
        """A change; it ends what could be redone.

        `what` names that which is typed letter by letter, or moved bit by bit: as long as it goes
        on without a pause, and is not begun `anew`, it is one step.
        """
        goes_on = (self.going_on is not None and self.going_on[0] == what and not anew
                   and at_s - self.going_on[1] < pause_s)
        past = self.past if goes_on else (*self.past, self.present)
        return History(value, past[-MOST_STEPS:],
                       going_on=None if what is None else (what, at_s))

    def amend(self, value):
        """A change that is no step of its own."""
        return replace(self, present=value)

    def undone(self):
        if not self.past:
            return self
        return History(self.past[-1], self.past[:-1], (*self.future, self.present))

    def redone(self):
        if not self.future:
            return self
        return History(self.future[-1], (*self.past, self.present), self.future[:-1])
