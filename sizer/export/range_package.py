"""A range of sizes for a list of people, worked out and written as files: tables, a map of the
people, and one zip with each size's whole shop package in a folder of its own.
"""

from dataclasses import dataclass

from sizer.crowd.finished import request_for
from sizer.crowd.listed import listed
from sizer.crowd.sizes import Size, size_range
from sizer.export.numbers import json_text
from sizer.export.range_answer import range_answer, size_request
from sizer.job import run

REQUEST = "request.json"


@dataclass(frozen=True, eq=False)
class RangePackage:
    """A range of sizes as it is handed on."""

    sizes: tuple[Size, ...]
    answer: dict  # as `range_answer`
    files: dict[str, bytes]  # by name; empty where none were wanted


def range_package(people, lines, base, use, water, gear_kg, most_sizes,
                  progress=lambda done, of, words: None, with_files=True):
    """The RangePackage of a list of people.

    Parameters
    ----------
    people : sequence of PersonRow and BadRow
    with_files : False leaves the files out, which cost most
    others : as `sizer.crowd.sizes.size_range`

    Raises
    ------
    BadInput, as `sizer.crowd.listed.listed` and `size_range`.
    """
    crowd = listed(people, use, gear_kg)
    found = size_range(crowd.measured, lines, base, use, water, gear_kg, most_sizes, progress)
    choice = found.choices[-1]
    answer = range_answer(found, choice, crowd.rows, crowd.bad, crowd.notes)
    files = range_files(found, choice, crowd.rows, answer, progress) if with_files else {}
    return RangePackage(choice.sizes, answer, files)


def range_files(found, choice, rows, answer, progress=lambda done, of, words: None):
    """{name: bytes} of a SizeRange with one of its choices written out; `answer` is its JSON."""
    # the writers of DXF and PDF load only where they are wanted
    from sizer.export.range_report import people_csv, people_svg, sizes_csv

    texts = {"range.json": json_text(answer), "sizes.csv": sizes_csv(found, choice),
             "people.csv": people_csv(found, choice, rows),
             "people-map.svg": people_svg(found, choice)}
    return {name: text.encode("utf-8") for name, text in texts.items()} | {
        "size-packages.zip": range_zip(found, choice, progress)}


def size_job(found, size):
    """The Job of a Size for the paddler it is drawn for: the same boat, its dimensions held."""
    setting = found.setting
    return run(request_for(size.hull, size.drawn, setting.base, setting.use, setting.water,
                           setting.gear_kg), setting.lines)


def range_zip(found, choice, progress=lambda done, of, words: None):
    """Bytes of the zip: a folder for each size, with the request that gives it again.

    Parameters
    ----------
    found : SizeRange
    choice : one of its choices
    progress : called as progress(done, of, words)
    """
    from sizer.export.package import parts, zip_bytes
    from sizer.shop.bench import bench_of

    files = {}
    for done, size in enumerate(choice.sizes):
        folder = size.name.replace(" ", "-")
        progress(done, len(choice.sizes), f"shop package of {size.name}")
        job = size_job(found, size)
        files[f"{folder}/{REQUEST}"] = json_text(size_request(found, size)).encode("utf-8")
        files |= {f"{folder}/{name}": data for name, data in parts(job, bench_of(job))}
    return zip_bytes(files)
