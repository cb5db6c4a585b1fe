"""The package: its files, their words, the zip, and the two sheets read back."""

import io
import json
import re
import zipfile
from dataclasses import replace

import numpy as np
import pytest
from opened import LEAD, OPENED, STAMP, WORDS
from pdf_reading import CUT_PT, read_page, words_by_page, words_of
from pypdf import PdfReader

from sizer.export.customer import customer_pdf
from sizer.export.package import file_names, package, parts, zip_bytes
from sizer.export.read_me import read_me
from sizer.export.setting_up_sheet import setting_up_pdf
from sizer.fit.check import Check
from sizer.fit.checks import BODY_SOURCE
from sizer.fit.request import read_request
from sizer.job import run
from sizer.shop.bench import bench_of
from sizer.shop.coaming import LIP_M, WALL_M
from sizer.shop.plywood import Plywood
from sizer.shop.settings import Shop
from sizer.units import inches_text
from tests.cli.conftest import few_files

BASES = ("day-boat", "steady-boat", "long-tourer")  # a panel, slats, a panel on one chine
# Made for the first of them alone: their words and bytes for every base are in test_pdf.py, plans
# on Letter of the second in test_plans.py
LONG = ("plans-Letter.pdf", "patterns-A4.pdf", "patterns-Letter.pdf")
# Nor made of the last of them, of which owner's sheet, seat and setting up tell something else
ALIKE = (*LONG, "plans.pdf", "patterns-large.pdf", "plywood-layout.pdf", *(
    f"{name}{paper}.pdf" for name in ("sticks", "dry-fit", "launch") for paper in ("", "-Letter")))
LEFT_OUT = dict(zip(BASES, ((), LONG, ALIKE), strict=True))
# Nor of the boat that does not pass: what is stamped across its pages on Letter is seen on its
# seat's sheet, owner's and setting up of that paper, and on all of its papers on A4
OTHER_PAPER = tuple(f"{name}-Letter.pdf" for name in (
    "plans", "patterns", "sticks", "dry-fit", "launch"))
TOO_LARGE = {"weight_kg": 143.3, "stature_mm": 1917, "hip_width_mm": 526}  # for a small cruiser


@pytest.fixture(scope="module", params=BASES)
def job(request, middle_job):
    return middle_job(request.param)


def wanted(job, bench):
    """The names of the files that are looked at."""
    left_out = OTHER_PAPER if job.status == "fail" else LEFT_OUT[job.request.trip.base]
    return tuple(name for name in file_names(job, bench) if name not in left_out)


def made(job, bench):
    """Those files of its package, in the names that they are stamped with."""
    with pytest.MonkeyPatch.context() as patch:
        few_files(patch, *wanted(job, bench))
        return dict(parts(job, bench, STAMP))


@pytest.fixture(scope="module")
def stamped(job, bench):
    return made(job, bench)


@pytest.fixture(scope="module")
def files(stamped):
    """By their names without a stamp."""
    return {name.replace(LEAD, ""): data for name, data in stamped.items()}


@pytest.fixture(scope="module")
def failing(base_lines):
    """(Job, files) of a boat that does not pass."""
    job = run(read_request({"base": "small-cruiser", "use": "coastal-day", "paddler": TOO_LARGE}),
              base_lines["small-cruiser"])
    assert job.fitted.status == "fail"
    return job, made(job, bench_of(job))


