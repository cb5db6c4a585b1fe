"""The sheet that goes to the boat's owner as PDF: size, drawing, load, checks, bags, cautions.

It holds no body measure, so the checks of room show their word alone, but for the load: what a
paddler weighs can be worked out of that, of the cautions' figures too, and is told all the same,
since an owner who does not know the load cannot know an overladen boat.
"""

from math import hypot

from sizer.built.borne import load_borne_kg
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
from sizer.export.glossary import words_told
from sizer.export.launch_sheet import stiff_words
from sizer.export.lengths import marked, sized
from sizer.export.owners_use import MOST_WIND, each_trip_words, use_words
from sizer.export.pages import (
    INNER_MM,
    SCALES,
    document,
    heading,
    scaled_picture,
    table,
    undivided,
    whole,
    words,
)
from sizer.export.pdf_canvas import BOLD
from sizer.export.tiles import PAPERS_MM, READ_IN, USUAL_PAPER
from sizer.fit.dressed import dressed_cautions
from sizer.fit.mishaps import LEAST_BAGS
from sizer.fit.uses import RIPPLES, RIPPLES_M, ROUND_WAVES
from sizer.hydro.flooded import LEAVE
from sizer.hydro.water import colder_words, temperature_caution
from sizer.scenes.long_views import owners_drawing
from sizer.shop.aboard import boards_kg, drysuit_words, pad_words
from sizer.shop.bench import bags_l
from sizer.shop.said import listed
from sizer.units import MM_PER_M, at_most_text, both_mass, temperature_text

CHECKS_PT, USE_PT = 8.5, 8.5
ROOM_MM = (INNER_MM - 1.0, 90.0)  # for the picture
MARKS = {"fail": "X  ", "caution": "!  ", "pass": ""}  # of the checks, in their order
NOT_TOLD = "not told here"  # of a figure that would give away a body measure
NOT_TOLD_WHY = (f"“{NOT_TOLD.capitalize()}”: worked out, but this sheet bears no body measure. "
                "Whoever fitted the boat can tell you. What you weigh can be worked out of the "
                "load and the cautions, how long your legs are out of the pedals' holes: show the "
                "sheet to your helpers, your company, your instructor and whoever comes to your "
                "help, who need it, and to nobody else.")
# What the odds are good for.
TRY_FIRST = ("A check that passes tells of the boat as predicted; whether yours is one of them is "
             "seen only when it is built.")
# When a boat may go out at all.
NOT_YET = ("Not before it was sat in, weighed, and its launch sheet filled in, near shore, and met "
           "every limit there; ask for that sheet. What misses one is worked out again from what "
           "was measured, and not paddled until then.")
NEVER_ALONE = ("NEVER ALONE: until the boat is proved on such water, and you in it, only with "
               "company beside you that has practised with you how you get back in; and never "
               "alone in water that asks for a wetsuit or drysuit.")
TURN_BACK = ("Where you see whitecaps, short chop, surf or the wakes of motor boats, stay ashore; "
             "where they come while you are out, turn for the nearest shore.")
# Of a boat not tried yet.
UNTRIED = ("our judgement; local rules come first; in more only once tried in this, an instructor "
           "beside you")
TRADE = ("coaming", "draft", "GM", "gunwale", "heel", "PFD", "rim", "spray deck",
         "swamped", "trim", "wet exit")  # terms of GLOSSARY
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
    return document(
        f"{assessed.boat.design.name}, fitted",
        [picture, words(f"Scale 1 : {one_to}. Toned: the water with the load below. F1 and so on: "
                        "the frames, counted from the bow."),
         words(overall_words(job), face=BOLD),
         words(f"{odds_sentence(job.fitted.odds_all_hard)} {TRY_FIRST}"), words(MADE_BY),
         *heading("Whether it may go out"), *(words(f"- {one}") for one in leave_words(job, bench)),
         *heading("Size and load"), *map(words, size_words(assessed.boat)),
         *map(words, load_words(job)), words(stiff_words(job)),
         *heading("Float bags"), words(_bags(job, bench)),
         undivided(words_told(TRADE), USE_PT),
         *heading("Read before the first launch"),
         *(whole(words(f"- {caution}")) for caution in _cautions(job)),
         *heading("Before each trip, and in the water"), *map(words, each_trip_words(job)),
         *heading("Using it"), *(undivided(one, USE_PT) for one in use_words(job, bench)),
         *heading("Seat"), words(f"{_seat(bench.seat)} {pad_words(assessed)}"),
         *heading("Checks"), words(NOT_TOLD_WHY), _checks(job, _read_in(job, paper))],
        FOOT, PAPERS_MM[paper], job.imprint)


def _cautions(job):
    """A Job's cautions but for those of the cold, which stand on the first page; the least bags are
    none of the owner's, whose bags fill the ends."""
    before = _cold(job)
    return [one for one in job.cautions if one not in before and (
        job.mishaps.bags.bow_l is None or not one.startswith(LEAST_BAGS))]


