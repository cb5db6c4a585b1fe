"""Design files and tables of offsets with figures and lines changed: refused with their place, or
fitted, floated and built."""

import re
from dataclasses import replace

import pytest
from hypothesis import event, example, given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from sizer.design.library import read_base, shipped_names, shipped_text
from sizer.design.offsets import NOTATIONS, offsets_csv, with_offsets
from sizer.design.read import read_design
from sizer.errors import BadInput, NotSolved, WillNotFloat
from sizer.export.package import file_names, parts
from sizer.fit.check import STATUSES
from sizer.fit.request import drawn_request, read_request
from sizer.fit.uses import USES
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.redraw import redrawn
from sizer.hull.scale import Scaling
from sizer.job import run
from sizer.shop.bench import bench_of
from tests.cli.conftest import one_paper
from tests.knocks.conftest import NAMED, answered, knocks
from tests.knocks.test_odd_requests import asked, paddlers

FIGURE = re.compile(r'(?<![\w.#"])-?\d+(?:\.\d+)?(?![\w."])')
NAME = "mine.toml"
BENCH_EVERY = 12 if NAMED else 3  # of so many fitted one is taken to the bench, the dearest part
PLACE = re.compile(r"mine\.(toml|csv)|stringer|frame|cockpit|bow|stern|seat")

changes = st.one_of(
    st.floats(0.8, 1.25).map(lambda by: lambda figure: figure * by),
    st.floats(-100.0, 100.0).map(lambda by: lambda figure: figure + by),
    st.sampled_from([0.0, -1.0, 0.01, 0.1, 0.5, 2.0, 10.0]).map(lambda by: lambda one: one * by),
    st.sampled_from([0.0, 1.0, 1e-6, 1e4]).map(lambda to: lambda figure: to))
few = st.lists(st.tuples(st.floats(0.0, 1.0), changes), min_size=1, max_size=5)


def changed(text, how):
    """The text with some of its figures changed: each a (share along the file, change)."""
    for share, change in how:
        spots = [spot for spot in FIGURE.finditer(text) if not in_remark(text, spot.start())]
        spot = spots[min(int(share * len(spots)), len(spots) - 1)]
        figure = change(float(spot[0]))
        text = f"{text[:spot.start()]}{round(figure, 4):g}{text[spot.end():]}"
    return text


def in_remark(text, at):
    line = text[text.rfind("\n", 0, at) + 1:at]
    return "#" in line or line.startswith("format")


def read(text):
    return fair_lines(read_design(text, NAME))


def refused_with_its_place(refused):
    assert isinstance(refused, BadInput)
    for fault in refused.faults:
        assert str(fault).encode()
        assert PLACE.match(fault.place), fault


@st.composite
def whoever(draw):
    """A request for a changed design: whom it was drawn for in it as drawn, or anybody."""
    if draw(st.booleans()):
        return drawn_request
    given = {"base": NAME, "use": draw(st.sampled_from(list(USES))), "paddler": draw(paddlers())}
    return lambda _name, _lines: read_request(given)


@knocks(12)
@given(st.sampled_from(shipped_names()), few, whoever(), st.integers(0, BENCH_EVERY - 1))
@example("steady-boat", [(0.995, lambda figure: 2.0 * figure)], drawn_request, 0)
@example("day-boat", [(0.0, lambda figure: 0.46 * figure)], drawn_request, 0)  # 36 kg, 1760 mm
@example("load-carrier", [(0.14766949242504748, lambda figure: 0.01 * figure)], drawn_request, 0)
@example("load-carrier", [(0.14766949242504748, lambda figure: 0.11 * figure)], drawn_request, 0)
@example("load-carrier", [(0.8409391483146629, lambda figure: figure + 78.0)] * 3,
         drawn_request, 0)  # a stem without wood
@example("day-boat", [(0.88671875, lambda figure: 10000.0)],
         lambda _name, _lines: read_request(asked(NAME, "coastal-day", 80.0, 1780.0, 380.0)),
         0)  # goes down by the stern
def test_a_changed_design_is_refused_with_its_place_or_built(base, how, asked_by, skipped):
    lines, refused = answered(read, changed(shipped_text(base), how))
    if refused:
        event("refused")
        refused_with_its_place(refused)
        return
    request, refused = answered(asked_by, NAME, lines)
    if refused:  # a size that no boat has
        event("no size to hold")
        refused_with_its_place(refused)
        return
    job, refused = answered(run, request, lines)
    if refused:
        event(type(refused).__name__)
        assert isinstance(refused, (WillNotFloat, NotSolved)) or all(
            fault.place.startswith("stem of the ") for fault in refused.faults), refused
        return
    if skipped:
        event("fitted")
        return
    bench, refused = answered(bench_of, job)
    if refused:  # a pattern larger than the sheet
        event("too large to saw")
        assert all(fault.place.startswith("sheet for ") for fault in refused.faults)
        return
    event(job.fitted.status)
    assert job.fitted.status in STATUSES
    assert job.stamped(bench=bench).status == job.fitted.status
    assert all(drawing.strokes for drawing in bench.pieces)