def test_the_package_has_every_file_in_the_names_told_beforehand(job, bench, files):
    assert tuple(files) == wanted(job, bench)
    assert all(files.values())
    stems = [re.sub("[^A-Za-z0-9]+", "-", drawing.name) for drawing in bench.drawings]
    kits = {f"kit/plywood-{plan.thickness_m * 1000:g}-mm-{number}.dxf"
            for plan in bench.layouts for number in range(1, plan.count + 1)}
    assert {f"frames/{stem}.{kind}" for stem in stems for kind in ("dxf", "svg")} | {
        "read-me-first.txt", "plans.pdf", "plans-Letter.pdf", "setting-up.pdf",
        "setting-up-Letter.pdf", "sticks.pdf", "sticks-Letter.pdf", "customer.pdf",
        "customer-Letter.pdf", "seat.pdf", "seat-Letter.pdf", "dry-fit.pdf", "dry-fit-Letter.pdf",
        "launch.pdf", "launch-Letter.pdf",
        "seat-pieces.dxf", "seat-pieces.svg", "footbrace-pedal.dxf", "footbrace-pedal.svg",
        "outfit-boards.dxf", "outfit-boards.svg",
        "stations-mm.csv", "stations-inches.csv",
        "stringers-mm.csv", "stringers-inches.csv", "materials-mm.csv",
        "materials-inches.csv", "offsets-mm.csv", "offsets-feet.csv", "fitted-boat.toml",
        "patterns-A4.pdf", "patterns-Letter.pdf", "patterns-large.pdf", "plywood-layout.pdf",
        *kits, "coaming.dxf", "coaming.svg", "everything.json"} == set(file_names(job, bench))


@pytest.mark.parametrize("job", BASES[:1], indirect=True)  # all files of one
def test_every_file_of_a_fit_names_its_job(job, stamped):
    assert job.fitted.status != "fail"
    assert_opened(job, stamped, refused=False)


def test_every_file_of_a_boat_that_does_not_pass_is_stamped(failing):
    assert_opened(*failing, refused=True)


def assert_opened(job, files, refused):
    boat = job.fitted.assessed.boat
    line = (f"{WORDS} · {job.request.trip.base} {boat.length_m:.2f} m x {boat.beam_m:.2f} m")
    assert {name.rsplit(".", 1)[1] for name in files} == set(OPENED)
    for name, data in files.items():
        assert all(part.startswith(LEAD) for part in name.split("/")), name
        OPENED[name.rsplit(".", 1)[1]](data, line, refused)


def test_another_revision_is_another_file_throughout(middle_job, middle_bench):
    """By its name; that each file tells its own revision is seen above."""
    job, bench = middle_job(BASES[0]), middle_bench(BASES[0])
    issued = file_names(job, bench, STAMP)
    later = file_names(job, bench, replace(STAMP, revision="C", replaces="B"))
    assert len(later) == len(issued) > 40
    assert not set(later) & set(issued)


@pytest.mark.parametrize("sheet", ["customer", "seat"])
def test_the_sheets_of_owner_and_seat_hold_the_same_words_on_both_papers(files, sheet):
    said = []
    for name, size_pt in ((f"{sheet}.pdf", (595.3, 841.9)), (f"{sheet}-Letter.pdf", (612, 792))):
        reader = PdfReader(io.BytesIO(files[name]))
        for page in reader.pages:
            assert [float(side) for side in page.mediabox[2:]] == pytest.approx(size_pt, abs=0.2)
        said.append(set(words_of(files[name]).split()))
    off = {one for one in said[0] ^ said[1] if not re.fullmatch(r"[-(\d.,:;/\"]+", one)}
    checks = {"mm", "in", "kg", "lb)"}  # those of the owner's table, in each reader's own
    units = checks | {"whole", "inches", "corner"}
    off = {one.strip(".,:;") for one in off}
    assert off - units == set()  # but for scales, numbers of pages, and each reader's unit
    assert off <= checks or sheet == "seat"


@pytest.mark.parametrize("job", BASES[:1], indirect=True)  # units are the same of every boat
def test_the_dry_fit_sheet_is_in_the_jobs_unit_and_on_letter_paper_in_inches(
        job, bench, monkeypatch):
    few_files(monkeypatch, "dry-fit.pdf", "dry-fit-Letter.pdf")
    mark_mm = 1000.0 * job.setting_up.stations[3].strongback_m
    shown = {"mm": f"{mark_mm:.1f}", "in": inches_text(mark_mm)}
    for unit in shown:
        stamp = replace(STAMP, lengths=unit)
        sheets = {name: words_of(data) for name, data in parts(job, bench, stamp)
                  if "dry-fit" in name}
        assert len(sheets) == 2
        for name, text in sheets.items():
            read = "in" if name.endswith("-Letter.pdf") else unit
            assert f"Along the strongback, {read}" in text
            assert f" {shown[read]} " in text


