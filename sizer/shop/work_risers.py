"""What the risers let in, hide and let go again, and what else holds a stick until it is lashed:
words of the {name}s in work.toml."""

from sizer.shop.bench_marks import seat_ties_hidden
from sizer.shop.blocks import TO_LIFT_OFF
from sizer.shop.planing import planed_notches
from sizer.shop.said import both, listed, marked
from sizer.shop.stem_stays import BLOCKS_OFF
from sizer.shop.work import called

SHALLOW_SHARE = 1.0 / 3.0  # of the keel's depth: lower walls of its notch do not hold it sideways
# while it is pushed, bent and planed; our judgement


def riser_words(bench):
    """{name: words} of a Bench."""
    made = bench.marks.risers
    hidden = [f"{one.frame}: {listed(one.hides)}" for one in made if one.hides]
    hung = [one.frame for one in made if one.kind == "hung"]
    unreached = _unreached(bench)
    ties = seat_ties_hidden(bench.seat, made)
    return {
        "risers": f"{len(made)} risers, each a pair",
        "hung": f"Hung from a bar: {listed(hung)}." if hung else "",
        "gunwales_in": _ends_in(bench, "gunwale"), "chines_in": _ends_in(bench, "chine"),
        "keel_held": _keel_held(bench),
        "unreached": f"Leave {listed(unreached)}, which no plane reaches here: on the bench, once "
                     "taken down, to the same figures; a straight edge tries it when it is "
                     "together again. " if unreached else "",
        "bench_planed": "plane on the bench what was left, " if unreached else "",
        "bench_planed_check": " A straight edge from the keel to the stick beside it, at every "
                              "frame, clear of the ledges, lies flat on both; where it does not, "
                              "take that stick out once more, plane, oil what is bare."
                              if unreached else "",
        "hidden": f"Behind the risers, so only when it is lifted off: {'; '.join(hidden)}."
                  if hidden else "",
        "hidden_now": f"Lash what was behind the risers: {'; '.join(hidden)}." if hidden else "",
        "seat_later": "".join(f" {words}" for words in seat_later(bench)),
        "seat_now": f" Tie the seat's {_both_sides(ties)} lashings that were left, before anybody "
                    "sits in it." if ties else "",
        "legs_too": " and those of the legs" if any(
            one.clear for one in bench.leg_stays) else "",
        "stays_off": BLOCKS_OFF, **_by_spacers(bench),
        "bars_off": _bars_off(hung, len(made)),
        "clamps_off": ("" if len(hung) == len(made) else
                       f"Open all {'other ' * bool(hung)}clamps. "),
    }


def _by_spacers(bench):
    """How frames go up that spacers join: a tenon goes in along the boat, and no frame moves that
    way once it is clamped to its cheeks; so off the beam, and all as one. Our judgement."""
    if not bench.spacers:
        return {"spacers": "", "other_frame": "", "by_spacers": ""}
    first, *others = dict.fromkeys(
        name for one in bench.spacers for name in (one.fore, one.aft))
    hung = [one.frame for one in bench.marks.risers
            if one.bar_m and one.frame in (first, *others)]
    bars = f", the bars over {listed(hung)} screwed on only then" if hung else ""
    long = listed([f"{one.fore} to {one.aft} {marked(one.between_m)}" for one in bench.spacers])
    raised = "; ".join(f"both spacers upright, {name} lowered onto their tenons" for name in others)
    return {
        "spacers": f"{listed([first, *others])} go up as one, two at it; frame by frame on their "
                   f"risers no tenon goes in. {first} flat on the floor, forward face down; "
                   f"{raised} (between the shoulders: {long}); a strap a side along all, "
                   "drawn until shoulders bear. Stand them up, lift them by both end frames over "
                   "the risers and straight down, each onto its ledges and against its cheeks; "
                   f"clamp, middles over the line{bars}.",
        "other_frame": "other ",
        "by_spacers": f"{listed([first, *others])} joined off the beam first, "}


def _both_sides(ties):
    """How many lashings of `seat_ties_hidden` wait, port and starboard."""
    return 2 * sum(map(len, ties.values()))


def seat_later(bench):
    """Which of the seat's lashings wait until the boat is off its risers, where any do."""
    ties = seat_ties_hidden(bench.seat, bench.marks.risers)
    if ties:
        every = 2 * sum(len(board.holes_m) for board in bench.seat.boards)
        numbers = sorted({str(one) for some in ties.values() for one in some})
        slats = f"slat{'s' * (len(numbers) > 1)} {listed(numbers)}"
        yield (f"Of its {every} lashings leave {_both_sides(ties)} untied now, those of {slats} "
               f"from the middle, port and starboard, at {listed(list(ties))}: the risers' cheeks "
               "stand where their cord goes up. They are tied in "
               f"{called()['at_lift-off']} of the order of work, and nobody sits on the seat "
               "before.")


def _keel_held(bench):
    """Where the keel's notch is too shallow to hold it sideways, and what does."""
    keel = next(one.stringer for one in bench.sticks if one.stringer.role == "keel")
    walls = {one.name: one.held_m()[keel.name][0] for one in bench.frames
             if keel.name in one.held_m()}
    low = {name: wall for name, wall in walls.items() if wall < SHALLOW_SHARE * keel.depth_m}
    if not low:
        return ""
    deep = listed([f"{both(wall)} deep at {name}" for name, wall in low.items()])
    return (f" Its notch is only {deep}: clamp a block to the plywood there, close on either side "
            "of it, until it is lashed.")


def _ends_in(bench, role):
    """What a pair of sticks of a role is led through before it lies in its notches."""
    names = [one.name for one in bench.sticks if one.stringer.role == role]
    met = {}
    for riser in bench.marks.risers:
        if within := tuple(name for name in names if name in riser.inside):
            boards = "legs" if riser.kind == "hung" else "cheeks"
            met.setdefault((boards, within), []).append(riser.frame)
    every = len(bench.frames)
    places = [f"the {boards} at {'every frame' if len(frames) == every else listed(frames)}"
              + (f" ({listed(within)})" if len(within) < len(names) else "")
              for (boards, within), frames in met.items()]
    return (f"Both ends first, lengthwise, inside {listed(places)}: one pushed past its place "
            "until the other is in. ") if places else ""


def _unreached(bench):
    """What is planed and stands where a plane does not pass: over the feet, inside cheeks, between
    hangers under their bar."""
    risers = {one.frame: one for one in bench.marks.risers}
    planed = [(pattern.name, notch) for pattern in bench.frames
              for notch in planed_notches(pattern)]
    beside, under = {}, {}
    for frame, notch in planed:
        if risers[frame].kind != "hung" and notch.stringer in risers[frame].inside:
            beside.setdefault(notch.stringer, []).append(frame)
        if risers[frame].kind == "hung" and notch.role == "ridge":
            under.setdefault(notch.stringer, []).append(frame)
    keel = ["the whole keel"] if any(notch.role == "keel" for _, notch in planed) else []
    return [*keel, *(f"the {name} inside the cheeks at {listed(frames)}"
                     for name, frames in beside.items()),
            *(f"the {name} under the bar at {listed(frames)}" for name, frames in under.items())]


def _bars_off(hung, count):
    """What is done with the bars over the deck before the boat can be lifted."""
    if not hung:
        return ""
    held = (f"Nothing stands under it: first {TO_LIFT_OFF} blocks on the strongback under its "
            "keel, at frames. " if len(hung) == count else "")
    return (f"{held}{'Then' if held else 'First'} the bars over {listed(hung)}: open their "
            "clamps, take out the screws from legs to bar, lift bar and hangers off as one. ")
