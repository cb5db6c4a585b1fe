"""A range of sizes for a list of people, worked out and written as files: tables, a map of the
people, and one zip with each size's whole shop package in a folder of its own.
"""

from dataclasses import dataclass

from sizer.crowd.crew import cores
from sizer.crowd.finished import request_for
from sizer.crowd.people import listed
from sizer.crowd.sizes import Size, size_range
from sizer.export.answer import imprint_answer
from sizer.export.numbers import json_text
from sizer.export.range_answer import range_answer, range_imprint, size_request
from sizer.export.size_map import WhoTakesWhich, who_takes_which
from sizer.fit.request import JOB
from sizer.job import run
from sizer.shop.settings import SHOP
from sizer.stamp import no_job

REQUEST, ANSWER = "request.json", "range.json"


@dataclass(frozen=True, eq=False)
class RangePackage:
    """A range of sizes as it is handed on."""

    sizes: tuple[Size, ...]
    answer: dict  # as `range_answer`
    files: dict[str, bytes]  # by name; empty where none were wanted
    people_map: WhoTakesWhich  # for `size_map`
    people: tuple[tuple[int, str], ...]  # row and label of each, in the map's order


def range_package(people, lines, trip, most_sizes, progress=lambda done, of, words: None,
                  with_files=True, stamp=None, shop=SHOP):
    """The RangePackage of a list of people, PersonRow and BadRow; BadInput as
    `sizer.crowd.people.listed` and `size_range`, whose parameters the others are.

    `with_files` False leaves the files out, which cost most; `stamp` is as in
    `sizer.export.range_answer.range_imprint`, `shop` what the packages are made for."""
    crowd = listed(people, trip.use, trip.gear_kg)
    found = size_range(crowd.measured, lines, trip, most_sizes, progress, cores())
    choice = found.choices[-1]
    stamp = stamp or no_job()
    answer = range_answer(found, choice, crowd.rows, crowd.bad, crowd.notes, stamp)
    files = (range_files(found, choice, crowd.rows, answer, progress, stamp, shop) if with_files
             else {})
    return RangePackage(choice.sizes, answer, files, who_takes_which(found, choice),
                        tuple((row.number, row.label) for row in crowd.rows))


def range_files(found, choice, rows, answer, progress=lambda done, of, words: None, stamp=None,
                shop=SHOP):
    """{name: bytes} of a SizeRange with one of its choices written out; `answer` is its JSON."""
    # the writers of DXF and PDF load only where they are wanted
    from sizer.export.range_report import people_csv, people_svg, sizes_csv

    imprint = range_imprint(found, choice, stamp)
    texts = {ANSWER: json_text(answer), "sizes.csv": sizes_csv(found, choice, imprint),
             "people.csv": people_csv(found, choice, rows, imprint),
             "people-map.svg": people_svg(found, choice, imprint)}
    files = {name: text.encode("utf-8") for name, text in texts.items()} | {
        "size-packages.zip": range_zip(found, choice, progress, imprint.stamp,
                                          shop)}
    return {imprint.stamp.named(name): data for name, data in files.items()}


def size_job(found, size, shop=SHOP):
    """The Job of a Size for the paddler it is drawn for: the same boat, its dimensions held."""
    setting = found.setting
    return run(request_for(size.hull, size.drawn, setting.trip), setting.lines,
               shop=shop)


def range_zip(found, choice, progress=lambda done, of, words: None, stamp=None, shop=SHOP):
    """Bytes of the zip of a SizeRange with one of its choices: a folder for each size, with the
    request that gives it again; `progress` is called with (done, of, words)."""
    from sizer.export.package import parts, zip_bytes
    from sizer.shop.bench import bench_of

    files, stamp = {}, stamp or no_job()
    for done, size in enumerate(choice.sizes):
        folder = stamp.named(size.name.replace(" ", "-"))
        progress(done, len(choice.sizes), f"shop package of {size.name}")
        job = size_job(found, size, shop)
        bench = bench_of(job, shop)
        request = size_request(found, size) | {
            JOB: imprint_answer(job.stamped(stamp, bench).imprint)}
        files[f"{folder}/{stamp.named(REQUEST)}"] = json_text(request).encode("utf-8")
        files |= {f"{folder}/{name}": data for name, data in parts(job, bench, stamp=stamp)}
    return zip_bytes(files)
