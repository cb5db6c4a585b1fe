"""The builder's own design: the workbench's memory, and the page in a real browser."""

import re

import pytest
from app_screen import at, clicked, drafted, measured, opened, ran, said, turned_to
from playwright.sync_api import expect
from screens import downloaded, go, press, settled

from sizer.book.forget import forget
from sizer.design.cells import Units
from sizer.design.grids import GRIDS, grid_of
from sizer.design.library import read_base, shipped_folder, shipped_names, shipped_text
from sizer.design.offsets import offsets_csv, with_offsets
from sizer.design.read import read_design
from sizer.design.write import design_toml
from sizer.drawing.page_svg import page_svg
from sizer.errors import BadInput
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.scenes.long_views import as_drawn
from sizer.units import MM_PER_M
from sizer.web.cells import cells_data, in_units
from sizer.web.draft import Draft
from sizer.web.history import MOST_STEPS, History
from sizer.web.keeping import book_at_start, keep
from sizer.web.keeping import opened as opened_history
from sizer.web.upload import read_upload
from sizer.web.workbench import Workbench, copied, drawn_of, sheet_of, sheet_with, table_of

MM = Units()
BREADTH = ("frame", 2, "points_mm", "gunwale", 0)
PLAIN = read_base("teaching-boat")


def as_typed(value_m):
    """A length of the base as its cell shows it, in mm."""
    return f"{round(value_m * MM_PER_M, 2):g}"


def own_cell(frame, stringer="gunwale", axis=0):
    """What a cell of the plain base holds before anything is typed."""
    return as_typed(PLAIN.frames[frame].points_m[stringer][axis])


def offsets_with(breadth):
    """The plain base's offsets with another gunwale half-breadth at F3."""
    lines = offsets_csv(PLAIN).splitlines()
    row = next(at for at, line in enumerate(lines) if line.startswith("F3,"))
    cells = lines[row].split(",")
    cells[6] = breadth
    lines[row] = ",".join(cells)
    return "\n".join(lines) + "\n"


class OnBench(Workbench):
    """A Workbench with an undo of its own, as a draft has it."""

    def __init__(self, design):
        self.history = History(sheet_with(design))
        super().__init__(lambda: self.history.present, self._step)

    def _step(self, sheet):
        self.history = self.history.step(sheet)

    def undo(self):
        self.history = self.history.undone()

    def redo(self):
        self.history = self.history.redone()


@pytest.fixture
def bench():
    return OnBench(read_base("teaching-boat"))


def breadth_m(drawn):
    return drawn.design.frames[2].points_m["gunwale"][0]


def test_workbench_redraws_keeps_the_last_good_boat_and_goes_back_and_forth(bench):
    first = bench.sheet.drawn
    bench.enter({BREADTH: "302"}, MM)
    second = bench.sheet.drawn
    assert breadth_m(second) == pytest.approx(0.302)
    assert second.boat.beam_m != first.boat.beam_m or second.boat is not first.boat
    bench.enter({BREADTH: "wide"}, MM)
    assert not bench.good
    assert bench.sheet.drawn is second
    bench.undo()
    assert bench.good
    bench.undo()
    assert bench.sheet.drawn is first
    bench.redo()
    bench.redo()
    assert [one.at for one in bench.sheet.faults] == [(BREADTH,)]
    bench.undo()
    bench.enter({BREADTH: "303"}, MM)
    assert not bench.history.future


def test_workbench_tells_crossing_curves_by_cell_and_keeps_the_boat(bench):
    before = bench.sheet.drawn
    chine = [("frame", at, "points_mm", "chine", 0) for at in range(3)]
    bench.enter(dict(zip(chine, ("2", "400", "2"), strict=True)), MM)
    assert bench.sheet.drawn is before
    assert bench.sheet.faults
    assert all(one.at for one in bench.sheet.faults)