def test_file_names_are_plain_whatever_frames_are_called(job, bench):
    names = ["../F1", "f1", "Rahmen Größe 1", "///", "F1"]
    drawings = tuple(replace(drawing, name=name) for drawing, name in zip(
        bench.drawings, names + [one.name for one in bench.drawings[len(names):]], strict=True))
    told = file_names(job, replace(bench, drawings=drawings))
    assert len({name.lower() for name in told}) == len(told)
    assert all(re.fullmatch(r"((frames|kit)/)?[A-Za-z0-9-]+\.[a-z]+", name) for name in told)


def test_a_package_is_the_bench_with_its_defaults(middle_job, monkeypatch):
    few_files(monkeypatch, "patterns-A4.pdf", "patterns-large.pdf")  # which are looked at
    job = middle_job("day-boat")
    made = package(job, Shop(stock_lengths_m=(2.4,), sheet_m=(1.525, 1.22), patterns="half"))
    small = json.loads(made["everything.json"])
    halved = ", ".join([*(frame.name for frame in job.lines.design.frames), "coaming"])
    half = words_by_page(made["patterns-A4.pdf"])
    assert f"{halved}: One half: both sides are alike" in " ".join(half)
    assert "One half" not in words_of(made["patterns-large.pdf"])
    assert any("BOW" in page and "coaming, tile" in page for page in half)
    assert any("spacer" in page and "spacers, tile" in page for page in half)
    assert len(half) <= 50
    frames = next(one for one in small["bench"]["plywood"] if one["thickness_mm"] == 12)
    assert frames["sheets"][0]["sheet_mm"] == [1525, 1220]
    assert {row["size_mm"][2] for row in small["bench"]["materials"]
            if row["part"] == "timber"} == {2400}


def test_a_bench_that_fails_is_the_status_of_every_figure_as_of_the_papers(
        middle_job, middle_bench, monkeypatch):
    few_files(monkeypatch, "setting-up.pdf")
    job, bench = middle_job("day-boat"), middle_bench("day-boat")
    worst, *others = bench.checks
    bad = replace(bench, checks=(replace(worst, value=1e9, limit=1.0, sense="at most", hard=True),
                                 *others))
    told = dict(parts(job, bad))
    answer = json.loads(told["everything.json"])
    assert job.status == "pass"
    assert answer["status"] == "fail"
    assert answer["job"]["does_not_pass"] in words_of(told["setting-up.pdf"])


# What an owner's sheet says whole where it comes first, and by its SHORT words after that; PARTS
# are all that it says. The longest first.
SWIM = "; do not let go of it to swim"
ONCE = (SWIM,
        "a helper holds both gunwales until it is empty; do not climb on alone, and keep hold of "
        "the boat.",
        "get out of the cockpit and keep hold of the boat. Get ashore with it, or re enter only "
        "with help.",
        "keep hold of the boat. Get ashore with it, or re enter only with help.",
        " (of 30 litres a minute while arms are fresh, our judgement)")
PARTS = ("a helper holds both gunwales until it is empty; do not climb on alone, and",
         f"get out of the cockpit and keep hold of the boat{SWIM}",
         "Get ashore with it, or re enter only with help.",
         "of 30 litres a minute while arms are fresh, our judgement")
SHORT = ("out of it at once, as above.", "keep hold, as above.", "as above.",
         "keep hold of the boat")


def told_once(text):
    for one in (*ONCE, *SHORT):
        text = text.replace(one, "")
    return text


