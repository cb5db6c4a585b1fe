"""What a run on a crowd was made from: told beside what it found, and held against what is chosen
now."""

import hashlib
from dataclasses import dataclass
from html import escape

from sizer.fit.uses import USES
from sizer.shop.said import listed
from sizer.web.keeping import shop_now
from sizer.web.look import note_html, put
from sizer.web.session import OWN, lines_of
from sizer.web.state import view

PREFIX, LIST = "crowd_", "people"  # of the page's choices in the view, and its list of people


@dataclass(frozen=True, eq=False)
class Asked:
    """What a run was begun with."""

    people: str  # in words
    base: str  # name of the design
    use: str  # key
    of: dict  # {in words: what is held against the same of now}
    choices: dict  # of the page, for whoever comes back to it

    @property
    def named(self):
        """The list of people as it was given, (name, text); None where they were drawn."""
        return self.choices.get(LIST)


def asked(one, people, text, action, sizes, gear_kg):
    """The Asked of a Draft and of what the page chooses; `people` in words, `text` their CSV."""
    base = one.own_design if one.base == OWN else one.base
    of = {"the people": hashlib.sha256(text.encode()).hexdigest(), "what to do": action,
          "the sizes at most": sizes, "the base design": base, "the use": one.use,
          "the water": (one.water_kind, one.water_c), "the gear": gear_kg,
          "the shop's settings": shop_now() if sizes else None}
    choices = {key: value for key, value in view().items() if key.startswith(PREFIX)}
    if named := view().get(LIST):
        choices[LIST] = named
    return Asked(people, lines_of(one, one.base).design.name, one.use, of, choices)


def put_made_from(was, now):
    """What a run was made from, and what of it is another `now`; None where neither is known."""
    if was is None:
        return
    put(f"<p>Made from {escape(was.people)}; {escape(was.base)}; "
        f"{escape(USES[was.use].words)}.</p>")
    changed = [] if now is None else [
        words for words, value in was.of.items() if value != now.of[words]]
    if changed:
        put(note_html(f"Changed since this was worked out: {listed(changed)}. What stands here is "
                      "still of what it was made from: work it out again for what is chosen now."))
