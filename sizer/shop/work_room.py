"""What is left to move the footbrace, the mat under the heels, loops for the gear, floors that
bear no foot, and where hands may bear weight in getting in and out afloat: words of {name}s in
work.toml. What bears is our judgement: a frame with sticks lashed to it, and nothing else."""

from itertools import pairwise

import numpy as np
from shapely.geometry import LineString

from sizer.shop.bag_ties import PULL_KG
from sizer.shop.gear_ties import gear_loops_words
from sizer.shop.heel_mat import cords_words, mat_words
from sizer.shop.outfit import HOLE_STEP_M
from sizer.shop.said import both, listed
from sizer.units import KG_PER_LB

BESIDE_M = 0.012  # of a floor from its notches, where it is measured; our drawing
PLACES = 61  # across it
FAR_M = 2.0  # well above any frame
NEARLY_M = 0.001  # of a hole's step, that rounding takes
NEAR_M = 0.001  # nearer to an end of the opening a rim's support is that end


def room_words(job, bench):
    """{name: words} of a Job and its Bench."""
    start = job.setting_up.strongback_start_x_m
    return {"brace_left": brace_left_words(bench.foot_rails),
            "floors": floor_words(bench.frames),
            "panel_pull": f"{PULL_KG:.0f} kg ({PULL_KG / KG_PER_LB:.0f} lb)",
            "gear_loops": gear_loops_words(bench.gear_ties),
            "heel_cords": cords_words(bench.heel_mat, start),
            "heel_mat": mat_words(bench.heel_mat, start)}


def brace_left_words(rails):
    """How far the pedals of FootRails can go from this paddler's place, and what to do where that
    is not a hole."""
    fore, aft = forward_left_m(rails), rails.soles_m[-1] - rails.set_m
    if no_hole_forward(rails):
        return (f"NO HOLE IS LEFT FORWARD of it ({both(fore)}; {both(aft)} aft): sit in the "
                "thickest shoes that will be worn. Do they press the knees up or the back into its "
                "band: stop, before rails are bored, skin sewn. Thinner soles; else have the boat "
                "fitted again with the leg as it is. Never let the backband out for it, nor saw "
                "the frame ahead. [j]")
    return (f"It can go {both(fore)} forward of it and {both(aft)} aft; do legs want more, stop "
            "and have the boat fitted again. [j]")


def forward_left_m(rails):
    """How far the pedals can go forward of this paddler's place."""
    return rails.set_m - rails.soles_m[0]


def no_hole_forward(rails):
    """Whether they cannot go forward by one hole."""
    return forward_left_m(rails) < HOLE_STEP_M - NEARLY_M


def floor_words(frames):
    """What the floors of the cockpit's frames are not there for, and how deep the least of them is
    between the keel and the stick beside it."""
    deep = {one.name: floor_m(one) for one in frames if one.kind == "cockpit"}
    name = min(deep, key=deep.get)
    return (f"No foot and no knee on a frame's floor: beside the keel that of {name} is "
            f"{both(deep[name])} deep, and none is reckoned to bear one: only on the board, which "
            "lies on the keel.")


def floor_m(pattern):
    """Least depth of a FramePattern's floor, upright, between keel and the next stick."""
    keel, chine = pattern.section.notches[:2]
    ends = keel.room().bounds[2] + BESIDE_M, chine.room().bounds[0] - BESIDE_M
    found = []
    for half in np.linspace(*ends, PLACES).tolist():
        cut = pattern.wood.intersection(LineString([(half, -FAR_M), (half, FAR_M)]))
        lowest = min(getattr(cut, "geoms", [cut]), key=lambda one: one.bounds[1])
        found.append(lowest.length)
    return min(found)


def hand_frames(job, bench):
    """(Stations of the frames under the rim, that of the one behind it) of a Job and its Bench:
    where hands bear weight."""
    back = job.fitted.assessed.boat.opening.back_x_m
    under = [one.over for one in bench.materials.coaming.notches]
    return ([one for one in job.setting_up.stations if one.name in under],
            next((one for one in job.setting_up.stations if one.faces_x_m[0] >= back),
                 job.setting_up.stations[-1]))


def boarding_words(job, bench):
    """{name: words} of a Job and its Bench."""
    boat, back = job.fitted.assessed.boat, job.fitted.assessed.boat.opening.back_x_m
    beside, behind = hand_frames(job, bench)
    places = [*(f"the gunwales at {one.name}, {both(back - one.x_m)} ahead of the opening's back"
                for one in beside),
              f"the gunwales at {behind.name}, {both(behind.faces_x_m[0] - back)} behind it"]
    sit = boat.design.cockpit.entry == "sit"
    return {
        "hold_frame": (beside or [behind])[-1].name, "hands": listed(places),
        "get_in": (
            f"In: stand beside the seat, back to it, one hand on each gunwale at {behind.name}, "
            "lower yourself onto the middle of the seat in one movement, then the legs, one after "
            "the other, without a foot on the skin." if sit else
            f"In: this opening is slid into. Sit on the middle of the deck at {behind.name}, "
            "nowhere else, legs straight in, and slide; what that deck bears is not worked out: "
            "try it with little weight first."),
        "get_out": f"{'legs first' if sit else 'sliding back'}, hands at {behind.name}",
        "rim_free": _rim_free(boat.opening, beside)}


def _rim_free(opening, beside):
    """The stretches of the rim's sides that nothing stands under."""
    ends = [("its front", opening.front_x_m), *((one.name, one.x_m) for one in beside),
            ("its back", opening.back_x_m)]
    free = [f"from {name} to {other} {both(to - at)}"
            for (name, at), (other, to) in pairwise(ends) if to - at > NEAR_M]
    return f"Nothing stands under the rim's sides {listed(free)}: no hand there."
