"""The steadiness trial on the launch sheet: who stands where and does what, then a row a reading.
"""

from dataclasses import dataclass

from sizer.built.steadiness import LESS, PAIRS, STEADY, UNTOLD, first_trial, limits
from sizer.built.trial import SIDES
from sizer.built.trial_weights import SAFE_SHARE
from sizer.export.launch_answer import GAUGE, UNPROVED, VERDICTS
from sizer.export.pages import INNER_MM, Picture, air, beside, heading, table, whole, words
from sizer.export.pdf_canvas import BOLD
from sizer.scenes.trial_view import trial_view
from sizer.shop.said import at_most
from sizer.shop.stations import setting_up
from sizer.shop.work_room import helper_at
from sizer.units import MM_PER_M, both_mass, both_text

PICTURE_MM = 74.0  # of its width, so that its words are read at the water; our drawing
BESIDE_MM = 5.0  # between it and the most that goes aboard
PAD_PT, STEPS_PT, ROWS_PT = 2.8, 8.8, 9.0  # a hand writes there; read at the water
STEP_SHARE = 0.8  # of the most: a step nearer to it is left out; our judgement
LETTERS = "S", "P"  # of SIDES, at the water
BOX = f"______ {' / '.join(LETTERS)}"  # degrees, and the side, one of which is ringed
SHOWN = 0.1, 0.8  # readings that a swing is shown by, deg: S, then P
NONE = ("NO TRIAL WITH WEIGHTS: in this boat with this paddler held stiff no weight is both safe "
        f"and enough to tell how steady it is, as calculated. {UNPROVED}; the paddler lower or "
        "ballast low mends it. Go on with “Swamped”.")
GO_ON, STOP = "Go on.", "STOP."
AFTER = {STEADY: GO_ON, UNTOLD: GO_ON, LESS: STOP}  # what follows each verdict
ANEW = f"Reading 0 anew, before row ____: {BOX}     before row ____: {BOX}"
# To where it is deep enough, and back.
WALKED = ("Both helpers, hands on both gunwales all the way, walk the boat, the paddler in it, out "
          "to the depth told on page 1: nothing is read and nobody lets go before.")
BACK = ("To end, or at a STOP: weight off, both helpers, hands on both gunwales, walk the boat "
        "back to the edge; out as told.")


@dataclass(frozen=True)
class Standing:
    """Where helpers and lath are, in words, and the end that helper 2 goes round."""

    one: str
    two: str
    lath: str
    end: str


def trial_blocks(job):
    assessed = job.fitted.assessed
    weights = first_trial(job.fitted)
    if weights.safest_kg <= 0.0:
        yield from heading("Steadiness trial")
        yield words(NONE, face=BOLD)
        return
    hold = helper_at(assessed.boat, job.setting_up.stations)
    drawing = trial_view(assessed.boat, hold, weights.place,
                         lambda value_m: both_text(value_m * MM_PER_M), narrow=True)
    most, why = most_words(weights)
    told = table((most,), [(why + may_not_tell(job, weights),)], (1,),
                 INNER_MM - PICTURE_MM - BESIDE_MM, STEPS_PT)
    rows = reading_rows(job, weights)
    picture = Picture(drawing, PICTURE_MM / MM_PER_M / drawing.width_m)
    _, title = heading("Steadiness trial")
    yield whole(
        title, beside(picture, told, PICTURE_MM + BESIDE_MM, INNER_MM),
        *(words(f"{number}. {step}", STEPS_PT)
          for number, step in enumerate(trial_steps(job, weights), start=1)),
        table(("reading", "weight, cloth and cord", "to", "swings, as calculated", "END over",
               "lies over, degrees, side", "swung, degrees"), rows, (1.8, 4, 2.4, 3.6, 2.2, 3.6, 3),
              INNER_MM, ROWS_PT, pad_pt=PAD_PT),
        air(), words(ANEW, ROWS_PT), air(), words(sum_words(rows), STEPS_PT, BOLD),
        *(words(f"[   ] {one}", STEPS_PT) for one in verdict_words(job, weights)))


def standing(job):
    boat, place = job.fitted.assessed.boat, first_trial(job.fitted).place
    if place.x_m >= boat.opening.back_x_m:
        hold = helper_at(boat, job.setting_up.stations).name
        return Standing(f"the foredeck at {hold}", f"the afterdeck, behind {place.frame}",
                        "behind the paddler's back, both its ends as far from the opening's back",
                        "stern")
    return Standing("the afterdeck, behind the opening", f"the foredeck, ahead of {place.frame}",
                    "ahead of the paddler's body, both its ends as far from the opening's front",
                    "bow")