def test_every_file_for_people_holds_the_cautions(job, files):
    for name, data in files.items():
        if name.endswith(".json"):
            held = " ".join(json.loads(data)["cautions"])
        elif name.endswith(".pdf"):
            held = words_of(data)
        else:
            held = data.decode("utf-8").replace("&quot;", '"')
        held = re.sub(r"[\s#-]+", " ", re.sub("<[^>]*>", " ", held)).replace('""', '"')
        owners = name.startswith("customer")
        cautions = re.sub(r"[\s-]+", " ", " ".join(job.cautions))
        assert not owners or all(one in held for one in PARTS if one in cautions)
        for caution in job.cautions:
            spared = (owners or name.startswith("launch")) and caution.startswith("Smaller bags:")
            said = re.sub(r"[\s-]+", " ", caution) in held
            if owners and not said:
                said = told_once(re.sub(r"[\s-]+", " ", caution)) in told_once(held)
            assert said is not spared, (name, caution)  # an owner buys bags that fill the ends


def test_no_money_goes_to_the_bench(files):
    """A package takes no rates at all; and no word of a price stands in its texts."""
    texts = [data.decode("utf-8") for name, data in files.items()
             if name.endswith((".csv", ".json", ".txt", ".toml"))]
    assert not any(word in text for text in texts
                   for word in ("units of money", "per_hour", "_per_kg\"", "overhead", "profit"))


def test_the_sheets_tell_the_shop_they_were_made_for(job, bench):
    made_for = replace(bench, shop=Shop(cutter_m=0.008, plywoods=(Plywood(0.012, 0.0115),),
                                        cloth_widths_m=(1.37, 1.6), patterns="half"))
    sheet, text = words_of(setting_up_pdf(job, made_for)), read_me(job, made_for, ())
    for told in (sheet, " ".join(text.split())):
        for figure in ("cutter 8 mm", "12 mm measures 11.5", "2440 x 1220 mm", "1370, 1600 mm",
                       "half frames"):
            assert figure in told


def test_the_read_me_names_every_file(job, bench, files):
    text = files["read-me-first.txt"].decode("utf-8")
    assert [name for name in file_names(job, bench, STAMP) if name not in text] == [
        f"{LEAD}read-me-first.txt"]


def test_the_zip_holds_the_files_and_the_same_files_give_the_same_bytes(files):
    packed = zip_bytes(files)
    assert packed == zip_bytes(dict(files))
    with zipfile.ZipFile(io.BytesIO(packed)) as opened:
        assert opened.testzip() is None
        assert {name: opened.read(name) for name in opened.namelist()} == files


@pytest.mark.parametrize("job", BASES[1:2], indirect=True)  # panels: tests/cli/test_book.py
def test_pdfs_and_texts_of_one_job_are_the_same_bytes_again(job, bench, stamped):
    again = made(job, bench)
    for name in stamped:
        if not name.endswith(".dxf"):  # which carries dates
            assert again[name] == stamped[name], name


def test_the_setting_up_sheet_tells_every_mark_face_and_height(job, bench, files):
    text = words_of(files["setting-up.pdf"])
    for station in job.setting_up.stations:
        looks = {"forward": "bow", "aft": "stern"}[station.reference_face]
        row = (f"{station.name} {station.kind} {station.strongback_m * 1000:.1f} .{{1,12}} "
               f"to the {looks} {station.plywood_lies} of the mark "
               f"{station.gunwale_height_m * 1000:.1f} .{{1,12}} "
               f"{station.keel_height_m * 1000:.1f} ")
        assert re.search(row, text), station.name
    for mark in bench.marks.marks:
        assert f"{mark.name} {mark.strongback_m * 1000:.1f} " in text
    assert "datum" in text


def test_the_strongback_is_drawn_to_the_scale_it_says(job, files):
    reader = PdfReader(io.BytesIO(files["setting-up.pdf"]))
    one_to = int(re.search(r"Scale 1 : (\d+)", words_of(files["setting-up.pdf"])).group(1))
    page = read_page(reader.pages[0])
    wide = {round(float(np.ptp(points[:, 0])), 2) for points, closed, width, _ in page.paths
            if closed and width == pytest.approx(CUT_PT, abs=0.01)}
    assert any(abs(one - job.setting_up.strongback_length_m * 1000 / one_to) < 0.02
               for one in wide)
    faces = sorted({round(float(points[0, 0]), 2) for points, closed, width, _ in page.paths
                    if len(points) == 2 and width == pytest.approx(CUT_PT, abs=0.01)
                    and np.ptp(points[:, 0]) < 0.01})
    marks = [station.strongback_m * 1000 / one_to for station in job.setting_up.stations]
    assert np.subtract(faces, faces[0]) == pytest.approx(np.subtract(marks, marks[0]), abs=0.03)


