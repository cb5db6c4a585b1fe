"""The first file of the package: what every other file is, whether the checks pass, cautions."""

import textwrap

from sizer.drawing.true_size import BOTH_BARS
from sizer.export import fit_words
from sizer.export.job_csv import imprint_lines
from sizer.fit.sizes import main_sizes_text
from sizer.units import plain, unbroken

READ_ME = "read-me-first.txt"  # its name
WIDTH = 88  # letters in a line
FILES = (  # (beginnings of the name, what it is)
    ("plans", "the whole boat on paper: cover, lines, construction with numbered parts, setting "
     "up, stick cards, coaming, seat, outfit, float bags, lashing, skin, order of work, what to "
     "buy; A4, and US Letter"),
    ("setting-up", "the strongback: one tape pull, every mark, half-breadths, heights, a plan to "
     "scale; A4, and US Letter"),
    ("sticks", "a card for each stick: to scale, every mark in one tape pull, ends, tapers, "
     "bevels, twist, scarfs; A4, and US Letter"),
    ("customer", "for the boat's owner: size, drawings, use, checks, cautions; A4, and US "
     "Letter"),
    ("stations-", "where each frame stands and how far out each stringer lies"),
    ("stringers-", "each stick: length, ends, tapers, scarfs, bends, marks of the frames"),
    ("materials-", "shopping list, weights by part, cutting plan of the stock"),
    ("offsets-", "table of offsets; feet: feet-inches-eighths"),
    ("fitted-boat.toml", "the boat as a base design that this program reads; it says for whom"),
    ("patterns-A4", "frames, stems, coaming, seat, pedal, strap, cheek, boards of hip pads and "
     "thigh braces, spacers at true size on A4 pages to join"),
    ("patterns-Letter", "the same on US Letter pages"),
    ("patterns-large", "the same, one large page each, for a copy shop"),
    ("plywood-layout", "how the patterns lie on plywood sheets, at true size"),
    ("kit/", "plywood parts nested on the shop's sheets, for a router: DXF layers cut-outside, "
     "cut-inside, holes, part-numbers, tabs, marks, words; sheet and notes are not cut"),
    ("frames/", "each frame and stem alone; DXF with the relief of a round cutter's inner corners, "
     "SVG without"),
    ("coaming.", "the form the coaming is bent round"),
    (("seat.pdf", "seat-Letter"), "the seat in its boat to scale, with its parts; backband and "
     "footbrace; A4, and US Letter"),
    ("dry-fit", "to fill in at the bench: what the tape says beside what is designed, in the unit "
     "that the job was made in; A4, and US Letter, in inches"),
    ("launch", "to fill in at the water: the trial's cautions first, small safe weights, "
     "freeboards, heel, all cautions last; A4, and US Letter"),
    ("seat-pieces.", "the seat's pieces at true size"),
    ("footbrace-pedal.", "a pedal of the footbrace at true size, sawn to the boat"),
    ("outfit-boards.", "its cheek, and the boards of hip pads and thigh braces, at true size"),
    ("everything.json", "every figure, for other programs; body measures are in it"),
)
USES = (  # (what for, which files); a use is told where all its files are there
    ("To build from paper", ("plans.pdf", "patterns-A4.pdf")),
    ("The same on US Letter, in inches", ("plans-Letter.pdf", "patterns-Letter.pdf")),
    ("Patterns in one piece each, from a copy shop", ("patterns-large.pdf",)),
    ("One sheet of the plans alone, to carry to the bench: nothing in it that the plans do not "
     "have", ("setting-up.pdf", "sticks.pdf", "seat.pdf")),
    ("To fill in at the dry fit and at the water", ("dry-fit.pdf", "launch.pdf")),
    ("The same on US Letter, to fill in", ("dry-fit-Letter.pdf", "launch-Letter.pdf")),
    ("For the owner", ("customer.pdf",)),
    ("For a router: no paper; to see how parts lie on a sheet", ("plywood-layout.pdf",)),
)


def read_me(job, bench, names):
    """The text; `names` are all files of the package, without the stamp's lead."""
    boat = job.fitted.assessed.boat
    return "\n".join([
        *_paragraphs(imprint_lines(job.imprint)), "",
        f"{boat.design.name}, fitted: {main_sizes_text(boat)} mm", "",
        *_paragraphs([
            "These figures are calculated, not a trial. Print at 100 %, actual size, and measure "
            f"{BOTH_BARS}, before cutting. DXF and SVG are in millimetres. DXF "
            "layers: cut, mark, drill, text; notes, title, and does-not-pass where it stands "
            "across, are for the eye and are not cut. Patterns are drawn as one looks at "
            "the face nearer the boat's own end.",
            f"Made for this shop: {bench.shop_words}"]), "",
        "CHECKS", *_checks(job, bench), "",
        "WHAT WAS SOUGHT", *_fit(job, bench), "",
        "CAUTIONS", *_paragraphs(job.cautions, "- "), "",
        "WHAT TO PRINT", *_uses(names, job.stamp), "",
        "FILES", *_files(names, job.stamp), ""])


def _fit(job, bench):
    fitted = job.fitted
    yield from _paragraphs((f"{what}: sought {wanted}, reached {reached}, {off} off (counts "
                            f"from {counts})"
                            for what, wanted, reached, off, counts
                            in fit_words.sought_rows(fitted)), "  - ")
    yield from _paragraphs((
        fit_words.gave_way_words(fitted), *fit_words.day_load_words(fitted.assessed),
        fit_words.padding_words(fitted.assessed, bench)), "  ")
    yield from _paragraphs((f"{dimension.removesuffix('_mm').replace('_', ' ')}, set by: {reason}"
                            for dimension, reason in fitted.set_by.items()), "  - ")


def _checks(job, bench):
    yield f"  The boat's checks: {fit_words.CHECKS_WORDS[job.status]}"
    yield from _paragraphs(map(fit_words.check_words, (one for one in job.fitted.checks
                                             if one.status != "pass")), "    - ")
    yield f"  The patterns' checks: {fit_words.CHECKS_WORDS[bench.pattern_status]}"
    yield from _paragraphs((f"{one.frame}, {one.place}: {one.name} {one.value:.4g}, {one.sense} "
                            f"{one.limit:.4g} {one.unit} ({one.status}). {one.meaning}."
                            for one in bench.checks if one.status != "pass"), "    - ")
    yield f"  Fairness of the sticks: {fit_words.CHECKS_WORDS[bench.fairness_status]}"
    yield from _paragraphs((f"{one.stringer}, {one.place}: {one.what} in {one.axis} "
                            f"({one.status}). {one.meaning}"
                            for one in bench.unfair if one.status != "pass"), "    - ")


def _uses(names, stamp):
    yield from _paragraphs((f"{use}: {', '.join(map(stamp.named, files))}"
                            for use, files in USES if set(files) <= set(names)), "  - ")


def _files(names, stamp):
    for begins, what in FILES:
        there = [name for name in names if name.startswith(begins)]
        if there:
            yield from _paragraphs([", ".join(map(stamp.named, there))], "  ")
            yield from _paragraphs([what], "      ")


def _paragraphs(lines, lead=""):
    return [plain(row) for line in lines for row in textwrap.wrap(
        unbroken(line), WIDTH, initial_indent=lead, subsequent_indent=" " * len(lead),
        break_on_hyphens=False)]
