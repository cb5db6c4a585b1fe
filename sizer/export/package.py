"""The whole shop package of a job: file names with their bytes, in the order a builder reads them.

File names hold the job's code and revision and frames' names, never a paddler's name or measures.
"""

import io
import re
import zipfile
from dataclasses import replace
from functools import partial

from sizer.drawing.dxf import dxf_bytes
from sizer.drawing.file_svg import svg_text
from sizer.export.answer import full_answer
from sizer.export.bench_answer import bench_answer
from sizer.export.customer import customer_pdf
from sizer.export.dry_fit_sheet import dry_fit_pdf
from sizer.export.fitted_design import fitted_design_toml, fitted_offsets_csv
from sizer.export.launch_sheet import launch_pdf
from sizer.export.numbers import json_text
from sizer.export.parts_csv import materials_csv, station_csv, stringer_csv
from sizer.export.pdf import sheet_pdf
from sizer.export.plans import plans_pdf
from sizer.export.read_me import READ_ME, read_me
from sizer.export.seat_sheet import seat_pdf
from sizer.export.setting_up_sheet import setting_up_pdf
from sizer.export.stick_cards import sticks_pdf
from sizer.export.tiled_pdf import tiled_pdf
from sizer.export.tiles import PAPERS_MM, READ_IN, USUAL_PAPER, sheet_name
from sizer.fit.study import study
from sizer.shop.bench import bench_of
from sizer.shop.half_pattern import half_pattern
from sizer.shop.kit import kit_dxf, kit_notes
from sizer.shop.relief import routed
from sizer.shop.settings import SHOP
from sizer.units import MM_PER_M

ANSWER = "everything.json"
ZIP_DATE = (1980, 1, 1, 0, 0, 0)  # the earliest a zip can hold: the same files, the same bytes
PLAN_SET = ("plans", "patterns", "plywood-layout", "kit/", "frames/", "coaming.", "seat-pieces.",
            "footbrace-pedal.", "outfit-boards.", "materials", "offsets", "fitted-boat", "dry-fit",
            "launch")  # beginnings of the names of its files
MOST_LETTERS = 40  # of a frame's name in a file name


def package(job, shop=SHOP, stamp=None):
    """{file name: bytes} of everything a builder takes to the shop.

    Parameters and errors as `sizer.shop.bench.bench_of`; stamp as in `parts`.
    """
    return dict(parts(job, bench_of(job, shop), stamp=stamp))


def parts(job, bench, stamp=None):
    """Yields (file name, bytes) of a Job and its Bench, one at a time, so that a caller can show
    how far it is; `stamp` as in `Job.stamped`."""
    job = job.stamped(stamp, bench)
    for name, make in _makers(job, bench).items():
        yield job.stamp.named(name), make()


def plan_set(job, bench, stamp=None):
    """Yields (file name, bytes) of what a stranger builds from, with the kit; as `parts`."""
    job = job.stamped(stamp, bench)
    wanted = {name: make for name, make in _makers(job, bench).items() if name.startswith(PLAN_SET)}
    yield job.stamp.named(READ_ME), _text(read_me(job, bench, (READ_ME, *wanted)))
    for name, make in wanted.items():
        yield job.stamp.named(name), make()


def file_names(job, bench, stamp=None):
    """The names that `parts` yields, without making the files."""
    return tuple(map(job.stamped(stamp).stamp.named, _makers(job, bench)))