def sitting_steps(job):
    """How the boat comes out to where it is read, and who stands where."""
    yield f"Wet exits practised? Then in as told above, at the edge, held. {WALKED}"
    yield (f"There helper 1 stands beside {standing(job).one}, one arm across it, hands open just "
           "under both gunwales, touching nothing, until the boat is walked back, and catches it "
           "where it begins to go over. Helper 2 does all else. Nobody beside the cockpit, where a "
           "head comes down; where the sheer is lowest there, helper 2 reads at arm's length and "
           "steps away.")
    yield BACK


def trial_steps(job, weights):
    """What is done, in order, by whom and from where."""
    place, at = weights.place, standing(job)
    yield ("Boat and helper 1 as before. Helper 2 stands beside "
           f"{at.two}, goes round the {at.end} to the other side and never reaches across. The "
           "paddler sits stiff and upright, hands in the lap, the spray deck rolled up behind the "
           "seat, the paddle ashore.")
    level = weights.still_deg
    yield (f"Reading 0, no weight: helper 2 lays the lath across the rim {at.lath}, its middle "
           f"over the centre line, {GAUGE}. Both hands off, the boat still, helper 2 reads degrees "
           "and side, takes lath and phone off again and calls both to who writes ashore: S where "
           f"starboard is lower, P where port is. It lies over by no more than {_degrees(level)}, "
           "else the paddler moves on the seat until it does; where that does not do it, no "
           "weight: STOP.")
    yield (f"Then row by row. Helper 2, on the row's side, lays the weight "
           f"{_place(job.fitted.assessed.boat, place)}, itself no wider across the boat than "
           f"{at_most(place.wide_m)}: wrapped in the wet cloth so that it does not slide, the "
           "cord's end hanging free outboard, no cord round anybody or across the opening; never "
           "on rim or lip. Reads as before, hands off, and takes the weight off by its cord. Where "
           "the paddler has moved, reading 0 is read anew, and written below the table with the "
           "number of the row that follows.")
    near, far = SHOWN
    yield ("Swung: how far from reading 0, towards the weight. Both on one side: the larger less "
           "the smaller; through upright: both added. After "
           f"{level:.1f} S a weight to port, {near:g} S: swung {level - near:.1f}; {far:g} P: "
           f"swung {level + far:.1f}. Away from the weight: read again; a second time: STOP. One "
           "swing over the row's END: STOP AT ONCE, the last box below. Else the next row: their "
           "sum judges.")


def most_words(weights):
    """The most that goes aboard, and why."""
    half = round(SAFE_SHARE * weights.high_over_kg, 2)
    lean = max(half - weights.safest_kg, 0.0)
    return (f"At most {both_mass(weights.safest_kg)}, however steady the boat seems.",
            f"{both_mass(weights.turns_over_kg)} there turn it over as calculated, "
            f"{both_mass(weights.high_over_kg)} where the paddler sits higher than reckoned. Half "
            f"of that is {both_mass(half, 2)}; {both_mass(lean, 2)} are kept for how far it may "
            "lie over without a weight, and for rounding.")


def may_not_tell(job, weights):
    """That readings may be too coarse for a boat that is as calculated, where they may be."""
    if limits(job.fitted, job.fitted.assessed, weights.safest_kg,
              weights.off_centre_m).tells_surely:
        return ""
    return (" A boat that is as calculated may end at “cannot tell”: so light a weight is read too "
            "coarsely. Whoever made these papers can work out a trial that goes on from there.")


def trial_kg(weights):
    most = weights.safest_kg
    return [*sorted({kg for _, kg in weights.steps if kg < STEP_SHARE * most}), most]


def reading_rows(job, weights):
    """A row a reading: each weight to both sides, the heaviest PAIRS times."""
    rows = [("0", "none", "–", "–", "see 2", BOX, "–")]
    *steps, most = trial_kg(weights)
    for kg in (*steps, *[most] * PAIRS):
        by = limits(job.fitted, job.fitted.assessed, kg, weights.off_centre_m)
        rows += [(str(len(rows) + add), both_mass(kg), side, f"{by.calculated_deg:.2f}",
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
    return [f"{end}: {VERDICTS[one]} {AFTER[one]}" for one, end in ends.items()]


def _degrees(heel):
    told = f"{heel:.1f}".removesuffix(".0")
    return f"{told} degree" + "s" * (told != "1")


def _place(boat, place):
    """Where the weight lies, in words."""
    front, back = boat.opening.front_x_m, boat.opening.back_x_m
    fore, aft = next(one.faces_x_m for one in setting_up(boat).stations if one.name == place.frame)
    apart = (f"{both_text((fore - back) * MM_PER_M)} behind" if place.x_m >= back else
             f"{both_text((front - aft) * MM_PER_M)} ahead of")
    return (f"{off_words(place)}, measured from half-way between the gunwales, its plywood {apart} "
            f"the rim's inside, where it falls {place.slope_deg:.0f} degrees to the side")


def off_words(place):
    """How far off the centre a weight lies, and over which frame."""
    return (f"{both_text(place.off_centre_m * MM_PER_M)} off the centre, on the deck at "
            f"{place.frame}")
