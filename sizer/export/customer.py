"""The sheet that goes to the boat's owner as PDF: size, drawing, load, checks, bags, cautions.

It holds no body measure, so the checks of room show their word alone, but for the load: what a
paddler weighs can be worked out of that, of the cautions' figures too, and is told all the same,
since an owner who does not know the load cannot know an overladen boat.
"""

from functools import partial
from math import hypot

from sizer.export.feet import MADE_BY, PASSES
from sizer.export.fit_words import (
    STATUS_WORDS,
    capital,
    odds_sentence,
    of_the_body,
    value_words,
    window_words,
)
from sizer.export.gear_words import full_bags
from sizer.export.glossary import each_told
from sizer.export.launch_sheet import stiff_words
from sizer.export.lengths import sized
from sizer.export.owners_gear import least_kg, no_camping_words
from sizer.export.owners_leave import (
    EACH_TRIP,
    LEAVE,
    TEXT_PT,
    USING,
    WET_EXIT,
    leave_blocks,
    order_blocks,
    owners_cautions,
    tender_words,
)
from sizer.export.owners_use import each_trip_words, use_parts
from sizer.export.pages import (
    INNER_MM,
    SCALES,
    air,
    document,
    heading,
    led,
    scaled_picture,
    table,
    whole,
    words,
)
from sizer.export.pdf_canvas import BOLD
from sizer.export.tiles import PAPERS_MM, READ_IN, USUAL_PAPER
from sizer.export.wet_exit import wet_exit_words
from sizer.fit.dressed import dressed_cautions
from sizer.hydro.flooded import KEEP_HOLD, TO_SHORE
from sizer.hydro.flooded import LEAVE as LEAVE_IT
from sizer.hydro.left_inside import AT_FIRST, HELD
from sizer.hydro.water import temperature_caution
from sizer.scenes.long_views import owners_drawing
from sizer.shop.aboard import pad_words
from sizer.shop.bench import bags_l
from sizer.shop.said import listed
from sizer.units import both_mass, temperature_text

WITHOUT_GEAR = "gm-bare"  # the check
CHECKS_PT = 8.0
ROOM_MM = (INNER_MM - 1.0, 90.0)  # for the picture
MARKS = {"fail": "X  ", "caution": "!  ", "pass": ""}  # of the checks, in their order
NOT_TOLD = "not told here"  # of a figure that would give away a body measure
NOT_TOLD_WHY = (f"“{NOT_TOLD.capitalize()}”: worked out, but this sheet bears no body measure. "
                "Whoever fitted the boat can tell you. Your weight can be worked out of load and "
                "cautions, your legs' length out of the pedals' holes: show the sheet to who made "
                "it, helpers, company, instructor and who comes to your help, to nobody else.")
# What the odds are good for.
TRY_FIRST = ("A check that passes tells of the boat as predicted; whether yours is one of them its "
             "launch sheet tells, and one of the rest is changed before it is paddled.")
TRADE = ("backband", "boards", "coaming", "deck line", "end loop",
         "float bags", "GM", "gunwale", "heel", "lip", "pads",
         "panel", "rail", "rim", "spray deck", "strap", "swamped", "tie line", "trim",
         "wet exit")  # terms of GLOSSARY
# What is said whole once, and how after that; the longest first.
SHORT = {HELD: "as above.", f" {AT_FIRST}": "",
         LEAVE_IT: "out of it at once, as above.",
         f"{KEEP_HOLD}. {TO_SHORE}": "keep hold, as above.",
         KEEP_HOLD: "keep hold of the boat"}
NO_LEAVE = f"That is no leave to go out: see “{LEAVE}”."
KINDS = {"panel": "plywood plates on the sticks", "slats": "slats from frame to frame",
         "sling": "straps between two frames"}
OVERALL = PASSES | {"fail": "THIS BOAT DOES NOT PASS ITS CHECKS. Do not build it as it stands."}
FOOT = ("Calculated, not a trial. The cautions before its checks are part of this sheet: keep its "
        "pages together. Wear a fastened PFD (buoyancy aid), dress for the water, practise wet "
        "exits, float bags in both ends.")


