"""The launch sheet as PDF, to fill in at the water; its cautions and the safe weights come first.
"""

import numpy as np

from sizer.built.departures import expected
from sizer.built.heights import heights_expected, swamped_expected
from sizer.built.trial import FELT, SWAMPED
from sizer.built.trial_weights import most_heel_of_each_kg, most_heels_deg, trial_weights
from sizer.export.feet import MADE_BY, alone, ground
from sizer.export.launch_answer import TRIAL_CAUTIONS, swamped_first
from sizer.export.pages import MARGIN_MM, Picture, beside, heading, table, undivided, whole, words
from sizer.export.pdf_canvas import BOLD
from sizer.export.tiles import PAPERS_MM, USUAL_PAPER
from sizer.hull.weight import AS_WEIGHED
from sizer.hydro.flooded import RIM_MARGIN_M, SIDE_DECK_MARGIN_M
from sizer.scenes.trial_view import trial_view
from sizer.shop.aboard import ABOARD, aboard_rows, gear_words, put_in_words
from sizer.shop.stations import setting_up
from sizer.shop.work_room import getting_in_words
from sizer.units import KG_PER_LB, MM_PER_M, NO_BREAK, at_least_text, both_mass, both_text

INNER_MM = min(wide for wide, _ in PAPERS_MM.values()) - 2.0 * MARGIN_MM  # of either paper
PAD_PT, FIGURES_PAD_PT = 4.0, 3.0  # a hand writes there
PICTURE_MM = 66.0  # of its width, so that its words are read at the water
BESIDE_MM = 6.0  # between it and the weights
READINGS = 6
IN_ROOM_MM = 62.0  # for its heading with all of it; our drawing
IN_PT, LEAD_PT = 8.5, 9.0  # of what is read before, ashore; our drawing
ON_PAPER = (
    "With this paper alone: a reading without a weight, then the first weight told below, then up "
    "the table as far as it says yes and no farther, however steady the boat seems. Where it heels "
    "more than the most told there, it is less steady than its use asks for: take the weight off, "
    "end the trial. Send the filled sheet, with the line at its head, to whoever made these "
    "papers: from it the boat can be worked out again. It tells what the paddler weighs: show it "
    "to nobody else.")
NOT_UNTIL = (
    "NOT PADDLED UNTIL every blank is filled in, who made these papers too. Where a figure is off "
    "by more than its ±, past its limit, or a heel over the most: not until worked out again from "
    "this sheet.")
ON_SCREEN = ("With the wizard: type each reading in its page “Launch” before the next weight "
             "goes aboard.")
EMPTY_FIRST = (
    "First afloat with nobody in it, for an hour: [   ] no leak   [   ] leaks, marked; they are "
    "mended before anybody sits in it. Then “Getting in and out”, below.")
IN_AND_OUT = "Getting in and out: read it before anybody gets in"
WHO = "Launched by ____________________ on ____________ at ________________________"


def launch_pdf(job, paper=USUAL_PAPER):
    """The sheet of a Job on "A4" or "Letter"; bytes, the same for the same job."""
    assessed = job.fitted.assessed
    calculated = expected(assessed)
    weights = trial_weights(assessed, *calculated["gm_m"])
    return alone(job, ground(job, paper).titled("Launch").sheet(
        *(words(one, face=BOLD) for one in TRIAL_CAUTIONS),
        *(words(one, LEAD_PT, BOLD) for one in (EMPTY_FIRST, NOT_UNTIL, ON_PAPER)),
        words(ON_SCREEN, LEAD_PT),
        *heading("Ashore, and afloat with the paddler sitting still"), _aboard(job),
        _figures(assessed, calculated), *_steadiness(assessed, weights),
        *heading("Swamped, within reach of the bottom, bags tied in, a helper beside"),
        words(swamped_first(job.mishaps.swamped), face=BOLD),
        *_swamped(assessed, job.mishaps.swamped), _choices(SWAMPED),
        *heading("What the paddler felt"), _choices(FELT),
        *heading(IN_AND_OUT, IN_ROOM_MM), undivided(getting_in_words(job), IN_PT),
        *heading("Who, when and where"), words(WHO), words(MADE_BY)))


def first_weight_words(job):
    """What the trial may begin with, in one sentence for the order of work."""
    assessed = job.fitted.assessed
    weights = trial_weights(assessed, *expected(assessed)["gm_m"])
    if weights.safest_kg <= 0.0:
        return "none with weights, as calculated this boat may not stand up by itself."
    return (f"begin with {_first(weights)}, {_off(weights.place)}, never on rim or lip; at most "
            f"{both_mass(weights.safest_kg)}: {both_mass(weights.turns_over_kg)} there turn it "
            "over.")