def test_nothing_on_the_sheets_leaves_its_page(files):
    for name in ("setting-up.pdf", "customer.pdf"):
        reader = PdfReader(io.BytesIO(files[name]))
        for page in reader.pages:
            drawn = read_page(page)
            for points, _, _, _ in drawn.paths:
                assert points.min() >= 8.0
                assert np.all(points.max(axis=0) <= np.array(drawn.size_mm) - 8.0)


def test_the_customer_sheet_holds_the_load_and_no_body_measure(job, files):
    assert_no_measure(job, words_of(files["customer.pdf"]))


def test_a_paddler_who_does_not_fit_is_told_so_without_their_measures(failing):
    job, files = failing
    text = words_of(files[f"{LEAD}customer.pdf"])
    assert "does not pass" in text
    assert_no_measure(job, text)


def assert_no_measure(job, text):
    load, body = job.fitted.assessed.loading, job.person.body
    assert f"Load {load.paddler_kg + load.gear_kg:.1f} kg" in text
    assert "For one paddler, the one it was fitted to" in text
    numbers = set(re.findall(r"\d+(?:\.\d+)?", text))
    for measure in (body.weight_kg, load.paddler_kg):
        assert not {f"{measure:g}", f"{measure:.1f}", f"{measure:.2f}"} & numbers
    for name in ("stature", "hip_sitting", "inseam", "sitting_height", "shoulder_width",
                 "thigh_clearance", "knee_height", "shoe_length"):
        value = getattr(body, name).value_m * 1000
        assert not {f"{value:.0f}", f"{value:.1f}"} & numbers, name
    passing = re.search(r"Passing, but “not told here”: (.*?)\.", text)[1]
    for check in job.fitted.checks:
        if check.status == "pass" and not (check.row.rule_small or check.row.rule_large):
            continue  # a builder's alone
        if check.status == "pass" and check.source == BODY_SOURCE:
            assert check.name in passing
            continue
        if check.key == "gm-bare" and "ALWAYS TAKE AT LEAST" in text:
            continue  # of a boat as it never goes out
        shown = ("not told here your measures" if check.source == BODY_SOURCE
                 else r"(-?\d+(\.\d+)?[ °]|yes|no)")
        assert re.search(re.escape(check.name) + " " + shown, text), check.name


def test_checks_that_do_not_pass_come_first_on_the_customer_sheet(job, bench, files):
    row = replace(job.fitted.checks[-1].row, title="made up", fails_below=lambda _: 1.0,
                  small="what mends it here")
    checks = (*job.fitted.checks[1:], Check(row, -1.0, (1.0, -np.inf, np.inf, np.inf)))
    made = replace(job, fitted=replace(job.fitted, checks=checks, status="fail"))
    text = words_of(customer_pdf(made, bench))
    table = text[text.index("what it means, what mends it"):]
    told = [check.name for check in checks[:-1] if check.row.rule_small and check.name in table]
    assert len(told) > 5
    assert table.index("made up") < min(map(table.index, told))
    assert "does not pass" in table
    assert "What mends it: what mends it here." in table
    assert "THIS BOAT DOES NOT PASS ITS CHECKS" in text
    assert "It fails: made up." in text
    assert "DOES NOT PASS" not in words_of(files["customer.pdf"])


