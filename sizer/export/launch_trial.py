"""The steadiness trial on the launch sheet: who stands where and does what, then a row a reading.
"""

import numpy as np

from sizer.built.trial import SIDES
from sizer.built.trial_weights import first_trial, heels_at_gm_deg
from sizer.export.pages import (
    INNER_MM,
    Picture,
    beside,
    heading,
    table,
    undivided,
    whole,
    words,
)
from sizer.export.pdf_canvas import BOLD
from sizer.scenes.trial_view import trial_view
from sizer.shop.stations import setting_up
from sizer.shop.work_room import helper_at
from sizer.units import MM_PER_M, both_mass, both_text

PICTURE_MM = 66.0  # of its width, so that its words are read at the water
BESIDE_MM = 6.0  # between it and the most that goes aboard
PAD_PT, STEPS_PT = 4.0, 9.5  # a hand writes there; read at the water
LAST_PAIRS = 2  # readings to each side with the heaviest weight; our judgement
NONE = ("NO TRIAL WITH WEIGHTS: in this boat with this paddler held stiff none is safe that shows "
        "anything, as calculated. Its steadiness stays unproved: paddled only in water as deep as "
        "told on page 1, helpers and an instructor beside, until it was worked out again from this "
        "sheet; the paddler lower or ballast low mends it.")
GO_BACK = ("Ending a trial: weight off, both helpers walk the boat, the paddler in it, back to the "
           "edge; out as told above.")


def trial_blocks(job):
    """The steps of the trial and its rows."""
    assessed = job.fitted.assessed
    weights = first_trial(assessed)
    yield from heading("Steadiness trial")
    if weights.safest_kg <= 0.0:
        yield words(NONE, face=BOLD)
        return
    drawing = trial_view(assessed.boat, float(assessed.start[0]), weights.place, 1.0,
                         lambda value_m: both_text(value_m * MM_PER_M), narrow=True)
    most, why = most_words(weights)
    told = table((most,), [(why,)], (1,), INNER_MM - PICTURE_MM - BESIDE_MM, STEPS_PT)
    yield beside(Picture(drawing, PICTURE_MM / MM_PER_M / drawing.width_m), told,
                 PICTURE_MM + BESIDE_MM, INNER_MM)
    for number, step in enumerate(trial_steps(job, weights), start=1):
        yield undivided(f"{number}. {step}", STEPS_PT)
    yield whole(table(("reading", "weight, cloth and cord", "to", "heels, as calculated",
                       "heels from reading 0 no more than", "read, degrees", "from reading 0"),
                      reading_rows(job, weights), (2, 4.6, 2.7, 3, 3.5, 3, 3), INNER_MM,
                      pad_pt=PAD_PT))


def trial_steps(job, weights):
    """What is done, in order, by whom and from where."""
    assessed, place = job.fitted.assessed, weights.place
    boat, behind = assessed.boat, place.x_m >= assessed.boat.opening.back_x_m
    hold = helper_at(boat, job.setting_up.stations).name
    one, two, over = (
        (f"the foredeck at {hold}", f"the afterdeck, behind {place.frame}",
         "behind the paddler's back") if behind else
        ("the afterdeck, behind the opening", f"the foredeck, ahead of {place.frame}",
         "ahead of the paddler's body"))
    yield ("Both helpers, hands on both gunwales all the way, walk the boat, the paddler in it, "
           "from the edge out to the depth told on page 1.")
    yield (f"Helper 1 stands beside {one}, hands open just under both gunwales, touching nothing, "
           "through every reading and until the paddler is out of the boat; catches it where it "
           f"goes over. Helper 2 stands beside {two}, and does all else. Nobody beside the "
           "cockpit: the paddler's head comes down there.")
    yield ("The paddler sits stiff and upright, hands in the lap, the spray deck rolled up behind "
           "the seat, the paddle ashore; where it turns over, out at once.")
    level = _degrees(weights.still_deg)
    yield ("Reading 0, no weight: helper 2 holds the lath level with the boat, across the rim "
           f"{over}, the phone or angle gauge on it, its cord round the wrist; lets the boat lie "
           "still, reads degrees and side, takes lath and phone off again. It lies over by no more "
           f"than {level}, else the paddler moves on the seat until it does; where "
           "that does not do it, no weight: end the trial.")
    yield (f"Then row by row. Helper 2 lays the weight {_place(boat, place)}: wrapped in the wet "
           "cloth so that it does not slide, the cord's end in the hand, no cord round anybody or "
           "across the opening; never on rim or lip. Lets the boat lie still, reads as before, "
           "takes the weight off by its cord, then writes.")
    yield ("From reading 0: where it heels to the side it lay over to, take reading 0 off; to the "
           "other, add it. More than the row allows: END THE TRIAL; with this paddler it is less "
           "steady than is asked for, and is not paddled until it was worked out again. No more? "
           "The next row.")
    yield GO_BACK


def most_words(weights):
    """The most that goes aboard, and why."""
    return (f"At most {both_mass(weights.safest_kg)}, however steady the boat seems.",
            "That is half of what turns it over with the paddler as high as he may sit, less what "
            f"it may lie over without a weight. {both_mass(weights.turns_over_kg)} there turn it "
            "over as calculated.")


def trial_kg(weights):
    """The weights that go aboard, rising."""
    return sorted({kg for _, kg in weights.steps if kg < weights.safest_kg}
                  | {weights.safest_kg})


def reading_rows(job, weights):
    """A row a reading: each weight to both sides, the heaviest LAST_PAIRS times."""
    assessed, kgs = job.fitted.assessed, trial_kg(weights)
    least = heels_at_gm_deg(assessed, asked_gm_m(job), kgs, weights.off_centre_m)
    calculated = heels_at_gm_deg(assessed, float(assessed.upright.gm_m), kgs, weights.off_centre_m)
    rows = [(both_mass(kg), _degrees(heel), _degrees(np.floor(10.0 * most) / 10.0))
            for kg, heel, most in zip(kgs, calculated, least, strict=True)]
    rows += rows[-1:] * (LAST_PAIRS - 1)
    level = f"lies over no more than {_degrees(weights.still_deg)}"
    found = [("0", "none", "–", "–", level, "", "–")]
    for kg, heel, most in rows:
        found += [(str(len(found) + add), kg, side, heel, most, "", "")
                  for add, side in enumerate(SIDES)]
    return found


def asked_gm_m(job):
    """The GM that a trial must not read less than: the least that its check asks for, or half-way
    from its use's least to the calculated where that is less. Our judgement."""
    check, least = job.fitted.check("gm"), job.person.use.least_gm_m
    half = 0.5 * (least + max(check.value / MM_PER_M, least))
    return min(check.window[1] / MM_PER_M, half)


def _degrees(heel):
    told = f"{heel:.1f}".removesuffix(".0")
    return f"{told} degree" + "s" * (told != "1")


def _place(boat, place):
    """Where the weight lies, in words."""
    front, back = boat.opening.front_x_m, boat.opening.back_x_m
    fore, aft = next(one.faces_x_m for one in setting_up(boat).stations if one.name == place.frame)
    apart = (f"its plywood {both_text((fore - back) * MM_PER_M)} behind the opening"
             if place.x_m >= back else
             f"its plywood {both_text((front - aft) * MM_PER_M)} ahead of the opening")
    return f"{off_words(place)}, {apart}, where it falls {place.slope_deg:.0f} degrees to the side"


def off_words(place):
    """How far off the centre a weight lies, and over which frame."""
    return (f"{both_text(place.off_centre_m * MM_PER_M)} off the centre, on the deck at "
            f"{place.frame}")