def test_workbench_remembers_a_bounded_number_of_steps(bench):
    for count in range(MOST_STEPS + 5):
        bench.enter({BREADTH: f"{290 + count % 7}"}, MM)
    assert len(bench.history.past) == MOST_STEPS


def test_the_same_text_again_is_no_step(bench):
    bench.enter({BREADTH: own_cell(2)}, MM)
    assert not bench.history.past


def test_a_frame_is_added_on_the_fair_lines(bench):
    lines = bench.sheet.drawn.boat.lines
    before = bench.sheet.drawn
    bench.add_frame(0)
    assert bench.good
    added = bench.sheet.drawn.design.frames[1]
    assert added.name == "F1a"
    assert added.x_m == pytest.approx(
        0.5 * (PLAIN.frames[0].x_m + PLAIN.frames[1].x_m))
    for name, point in added.points_m.items():
        assert point == pytest.approx(lines.line(name).curve(added.x_m), abs=0.00006)
    assert bench.sheet.drawn.boat.beam_m == pytest.approx(before.boat.beam_m, abs=0.0005)
    bench.remove_frame(1)
    assert design_toml(bench.sheet.drawn.design) == design_toml(before.design)


def test_the_comments_of_the_file_that_was_opened_stay_through_edits_and_undo(bench):
    text = "# mine\n" + shipped_text("teaching-boat").replace("[cockpit]", "[cockpit] # tight", 1)
    assert "# mine" not in bench.toml()
    bench.open(read_design(text), text)
    bench.enter({BREADTH: "302"}, MM)
    bench.add_frame(0)
    bench.enter({BREADTH: "wide"}, MM)
    assert bench.toml().startswith("# mine\n")
    assert "[cockpit] # tight" in bench.toml()
    assert design_toml(read_design(bench.toml())) == design_toml(bench.sheet.drawn.design)
    for _ in range(4):
        bench.undo()
    assert "# mine" not in bench.toml()


def test_a_copy_has_a_name_of_its_own_however_long_the_old_one():
    design = read_base("day-boat")
    assert copied(design).name == f"{design.name}, own copy"
    assert copied(copied(design)).name == copied(design).name
    long = copied(read_design(design_toml(design).replace(
        f'name = "{design.name}"', f'name = "{"x" * 200}"', 1)))
    assert not sheet_with(long).faults


def test_upload_reads_a_design_and_offsets_and_refuses_with_every_fault():
    base = read_base("teaching-boat")
    plain = (shipped_folder() / "teaching-boat.toml").read_bytes()
    text, design = read_upload("Mine.TOML", plain, read_base("day-boat"))
    assert text == plain.decode("utf-8")
    assert design_toml(design) == design_toml(base)
    table = offsets_with("301")
    text, design = read_upload("mine.csv", table.encode(), base)
    assert design_toml(design) == text == design_toml(with_offsets(base, table))
    assert breadth_m(sheet_with(design).drawn) == pytest.approx(0.301)
    for name, data, count in (("a.pdf", plain, 1), ("a.toml", b"\xff", 1), ("a.toml", b"", 1),
                              ("a.csv", offsets_with("wide").encode(), 1)):
        with pytest.raises(BadInput) as caught:
            read_upload(name, data, base)
        assert len(caught.value.faults) >= count
    crossing = plain
    for frame, breadth in enumerate(("2", "400", "2")):
        crossing = crossing.replace(f"chine = [{own_cell(frame, 'chine')},".encode(),
                                    f"chine = [{breadth},".encode())
    with pytest.raises(BadInput, match="crossing"):
        read_upload("a.toml", crossing, base)


def test_drawing_marks_what_is_not_fair_and_the_frame_in_hand(bench):
    bench.enter({BREADTH: "325"}, MM)
    drawn = bench.sheet.drawn
    assert drawn.unfair
    svg = page_svg(as_drawn(drawn.boat, drawn.unfair, bench.sheet.frame))
    assert svg.count("<circle") == len(drawn.unfair)
    assert bench.sheet.frame == "F3"
    plain = page_svg(as_drawn(drawn.boat, drawn.unfair))
    assert svg.count("<path") == plain.count("<path") + 3  # one in each view
    for frame in drawn.design.frames:
        assert f">{frame.name}</text>" in svg
    base = read_base("teaching-boat")
    boat = scaled_boat(sheet_with(base).drawn.boat.lines, Scaling())
    assert "nothing to mark" in page_svg(as_drawn(boat, ()))