def test_the_read_me_alone_says_what_was_sought_and_reached(job, bench, files):
    owner = words_of(files["customer.pdf"])
    read_me = " ".join(files["read-me-first.txt"].decode("utf-8").split())
    for one in job.fitted.sought:
        factor, digits, unit = (1000.0, 0, " mm") if one.aim.unit == "mm" else (1.0, 2, "")
        wanted, reached = (f"{round(value * factor, digits) + 0.0:.{digits}f}{unit}"
                           for value in (one.wanted, one.value))
        assert f"{one.aim.title} {wanted} {reached}" not in owner  # room would tell a body
        assert f"{one.aim.title}: sought {wanted}, reached {reached}" in read_me
    side = 1000.0 * bench.hip_pads.room_m  # board and foam, where the spacers are as sawn
    assert re.search(rf"\b{side:.0f} mm \([^)]*\) each side of the hips", read_me)
    assert "each side of the hips" not in owner


def test_the_read_me_tells_why_freeboards_differ(base_lines):
    """Of 8 kg aboard a boat whose base was drawn with 3: two loads, two freeboards."""
    laden = run(read_request({"base": "surf-runner", "use": "rough-water", "gear_kg": 8,
                              "paddler": {"weight_kg": 74, "stature_mm": 1750,
                                          "hip_width_mm": 380}}), base_lines["surf-runner"])
    bench = bench_of(laden)
    text = " ".join(read_me(laden, bench, ()).split())
    assert "“With the day's load” is with 3.0 kg (6.6 lb) of gear" in text
    assert "with this job's 8.0 kg (17.6 lb)" in text


def test_the_seat_sheet_is_drawn_to_the_scale_it_says(job, bench, files):
    reader = PdfReader(io.BytesIO(files["seat.pdf"]))
    text = words_of(files["seat.pdf"])
    one_to = int(re.search(r"1 : (\d+), whole mm", text).group(1))
    boards = [np.ptp(points, axis=0) for points, closed, width, _ in read_page(
        reader.pages[0]).paths if closed and width == pytest.approx(CUT_PT, abs=0.01)]
    for board in bench.seat.boards:
        size = np.ptp(board.plan_m, axis=0) * 1000 / one_to
        assert sum(np.abs(one - size).max() < 0.02 for one in boards) >= 2, "port and starboard"
    seat = bench.seat
    assert f"{job.fitted.assessed.boat.seat_z_m * 1000:.0f}" in text
    for item in seat.items:
        assert item.what in text
    for number in (seat.footbrace.nearest_m, seat.footbrace.set_m, seat.footbrace.farthest_m,
                   seat.backband.over_seat_m):
        assert f"{number * 1000:.1f} mm (" in text
    assert seat.backband.frame in text


def test_seat_parts_are_the_same_in_sheet_list_and_answer(bench, files):
    answer = json.loads(files["everything.json"])["bench"]
    parts = [(one["what"], one["quantity"]) for one in answer["seat"]["parts"]]
    listed = [(one["what"], one["quantity"]) for one in answer["materials"]
              if one["part"] == "seat"]
    bought = {}  # what is alike stands in one line, and all cord in one of its own
    for what, count in parts:
        bought[what] = bought.get(what, 0) + count
    bought.pop("waxed cord", None)
    assert bought == pytest.approx(dict(listed))
    assert len(bought) == len(listed)
    cord = next(one["quantity"] for one in answer["materials"] if one["what"] == "waxed cord")
    assert sum(long for what, long in parts if what == "waxed cord") < cord
    assert len(parts) == len(bench.seat.items)
    text = files["materials-mm.csv"].decode("utf-8")
    assert all(what in text for what, _ in parts)


def test_the_coaming_form_is_the_opening_with_wall_and_lip_round_it(job, bench):
    opening = job.fitted.assessed.boat.opening
    form, wall, lip = (stroke.points_m for stroke in bench.coaming.strokes
                       if getattr(stroke, "closed", False))
    slope = np.hypot(opening.length_m, opening.rim_z_m[0] - opening.rim_z_m[1])
    assert np.ptp(form[:, 0]) == pytest.approx(slope, abs=1e-4)
    assert np.ptp(form[:, 1]) == pytest.approx(opening.width_m, abs=1e-3)
    for line, out in ((wall, WALL_M), (lip, WALL_M + LIP_M)):
        assert np.ptp(line, axis=0) == pytest.approx(np.ptp(form, axis=0) + 2 * out, abs=1e-4)