def customer_pdf(job, bench, paper=USUAL_PAPER):
    """The sheet of a job on "A4" or "Letter"; bytes, the same for the same job."""
    assessed = job.fitted.assessed
    one_to, picture = scaled_picture(
        lambda letters: owners_drawing(assessed.boat, assessed.particulars, letters), ROOM_MM,
        scales=SCALES)
    said = partial(words, size_pt=TEXT_PT)
    return document(
        f"{assessed.boat.design.name}, fitted",
        [*(said(one, face=BOLD) for one in (
            *tender_words(job), *no_camping_words(job, bench), f"{overall_words(job)} {NO_LEAVE}")),
         said(MADE_BY), *heading("What to do, in this order"), *order_blocks(),
         *heading(LEAVE), *leave_blocks(job, bench),
         *heading("Size and load"), picture,
         said(f"Scale 1 : {one_to}. Toned: the water with the load below. F1 and so on: the "
               "frames, counted from the bow."), *map(said, size_words(assessed.boat)),
         *map(said, load_words(job)), said(stiff_words(job)),
         *heading("Float bags"), said(_bags(job, bench)),
         *heading(WET_EXIT), *map(said, wet_exit_words()),
         *heading("Read before the first launch"),
         *(whole(said(f"- {caution}")) for caution in _told_once(_cautions(job))),
         *heading(EACH_TRIP), *map(said, each_trip_words(job)),
         *heading(USING), *_use_blocks(job, bench),
         *heading("Seat"), said(f"{_seat(bench.seat)} {pad_words(assessed)}"),
         *heading("Checks"), said(f"{odds_sentence(job.fitted.odds_all_hard)} {TRY_FIRST}"),
         said(_room_words(job)), _checks(job, bench, _read_in(job, paper)),
         air(), table(("words", "what they mean"), each_told(TRADE), (1, 6), INNER_MM, CHECKS_PT)],
        FOOT, PAPERS_MM[paper], job.imprint)


def _use_blocks(job, bench):
    """The parts of `use_parts`, what each is about in bold before it."""
    for about, (first, *others) in use_parts(job, bench):
        yield led(about, first, TEXT_PT)
        yield from (words(one, TEXT_PT) for one in others)


def _cautions(job):
    """A Job's cautions to its owner but for those of the cold, which stand on the first page."""
    before = (*dressed_cautions(job.person, job.mishaps.swamped),
              temperature_caution(job.person.water.temperature_c))
    return [one for one in owners_cautions(job) if one not in before]


def _told_once(cautions):
    """Cautions with what to do in and beside a boat that fills told whole where it comes first."""
    told = set()
    for caution in cautions:
        here = caution
        for whole_words, short in SHORT.items():
            if whole_words in told:
                here = here.replace(whole_words, short)
        told |= {whole_words for whole_words in SHORT if whole_words in caution}
        yield here


def owners_picture(assessed, room_mm):
    """As `scaled_picture`, of an Assessed boat afloat as an owner wants to see it."""
    return scaled_picture(lambda _: owners_drawing(assessed.boat, assessed.particulars), room_mm,
                          scales=SCALES)


def overall_words(job):
    """Whether a Job's boat passes, and which checks fail or caution."""
    named = {status: ", ".join((*(one.name for one in job.fitted.checks if one.status == status),
                                *(job.bench_failures if status == "fail" else ())))
             for status in ("fail", "caution")}
    return OVERALL[job.status] + "".join(
        f" {lead}: {named[status]}." for status, lead in (
            ("fail", "It fails"), ("caution", "Caution")) if named[status])


def size_words(boat):
    """Length, beam, depth and opening of a boat, in both units."""
    yield (f"Length {sized(boat.length_m)}, beam {sized(boat.beam_m)}, depth "
           f"{sized(boat.depth_m)}. Cockpit opening {sized(boat.opening.length_m)} long, level "
           f"({sized(_slope_m(boat.opening))} along its slope), and "
           f"{sized(boat.opening.width_m)} wide.")


