"""What has to agree between the parts of a base design file, in the file's own millimetres."""

from itertools import pairwise

from sizer.design.check_seat import seat_faults
from sizer.design.extent import EDGE_MM, length_mm, span_mm
from sizer.errors import Fault

TAPER_MM = 700  # a blending stick may be planed to a taper over this; our judgement
HULL_ROLES = ("keel", "chine", "gunwale")
DECK_ROLES = ("deck", "ridge")
ROLE_ORDER = {"keel": 0, "chine": 1, "gunwale": 2, "deck": 3, "ridge": 4}


def faults_between(file, source):
    """Every disagreement in a validated design file, as a list of Fault."""
    names = [*_names(file)]
    found = [*_uses(file), *_limits(file), *names, *_ends(file), *_stems(file)]
    if not names:  # the rest leans on each stringer's name and place among the others
        found += [*_frames(file), *_cockpit(file), *seat_faults(file)]
    return [Fault(f"{source}: {place}", value, allowed) for place, value, allowed in found]


def _uses(file):
    use = file.drawn_for.use
    if use not in file.suits:
        yield "drawn_for.use", repr(use), f"one of suits: {', '.join(file.suits)}"
    for use in file.lacks:
        if not use.strip() or ":" in use:
            yield f"lacks.{use}", repr(use), "a use's name, without a colon"
        if use in file.suits:
            yield f"lacks.{use}", "one of suits", "a use that it does not suit; take one out"


def _limits(file):
    for key, (low, high) in file.limits:
        if low > high:
            yield f"limits.{key}", f"[{low:g}, {high:g}]", "the lowest comes first"
        elif not key.endswith("_mm") and not low <= 1.0 <= high:
            yield f"limits.{key}", f"[{low:g}, {high:g}]", "must allow the base itself, factor 1"
    cockpit, limits = file.cockpit, file.limits
    opening = cockpit.back_x_mm - cockpit.front_x_mm
    for key, value, (low, high) in (
        ("front_x_mm to back_x_mm", opening, limits.cockpit_length_mm),
        ("width_mm", cockpit.width_mm, limits.cockpit_width_mm),
    ):
        if not low <= value <= high:
            yield (f"cockpit.{key}", f"{value:g} mm",
                   f"within this file's own limits, {low:g} to {high:g} mm")
    near, far = cockpit.footbrace_reach_mm
    if near >= far:
        yield "cockpit.footbrace_reach_mm", f"[{near:g}, {far:g}]", "the nearest comes first"


def _names(file):
    for kind, items in (("stringer", file.stringer), ("frame", file.frame)):
        names = [one.name for one in items]
        for name in sorted({name for name in names if names.count(name) > 1}):
            yield f"{kind}.{name}", f"named {names.count(name)} times", "each name once"
    roles = [one.role for one in file.stringer]
    for role in ("keel", "gunwale"):
        if roles.count(role) != 1:
            yield "stringer", f"{roles.count(role)} with role {role}", "exactly one"
    if roles.count("ridge") not in (1, 2):
        yield "stringer", f"{roles.count('ridge')} with role ridge", (
            "one before the cockpit and one behind it, or one over both")
    for lower, upper in pairwise(file.stringer):
        if ROLE_ORDER[lower.role] > ROLE_ORDER[upper.role]:
            yield (f"stringer.{upper.name}", f"{upper.role} after {lower.role}",
                   "order from keel through chines, gunwale and deck to ridge")


def _ends(file):
    stringers = {one.name: one for one in file.stringer}
    for one in file.stringer:
        for key, end, stem, where in (("start", one.start, file.bow, "bow"),
                                      ("end", one.end, file.stern, "stern")):
            place = f"stringer.{one.name}.{key}"
            if end == "stem" and one.name not in stem.lands_mm:
                yield f"{where}.lands_mm.{one.name}", "missing", f"{one.name} ends on this stem"
            if end == "coaming" and one.role != "ridge":
                yield place, '"coaming"', "only ridges; end others at an x"
            if one.role in ("keel", "gunwale") and end != "stem":
                yield place, repr(end), f'the {one.role} runs from stem to stem: "stem"'
            if hasattr(end, "into"):
                yield from _blend(place, one, end.into, stringers)
    for where, stem in (("bow", file.bow), ("stern", file.stern)):
        key = "start" if where == "bow" else "end"
        for name in stem.lands_mm:
            if name not in stringers:
                yield f"{where}.lands_mm.{name}", "no such stringer", "a name from [[stringer]]"
            elif getattr(stringers[name], key) != "stem":
                yield (f"{where}.lands_mm.{name}", f"its {key} is not \"stem\"",
                       "remove it, or let the stringer reach the stem")