def zip_bytes(files):
    """One zip of a package; the same files give the same bytes."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, data in files.items():
            entry = zipfile.ZipInfo(name, ZIP_DATE)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            packed.writestr(entry, data)
    return stream.getvalue()


def _makers(job, bench):
    """{file name: what makes its bytes}."""
    title = job.fitted.assessed.boat.design.name
    drawings, joined, imprint = bench.pieces, _to_join(bench), job.imprint
    makers = {
        READ_ME: lambda: _text(read_me(job, bench, tuple(makers))),
        **_on_papers("plans", plans_pdf, job, bench),
        **_on_papers("setting-up", setting_up_pdf, job, bench),
        **_on_papers("sticks", sticks_pdf, job, bench),
        **_on_papers("customer", customer_pdf, job, bench),
        **_on_papers("seat", seat_pdf, job, bench),
        **{sheet_name("dry-fit", paper): partial(dry_fit_pdf, job, _taped(job, paper), paper)
           for paper in PAPERS_MM},
        **_on_papers("launch", launch_pdf, job),
        **_tables(job, bench),
        **{f"patterns-{paper}.pdf": partial(tiled_pdf, title, joined, imprint, paper)
           for paper in PAPERS_MM},
        "patterns-large.pdf": partial(sheet_pdf, title, drawings, imprint),
        "plywood-layout.pdf": partial(sheet_pdf, title, _sheets(bench), imprint),
        **_kit(job, bench),
    }
    for stem, drawing in zip(_stems(bench), bench.drawings, strict=True):
        makers |= _shapes(f"frames/{stem}", drawing, imprint, bench.shop)
    makers |= _shapes("coaming", bench.coaming, imprint, bench.shop)
    makers |= _shapes("seat-pieces", bench.seat_pieces, imprint, bench.shop)
    makers |= _shapes("footbrace-pedal", bench.pedal_piece, imprint, bench.shop)
    makers |= _shapes("outfit-boards", bench.outfit_boards, imprint, bench.shop)
    makers[ANSWER] = lambda: _text(_everything(job, bench))
    return makers


def _on_papers(stem, make, *given):
    return {sheet_name(stem, paper): partial(make, *given, paper=paper) for paper in PAPERS_MM}


def _taped(job, paper):
    """What is measured in by who fills in a sheet on a paper: in inches where that paper is sold,
    else as the job's papers are."""
    return job.stamp.lengths if READ_IN[paper] == READ_IN[USUAL_PAPER] else READ_IN[paper]


def _to_join(bench):
    """The drawings of the pages to join: whole, or halves of what is alike on both sides."""
    if bench.shop.patterns == "whole":
        return bench.pieces
    return tuple(half_pattern(one.turned(-90.0) if one is bench.coaming else one)
                 for one in bench.pieces)  # the coaming's centre line is drawn level


def _tables(job, bench):
    made = {}
    for unit, name in (("mm", "mm"), ("in", "inches")):
        made |= {
            f"stations-{name}.csv": partial(station_csv, job, unit),
            f"stringers-{name}.csv": partial(stringer_csv, job, bench.sticks, unit),
            f"materials-{name}.csv": partial(materials_csv, job, bench.materials, unit),
        }
    for notation in ("mm", "feet"):
        made[f"offsets-{notation}.csv"] = partial(fitted_offsets_csv, job, notation)
    made["fitted-boat.toml"] = partial(fitted_design_toml, job)
    return {name: partial(_made_text, make) for name, make in made.items()}


def _shapes(stem, drawing, imprint, shop):
    """A drawing for a machine, with the relief of its round cutter, and for a hand, without."""
    return {f"{stem}.dxf": lambda: dxf_bytes(routed(drawing, shop), imprint),
            f"{stem}.svg": lambda: _text(svg_text(drawing, imprint))}


def _kit(job, bench):
    return {f"kit/plywood-{_plain(f'{layout.thickness_m * MM_PER_M:g}')}-mm-{number}.dxf":
            partial(kit_dxf, layout, sheet, bench.shop, job.imprint)
            for layout in bench.layouts for number, sheet in enumerate(layout.sheets, start=1)}


def _made_text(make):
    return _text(make())


def _text(words):
    return words.encode("utf-8")


def _sheets(bench):
    return [replace(sheet.drawing, notes=tuple(kit_notes(layout, sheet, bench.shop)))
            for layout in bench.layouts for sheet in layout.sheets]


def _plain(words):
    """Words as part of a file name."""
    return re.sub(r"[^A-Za-z0-9]+", "-", words).strip("-")


def _stems(bench):
    """A file name for each drawing: plain letters, none twice, whatever the frames are called."""
    stems = []
    for drawing in bench.drawings:
        plain = _plain(drawing.name)[:MOST_LETTERS] or "frame"
        taken = [stem.lower() for stem in stems]
        number, stem = 2, plain
        while stem.lower() in taken:
            stem, number = f"{plain}-{number}", number + 1
        stems.append(stem)
    return stems


def _everything(job, bench):
    other = study(job.fitted.assessed, job.mishaps.rigid)
    answer = full_answer(job, other) | {"bench": bench_answer(bench)}
    del answer["solve_ms"]  # the same job gives the same bytes
    return json_text(answer)