def _slope_m(opening):
    """Length of an opening in its own plane."""
    front, back = opening.rim_z_m
    return hypot(opening.length_m, front - back)


def load_words(job):
    """Use, water, load, and how it floats so loaded; no body measure but what the load tells."""
    load, water = job.fitted.assessed.loading, job.person.water
    afloat = job.fitted.assessed.particulars
    higher = ": in salt water it lies a little higher" if water.kind == "fresh" else ""
    yield (f"{water.kind.capitalize()} water at {temperature_text(water.temperature_c)}{higher}. "
           f"Its limits are those of “{job.person.use.words}”: a name, and no leave to take a boat "
           "out on such water that is calculated and not tried.")
    yield (f"Load {both_mass(load.carried_kg)}: the paddler dressed for the water, and "
           f"all gear. The boat itself {both_mass(load.boat_kg)}. So loaded it draws "
           f"{sized(afloat.draft_m)}; the lowest side deck stands {sized(afloat.freeboard_m)} "
           "over calm water.")


def _bags(job, bench):
    wrong = job.mishaps
    leave = "" if wrong.swamped.can_be_paddled else f" Swamped, it cannot be paddled: {LEAVE_IT}"
    bow, stern = bags_l(wrong.swamped)
    halves = listed([f"{one.half_l} litres or more in the {one.end}" for one in bench.bag_ties])
    full = full_bags(bench)
    beside, but = (" beside the gear", f" (better {listed(full)}, which fill the end without gear "
                   "too)") if full else ("", "")
    return (f"{bow:.0f} litres in the bow and {stern:.0f} in the stern fill the ends{beside}: "
            f"buy these{but}, or the next larger that is sold and blow it up as far as it goes, "
            "never smaller; tie them in. Where none so large is sold, two side by side in one end, "
            f"each of {halves}, or one made to order: the builder has how long, and how they are "
            f"tied.{leave}")


def _seat(seat):
    return (f"{capital(KINDS[seat.kind])}; with "
            f"you on it, it stays {sized(seat.clear_of_skin_m)} clear of the skin. Backband "
            f"{sized(seat.backband.over_seat_m)} over the seat.")


def _read_in(job, paper):
    """The unit of lengths, as `written`, of who reads a Job's sheet on a paper."""
    return "in" if "in" in (READ_IN[paper], job.stamp.lengths) else None


def _checks(job, bench, lengths):
    """What an owner uses of a Job's checks, those that do not pass first: what only a builder
    minds, and a boat without the gear that always goes along, are left out where they pass."""
    never = WITHOUT_GEAR if least_kg(job, bench) else ""
    used = [one for one in job.fitted.checks
            if one.status != "pass" or (one.key != never and not of_the_body(one)
                                        and (one.row.rule_small or one.row.rule_large))]
    checks = sorted(used, key=lambda one: tuple(MARKS).index(one.status))
    rows = [(one.name, *_figures(one, lengths), MARKS[one.status] + STATUS_WORDS[one.status],
             _tells(one)) for one in checks]
    return table(("check", "this boat", "asked for", "result", "what it means, what mends it"),
                 rows, (3.8, 2.4, 3.8, 1.6, 10.4), INNER_MM, CHECKS_PT)


def _room_words(job):
    """Which checks of the body's room pass, their figures untold."""
    passing = [one.name for one in job.fitted.checks
               if one.status == "pass" and of_the_body(one) and one.row.rule_small]
    told = f"Passing, but “{NOT_TOLD}”: {listed(passing)}. " if passing else ""
    return told + NOT_TOLD_WHY


def _figures(check, lengths):
    if of_the_body(check):
        return NOT_TOLD, "your measures"
    return value_words(check, lengths), window_words(check, lengths)


def _tells(check):
    if check.status == "pass":
        return f"{capital(check.row.meaning)}."
    mends = f" What mends it: {check.remedy}." if check.remedy else ""
    return f"{capital(check.meaning)}.{mends}"