def _blend(place, one, host_name, stringers):
    host = stringers.get(host_name)
    if host is None or host is one:
        yield place, f"into {host_name!r}", "the name of another stringer"
    elif any(hasattr(end, "into") for end in (host.start, host.end)):
        yield place, f"into {host_name!r}", "a stringer that does not itself blend into another"
    elif (one.role in DECK_ROLES) != (host.role in (*DECK_ROLES, "gunwale")) and (
            one.role in DECK_ROLES or host.role in DECK_ROLES):
        yield place, f"into {host_name!r}", "hull into hull, deck into gunwale, deck or ridge"


def _stems(file):
    for where, stem in (("bow", file.bow), ("stern", file.stern)):
        xs = [x for x, _ in stem.profile_mm]
        zs = [z for _, z in stem.profile_mm]
        if any(b <= a for a, b in pairwise(xs)):
            yield (f"{where}.profile_mm", "x does not rise",
                   "points from bow to stern, each x larger")
            continue
        falling = zs if where == "bow" else zs[::-1]
        if any(b > a for a, b in pairwise(falling)):
            yield (f"{where}.profile_mm", "height turns back",
                   "from the stem's head the profile only goes down to the keel")
        if where == "bow" and abs(xs[0]) > EDGE_MM:
            yield "bow.profile_mm", f"starts at x = {xs[0]:g}", "x = 0, the foremost point"
        keel = next((one.name for one in file.stringer if one.role == "keel"), None)
        foot = xs[-1] if where == "bow" else xs[0]
        for name, x in stem.lands_mm.items():
            if not xs[0] - EDGE_MM <= x <= xs[-1] + EDGE_MM:
                yield (f"{where}.lands_mm.{name}", f"{x:g} mm",
                       f"on the stem's profile, {xs[0]:g} to {xs[-1]:g} mm")
            elif name == keel and abs(x - foot) > EDGE_MM:
                yield (f"{where}.lands_mm.{name}", f"{x:g} mm",
                       f"the keel ends where the profile ends, at {foot:g} mm")
        yield from _landing_order(where, stem, file)
    if file.bow.profile_mm[-1][0] >= file.stern.profile_mm[0][0]:
        yield "stern.profile_mm", "begins ahead of the bow stem's end", "behind it"


def _landing_order(where, stem, file):
    head = file.bow.profile_mm[0][0] if where == "bow" else file.stern.profile_mm[-1][0]
    hull = [one.name for one in file.stringer
            if one.role in HULL_ROLES and one.name in stem.lands_mm]
    for lower, upper in pairwise(hull):
        if abs(stem.lands_mm[lower] - head) < abs(stem.lands_mm[upper] - head):
            yield (f"{where}.lands_mm.{upper}", f"{stem.lands_mm[upper]:g} mm",
                   f"no farther from the head of the stem than {lower} below it")


def _frames(file):
    length = length_mm(file)
    for before, after in pairwise(file.frame):
        if after.x_mm <= before.x_mm:
            yield (f"frame.{after.name}.x_mm", f"{after.x_mm:g} mm",
                   f"more than {before.x_mm:g} mm, the frame before it: order from bow to stern")
    spans = {one.name: span_mm(file, one) for one in file.stringer}
    spans = {name: span for name, span in spans.items() if None not in span}
    for name, (front, back) in spans.items():
        if front >= back:
            yield f"stringer.{name}", f"starts at {front:g}, ends at {back:g} mm", "start first"
    for frame in file.frame:
        if not 0 < frame.x_mm < length:
            yield f"frame.{frame.name}.x_mm", f"{frame.x_mm:g} mm", f"0 to {length:g} mm"
        yield from _points(file, frame, spans)


