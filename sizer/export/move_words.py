"""A move of one size in one line: what is gained and what is lost."""

from sizer.export.fit_words import STATUS_WORDS

LESS_MORE = {"length": ("shorter", "longer"), "beam": ("narrower", "wider"),
             "depth": ("shallower", "deeper"), "crown": ("less deck crown", "more deck crown"),
             "seat": ("forward for the seat", "aft for the seat"),
             "gear": ("less gear", "more gear")}


def move_words(move):
    """Which way a Move goes: "narrower"."""
    return LESS_MORE[move.dimension.key][int(move.after > move.before)]


def move_line(move, text):
    """A Move in one line; `text` writes a figure in SI of a unit, "m", "kg", "N", "deg" or "of the
    base", as (value, unit) to text."""
    moved = text(abs(move.after - move.before), move.dimension.unit)
    head = f"{moved} {move_words(move)}: "
    if move.why_not:
        return f"{head}this boat {move.why_not}"
    told = [_change(change, text) for change in move.changes]
    own = {change.figure.check for change in move.changes}
    told += [f"{check.name} {STATUS_WORDS[check.status]} (was: {STATUS_WORDS[before]})"
             for check, before in move.turned if check.key not in own]
    return head + (", ".join(filter(None, told)) or "nothing that shows") + "."


def _change(change, text):
    """One figure's change; "" where it does not show in the unit and its check passes."""
    figure, unit = change.figure, change.figure.unit
    mark = "" if change.status == "pass" else f" ({STATUS_WORDS[change.status]})"
    by = text(abs(change.by), unit)
    still = by == text(0.0, unit)
    if still:
        return f"{figure.words} as before{mark}" if mark else ""
    if figure.key == "gm":
        return f"{figure.words} {_both(change, text)}{mark}"
    if figure.room:
        return f"{figure.words} {by} {'more' if change.by > 0.0 else 'less'} room{mark}"
    return f"{figure.words} {'+' if change.by > 0.0 else '-'}{by}{mark}"


def _both(change, text):
    """Before and after, the unit written once where both have the same."""
    before, after = (text(value, change.figure.unit) for value in (change.before, change.after))
    unit = after.rpartition(" ")[2]
    return f"{before.removesuffix(' ' + unit)} to {after}"
