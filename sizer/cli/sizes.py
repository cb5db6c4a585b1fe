"""The commands `range` and `who-fits`: a set of sizes for a crowd, and who fits one boat."""

import sys
from dataclasses import replace

from sizer.cli.answered import put_answer
from sizer.cli.folder import out_folder, write_folder
from sizer.cli.inputs import BASE, DESIGN, people
from sizer.cli.options import (
    GEAR,
    STAMP,
    USE,
    WATER,
    Command,
    Option,
    needed,
    number,
    stamp_of,
    switch,
    water_of,
)
from sizer.cli.shop_options import SHOP_OPTIONS, shop_of
from sizer.crowd.finished import finished
from sizer.crowd.region import who_fits
from sizer.crowd.sizes import MOST_SIZES
from sizer.export.range_answer import region_answer
from sizer.export.range_package import range_package
from sizer.fit.request import DEFAULT_WATER, Trip
from sizer.fit.uses import USES


def range_(given):
    """Prints the sizes chosen for a list of people; with --out, writes tables and packages."""
    gear = USES[given.use].gear_kg if given.gear_kg is None else given.gear_kg
    trip = Trip(given.base.base, given.use, water_of(given), gear)
    made = range_package(given.people, given.base.lines, trip, given.sizes, _shown(given),
                         bool(given.out), stamp_of(given), shop_of(given))
    answer = made.answer
    if given.out:
        write_folder(made.files, given.out)
        answer |= {"out": str(given.out), "files": list(made.files)}
    put_answer(answer)


def fitting(given):
    """Prints who fits one finished boat; returns 1 where nobody does."""
    request, lines = given.design.request, given.design.lines
    boat, imprint = given.design.boat(stamp_of(given))
    use = given.use or (request.trip.use if request else lines.design.drawn_for.use)
    gear, usual = USES[use].gear_kg, DEFAULT_WATER
    if request:
        usual = request.trip.water.kind, request.trip.water.temperature_c
        gear = request.trip.gear_kg if request.trip.use == use else gear
    gear = gear if given.gear_kg is None else given.gear_kg
    trip = Trip(given.design.base, use, water_of(given, usual), gear)
    found = who_fits(finished(lines, boat.scaling), trip, _shown(given),
                     like=request and request.measured)
    put_answer(region_answer(found, imprint))
    return 0 if found.statures.rows else 1


def _shown(given):
    """What tells on standard error how far it is: on a terminal in one line that is written over,
    with --progress a line each time, otherwise nothing."""
    before, after = ("\r\033[K", "\r") if sys.stderr.isatty() else ("", "\n")

    def show(done, of, words):
        if given.progress or sys.stderr.isatty():
            print(f"{before}{words}: {done} of {of}", end=after, file=sys.stderr, flush=True)

    return show


FOR_ALL = (*STAMP, GEAR, *WATER,
           switch("--progress", "say how far it is, a line at a time, on standard error"))
COMMANDS = (
    Command("range", range_, "choose the few sizes of a base that serve the most people",
            "%(prog)s people.csv --base day-boat --use coastal-day --sizes 3 --out sizes", (
                Option("people", "a list of people, CSV or JSON lines (.jsonl), or - for CSV on "
                       "standard input; columns such as weight_kg, stature_mm, hip_width_mm",
                       people, {"metavar": "PEOPLE.csv"}),
                BASE, USE,
                needed("--sizes", f"how many, 1 to {MOST_SIZES}",
                       number(1, MOST_SIZES, "sizes", whole=True)),
                Option("--out", "a new or empty folder for the tables, the map and every size's "
                       "shop package; written whole or not at all", out_folder,
                       {"metavar": "DIR"}),
                switch("--force", "replace an older range there"), *SHOP_OPTIONS, *FOR_ALL)),
    Command("who-fits", fitting,
            "say who fits one finished boat: only seat, footbrace and padding move",
            "%(prog)s day-boat --use coastal-day", (
                replace(DESIGN, words="a base as drawn, or a request .json (or -) for its fitted "
                        "boat", more={"metavar": "DESIGN|REQUEST.json"}),
                Option("--use", f"{USE.words} (default: the request's, or what the base was drawn "
                       "for)", USE.read), *FOR_ALL)),
)