def own_page(open_page, width=1440, height=900, copy="Copy Plain teaching boat"):
    page = open_page(width, height, path="own")
    press(page, copy)
    expect(cell(page, "F1 name")).to_have_value("F1")
    return page


def cell(page, label):
    return page.get_by_role("textbox", name=re.compile(f"^{label}(,|$)"))


def type_cell(page, label, text, key="Enter"):
    cell(page, label).fill(text)
    cell(page, label).press(key)
    settled(page)


LINES = ("[...document.querySelectorAll('svg.sz-drawing .sz-ink')]"
         ".map(line => line.getAttribute('d'))")


def drawing(page):
    """The hull's lines of the picture, without what marks the frame in hand."""
    return page.evaluate(LINES)


def drawn_as(page, wanted):
    """Waits until the picture shows these lines."""
    page.wait_for_function(f"wanted => JSON.stringify({LINES}) === JSON.stringify(wanted)",
                           arg=wanted)


def faults(page):
    return page.locator("li")


def test_an_edited_cell_redraws_a_bad_one_keeps_the_drawing_and_a_good_one_becomes_the_base(
        open_page):
    """On a phone, and after its faults are told on a desk."""
    page = own_page(open_page, 390, 844)
    before = drawing(page)
    type_cell(page, "F3 gunwale half-breadth", "302")
    expect(cell(page, "F4 gunwale half-breadth")).to_be_focused()
    page.wait_for_function(f"before => JSON.stringify({LINES}) !== JSON.stringify(before)",
                           arg=before)
    good = drawing(page)
    expect(page.get_by_text("Every cell can be read.")).to_be_visible()

    type_cell(page, "F3 gunwale half-breadth", "wide")
    expect(cell(page, "F3 gunwale half-breadth")).to_have_attribute("aria-invalid", "true")
    expect(cell(page, "F3 gunwale half-breadth")).to_have_value("wide")
    expect(faults(page)).to_contain_text(["F3 gunwale half-breadth: 'wide'"])
    assert drawing(page) == good
    expect(page.get_by_role("button", name="Use as base design")).to_be_disabled()
    expect(page.get_by_role("button", name="Design (TOML)")).to_be_disabled()
    type_cell(page, "F2 x", "3000")
    assert drawing(page) == good
    behind = f"F3 x: {as_typed(PLAIN.frames[2].x_m)} mm"
    expect(faults(page).filter(has_text=behind)).to_have_count(1)
    expect(cell(page, "F3 x")).to_have_attribute("aria-invalid", "true")
    for width, height in ((390, 844), (1440, 900)):
        page.set_viewport_size({"width": width, "height": height})
        settled(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= width

    press(page, "Undo")
    press(page, "Undo")
    expect(cell(page, "F3 gunwale half-breadth")).to_have_value("302")
    expect(cell(page, "F3 gunwale half-breadth")).to_have_attribute("aria-invalid", "false")
    press(page, "Undo")
    drawn_as(page, before)
    press(page, "Redo")
    drawn_as(page, good)
    expect(faults(page)).to_have_count(0)

    press(page, "Use as base design")
    expect(page.get_by_text("is the base design now")).to_be_visible()
    expect(page.locator(".sz-strip")).to_contain_text("No boat yet")  # nobody is measured here
    go(page, "2 Use and base")
    expect(page.get_by_text("Plain teaching boat, own copy").first).to_be_visible()
    expect(page.get_by_role("button", name="Chosen", exact=True)).to_have_count(1)
    go(page, "Own design")  # and stays on its page
    expect(cell(page, "F3 gunwale half-breadth")).to_have_value("302")


PASTE = """(one, text) => {
  const data = new DataTransfer();
  data.setData("text/plain", text);
  one.dispatchEvent(new ClipboardEvent("paste", {clipboardData: data, bubbles: true,
                                                 cancelable: true}));
}"""


def test_a_frame_comes_and_goes_keys_move_restore_and_leave_and_a_block_fills_cells(open_page):
    page = own_page(open_page)
    press(page, "Add a frame behind it")
    midway = 0.5 * (PLAIN.frames[0].x_m + PLAIN.frames[1].x_m)
    expect(cell(page, "F1a x")).to_have_value(as_typed(midway))
    press(page, "Take it out")
    expect(cell(page, "F1 x")).to_have_count(0)
    expect(cell(page, "F1a x")).to_be_visible()
    press(page, "Undo")
    press(page, "Undo")
    expect(cell(page, "F1a x")).to_have_count(0)

    here = cell(page, "F2 chine height")
    here.click()
    here.press("ArrowDown")
    expect(cell(page, "F3 chine height")).to_be_focused()
    cell(page, "F3 chine height").press("ArrowUp")
    expect(here).to_be_focused()
    here.fill("nonsense")
    here.press("Escape")
    expect(here).to_have_value(own_cell(1, "chine", 1))
    here.press("Tab")
    expect(cell(page, "F2 gunwale half-breadth")).to_be_focused()
    settled(page)
    press(page, "Undo")  # of the copy only
    press(page, "Undo")
    expect(page.get_by_text("There is nothing to undo.")).to_be_visible()
    press(page, "Redo")

    # a block from a spreadsheet fills its cells in one step
    cell(page, "F2 gunwale half-breadth").evaluate(PASTE, "258\t258.5\r\n299\t252\r\n")
    settled(page)
    for label, text in (("F2 gunwale half-breadth", "258"), ("F2 gunwale height", "258.5"),
                        ("F3 gunwale half-breadth", "299"), ("F3 gunwale height", "252")):
        expect(cell(page, label)).to_have_value(text)
    press(page, "Undo")
    expect(cell(page, "F2 gunwale half-breadth")).to_have_value(own_cell(1))
    expect(cell(page, "F3 gunwale height")).to_have_value(own_cell(2, axis=1))


def test_quick_edits_all_arrive_and_inches_and_offset_notation_read_back_from_the_download(
        open_page):
    page = own_page(open_page)
    typed = [PLAIN.frames[at].points_m["gunwale"][0] * MM_PER_M + 2.0 for at in range(5)]
    for number, breadth in enumerate(typed, start=1):
        frame = f"F{number}"
        cell(page, f"{frame} gunwale half-breadth").fill(f"{breadth:g}")
        cell(page, f"{frame} gunwale half-breadth").press("Enter")
    settled(page)
    page.get_by_role("radio", name="in", exact=True).click()
    settled(page)
    type_cell(page, "F3 gunwale half-breadth", "11 3/4")
    expect(cell(page, "F3 gunwale half-breadth")).to_have_value("11 3/4")
    type_cell(page, "F4 gunwale half-breadth", "1-0-3")
    text = downloaded(page, "Design (TOML)")
    assert text.count("# CAUTION: ") >= 5
    design = read_design(text)
    assert design.name == "Plain teaching boat, own copy"
    breadths = [frame.points_m["gunwale"][0] * MM_PER_M for frame in design.frames]
    assert breadths[:5] == pytest.approx([*typed[:2], 11.75 * 25.4, 12.375 * 25.4, typed[4]])
    assert design.frames[5:] == PLAIN.frames[5:]
    table = downloaded(page, "Offsets, mm (CSV)")
    assert "# CAUTION: " in table
    again = with_offsets(PLAIN, table)
    assert again.frames[2].points_m["gunwale"][0] == pytest.approx(0.29845, abs=5e-6)


def test_stringers_and_the_rest_are_edited_and_a_fault_leads_to_its_table(open_page):
    page = own_page(open_page)
    page.get_by_role("radio", name="Stringers").click()
    settled(page)
    page.get_by_role("combobox", name="chine wood").select_option("white ash")
    settled(page)
    type_cell(page, "chine width", "600")
    expect(faults(page)).to_contain_text(["100 or less"])
    page.get_by_role("radio", name="Cockpit, stems and limits").click()
    settled(page)
    type_cell(page, "cockpit: width", "900")
    expect(faults(page).filter(has_text="within this file's own limits")).to_have_count(1)
    page.get_by_role("button", name="chine width").click()
    settled(page)
    expect(cell(page, "chine width")).to_be_focused()
    type_cell(page, "chine width", "25")
    page.get_by_role("button", name="cockpit: width").first.click()
    settled(page)
    expect(cell(page, "cockpit: width")).to_be_focused()
    type_cell(page, "cockpit: width", "440")
    design = read_design(downloaded(page, "Design (TOML)"))
    chine = design.stringer("chine")
    assert (chine.wood, chine.width_m) == ("white ash", 0.025)
    assert design.cockpit.width_m == 0.44


@pytest.mark.parametrize("base", shipped_names())
def test_a_stringer_is_added_midway_between_two(base):
    bench = OnBench(read_base(base))
    before = bench.sheet.drawn.design
    for index in range(len(before.stringers)):
        if not bench.can_add_stringer(index):
            continue
        bench.add_stringer(index)
        names = [one["name"] for one in bench.sheet.file["stringer"]]
        assert names[index + 1] == "added 1"
        low, high = names[index], names[index + 2]
        for frame in bench.sheet.file["frame"]:
            points = frame["points_mm"]
            if "added 1" in points:
                assert points["added 1"] == pytest.approx(
                    [0.5 * (a + b) for a, b in zip(points[low], points[high], strict=True)],
                    abs=0.051)
        if bench.good:  # between two, so the skin hardly moves
            assert bench.sheet.drawn.boat.beam_m == pytest.approx(
                drawn_of(before).boat.beam_m, abs=0.0005)
        else:
            assert all(one.at for one in bench.sheet.faults)
        bench.undo()
    assert design_toml(bench.sheet.drawn.design) == design_toml(before)


def test_no_stringer_is_added_where_two_share_no_frames():
    bench = OnBench(read_base("teaching-boat"))
    names = [one.name for one in bench.sheet.drawn.design.stringers]
    assert not bench.can_add_stringer(names.index("foredeck ridge"))
    assert not bench.can_add_stringer(len(names) - 1)

def test_a_table_with_faults_is_read_back_as_it_stood(bench):
    """Through text: every cell, what is typed and cannot stand, and the last good boat."""
    bench.enter({BREADTH: "302"}, MM)
    bench.enter({BREADTH: "wide", ("cockpit", "width_mm"): "-3"}, MM)
    again = sheet_of(type(table_of(bench.sheet)).model_validate_json(
        table_of(bench.sheet).model_dump_json()))
    assert again.file == bench.sheet.file
    assert again.faults == bench.sheet.faults
    assert again.frame == "F3"
    assert breadth_m(again.drawn) == pytest.approx(0.302)
    assert design_toml(again.drawn.design) == design_toml(bench.sheet.drawn.design)


def test_a_hundred_steps_of_the_table_are_kept_with_each_row_written_once(bench, book):
    history = History(Draft())
    for step in range(MOST_STEPS):
        bench.enter({BREADTH: f"{290 + step / 10:g}"}, MM)
        history = history.step(Draft(own_table=table_of(bench.sheet)))
    found = opened_history(keep(None, history).key)[1]
    assert (found.present, found.past) == (history.present, history.past)
    with book.reading() as db:
        steps = db.execute("SELECT history FROM drafts").fetchone()[0]
    # else each of them would write every row
    assert len(steps) < MOST_STEPS * (len(table_of(bench.sheet).file) / 2 + 50)


def test_the_table_stands_after_a_reload_with_its_undo_and_goes_with_its_customer(book):
    screen = opened("own", measured())
    clicked(screen, "Copy Plain teaching boat")
    clicked(screen, "Add a frame behind it")
    key = screen.query_params["job"]
    book_at_start.clear()  # as a program started again
    again = at(key, "own")
    assert "Plain teaching boat, own copy" in said(again)
    frames = again.session_state["mine"]["history"].present.own_table.frames()
    assert list(frames)[:3] == ["F1", "F1a", "F2"]
    clicked(again, "Undo")
    assert [one.value for one in again.toast] == [
        "Undo: the table of Plain teaching boat, own copy, at F1a"]
    other = at(key, "own")
    assert "F1a" not in drafted(other).own_table.frames()
    assert "Plain teaching boat, own copy" not in said(opened("own"))  # nor has anybody else
    forget(book_at_start()[0], key)
    assert drafted(ran(again)).own_table is None

@pytest.mark.parametrize(("units", "words", "says"), [
    (Units("in", "lb"), "half-breadth -76.2 mm", "half-breadth -3 in"),
    (Units("in", "lb"), "has to be less than the beam at F4, 635 mm",
     "has to be less than the beam at F4, 25 in"),
    (Units("in", "lb"), "[25.4, 50.8] mm", "[1, 2] in"),
    (Units("in", "lb"), "starts at 2540, ends at 254 mm", "starts at 100, ends at 10 in"),
    (Units("in", "lb"), "254 to 508 mm over the baseline", "10 to 20 in over the baseline"),
    (Units("cm", "kg"), "1000 or less, in mm", "100 cm or less"),
    (Units("mm", "lb"), "45.359237 or less, in kg", "100 lb or less"),
    (Units("in", "kg"), "write a length such as 1780 mm, 178 cm",
     "write a length such as 1780 mm, 178 cm"),
    (Units("mm", "kg"), "1000 or less, in mm", "1000 or less, in mm")])
def test_a_fault_is_told_in_the_units_that_are_typed(units, words, says):
    assert in_units(words, units) == says


def test_a_typed_inch_is_at_fault_in_inches_and_every_column_says_its_unit(bench):
    units = Units("in", "lb")
    bench.enter({BREADTH: "-3", ("drawn_for", "weight_kg"): "2000"}, units)
    shown = {name: cells_data(bench, grid_of(bench.sheet.file, name), units) for name in GRIDS}
    words = [one["words"] for one in shown["frames"]["faults"]]
    assert "half-breadth -3 in: zero or more" in words
    assert not [one for one in words if re.search(r"\d\]? (mm|kg)\b", one)]
    (weight,) = [one for one in words if one.startswith("'2000': ")]
    assert weight.endswith(" lb or less")
    frames, stringers = ({under for _, under in shown[name]["headings"]}
                         for name in ("frames", "stringers"))
    assert {"x, in", "out, in", "up, in"} <= frames
    assert {"width, in", "depth, in"} <= stringers
    heads = [row[0]["text"] for row in shown["rest"]["rows"]]
    assert {"drawn for: weight, lb", "cockpit: width, in"} <= {*heads}


OWN_TEXT = shipped_text("teaching-boat").replace("Plain teaching boat", "Heron")


def test_a_new_customer_is_told_of_an_own_design_and_has_both_ways_in_one_tap(book):
    """Nothing is lost: undo brings it back, and the given base is one tap away."""
    assert OWN_TEXT.count("Heron")
    last = measured().on("own", own_design=OWN_TEXT, own_name="heron.toml")
    screen = opened("paddler", last)
    assert "your own design" not in said(screen)  # a customer is at hand
    clicked(screen, "Clear for a new customer")
    assert drafted(screen).base == "day-boat"
    assert ("The base design is Short day boat, a given one. From before, your own design, Heron, "
            "is among the bases to choose from.") in said(screen)
    clicked(screen, "Take your own design Heron as the base")
    assert drafted(screen).base == "own"
    assert "The base design is your own design, Heron." in said(screen)
    clicked(screen, "Back to the given base Short day boat")
    assert (drafted(screen).base, drafted(screen).own_design) == ("day-boat", OWN_TEXT)
    clicked(screen, "Leave your own design out")
    assert (drafted(screen).own_design, drafted(screen).own_table) == (None, None)
    assert "your own design" not in said(screen)
    clicked(screen, "Undo")
    assert drafted(screen).own_design == OWN_TEXT
    turned_to(screen, "base")
    assert "Heron" in said(screen)


def test_a_new_customer_is_told_of_a_design_that_is_only_on_the_page_own_design(book):
    table = table_of(sheet_with(copied(PLAIN)))
    screen = clicked(opened("jobs", measured(own_table=table)), "New customer")
    assert (f"The base design is Short day boat, a given one. From before, the page Own design has "
            f"{PLAIN.name}, own copy as you left it.") in said(screen)
    clicked(screen, "Leave your own design out")
    assert drafted(screen).own_table is None
    clicked(screen, "Undo")
    assert drafted(screen).own_table == table


def given(name, text):
    return {"name": name, "mimeType": "text/plain", "buffer": text.encode()}


def test_a_faulty_file_is_not_opened_a_good_one_is_with_its_comments_and_the_cautions_once(
        open_page):
    page = own_page(open_page)
    type_cell(page, "F3 gunwale half-breadth", "302")
    kept = drawing(page)
    good = (shipped_folder() / "teaching-boat.toml").read_text("utf-8")
    own = as_typed(PLAIN.frames[1].x_m), as_typed(PLAIN.cockpit.width_m)
    bad = good.replace(f"x_mm = {own[0]}", "x_mm = 5").replace(f"width_mm = {own[1]}\n",
                                                               "width_mm = 4300\n")
    page.locator("input[type=file]").set_input_files(given("bad.toml", bad))
    expect(page.get_by_text("This file was not opened")).to_be_visible()
    settled(page)
    expect(page.get_by_text(re.compile("bad.toml: frame.F2.x_mm"))).to_be_visible()
    expect(page.get_by_text(re.compile("bad.toml: cockpit.width_mm")).first).to_be_visible()
    assert drawing(page) == kept
    expect(cell(page, "F3 gunwale half-breadth")).to_have_value("302")

    page.locator("input[type=file]").set_input_files(given("mine.csv", offsets_with("304")))
    expect(cell(page, "F3 gunwale half-breadth")).to_have_value("304")
    expect(page.get_by_text("This file was not opened")).to_have_count(0)
    press(page, "Undo")
    expect(cell(page, "F3 gunwale half-breadth")).to_have_value("302")

    mine = "# of ash and spruce\n" + shipped_text("teaching-boat")
    page.locator("input[type=file]").set_input_files(given("mine.toml", mine))
    expect(page.locator("b", has_text=re.compile("^Plain teaching boat$"))).to_be_visible()
    type_cell(page, "F3 gunwale half-breadth", "302")
    saved = downloaded(page, "Design (TOML)")
    cautions = saved.count("# CAUTION: ")
    assert cautions >= 5
    page.locator("input[type=file]").set_input_files(given("saved.toml", saved))
    settled(page)
    type_cell(page, "F3 gunwale half-breadth", "304")
    again = downloaded(page, "Design (TOML)")
    assert again.count("# CAUTION: ") == cautions
    assert [line for line in again.splitlines() if line not in mine.splitlines()
            and not line.startswith("# CAUTION: ")] == [
        line.replace(f"[{own_cell(2)},", "[304,") for line in mine.splitlines()
        if line.startswith("points_mm") and f"gunwale = [{own_cell(2)}," in line]
    expect(page.get_by_text("comments")).to_have_count(0)
