"""Getting in and out afloat: where hands may bear weight on this boat; words of the {name}s in
work.toml. What bears is our judgement: a frame with sticks lashed to it, and nothing else."""

from itertools import pairwise

from sizer.shop.said import both, listed

NEAR_M = 0.001  # nearer to an end of the opening a rim's support is that end


def boarding_words(job, bench):
    """{name: words} of a Job and its Bench."""
    boat, back = job.fitted.assessed.boat, job.fitted.assessed.boat.opening.back_x_m
    under = [one.over for one in bench.materials.coaming.notches]
    beside = [one for one in job.setting_up.stations if one.name in under]
    behind = next((one for one in job.setting_up.stations if one.faces_x_m[0] >= back),
                  job.setting_up.stations[-1])
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
