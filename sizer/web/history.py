"""Undo and redo of whole frozen values, for the wizard and for the own-design table alike."""

from dataclasses import dataclass, replace
from typing import Any

MOST_STEPS = 100


@dataclass(frozen=True, eq=False)
class History:
    """A value with those before it, oldest first, and those undone, the next one last."""

    present: Any
    past: tuple = ()
    future: tuple = ()

    def step(self, value):
        """A change; it ends what could be redone."""
        return History(value, (*self.past, self.present)[-MOST_STEPS:])

    def amend(self, value):
        """A change that is no step of its own."""
        return replace(self, present=value)

    def undone(self):
        """One step back, where there is one."""
        if not self.past:
            return self
        return History(self.past[-1], self.past[:-1], (*self.future, self.present))

    def redone(self):
        """One undone step forward, where there is one."""
        if not self.future:
            return self
        return History(self.future[-1], (*self.past, self.present), self.future[:-1])