def stiff_words(job):
    """What turns a Job's boat over under a paddler held stiff, for its owner: every angle of heel
    elsewhere is of one who keeps upright over it."""
    assessed = job.fitted.assessed
    weights = trial_weights(assessed, *expected(assessed)["gm_m"])
    upright = ("Every angle of heel here is for a paddler who keeps the upper body upright over "
               "the boat.")
    if weights.turns_over_kg <= 0.0:
        return f"{upright} Held stiff, this boat does not stand by itself as calculated."
    high = (f"{both_mass(weights.high_over_kg)} do it" if weights.high_over_kg > 0.0
            else "nothing at all is needed")
    return (f"{upright} Sit stiff, and {both_mass(weights.turns_over_kg)}, "
            f"{_off(weights.place)}, turn this boat over as calculated. Sit stiff and higher, on a "
            f"pad or because you are built so, and {high}. To lean out, to reach for something or "
            "to hold on to a dock may be as much.")


def trial_frame(job):
    """Name of the frame that the trial's weights lie over."""
    assessed = job.fitted.assessed
    return trial_weights(assessed, *expected(assessed)["gm_m"]).place.frame


def weight_off_words(job):
    """How far the boat may be off its weight, as the sheet's own figure has it."""
    return both_mass(expected(job.fitted.assessed)["boat_kg"][1])


def _first(weights):
    """The first weight, and how far it heels the boat."""
    heel, kg = weights.first
    return f"{both_mass(kg)} ({_degrees(heel)} as calculated)"


def _degrees(heel):
    return f"{heel:.1f}".removesuffix(".0") + " degrees"


def _steps(weights):
    """Heel and kg of the trial's steps, the most that is safe among them, rising."""
    most = weights.safest_deg, weights.safest_kg
    return sorted([*(one for one in weights.steps if one[1] != most[1]), most],
                  key=lambda one: one[1])


def _allowed(kg, weights):
    """Whether, and as what, a weight goes aboard by this paper alone."""
    if kg > weights.safest_kg:
        return "no"
    named = [name for name, one in (("the first", weights.first[1]),
                                    ("the most", weights.safest_kg)) if one == kg]
    return ", ".join(["yes", *named])


def _place(boat, place):
    """Where the weight lies, in words."""
    front, back = boat.opening.front_x_m, boat.opening.back_x_m
    fore, aft = next(one.faces_x_m for one in setting_up(boat).stations if one.name == place.frame)
    apart = (f"its plywood {both_text((fore - back) * MM_PER_M)} behind the opening"
             if place.x_m >= back else
             f"its plywood {both_text((front - aft) * MM_PER_M)} ahead of the opening")
    return f"{_off(place)}, {apart}, where it falls {place.slope_deg:.0f} degrees to the side"


def _off(place):
    return (f"{both_text(place.off_centre_m * MM_PER_M)} off the centre, on the deck at "
            f"{place.frame}")


def _made_less(assessed, weights):
    """The most that a weight made less may heel, which the table does not tell."""
    each = most_heel_of_each_kg(assessed, assessed.person.use.least_gm_m, weights)
    if each is None:
        return ""
    per_kg, per_lb = (np.floor(10.0 * one) / 10.0 for one in (each, each * KG_PER_LB))
    return ("A weight made less may heel it, from how it lay without, by no more than "
            f"{_degrees(per_kg)} for each kg aboard, {_degrees(per_lb)} for each pound; of "
            f"{both_mass(0.1)}, {_degrees(np.floor(per_kg) / 10.0)}.")


def _choices(lot):
    """A box before each, and no line parts the two."""
    return words("     ".join(f"[   ] {said}".replace(" ", NO_BREAK) for _, said in lot))


def _aboard(job):
    """What must be in the boat before any reading."""
    assessed = job.fitted.assessed
    less = " Without it no figure below holds: the same weight heels a lighter boat more."
    gear = gear_words(assessed, job.mishaps.swamped)
    aboard = f"{ABOARD} {gear}{less if assessed.loading.gear else ''}"
    return words(f"{aboard} {put_in_words(job, None, None)}", LEAD_PT, BOLD)


def _swamped(assessed, swamped):
    """What rim and side deck of the empty Swamped boat keep over the water, its limit, that of the
    boat with its paddler in, and blanks."""
    found = swamped_expected(assessed, swamped)
    names = ("rim at its lowest", RIM_MARGIN_M), ("side deck at its lowest", SIDE_DECK_MARGIN_M)
    rows = [(name, _banded(*one, _no_less(least)), "")
            for (name, least), one in zip(names, found.values(), strict=False)]
    if rows:
        yield whole(table(("nobody in it, over the water", "calculated", "measured"), rows,
                          (5, 10, 4), INNER_MM, pad_pt=PAD_PT))


def _no_less(least_m):
    """A height's limit, never less in inches."""
    return f"; limit: no less than {at_least_text(round(least_m * MM_PER_M, 1))}"


def _banded(value_m, band_m, limit):
    """A height with its ± and its limit."""
    return f"{both_text(value_m * MM_PER_M)} ± {both_text(band_m * MM_PER_M)}{limit}"


