"""What has to agree between the parts of a base design file, in the file's own millimetres."""

from itertools import pairwise

from sizer.design.allowed import BODY_MASS_INDEX_KGPM2
from sizer.design.check_seat import seat_faults
from sizer.design.extent import EDGE_MM, length_mm, span_mm
from sizer.design.records import ROLES
from sizer.errors import Fault
from sizer.units import MM_PER_M

WIDEST_MM, LOWEST_MM, HIGHEST_MM = 800, -500, 1500  # of a frame's points; our judgement
TAPER_MM = 700  # a blending stick may be planed to a taper over this; our judgement
HULL_ROLES = ("keel", "chine", "gunwale")
DECK_ROLES = ("deck", "ridge")


def faults_between(file, source):
    """Every disagreement in a validated design file, as a list of Fault.

    Each is found as (path, value, allowed), and where that says more, the paths of what it is
    about.
    """
    names = [*_names(file)]
    found = [*_paddler(file), *_uses(file), *_limits(file), *names, *_ends(file), *_stems(file)]
    if not names:  # the rest leans on each stringer's name and place among the others
        found += [*_frames(file), *_cockpit(file), *seat_faults(file)]
    return [Fault(f"{source}: {_words(file, path)}", value, allowed, tuple(about) or (path,))
            for path, value, allowed, *about in found]


def _words(file, path):
    """A path as words, with the name of a stringer or frame in place of its number."""
    table, *keys = path
    if table in ("stringer", "frame") and keys:
        keys[0] = getattr(file, table)[keys[0]].name
    return ".".join((table, *keys))


def _paddler(file):
    drawn = file.drawn_for
    low, high = (index * (drawn.stature_mm / MM_PER_M)**2 for index in BODY_MASS_INDEX_KGPM2)
    if not low <= drawn.weight_kg <= high:
        yield (("drawn_for", "weight_kg"), f"{drawn.weight_kg:g} kg",
               f"{low:.0f} to {high:.0f} kg with a stature of {drawn.stature_mm:g} mm")


def _uses(file):
    use = file.drawn_for.use
    if use not in file.suits:
        yield ("drawn_for", "use"), repr(use), f"one of suits: {', '.join(file.suits)}"
    for use in file.lacks:
        if not use.strip() or ":" in use:
            yield ("lacks", use), repr(use), "a use's name, without a colon"
        if use in file.suits:
            yield ("lacks", use), "one of suits", "a use that it does not suit; take one out"


def _limits(file):
    for key, (low, high) in file.limits:
        if low > high:
            yield ("limits", key), f"[{low:g}, {high:g}]", "the lowest comes first"
        elif not key.endswith("_mm") and not low <= 1.0 <= high:
            yield (("limits", key), f"[{low:g}, {high:g}]",
                   "must allow the base itself, factor 1")
    cockpit, limits = file.cockpit, file.limits
    opening = cockpit.back_x_mm - cockpit.front_x_mm
    for words, key, value, (low, high) in (
        ("front_x_mm to back_x_mm", "front_x_mm", opening, limits.cockpit_length_mm),
        ("width_mm", "width_mm", cockpit.width_mm, limits.cockpit_width_mm),
    ):
        if not low <= value <= high:
            yield (("cockpit", words), f"{value:g} mm",
                   f"has to be within this file's own limits, {low:g} to {high:g} mm",
                   ("cockpit", key))
    near, far = cockpit.footbrace_reach_mm
    if near >= far:
        yield (("cockpit", "footbrace_reach_mm"), f"[{near:g}, {far:g}]",
               "the nearest comes first")


def _names(file):
    for kind, items in (("stringer", file.stringer), ("frame", file.frame)):
        names = [one.name for one in items]
        for name in sorted({name for name in names if names.count(name) > 1}):
            twins = [at for at, one in enumerate(names) if one == name]
            yield ((kind, twins[0]), f"named {len(twins)} times", "each name once",
                   *((kind, at, "name") for at in twins))
    roles = [one.role for one in file.stringer]
    for role in ("keel", "gunwale"):
        if roles.count(role) != 1:
            yield ("stringer",), f"{roles.count(role)} with role {role}", "exactly one"
    if roles.count("ridge") not in (1, 2):
        yield ("stringer",), f"{roles.count('ridge')} with role ridge", (
            "one before the cockpit and one behind it, or one over both")
    for at, (lower, upper) in enumerate(pairwise(file.stringer), start=1):
        if ROLES.index(lower.role) > ROLES.index(upper.role):
            yield (("stringer", at), f"{upper.role} after {lower.role}",
                   "order from keel through chines, gunwale and deck to ridge",
                   ("stringer", at, "role"))


