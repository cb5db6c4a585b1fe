"""The cover of a plan set: the boat, for whom, whether it passes, every caution, the sheets."""

from dataclasses import replace

from sizer.export.customer import load_words, overall_words, owners_picture, size_words
from sizer.export.feet import on_one_page
from sizer.export.fit_words import odds_sentence
from sizer.export.gear_words import most_words
from sizer.export.owners_leave import tender_words, waters_words, whom_words
from sizer.export.pages import undivided, words
from sizer.export.pdf_canvas import BOLD
from sizer.export.sheet_pages import SheetPages
from sizer.export.tiles import sheet_name
from sizer.shop.layout import serving_words
from sizer.shop.said import both, both_sides, listed
from sizer.shop.work import MARKED
from sizer.stamp import NO_JOB
from sizer.units import both_mass

# Of the words, of cautions and remarks, pt, and of the drawing's height, mm: the first with which
# all is on one page; where none does, it takes two in larger letters again
SIZES = ((9.5, 8.5, 55.0), (9.0, 7.7, 50.0), (8.5, 7.5, 40.0), (8.0, 7.0, 20.0), (9.0, 8.0, 50.0))
SHEETS_PT = 7.2  # at most, of the list of sheets: three side by side
SPARE_MM = 2.0  # that must be left of the page, for what blocks keep round them
SHORT = ("Short forms: F1, F2, ... frames, counted from the bow; P port, the left side of one who "
         "looks to the bow, S starboard; CL centre line; tape: along the strongback from its "
         "forward end; GM metacentric height, the first resistance to heeling: less is tippier; "
         "PFD personal flotation device, the buoyancy aid you wear; sizes in "
         "inches to 1/32, from 4 feet on in feet and inches to 1/16, 5' 3 1/4\", on this page all "
         "to 1/16; marks in inches to 1/32, 63 1/4 in, as a tape counts; "
         "tolerances never looser; hardware as sold; "
         f"{'; '.join(f'{mark} {what}' for mark, what in MARKED.items())}.")
NO_LEAVE = ("NAME AND LINE ABOVE TELL HOW ITS BASE IS SHAPED, NOT WHERE IT MAY GO: out only in the "
            "waves and wind told below, whatever water they recall; in surf, short chop or "
            "whitecaps it stays ashore.")
# Plans go from hand to hand, so no list of the body's measures is printed in them: whoever builds
# has the file that tells them, and a tape. Weight and hips can be reckoned from load and boards.
MEASURED = ("BEFORE THE FIRST SAW CUT, measured anew: weight ____ stature ____ hips, sitting ____, "
            "dated ____. Whoever made these papers has the measures that it was fitted to in "
            "{file}; no sheet lists them, but who reckons finds weight and hips from load and hip "
            "boards. Send the three there with the line at the "
            "head of these sheets, and write the answer here: still "
            "fits ____ / fitted anew, these sheets void ____. No answer: do not saw. The body "
            "itself is tried in the dry frame, before anything is glued.")
SHOWN = "Which this one is, the dry frame, the scale and the launch show."
BESIDE = ("Filled in beside them: {dry_fit} in the dry frame, {launch} at the first launch: where "
          "they did not come with these, ask whoever made them for both.")
FOOT = "CAUTION. Calculated, not a trial: the cautions of this page are part of every sheet."


def cover(on, bench, numbered):
    """The Sheet that leads a plan set; `numbered` are (number, title) of those that follow."""
    on = replace(on, foot=FOOT, what="Plans")
    return on_one_page(on.job, SPARE_MM, (
        on.sheet(*_blocks(on, bench, numbered, sizes)) for sizes in SIZES))


def _blocks(on, bench, numbered, sizes):
    job, inner = on.job, on.inner_mm
    body_pt, small_pt, high_mm = sizes
    assessed = job.fitted.assessed
    boat, stamp = assessed.boat, job.stamp
    one_to, picture = owners_picture(assessed, (inner - 1.0, high_mm))
    revision = (f"Revision {stamp.revision} of {stamp.date}" if stamp.revision
                else f"Printed {stamp.date}, not issued as a revision: keep to this print alone")
    shop = bench.shop
    yield words(boat.design.name, 18.0, BOLD)
    yield words(f"{boat.design.character}.", body_pt)
    yield words(NO_LEAVE, body_pt, BOLD)
    yield words(f"{revision}. Made with the shop's settings: sheets {both_sides(*shop.sheet_m)}, "
                f"timber {listed(list(map(both, shop.stock_lengths_m)))} long, cloth "
                f"{listed(list(map(both, shop.cloth_widths_m)))} wide."
                f"{serving_words(bench.layouts, shop)}", small_pt)
    yield picture
    yield words(f"Scale 1 : {one_to}. Toned: the water with the load below.", small_pt)
    yield words(" ".join((overall_words(job), *tender_words(job))), face=BOLD)
    for told in ((waters_words(job),),
                 (*load_words(job), *_gear(bench), whom_words(job), _drawn_for(boat.design)),
                 (f"{odds_sentence(job.fitted.odds_all_hard)} {SHOWN}", *size_words(boat))):
        yield words(" ".join(told), body_pt)
    yield words(f"{whose_words(stamp)} {MEASURED.format(file=stamp.named('fitted-boat.toml'))}",
                small_pt)
    yield words("Sheets", 11.0, BOLD)
    yield SheetPages(numbered, inner, min(small_pt, SHEETS_PT))
    first = words("Read first, and again before the first launch", 11.0, BOLD)
    first.keepWithNext = True  # beside `whole`, which is not measured
    yield first
    for caution in job.cautions:
        yield undivided(f"- {caution}", small_pt)
    beside = {name: stamp.named(sheet_name(file, on.paper)) for name, file in (
        ("dry_fit", "dry-fit"), ("launch", "launch"))}
    yield words("Frames, stems, seat, coaming and outfit at true size are in another file: "
                f"{stamp.named(f'patterns-{on.paper}.pdf')} to join (or patterns-large, a page a "
                f"piece, for a copy shop); for a router, the folder kit, and "
                f"{stamp.named('coaming.dxf')} for the coaming's form, which is on no sheet of "
                f"plywood. {BESIDE.format(**beside)}",
                small_pt)
    yield words(SHORT, small_pt)


def _gear(bench):
    """How much room there is for gear, where it lies beside a float bag."""
    most = most_words(bench)
    return [f"Of gear: {most[0].lower()}{most[1:]}."] if most else []


def _drawn_for(design):
    drawn = design.drawn_for
    return (f"The base was drawn for another: "
            f"{both_mass(drawn.weight_kg, 0)}, {both(drawn.stature_m)} tall, "
            f"{both(drawn.hip_width_m)} hips.")


def whose_words(stamp):
    """Whose boat it is, as far as a Stamp tells."""
    told = ", ".join(filter(None, (stamp.code if stamp.code != NO_JOB else "", stamp.mark)))
    if told:
        return f"Whose boat: {told}."
    return f"Whose boat: not told; it is {20 * '_'}."
