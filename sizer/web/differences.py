"""What differs between two Drafts, in words: for another screen's change, undo and redo."""

import re

from sizer.units import length_text, temperature_text
from sizer.web.entered import LABELS, wish_word

COUNTED = 4  # figures of a dry fit or a launch: so many are counted, fewer are told
FEW_FRAMES = 2  # of an own design's table, that are told by name
LONG = ("own_design", "notes")


def differences(before, after):
    """What differs between two Drafts, in words, such as "weight 82 → 90 kg"."""
    said = [f"{_name(key)} {_figure(old.text, new.text, after.unit_of(key))}"
            for (key, old), (_, new) in zip(before.entries, after.entries, strict=True)
            if old.text != new.text]
    for part, words in (("held", _held), ("wished", lambda key, value, _: wish_word(key, value))):
        said += [f"{_name(key)} {words(key, old, after.length_unit)} → "
                 f"{words(key, new, after.length_unit)}"
                 for (key, old), (_, new) in zip(before[part], after[part], strict=True)
                 if old != new]
    for name, new in after:
        if name in ("dry_fit", "launch"):
            said += _at_bench(before[name], new, after, _name(name))
        elif name == "own_table":
            said += _of_table(before[name], new)
        elif name == "water_c" and before[name] != new:
            said.append(_choice(_name(name), *map(temperature_text, (before[name], new))))
        elif before[name] != new and name not in ("entries", "held", "wished"):
            said.append(_name(name) if name in LONG else _choice(_name(name), before[name], new))
    return said


def held_words(one):
    """What a Draft holds by hand, such as "length held at 15 ft"."""
    return [f"{_name(key)} {_held(key, value, one.length_unit)}" for key, value in one.held
            if value is not None]


def _at_bench(before, after, draft, name):
    """What differs in the Figures of a dry fit or of a launch."""
    keys = [key for key in {**before.entries, **after.entries}
            if before.text(key) != after.text(key)]
    said = [f"{name}, {len(keys)} figures"] if len(keys) >= COUNTED else [
        f"{name}, {after.words(key)}, "
        + _figure(before.text(key), after.text(key), draft.unit_of(key)) for key in keys]
    return said + [_choice(f"{name} {_name(key)}", before[key], new) for key, new in after
                   if key != "entries" and before[key] != new]


def _of_table(before, after):
    """Which design's table differs, and at which frames, where they are few."""
    if before == after:
        return []
    rows, others = (table.frames() if table else {} for table in (before, after))
    at = [name for name in {**rows, **others} if rows.get(name) != others.get(name)]
    return [f"the table of {(after or before).name()}"
            + f", at {' and '.join(at)}" * (0 < len(at) <= FEW_FRAMES)]


def _held(key, value, unit):
    """What a size is held at; lengths in mm."""
    if value is None:
        return "as fitted"
    if key == "deck_crown":
        return f"held at {100.0 * value:.0f} %"
    return f"held at {'−' * (value < 0.0)}{length_text(abs(value), unit)}"


def _figure(old, new, unit):
    return f"{old or 'blank'} → {new} {unit}" if new else f"{old} {unit} → blank"


def _choice(name, old, new):
    if isinstance(new, bool):
        return name if new else f"{name}: no longer"
    if not isinstance(new, str | float | int):
        return name
    return f"{name} {'blank' if old == '' else old} → {'blank' if new == '' else new}"


def _name(key):
    """What a field is called on the pages."""
    plain = re.sub("_(kg|mm|l|c|mps)$", "", key).replace("_", " ")
    return LABELS[key].lower() if key in LABELS else plain
