"""Undo and redo of everything a person enters, in one session."""

from dataclasses import dataclass, field

MOST_STEPS = 100


@dataclass
class History:
    """Kept wishes, oldest first, around the present ones."""

    past: list[dict] = field(default_factory=list)
    present: dict | None = None
    future: list[dict] = field(default_factory=list)

    def note(self, wishes):
        """Takes note of the wishes of now; a change ends what could be redone."""
        if self.present is not None and _content(wishes) != _content(self.present):
            self.past = [*self.past, self.present][-MOST_STEPS:]
            self.future = []
        self.present = wishes

    def undone(self):
        """The wishes before the last change."""
        self.future.append(self.present)
        self.present = self.past.pop()
        return self.present

    def redone(self):
        """The wishes after the last undo."""
        self.past.append(self.present)
        self.present = self.future.pop()
        return self.present


def _content(wishes):
    """What counts as a change: units only change how figures are written."""
    entries = {key: entry["value"] if entry["value"] is not None else entry["text"]
               for key, entry in wishes["entries"].items()}
    return {**wishes, "entries": entries, "length_unit": None, "mass_unit": None}