def _cold(job):
    """The cautions on cold water of a Job, the ban before the leave."""
    return [*dressed_cautions(job.person, job.mishaps.swamped),
            temperature_caution(job.person.water.temperature_c)]


def leave_words(job, bench):
    """What must be so before a Job's boat goes out, leave and ban in one place: paragraphs."""
    yield NOT_YET
    yield NEVER_ALONE
    yield whom_words(job)
    yield " ".join([*_cold(job), *drysuit_left(job, bench),
                    capital(colder_words(job.person.water.temperature_c))])
    yield waters_words(job)


def waters_words(job):
    """As `sea_words`, of a Job."""
    return sea_words(job.person.use, job.mishaps.wave, float(job.fitted.assessed.particulars.gm_m))


def drysuit_left(job, bench):
    """That a drysuit leaves nothing of the gear, where no caution says so and it does."""
    gear_kg = float(job.fitted.assessed.loading.gear_kg)
    if gear_kg and not any(dressed_cautions(job.person, job.mishaps.swamped)):
        boards = sum(kg for _, kg in boards_kg(bench.thigh, bench.hip_pads))
        yield drysuit_words(gear_kg, job.mishaps.swamped, boards)


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


def sea_words(use, wave, gm_m):
    """For which water a boat is, as a Use, an OnWave and GM in calm water have it: what is seen
    from shore and the most of wave and wind until it was tried, then what it was worked out for;
    the OnWave is None where it could not be worked out."""
    if wave is None:
        return (f"Worked out for calm water and no wave. Look before you set out: {_seen(0.0)}; "
                f"{MOST_WIND} ({UNTRIED}). {TURN_BACK}")
    low = min(one.gm_m for one in (wave.arms.crest, wave.arms.trough))
    tender = " (in these it does not stay up by itself)" if round(low * MM_PER_M) < 0 else ""
    return (f"Look from the shore before you set out: {_seen(use.seen_m(gm_m, low))}; {MOST_WIND} "
            f"({UNTRIED}). {TURN_BACK} It is worked out for "
            f"calm water and for waves {sized(wave.arms.height_m)} high that are, from one crest "
            f"to the next, as long as the boat{tender}. Shorter waves of that height are steeper "
            "and turn it over sooner.")


def _seen(height_m):
    """Waves so high as one sees them from shore."""
    if height_m <= 0.0:
        return "calm water, no waves at all"
    what = RIPPLES if height_m <= RIPPLES_M else ROUND_WAVES
    return f"{what}, no higher than {at_most_text(height_m * MM_PER_M)} from trough to crest"


def whom_words(job):
    """Whom the boat is for, and the loads that its checks bear."""
    least, most = (both_mass(kg) for kg in load_borne_kg(job.fitted.assessed))
    return (f"For one paddler, the one of this job, with {least} to {most} on the scale: paddler "
            "dressed for the water, gear, float bags, pads and boards together. Lend or sell it to "
            "nobody, even of that weight, before it is fitted again to that body.")


def _bags(job, bench):
    wrong = job.mishaps
    leave = "" if wrong.swamped.can_be_paddled else f" Swamped, it cannot be paddled: {LEAVE}"
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
    return (f"Seat: {KINDS[seat.kind]}, its top {marked(seat.top_m)} over the baseline; with you "
            f"on it, it stays {sized(seat.clear_of_skin_m)} clear of the skin. Backband "
            f"{marked(seat.backband.over_seat_m)} over the seat.")


def _read_in(job, paper):
    """The unit of lengths, as `written`, of who reads a Job's sheet on a paper."""
    return "in" if "in" in (READ_IN[paper], job.stamp.lengths) else None


def _checks(job, lengths):
    """What an owner uses of a Job's checks, those that do not pass first: what only a builder minds
    is left out where it passes."""
    used = [one for one in job.fitted.checks
            if one.status != "pass" or one.row.rule_small or one.row.rule_large]
    checks = sorted(used, key=lambda one: tuple(MARKS).index(one.status))
    rows = [(one.name, *_figures(one, lengths), MARKS[one.status] + STATUS_WORDS[one.status],
             _tells(one)) for one in checks]
    return table(("check", "this boat", "asked for", "result", "what it means, what mends it"),
                 rows, (3.9, 2.5, 4.0, 2.2, 9.0), INNER_MM, CHECKS_PT)


def _figures(check, lengths):
    if of_the_body(check):
        return NOT_TOLD, "your measures"
    return value_words(check, lengths), window_words(check, lengths)


def _tells(check):
    if check.status == "pass":
        return f"{capital(check.row.meaning)}."
    mends = f" What mends it: {check.remedy}." if check.remedy else ""
    return f"{capital(check.meaning)}.{mends}"