def test_a_frame_no_kayak_has_is_refused_at_its_point():
    """Its stem had no wood left, which came down in the drawing of it."""
    text = shipped_text("long-tourer")
    at = next(spot for spot in re.finditer(r'"foredeck ridge" = \[0, ([\d.]+)\]', text))
    _, refused = answered(read, text[:at.start(1)] + "3725" + text[at.end(1):])
    assert any("height 3725 mm" in str(fault) and "-500 to 1500" in str(fault)
               for fault in refused.faults)


def test_a_base_flatter_than_any_boat_is_refused_by_its_depth(base_lines):
    """What nobody held was refused as held."""
    lines = base_lines["surf-runner"]
    flat = scaled_boat(lines, Scaling(depth=0.25))
    design = redrawn(flat, "flat", lines.design.drawn_for)
    _, refused = answered(drawn_request, NAME, fair_lines(design))
    refused_with_its_place(refused)
    assert [str(fault) for fault in refused.faults] == [
        f"{NAME}: depth {250.0 * scaled_boat(lines, Scaling()).depth_m:.0f} mm: "
        "100 to 9000 mm, as drawn"]


def test_a_stem_without_wood_is_refused(base_lines, monkeypatch):
    stems = [replace(one, wood=Polygon()) for one in stem_patterns_of(base_lines["day-boat"])]
    monkeypatch.setattr("sizer.shop.patterns.stem_patterns", lambda boat, afloat: stems)
    _, refused = answered(run, drawn_request("day-boat", base_lines["day-boat"]),
                          base_lines["day-boat"])
    assert [fault.place for fault in refused.faults] == ["stem of the bow", "stem of the stern"]


def stem_patterns_of(lines):
    return run(drawn_request("day-boat", lines), lines).patterns.stems


@knocks(1, 0.01)
@given(st.sampled_from(shipped_names()), st.lists(st.tuples(
    st.floats(0.5, 1.0), st.floats(0.98, 1.02).map(lambda by: lambda one: one * by)),
    min_size=1, max_size=3))
def test_every_file_of_a_changed_design_is_written(base, how):
    lines, refused = answered(read, changed(shipped_text(base), how))
    if refused:
        return
    request = read_request({"base": NAME, "use": lines.design.drawn_for.use, "paddler": {
        "weight_kg": 78, "stature_mm": 1740, "hip_width_mm": 380}})
    job, refused = answered(run, request, lines)
    bench, too_large = answered(bench_of, job) if job else (None, refused)
    if refused or too_large:
        return
    with pytest.MonkeyPatch.context() as patch:
        if not NAMED:  # the other paper: every file of tests/export
            one_paper(patch)
        made = dict(parts(job, bench))
        assert sorted(made) == sorted(file_names(job, bench))
    assert all(made.values())


lines_moved = st.lists(st.tuples(st.floats(0.0, 1.0), st.sampled_from(
    ["drop", "twice", "cut", "quote", "nul", "deep", "long"])), min_size=1, max_size=4)
WRECKS = {"drop": lambda line: "", "twice": lambda line: f"{line}\n{line}",
          "cut": lambda line: line[:len(line) // 2], "quote": lambda line: f'{line}"',
          "nul": lambda line: f"{line}\0", "deep": lambda line: "x = " + "[" * 3000,
          "long": lambda line: f"{line} = " + "9" * 5000}


@knocks(60)
@given(st.sampled_from(shipped_names()), lines_moved)
def test_a_wrecked_design_is_refused_with_its_place_or_read(base, wrecks):
    rows = shipped_text(base).split("\n")
    for share, how in wrecks:
        at = min(int(share * len(rows)), len(rows) - 1)
        rows[at] = WRECKS[how](rows[at])
    _, refused = answered(read, "\n".join(rows))
    event("refused" if refused else "read")
    if refused:
        refused_with_its_place(refused)


SIGNS = st.sampled_from(['"', ",", ";", "\t", "\n", "\r", "\0", "x", "-", "1e999", "NaN", "9" * 400,
                         "1-2-3", "١", "\ufeff", "# unit: mm", "=1"])


@knocks(60)
@given(st.sampled_from(shipped_names()), st.sampled_from(NOTATIONS), few,
       st.lists(st.tuples(st.floats(0.0, 1.0), st.integers(0, 9), SIGNS), max_size=3))
@example("day-boat", "mm", [], [(0.3, 0, '"')])
def test_a_broken_table_of_offsets_is_refused_with_its_place_or_read(base, notation, how, breaks):
    design = read_base(base)
    text = changed(offsets_csv(design, notation), how) if notation == "mm" else offsets_csv(
        design, notation)
    for share, taken, put in breaks:
        at = int(share * len(text))
        text = text[:at] + put + text[at + taken:]
    found, refused = answered(with_offsets, design, text, "mine.csv")
    event("refused" if refused else "read")
    if refused:
        refused_with_its_place(refused)
    else:
        _, refused = answered(fair_lines, found)
        assert not refused or isinstance(refused, BadInput)