def _points(file, frame, spans):
    place = f"frame.{frame.name}.points_mm"
    alive = []
    for stringer in file.stringer:
        if stringer.name not in spans:
            continue
        front, back = spans[stringer.name]
        crosses = front + EDGE_MM < frame.x_mm < back - EDGE_MM
        at_end = min(abs(front - frame.x_mm), abs(back - frame.x_mm)) <= EDGE_MM
        blends = any(hasattr(end, "into") and abs(end.x_mm - frame.x_mm) <= EDGE_MM
                     for end in (stringer.start, stringer.end))
        if stringer.name in frame.points_mm:
            if crosses or (at_end and not blends):
                alive.append(stringer)
            else:
                yield (f"{place}.{stringer.name}", "given",
                       f"{stringer.name} runs only from {front:g} to {back:g} mm: remove it")
        elif crosses:
            yield (f"{place}.{stringer.name}", "missing",
                   f"[half-breadth, height]: {stringer.name} crosses this frame")
    known = {one.name for one in file.stringer}
    for name in frame.points_mm:
        if name not in known:
            yield f"{place}.{name}", "no such stringer", "a name from [[stringer]]"
    yield from _section_order(place, frame, alive)


def _section_order(place, frame, alive):
    points = {one.name: frame.points_mm[one.name] for one in alive}
    for one in alive:
        y = points[one.name][0]
        if y < 0:
            yield f"{place}.{one.name}", f"half-breadth {y:g} mm", "zero or more"
        if one.role in ("keel", "ridge") and y != 0:
            yield f"{place}.{one.name}", f"half-breadth {y:g} mm", f"0: the {one.role} is central"
    for lower, upper in pairwise(alive):
        (y_low, z_low), (y_up, z_up) = points[lower.name], points[upper.name]
        hull = upper.role in HULL_ROLES
        if hull and z_up <= z_low:
            yield (f"{place}.{upper.name}", f"height {z_up:g} mm",
                   f"above {lower.name} at {z_low:g} mm: crossing stringers fold the section")
        if not hull and (z_up < z_low or y_up > y_low):
            yield (f"{place}.{upper.name}", f"[{y_up:g}, {z_up:g}] mm",
                   f"inside and not below {lower.name} at [{y_low:g}, {z_low:g}] mm")
        if _tapers(frame, lower, upper):
            continue
        gap = ((y_up - y_low) ** 2 + (z_up - z_low) ** 2) ** 0.5
        stock = min(lower.width_mm, lower.depth_mm) / 2 + min(upper.width_mm, upper.depth_mm) / 2
        if gap < stock:
            yield (f"{place}.{upper.name}", f"{gap:.0f} mm from {lower.name}",
                   f"their stock is thicker than the gap: at least {stock:.0f} mm")


def _tapers(frame, lower, upper):
    """Near a blend the sticks are planed into each other, so their stock may overlap there."""
    return any(hasattr(end, "into") and abs(end.x_mm - frame.x_mm) <= TAPER_MM
               for one in (lower, upper) for end in (one.start, one.end))


def _cockpit(file):
    cockpit = file.cockpit
    front, back = cockpit.front_x_mm, cockpit.back_x_mm
    if front >= back or back > length_mm(file):
        yield "cockpit.front_x_mm", f"{front:g} to {back:g} mm", "front before back, in the hull"
        return
    inside = [one for one in file.frame if front - 150 <= one.x_mm <= back + 150]
    if not any(one.kind == "cockpit" for one in inside):
        yield ("cockpit", f"{front:g} to {back:g} mm meets no cockpit frame",
               "at least one frame of kind \"cockpit\" within 150 mm of the opening")
    gunwale = next(one.name for one in file.stringer if one.role == "gunwale")
    for frame in inside:
        half = frame.points_mm.get(gunwale, (float("inf"), 0.0))[0]
        if cockpit.width_mm / 2 >= half:
            yield ("cockpit.width_mm", f"{cockpit.width_mm:g} mm",
                   f"less than the beam at {frame.name}, {2 * half:g} mm")
    if not front < cockpit.seat_x_mm <= back + 100:
        yield ("cockpit.seat_x_mm", f"{cockpit.seat_x_mm:g} mm",
               f"between {front:g} and {back + 100:g} mm, under the opening")
