"""What is left to move the footbrace, the mat under the heels, loops for the gear, floors that
bear no foot, and where hands may bear weight in getting in and out afloat: words of {name}s in
work.toml. What bears is our judgement: a frame with sticks lashed to it, and nothing else."""

from itertools import pairwise

import numpy as np

from sizer.hydro.flooded import RIM_UPSIDE_DOWN
from sizer.shop.bag_ties import PULL_KG
from sizer.shop.climbing import climbing_words, feet_lath_words, floor_at
from sizer.shop.coaming import coaming
from sizer.shop.deep import edge_words
from sizer.shop.foot_push import push_check_words
from sizer.shop.gear_ties import gear_loops_words
from sizer.shop.heel_mat import cords_words, mat_words
from sizer.shop.outfit import HOLE_STEP_M
from sizer.shop.reach import in_reach_words, pump_words
from sizer.shop.said import both, listed
from sizer.units import KG_PER_LB, MM_PER_M, both_text

BESIDE_M = 0.012  # of a floor from its notches, where it is measured; our drawing
PLACES = 61  # across it
NEARLY_M = 0.001  # of a hole's step, that rounding takes
HELPER_HALF_M = 0.300  # half a helper's breadth: room for legs over the rim; our judgement
NEAR_M = 0.001  # nearer to an end of the opening a rim's support is that end


def room_words(job, bench):
    """{name: words} of a Job and its Bench."""
    start, boat = job.setting_up.strongback_start_x_m, job.fitted.assessed.boat
    return {"brace_left": brace_left_words(bench.foot_rails),
            "floors": floor_words(bench.frames),
            "panel_pull": f"{PULL_KG:.0f} kg ({PULL_KG / KG_PER_LB:.0f} lb)",
            "gear_loops": gear_loops_words(bench.gear_ties),
            "heel_cords": cords_words(bench.heel_mat, start),
            "heel_mat": mat_words(bench.heel_mat, start),
            "climbing": climbing_words(bench.climbing),
            "feet_lath": feet_lath_words(boat, bench.foot_rails, bench.seat.footbrace,
                                         job.fitted.assessed.person.body),
            "push_check": push_check_words(bench.cleats),
            "pump": pump_words(boat), "in_reach": in_reach_words(boat)}


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
    return rails.set_m - rails.soles_m[0]


def no_hole_forward(rails):
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
    return min(floor_at(pattern, half).length for half in np.linspace(*ends, PLACES).tolist())


def hand_frames(job):
    """(Stations of the frames under the rim, that of the one behind it) of a Job: where hands bear
    weight."""
    boat, stations = job.fitted.assessed.boat, job.setting_up.stations
    under = [one.over for one in coaming(boat).notches]
    return ([one for one in stations if one.name in under],
            next((one for one in stations if one.faces_x_m[0] >= boat.opening.back_x_m),
                 stations[-1]))


def boarding_words(job):
    """{name: words} of a Job: getting in and out afloat, as the order of work is told."""
    return _boarding(job)[0]


def _boarding(job):
    """As `boarding_words`, and the same paragraph by paragraph."""
    boat, stations = job.fitted.assessed.boat, job.setting_up.stations
    back, (beside, behind) = boat.opening.back_x_m, hand_frames(job)
    places = [*(f"the gunwales at {one.name}, {_by_eye(back - one.x_m)} ahead of the opening's "
                "back" for one in beside),
              f"the gunwales at {behind.name}, {_by_eye(behind.faces_x_m[0] - back)} behind it"]
    told = (f"In and out {edge_words(job.fitted.assessed.particulars)}.", _held(boat, stations),
            f"Hands bear weight only where a frame stands under them: {listed(places)}; never on "
            "the rim.", *_in_and_out(boat.design.cockpit.entry, behind.name))
    return {"boarding": "\n".join(told), "rim_free": _rim_free(boat.opening, beside)}, told


def getting_in_words(job):
    """The same in paragraphs, for who has no order of work at hand: at the water, and the owner."""
    return ("Only as an instructor has shown you. The rim is no handrail: it is tied down at its "
            "notches alone, breaks or comes loose under a hand, and rolls the boat. In a wet exit "
            f"alone it is another matter: {RIM_UPSIDE_DOWN}. No weight on skin between sticks.",
            *_boarding(job)[1])


def helper_at(boat, stations):
    """The Station at which a helper holds the boat, room ahead of its opening."""
    front = boat.opening.front_x_m
    return ([one for one in stations if one.x_m <= front - HELPER_HALF_M] or stations[:1])[-1]


def _held(boat, stations):
    """Who holds the boat, and where: clear of the legs that come in over the rim."""
    front, at = boat.opening.front_x_m, helper_at(boat, stations)
    return (f"A helper stands beside the foredeck, clear of your legs, and holds both gunwales at "
            f"{at.name}, {_by_eye(front - at.x_m)} ahead of the opening's front, from before "
            "you touch the boat until both legs are in, and out again until you stand.")


def _by_eye(value_m):
    """A length that nobody marks, as an owner reads sizes."""
    return both_text(value_m * MM_PER_M)


def _in_and_out(entry, behind):
    if entry == "sit":
        return ("In: stand astride the boat, facing the bow, a foot on the bottom each side, the "
                "seat's middle under you, never beside it. A hand on each gunwale at "
                f"{behind}, behind you, sit down onto the middle of the seat, your weight on your "
                "feet until the seat has it: thighs may touch the rim's sides and rest nothing "
                "there. Then one leg after the other, knee drawn up, heel over the rim, straight "
                "in, no foot on the skin.",
                "Out: slowly, a leg out to each side, one after the other, knee drawn up, both "
                "feet flat on the bottom; a hand on each gunwale at "
                f"{behind}, behind you, push up, lean forward over your feet and stand.")
    return ("In: this opening is slid into. Stand astride the boat, facing the bow, a foot on the "
            f"bottom each side. Sit down on the middle of the deck at {behind}, nowhere else, "
            "hands on the gunwales there; one leg after the other in, straight, and slide; what "
            "that deck bears is not worked out: try it with little weight first.",
            f"Out: the same backwards, slowly: slide back onto the deck at {behind}, a leg out to "
            "each side, and stand.")


def _rim_free(opening, beside):
    """The stretches of the rim's sides that nothing stands under."""
    ends = [("its front", opening.front_x_m), *((one.name, one.x_m) for one in beside),
            ("its back", opening.back_x_m)]
    free = [f"from {name} to {other} {_by_eye(to - at)}"
            for (name, at), (other, to) in pairwise(ends) if to - at > NEAR_M]
    return f"Nothing stands under the rim's sides {listed(free)}: no hand there."