def _ends(file):
    stringers = {one.name: one for one in file.stringer}
    for at, one in enumerate(file.stringer):
        for key, end, stem, where in (("start", one.start, file.bow, "bow"),
                                      ("end", one.end, file.stern, "stern")):
            path = ("stringer", at, key)
            if end == "stem" and one.name not in stem.lands_mm:
                yield (where, "lands_mm", one.name), "missing", f"{one.name} ends on this stem"
            if end == "coaming" and one.role != "ridge":
                yield path, '"coaming"', "only ridges; end others at an x"
            if one.role in ("keel", "gunwale") and end != "stem":
                yield path, repr(end), f'the {one.role} runs from stem to stem: "stem"'
            if hasattr(end, "into"):
                yield from _blend(path, one, end.into, stringers)
    for where, stem in (("bow", file.bow), ("stern", file.stern)):
        key = "start" if where == "bow" else "end"
        for name in stem.lands_mm:
            if name not in stringers:
                yield (where, "lands_mm", name), "no such stringer", "a name from [[stringer]]"
            elif getattr(stringers[name], key) != "stem":
                yield ((where, "lands_mm", name), f"its {key} is not \"stem\"",
                       "remove it, or let the stringer reach the stem")


def _blend(path, one, host_name, stringers):
    host = stringers.get(host_name)
    if host is None or host is one:
        yield path, f"into {host_name!r}", "the name of another stringer"
    elif any(hasattr(end, "into") for end in (host.start, host.end)):
        yield path, f"into {host_name!r}", "a stringer that does not itself blend into another"
    elif (one.role in DECK_ROLES) != (host.role in (*DECK_ROLES, "gunwale")) and (
            one.role in DECK_ROLES or host.role in DECK_ROLES):
        yield path, f"into {host_name!r}", "hull into hull, deck into gunwale, deck or ridge"


def _stems(file):
    for where, stem in (("bow", file.bow), ("stern", file.stern)):
        profile = (where, "profile_mm")
        xs = [x for x, _ in stem.profile_mm]
        zs = [z if where == "bow" else -z for _, z in stem.profile_mm]
        back = [at for at, (a, b) in enumerate(pairwise(xs), start=1) if b <= a]
        if back:
            yield (profile, "x does not rise", "points from bow to stern, each x larger",
                   *((*profile, at, 0) for at in back))
            continue
        up = [at for at, (a, b) in enumerate(pairwise(zs), start=1) if b > a]
        if up:
            yield (profile, "height turns back",
                   "from the stem's head the profile only goes down to the keel",
                   *((*profile, at, 1) for at in up))
        if where == "bow" and abs(xs[0]) > EDGE_MM:
            yield (profile, f"starts at x = {xs[0]:g}", "x = 0, the foremost point",
                   (*profile, 0, 0))
        keel = next((one.name for one in file.stringer if one.role == "keel"), None)
        foot = xs[-1] if where == "bow" else xs[0]
        for name, x in stem.lands_mm.items():
            if not xs[0] - EDGE_MM <= x <= xs[-1] + EDGE_MM:
                yield ((where, "lands_mm", name), f"{x:g} mm",
                       f"has to be on the stem's profile, {xs[0]:g} to {xs[-1]:g} mm")
            elif name == keel and abs(x - foot) > EDGE_MM:
                yield ((where, "lands_mm", name), f"{x:g} mm",
                       f"the keel ends where the profile ends, at {foot:g} mm")
        yield from _landing_order(where, stem, file)
    if file.bow.profile_mm[-1][0] >= file.stern.profile_mm[0][0]:
        yield (("stern", "profile_mm"), "begins ahead of the bow stem's end",
               "has to begin behind it", ("stern", "profile_mm", 0, 0))


def _landing_order(where, stem, file):
    head = file.bow.profile_mm[0][0] if where == "bow" else file.stern.profile_mm[-1][0]
    hull = [one.name for one in file.stringer
            if one.role in HULL_ROLES and one.name in stem.lands_mm]
    for lower, upper in pairwise(hull):
        if abs(stem.lands_mm[lower] - head) < abs(stem.lands_mm[upper] - head):
            yield ((where, "lands_mm", upper), f"{stem.lands_mm[upper]:g} mm",
                   f"has to be no farther from the head of the stem than {lower} below it")