def _figures(assessed, calculated):
    rows = [(name, f"{both_mass(middle)} ± {both_mass(band)}", "") for name, (middle, band) in (
        (f"the boat {AS_WEIGHED}: what to take off, the order of work tells",
         calculated["boat_kg"]),
        (", ".join(f"{what} {both_mass(kg)}" for what, kg in aboard_rows(assessed.loading)[1:]),
         calculated["load_kg"]))]
    heights, least = heights_expected(assessed), assessed.person.use.least_freeboard_m
    rows += [(name, _banded(*one, limit), "") for name, limit, one in (
        ("water to sheer (the edge where side and deck meet) at the bow's tip, a rule plumb under "
         "it", "", heights["bow_m"]),
        ("water to sheer at the stern's tip", "", heights["stern_m"]),
        (f"water to sheer at its lowest, near {_lowest_at(assessed)}",
         _no_less(least), heights["side_m"]))]
    rows.append(("water", f"{assessed.person.water.density_kgpm3:.0f} kg/m3",
                 "fresh / salt, ____ °C / °F"))
    return table(("figure", "calculated", "measured"), rows, (9, 7, 4.5), INNER_MM,
                 pad_pt=FIGURES_PAD_PT)


def _lowest_at(assessed):
    """The frame nearest to where the sheer is lowest over the water, port and starboard."""
    boat, afloat = assessed.boat, assessed.particulars
    x, sheer = boat.sections.x_m, boat.sections.z_m[:, boat.sections.sheer]
    water = np.interp(x, x[[0, -1]], (sheer[0] - afloat.bow_freeboard_m,
                                      sheer[-1] - afloat.stern_freeboard_m))
    at = x[int(np.argmin(sheer - water))]
    return min(zip(boat.design.frames, boat.frame_x_m, strict=True),
               key=lambda one: abs(one[1] - at))[0].name


def _steadiness(assessed, weights):
    """The weights, then the blanks for the readings."""
    yield from heading("Steadiness trial")
    if weights.safest_kg <= 0.0:
        yield words("NO TRIAL WITH WEIGHTS: as calculated this boat may not stand up by itself "
                    "with this paddler held stiff. Sit lower or carry ballast low first.",
                    face=BOLD)
        return
    drawing = trial_view(assessed.boat, float(assessed.start[0]), weights.place, 1.0,
                         lambda value_m: both_text(value_m * MM_PER_M), narrow=True)
    steps = _steps(weights)
    most = most_heels_deg(assessed, assessed.person.use.least_gm_m,
                          [kg * weights.off_centre_m for _, kg in steps])
    told = table(("heel as calculated", "the most it may heel", "weight", "on paper alone"), [
        (_degrees(heel), "any" if limit is None else _degrees(limit), both_mass(kg),
         _allowed(kg, weights)) for (heel, kg), limit in zip(steps, most, strict=True)],
        (4, 4, 5, 4), INNER_MM - PICTURE_MM - BESIDE_MM)
    yield words(f"Begin with {_first(weights)}, {_place(assessed.boat, weights.place)}; in a wet "
                "cloth, a cord from it to the deck line at the other gunwale, so that it cannot "
                f"slide; never on rim or lip. At most {both_mass(weights.safest_kg)}: half of what "
                "turns the boat over with the paddler as high as he may sit. "
                f"{both_mass(weights.turns_over_kg)} there turn it over as calculated.", face=BOLD)
    yield beside(Picture(drawing, PICTURE_MM / MM_PER_M / drawing.width_m), told,
                 PICTURE_MM + BESIDE_MM, INNER_MM)
    lean = _degrees(weights.most_lean_deg)
    yield words("Read first how the boat lies without a weight: over by no more than "
                f"{lean}, else paddler and gear are moved towards the high side until it is; where "
                "that does not do it, no weight, and it is not paddled until it was worked out "
                "again. For each degree that it lies over, put aboard "
                f"{both_mass(weights.less_kg_per_deg)} less than told; where nothing is left, no "
                f"weight. {_made_less(assessed, weights)}", face=BOLD)
    yield words("In at the edge, then walked in the boat to where it is hip to waist deep, the "
                "paddler sits stiff, hands in the lap; one helper's hands stay under both gunwales "
                "until the boat lies still, the other lays the weight on and reads. A level or a "
                "phone on a straight lath across the rim, half-way along it. Where no heavier "
                "weight is told yes, the same one again to the other side, three times to each.")
    rows = [("0", "none", "–", "–", f"no more than {lean}, to starboard / port:")]
    rows += [(str(number), "", "", ("starboard", "port")[(number - 1) % 2], "")
             for number in range(1, READINGS + 1)]
    yield whole(table(("reading", "weight, kg or lb", "off the centre, mm or in", "weight to",
                       "heel, degrees"), rows, (2, 4, 5, 3, 5), INNER_MM, pad_pt=PAD_PT))
