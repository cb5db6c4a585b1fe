"""The steadiness trial on the launch sheet: who stands where and does what, then a row a reading.
"""

from sizer.built.steadiness import LESS, PAIRS, STEADY, UNTOLD, first_trial, limits
from sizer.built.trial import SIDES
from sizer.export.launch_answer import UNPROVED, VERDICTS
from sizer.export.pages import (
    INNER_MM,
    Picture,
    air,
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

UNDER_MM = 58.0  # that its picture stands under its heading; our drawing
PICTURE_MM = 66.0  # of its width, so that its words are read at the water
BESIDE_MM = 6.0  # between it and the most that goes aboard
PAD_PT, STEPS_PT = 4.0, 9.5  # a hand writes there; read at the water
STEP_SHARE = 0.8  # of the most: a step nearer to it is left out; our judgement
LETTERS = "S", "P"  # of SIDES, at the water
BOX = f"______ {' / '.join(LETTERS)}"  # degrees, and the side, one of which is ringed
SHOWN = 0.1, 0.8  # readings that a swing is shown by, deg: S, then P
NONE = ("NO TRIAL WITH WEIGHTS: in this boat with this paddler held stiff no weight is both safe "
        f"and enough to tell how steady it is, as calculated. {UNPROVED}; the paddler lower or "
        "ballast low mends it.")
GO_BACK = ("Ending a trial: weight off, both helpers walk the boat, the paddler in it, back to the "
           "edge; out as told above.")


def trial_blocks(job):
    """The steps of the trial and its rows."""
    assessed = job.fitted.assessed
    weights = first_trial(job.fitted)
    yield from heading("Steadiness trial", UNDER_MM)
    if weights.safest_kg <= 0.0:
        yield words(NONE, face=BOLD)
        return
    hold = helper_at(assessed.boat, job.setting_up.stations)
    drawing = trial_view(assessed.boat, hold.x_m, weights.place,
                         lambda value_m: both_text(value_m * MM_PER_M), narrow=True)
    most, why = most_words(weights)
    told = table((most,), [(why,)], (1,), INNER_MM - PICTURE_MM - BESIDE_MM, STEPS_PT)
    yield beside(Picture(drawing, PICTURE_MM / MM_PER_M / drawing.width_m), told,
                 PICTURE_MM + BESIDE_MM, INNER_MM)
    for number, step in enumerate(trial_steps(job, weights), start=1):
        yield undivided(f"{number}. {step}", STEPS_PT)
    rows = reading_rows(job, weights)
    yield whole(table(("reading", "weight, cloth and cord", "to", "swings, as calculated",
                       "END over", "lies over, degrees, and side", "swung, degrees"), rows,
                      (2, 4.6, 2.7, 3, 2.2, 4, 3), INNER_MM, pad_pt=PAD_PT))
    yield whole(air(), words(sum_words(rows), face=BOLD),
                *(words(f"[   ] {one}") for one in verdict_words(job, weights)))


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
    level = weights.still_deg
    yield (f"Reading 0, no weight: helper 2 lays the lath across the rim {over}, level with the "
           "boat, its middle over the centre line, the phone or angle gauge taped on that: it lies "
           "there by itself, both hands off. The boat still, helper 2 reads degrees and side, "
           "takes lath and phone off again and calls both to who writes ashore: S where starboard "
           f"is lower, P where port is. It lies over by no more than {_degrees(level)}, else the "
           "paddler moves on the seat until it does; where that does not do it, no weight: end the "
           "trial.")
    yield (f"Then row by row. Helper 2 lays the weight {_place(boat, place)}: wrapped in the wet "
           "cloth so that it does not slide, the cord's end hanging free outboard, no cord round "
           "anybody or across the opening; never on rim or lip. Reads as before, hands off, and "
           "takes the weight off by its cord.")
    near, far = SHOWN
    yield ("Swung: how far from reading 0, towards the weight. Both on one side: the larger less "
           "the smaller; through upright: both added. After "
           f"{level:.1f} S a weight to port, {near:g} S: swung {level - near:.1f}; {far:g} P: "
           f"swung {level + far:.1f}. Away from the weight: read again. Over the row's most: END "
           "THE TRIAL AT ONCE, not paddled until it was worked out again. Else the next row.")
    yield GO_BACK


def most_words(weights):
    """The most that goes aboard, and why."""
    return (f"At most {both_mass(weights.safest_kg)}, however steady the boat seems.",
            "That is half of what turns it over with the paddler sitting higher than reckoned, as "
            "may be, less what it may lie over without a weight. "
            f"{both_mass(weights.turns_over_kg)} there turn it over as calculated.")


def trial_kg(weights):
    """The weights that go aboard, rising."""
    most = weights.safest_kg
    return [*sorted({kg for _, kg in weights.steps if kg < STEP_SHARE * most}), most]


def reading_rows(job, weights):
    """A row a reading: each weight to both sides, the heaviest PAIRS times."""
    rows = [("0", "none", "–", "–", f"{weights.still_deg:.1f}", BOX, "–")]
    *steps, most = trial_kg(weights)
    for kg in (*steps, *[most] * PAIRS):
        by = limits(job.fitted, job.fitted.assessed, kg, weights.off_centre_m)
        rows += [(str(len(rows) + add), both_mass(kg), side, f"{by.calculated_deg:.1f}",
                  f"{by.stop_deg:.1f}", BOX, "") for add, side in enumerate(SIDES)]
    return rows


def sum_words(rows):
    """What is added up of the heaviest weight's rows of `reading_rows`."""
    last = len(rows) - 1
    return (f"Swings of readings {last - PAIRS * len(SIDES) + 1} to {last}, added up: ______ "
            "degrees. That is:")


def verdict_words(job, weights):
    """What their sum says, a choice each."""
    by = limits(job.fitted, job.fitted.assessed, weights.safest_kg, weights.off_centre_m)
    calculated, steady, less = (f"{by.many * one:.1f}" for one in (
        by.calculated_deg, by.steady_deg, by.less_deg))
    ends = {STEADY: f"{steady} or less (as calculated {calculated})",
            UNTOLD: f"over {steady}, to {less}", LESS: f"over {less}"}
    return [f"{end}: {VERDICTS[one]}" for one, end in ends.items()]


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