def _frames(file):
    length = length_mm(file)
    for at, (before, after) in enumerate(pairwise(file.frame), start=1):
        if after.x_mm <= before.x_mm:
            yield (("frame", at, "x_mm"), f"{after.x_mm:g} mm",
                   f"has to be more than {before.x_mm:g} mm, where the frame before it stands: "
                   "order from bow to stern")
    spans = {one.name: span_mm(file, one) for one in file.stringer}
    spans = {name: span for name, span in spans.items() if None not in span}
    for at, one in enumerate(file.stringer):
        front, back = spans.get(one.name, (0.0, 1.0))
        if front >= back:
            yield (("stringer", at), f"starts at {front:g}, ends at {back:g} mm", "start first",
                   ("stringer", at, "start"), ("stringer", at, "end"))
    for at, frame in enumerate(file.frame):
        if not 0 < frame.x_mm < length:
            yield ("frame", at, "x_mm"), f"{frame.x_mm:g} mm", f"0 to {length:g} mm"
        yield from _points(file, frame, spans, ("frame", at, "points_mm"))


def _points(file, frame, spans, path):
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
                yield ((*path, stringer.name), "given",
                       f"{stringer.name} runs only from {front:g} to {back:g} mm: remove it")
        elif crosses:
            yield ((*path, stringer.name), "missing",
                   f"[half-breadth, height]: {stringer.name} crosses this frame")
    known = {one.name for one in file.stringer}
    for name in frame.points_mm:
        if name not in known:
            yield (*path, name), "no such stringer", "a name from [[stringer]]"
    yield from _section_order(path, frame, alive)


def _section_order(path, frame, alive):
    points = {one.name: frame.points_mm[one.name] for one in alive}
    for one in alive:
        (y, z), point = points[one.name], (*path, one.name)
        if y > WIDEST_MM:
            yield point, f"half-breadth {y:g} mm", f"at most {WIDEST_MM} mm", (*point, 0)
        if not LOWEST_MM <= z <= HIGHEST_MM:
            yield (point, f"height {z:g} mm", f"{LOWEST_MM} to {HIGHEST_MM} mm over the baseline",
                   (*point, 1))
        if y < 0:
            yield point, f"half-breadth {y:g} mm", "zero or more", (*point, 0)
        if one.role in ("keel", "ridge") and y != 0:
            yield point, f"half-breadth {y:g} mm", f"0: the {one.role} is central", (*point, 0)
    for lower, upper in pairwise(alive):
        (y_low, z_low), (y_up, z_up) = points[lower.name], points[upper.name]
        hull, point = upper.role in HULL_ROLES, (*path, upper.name)
        if hull and z_up <= z_low:
            yield (point, f"height {z_up:g} mm",
                   f"has to be over {lower.name}, which is at {z_low:g} mm: crossing stringers "
                   "fold the section",
                   (*point, 1))
        if not hull and (z_up < z_low or y_up > y_low):
            yield (point, f"[{y_up:g}, {z_up:g}] mm",
                   f"has to be inside {lower.name} and not under it, which is at "
                   f"[{y_low:g}, {z_low:g}] mm")
        if _tapers(frame, lower, upper):
            continue
        gap = ((y_up - y_low) ** 2 + (z_up - z_low) ** 2) ** 0.5
        stock = min(lower.width_mm, lower.depth_mm) / 2 + min(upper.width_mm, upper.depth_mm) / 2
        if gap < stock:
            yield (point, f"{gap:.0f} mm from {lower.name}",
                   f"their stock is thicker than the gap: at least {stock:.0f} mm")


def _tapers(frame, lower, upper):
    """Near a blend the sticks are planed into each other, so their stock may overlap there."""
    return any(hasattr(end, "into") and abs(end.x_mm - frame.x_mm) <= TAPER_MM
               for one in (lower, upper) for end in (one.start, one.end))


def _cockpit(file):
    cockpit = file.cockpit
    front, back = cockpit.front_x_mm, cockpit.back_x_mm
    if front >= back or back > length_mm(file):
        yield (("cockpit", "front_x_mm"), f"{front:g} to {back:g} mm",
               "front before back, in the hull")
        return
    inside = [one for one in file.frame if front - 150 <= one.x_mm <= back + 150]
    if not any(one.kind == "cockpit" for one in inside):
        yield (("cockpit",), f"{front:g} to {back:g} mm meets no cockpit frame",
               "at least one frame of kind \"cockpit\" within 150 mm of the opening",
               ("cockpit", "front_x_mm"), ("cockpit", "back_x_mm"))
    gunwale = next(one.name for one in file.stringer if one.role == "gunwale")
    for frame in inside:
        half = frame.points_mm.get(gunwale, (float("inf"), 0.0))[0]
        if cockpit.width_mm / 2 >= half:
            yield (("cockpit", "width_mm"), f"{cockpit.width_mm:g} mm",
                   f"has to be less than the beam at {frame.name}, {2 * half:g} mm")
    if not front < cockpit.seat_x_mm <= back + 100:
        yield (("cockpit", "seat_x_mm"), f"{cockpit.seat_x_mm:g} mm",
               f"has to be between {front:g} and {back + 100:g} mm, under the opening")
