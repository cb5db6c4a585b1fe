"""The dry-fit page asks in walking order, says what the engine says, and re-issues what changes."""

import re
import tomllib
from fractions import Fraction

import pytest
from app_screen import (
    clicked,
    drafted,
    engine_dry_fit,
    measured,
    of,
    opened,
    plain,
    ran,
    rows,
    said,
    strip,
    turned_to,
)
from test_keeping import at, key_of

from sizer.book.built import designs
from sizer.book.forget import forget
from sizer.book.issuing import freeze, print_again
from sizer.book.jobs import job
from sizer.book.revisions import due, revisions
from sizer.book.settings import keep_shop
from sizer.built.behind_risers import behind_risers
from sizer.shop.plywood import Plywood
from sizer.shop.settings import SHOP, Shop, read_shop
from sizer.web.job_file import job_text, opened_job
from sizer.web.units_first import units_first

OFF_MM, FRAME = 9.0, "F5"


pytestmark = pytest.mark.usefixtures("book")


def heights(asked, off_mm=OFF_MM):
    """What a tape says of every height, F5 standing too high, by key in mm."""
    return {one.key: 1000.0 * one.designed_m + (off_mm if one.frame == FRAME else 0.0)
            for one in asked if one.what == "height"}


@pytest.fixture
def settled_shop(book):
    """Settles a Shop in the book, and the one it came with at the end."""
    yield lambda shop: keep_shop(book, shop)
    keep_shop(book, SHOP)


def heads(screen):
    return [one.value for one in screen.subheader]


def fitted_on(asked, off_mm=OFF_MM):
    one = measured(mark="Ann")
    fit = one.dry_fit
    for key, value in heights(asked, off_mm).items():
        fit = fit.enter(key, repr(value), "mm", (0.0, 9000.0))
        fit = fit.again(key) if f"/{FRAME}/" in key else fit
    return one.but(dry_fit=fit)


def frozen(book, key, one):
    """Issues what is entered, as the Files page does but for its files."""
    freeze(book, key, due(book, key), one.request(), one.base_text(), one.model_dump_json(),
           "2026-11-20", {"everything.json": b"{}"})


def test_a_typed_measure_is_kept_as_typed_and_compared_with_the_design(asked):
    screen = opened("dryfit")
    label = screen.text_input[0].label
    this = next(one for one in asked if one.words in label)
    designed_mm = 1000.0 * this.designed_m
    assert f"designed: {designed_mm:.1f} mm" in said(screen)
    screen.text_input[0].set_value(f"{designed_mm + 5.0:.1f} mm")
    screen = ran(screen)
    assert "5.0 mm more" in said(screen)
    assert "Only 1 measure" in said(screen)
    again = turned_to(at(key_of(screen)), "dryfit")
    assert again.text_input[0].label.startswith("2 of 20")  # the first that is not typed
    again = clicked(again, "Back")
    assert again.text_input[0].value == f"{designed_mm + 5.0:.1f} mm"
    of(again.text_input, label).set_value("500")
    assert "slip of tape" in said(ran(again))
    assert "Notches to move" not in heads(again)


def test_what_a_riser_stands_in_the_way_of_has_a_star_and_is_told_how_to_tape(fitted, asked):
    """As the sheet to fill in has it: by what a tape reads on the plywood's other face."""
    behind = behind_risers(fitted, asked)
    screen = opened("dryfit")
    ways = of(screen.selectbox, "Go to")
    round_ = of_round(screen, asked)
    assert "* a riser stands in the way" in said(screen)
    assert [label.endswith(" *") for label in ways.options] == [one in behind for one in round_]
    met = next(one for one in round_ if one in behind)
    free = next(one for one in round_ if one not in behind)
    for this, told in ((met, True), (free, False)):
        screen = opened("dryfit")
        screen = ran(of(screen.selectbox, "Go to").set_value(round_.index(this)) and screen)
        assert screen.text_input[0].label.startswith(f"{round_.index(this) + 1} of")
        assert ("A riser stands in the way there" in said(screen)) == told
        if told:
            way = "more" if behind[this] >= 0.0 else "less"
            assert (f"write down {abs(1000.0 * behind[this]):.1f} mm {way} than it says there."
                    in said(screen))


@pytest.mark.parametrize(("text", "told"), [
    ("abc", "this cannot be read"), ("12 fingers", "this unit is not known here"),
    ("1", "slip of tape or pen")])
def test_a_measure_that_cannot_be_used_stays_in_hand_and_is_not_counted(text, told):
    screen = opened("dryfit")
    label = screen.text_input[0].label
    screen.text_input[0].set_value(text)
    screen = clicked(ran(screen), "Next measure")
    assert screen.text_input[0].label == label
    assert (screen.text_input[0].value, told in said(screen)) == (text, True)
    assert screen.session_state["mine"]["view"]["in_hand"][0] == "dry_at_0"
    assert "before it is measured" in said(screen)
    assert "0 measures typed, 1 more that cannot be used" in [one.label for one in screen.expander]
    screen.text_input[0].set_value("")
    screen = clicked(ran(screen), "Next measure")
    assert screen.text_input[0].label.startswith("2 of 20")
    screen.text_input[0].set_value(text)
    again = turned_to(at(key_of(ran(screen))), "dryfit")
    of(again.segmented_control, "Ask for").set_value("20")
    assert again.text_input[0].label == label  # nothing is there yet
    clicked(again, "Next measure")
    assert again.text_input[0].label.startswith("2 of 20")
    assert again.text_input[0].value == text


def test_one_slip_is_left_out_with_its_own_words_and_a_way_to_it(asked, fitted):
    values = {key: value / 1000.0 for key, value in heights(asked).items()}
    one, slip = fitted_on(asked), max((one for one in asked if one.what == "across"),
                                      key=lambda one: one.designed_m)
    typed = f"{2000.0 * slip.designed_m:.0f}"
    one = one.but(dry_fit=one.dry_fit.enter(slip.key, typed, "mm", (0.0, 9000.0)).enter(
        asked[0].key, "long", "mm", (0.0, 9000.0)))
    screen = opened("dryfit", one)
    found = engine_dry_fit(fitted, asked, values)
    gm = found.built.assessed.particulars.gm_m
    assert rows(screen, "Afloat")["Steadiness (GM)"][1] == f"{1000.0 * gm:.1f} mm"
    designed = f"{1000.0 * slip.designed_m:.1f} mm"
    assert (f"{slip.words}: {typed}: the design says {designed}; so far off is a slip of tape or "
            "pen: measure again. It is left out") in said(screen)
    assert slip.key not in said(screen)
    assert "half-breadth of" not in said(screen)
    assert "Length over all: 'long': this cannot be read" in said(screen)
    screen = clicked(screen, f"mend_{slip.key}", by_key=True)
    field = screen.text_input[0]
    assert (slip.words in field.label, field.value) == (True, typed)
    field.set_value(designed)
    assert slip.words not in said(ran(screen))


def mistyped(asked, round_, off_mm=13.0):
    """A dry fit typed as designed but for one breadth across, and that measure."""
    this = next(one for one in round_ if one.what == "across")
    fit = measured(mark="Ann").dry_fit
    for one in round_:
        value = 1000.0 * one.designed_m + off_mm * (one is this)
        fit = fit.enter(one.key, repr(value), "mm", (0.0, 9000.0))
    return measured(mark="Ann").but(dry_fit=fit), this


def of_round(screen, asked):
    """What the page asks for, by its list."""
    named = {one.short: one for one in asked}
    return [named[label.rpartition(" · ")[2].split(". ", 1)[1].removesuffix(" *")]
            for label in of(screen.selectbox, "Go to").options]


def test_a_measure_far_off_is_read_a_second_time_before_anything_is_accepted(
        book, asked, fitted):
    one, this = mistyped(asked, of_round(opened("dryfit"), asked))
    screen = opened("dryfit", one)
    screen.text_input[0].set_value(screen.text_input[0].value + " mm")  # into the book
    screen = ran(screen)
    frozen(book, key_of(screen), drafted(screen))
    screen = turned_to(turned_to(screen, "files"), "dryfit")
    read, designed = (f"{1000.0 * this.designed_m + off:.1f} mm" for off in (13.0, 0.0))
    assert (f"{this.words}: {read}; designed {designed}, 13.0 mm more across, 6.5 mm to each side. "
            "Read it a second time") in said(screen)
    assert f"Before it is accepted, read a second time: {this.short}." in said(screen)
    assert not [one for one in screen.button if one.label.startswith("Accept it")]
    assert of(screen.button, "Keep it as a base").disabled
    screen = clicked(screen, f"reread_{this.key}", by_key=True)
    assert this.words in screen.text_input[0].label
    screen = clicked(screen, f"again_hand_{this.key}", by_key=True)
    assert drafted(screen).dry_fit.read_again == (this.key,)
    assert "a second time" not in said(screen)
    assert not of(screen.button, "Accept it").disabled
    screen.text_input[0].set_value(f"{1000.0 * this.designed_m + 14.0:.1f} mm")  # another figure
    screen = ran(screen)
    assert f"Before it is accepted, read a second time: {this.short}." in said(screen)
    says = engine_dry_fit(fitted, asked, {this.key: this.designed_m + 0.013}).twice
    assert re.search(r"6\.5 mm \(across: 13\.0 mm\) more than designed", " ".join(says))


def test_measures_far_off_are_said_to_be_read_again_in_one_press_each_named(asked):
    far = [one for one in asked if one.what == "height"][:2]
    one, off_mm = measured(), 40.0
    fit = one.dry_fit
    for this in far:
        fit = fit.enter(this.key, f"{1000.0 * this.designed_m + off_mm:.0f}", "mm", (0.0, 9000.0))
    screen = opened("dryfit", one.but(dry_fit=fit))
    listed = said(screen).split("2 measures are to be read a second time: ")[1]
    for this in far:
        assert f"{this.short} {1000.0 * this.designed_m + off_mm:.0f}.0 mm" in listed
    screen = clicked(screen, "All 2 read again")
    assert drafted(screen).dry_fit.read_again == tuple(this.key for this in far)
    assert "a second time" not in said(screen)
    assert drafted(clicked(screen, "Undo")).dry_fit.read_again == ()


def test_a_revision_that_was_a_slip_is_taken_back_by_the_next_and_one_message_stands(book, asked):
    one, this = mistyped(asked, of_round(opened("dryfit"), asked))
    screen = opened("dryfit", one)
    screen = ran(of(screen.selectbox, "Go to").set_value(
        of_round(screen, asked).index(this)) and screen)
    screen = clicked(screen, f"again_hand_{this.key}", by_key=True)
    key = key_of(screen)
    frozen(book, key, drafted(screen))
    wrong = "Accept it and re-issue: "
    (accept,) = [one.label for one in ran(screen).button if one.label.startswith(wrong)]
    frames = accept.removeprefix(wrong)
    screen = clicked(screen, accept)
    assert revisions(book, key)[-1].letter == "B"
    assert f"revision B draws {frames} anew, take the old ones off the bench." in said(screen)
    screen.text_input[0].set_value(f"{1000.0 * this.designed_m:.1f} mm")
    screen = ran(screen)
    stale = f"evision B draws {frames} by other measures than those typed now. Saw nothing by it"
    assert f"R{stale}" in said(screen)
    assert "Files of revision B" not in [one.proto.label for one in screen.get("download_button")]
    for told in ("take the old ones off", "every sheet of revision A stands", "no frame changes"):
        assert told not in said(screen)
    screen = clicked(screen, f"Accept it and take {frames} back to revision A")
    last = revisions(book, key)[-1]
    assert (last.letter, drafted(screen).dry_fit.accepted) == ("C", True)
    taken = ("Revision B holds no longer: take its sheets off the bench. "
             f"{frames}: as in revision A again. All other sheets of revision A stand.")
    assert f"Accepted as it stands: revision C draws no frame anew. {taken}" in said(screen)
    assert stale not in said(screen)
    accept = of(screen.button, "Accept it")
    assert (accept.label, accept.disabled) == ("Accept it: revision C is of this boat", True)
    again = print_again(last)
    assert again.remark.endswith("byte for byte as issued.")
    assert not [name for name in again.files if "recut" in name]
    (notches,) = [data.decode() for name, data in again.files.items() if "notches" in name]
    assert "REV C: replaces B, and A in part" in notches
    assert f"Of the frames only these are drawn anew: none. {taken}" in notches
    labels = [one.label for one in turned_to(screen, "files").button]
    first, *others = [label for label in labels if label.startswith("Files of revision")]
    assert first.startswith("Files of revision C")
    assert first.endswith(": no frame of the dry fit")
    assert others[0].endswith(": frames of a dry fit, hold no longer")
    screen = turned_to(screen, "dryfit")
    screen = clicked(clicked(screen, "Undo"), "Undo")  # to the slip, which C is not of
    assert drafted(screen).dry_fit.accepted
    assert "frames that change" in said(screen)
    assert not of(screen.button, wrong).disabled


def test_what_was_typed_stays_in_sight_and_is_listed_beside_its_design(asked):
    one, this = mistyped(asked, of_round(opened("dryfit"), asked))
    screen = opened("dryfit", one)
    round_ = of_round(screen, asked)
    number, read = round_.index(this) + 1, f"{1000.0 * this.designed_m + 13.0:.1f} mm"
    screen = ran(of(screen.selectbox, "Go to").set_value(number - 1) and screen)
    screen = clicked(screen, "Next measure")
    assert screen.text_input[0].label.startswith(f"{number + 1} of 20")
    off = "13.0 mm more across, 6.5 mm to each side"
    assert f"{number}. {this.short}: {read}, {off}. Go back and read it" in said(screen)
    screen = clicked(screen, "Next measure")  # of which that is told that was just left
    left = round_[number]
    assert (f"{number + 1}. {left.short}: {1000.0 * left.designed_m:.1f} mm, no difference"
            in said(screen))
    listed = {button.key.removeprefix("typed_"): button.label.replace("\xa0", " ")
              for button in screen.button if str(button.key).startswith("typed_")}
    assert listed.keys() == one.dry_fit.entries.keys()
    designed = f"{1000.0 * this.designed_m:.1f} mm"
    assert listed[this.key] == f"**{read}** · {this.short} · designed {designed}, {off}"
    assert f"· {left.short} · as designed" in listed[left.key]
    assert of(screen.selectbox, "Go to").options[number - 1].startswith(f"{read} · {number}. ")
    screen = clicked(screen, f"typed_{this.key}", by_key=True)
    assert this.words in screen.text_input[0].label


def test_a_measure_at_odds_that_was_read_twice_says_what_follows(asked, fitted):
    """The one breadth across, of those the page asks for, that the others' heights leave alone."""
    round_ = of_round(opened("dryfit"), asked)

    def at_odds(this):
        off = {this.key: this.designed_m + 0.016}
        found = engine_dry_fit(
            fitted, asked, {one.key: one.designed_m for one in round_} | off)
        return next((odd for odd in found.standing.odd if odd.kind == "measure"), None)

    this, odd = next((this, odd) for this in round_ if this.what == "across"
                     if (odd := at_odds(this)))
    assert re.search(rf"half-breadth of {this.stringer} at {this.frame} disagrees with the other "
                     r"measures: it is (\d+) mm .*\(across: (\d+) mm .*\) too much", odd.say)
    fit = measured().dry_fit
    for one in round_:
        fit = fit.enter(one.key, repr(1000.0 * one.designed_m + 16.0 * (one is this)), "mm",
                        (0.0, 9000.0))
    screen = opened("dryfit", measured().but(dry_fit=fit))
    assert odd.say in said(screen)
    twice = f"{odd.say} You read it twice: mend it there; all below is without it."
    assert twice not in said(screen)
    assert twice in said(clicked(screen, f"again_list_{this.key}", by_key=True))


def test_all_measures_are_taken_away_only_where_one_says_so_twice(asked):
    screen = opened("dryfit", fitted_on(asked))
    assert of(screen.button, "Take all of them away").disabled
    of(screen.checkbox, f"Yes, take away all {len(heights(asked))}").check()
    screen = clicked(ran(screen), "Take all of them away")
    assert (drafted(screen).dry_fit.entries, drafted(screen).dry_fit.read_again) == ({}, ())
    screen = clicked(screen, "Undo")
    assert drafted(screen).dry_fit == fitted_on(asked).dry_fit
    assert of(screen.button, "Take all of them away").disabled  # asked anew


def test_the_job_file_brings_the_measures_back_and_one_more_has_to_be_accepted_anew(asked):
    one = fitted_on(asked)
    one = one.but(dry_fit=one.dry_fit.but(accepted=True))
    opened_file = opened_job(job_text(one).encode())
    assert opened_file.dry_fit == one.dry_fit
    assert not one.dry_fit.enter(asked[0].key, "4700", "mm", (0.0, 9000.0)).accepted
    inches = one.in_units("in", "kg").in_units("mm", "kg")
    assert inches.dry_fit.values() == one.dry_fit.values()
    typed = one.but(dry_fit=one.dry_fit.enter(asked[0].key, "470 cm", "mm", (0.0, 9000.0)))
    assert typed.in_units("mm", "lb").dry_fit.text(asked[0].key) == "470 cm"  # no length changed


def test_what_is_asked_goes_round_the_boat(asked):
    frames = list(dict.fromkeys(one.frame for one in asked if one.side == "starboard"))
    assert frames == [f"F{number}" for number in range(1, 10)]
    port = [one.frame for one in asked if one.side == "port" and one.to is None]
    assert list(dict.fromkeys(port)) == frames[::-1]
    assert asked[0].what == "length"


def test_the_page_says_what_the_engine_says_and_reissues_just_the_frames_that_change(
        book, asked, fitted):
    screen = opened("dryfit", fitted_on(asked))
    found = engine_dry_fit(fitted, asked, {
        key: value / 1000.0 for key, value in heights(asked).items()})
    for odd in found.standing.odd:
        assert odd.say in said(screen)
    gm = found.built.assessed.particulars.gm_m
    assert rows(screen, "Afloat")["Steadiness (GM)"][1] == f"{1000.0 * gm:.1f} mm"
    accept = f"Accept it and re-issue: {', '.join(found.recut)}"
    assert FRAME in found.recut
    assert of(screen.button, accept).disabled  # never issued
    of(screen.text_input, "The tape").set_value("1.0")
    screen = ran(screen)
    of(screen.text_input, "The tape").set_value("2.0")
    screen = ran(screen)
    key, one = key_of(screen), drafted(screen)
    frozen(book, key, one)
    of(screen.segmented_control, "Lengths in").set_value("in")  # a sheet keeps its unit
    screen = clicked(ran(screen), accept)
    last = revisions(book, key)[-1]
    assert (last.letter, last.replaces, job(book, key).state) == ("B", "A", "dry fit")
    assert drafted(screen).dry_fit.accepted
    assert "Compared with revision A" in said(screen)  # the other sheets stand
    of(screen.segmented_control, "Lengths in").set_value("mm")  # the same boat in another unit
    screen = ran(screen)
    accept = of(screen.button, "Accept it")  # nothing has changed: nothing new is issued
    assert (accept.label, accept.disabled) == ("Accept it: revision B is of this boat", True)
    screen = clicked(screen, "Undo")
    assert not drafted(screen).dry_fit.accepted
    screen = clicked(screen, "Accept it")
    assert drafted(screen).dry_fit.accepted
    assert revisions(book, key)[-1] == last
    assert "as it stood at the dry fit" in said(turned_to(screen, "launch"))
    again = print_again(last)
    assert again.remark.endswith("byte for byte as issued.")
    number = [f"F{number}" for number in range(1, 10)].index(FRAME) + 1
    code = job(book, key).code
    names = {name for name in again.files if f"recut-{number}." in name}
    assert names == {f"{code}-rev-B-frames/{code}-rev-B-recut-{number}.{kind}"
                     for kind in ("dxf", "svg")}
    svg = next(data for name, data in again.files.items() if name.endswith(f"{number}.svg"))
    assert f"{code} · Ann · REV B: replaces A in part".encode() in svg
    assert b"Of the frames only these are drawn anew" in svg
    frames = {name.rpartition("recut-")[2].partition(".")[0] for name in again.files
              if name.endswith(".dxf")}
    assert len(frames) == len(found.recut)
    screen = clicked(turned_to(screen, "files"), "Files of revision B")
    accepted = (f"Accepted as it stands: revision B draws {', '.join(found.recut)} anew, take the "
                "old ones off the bench. All other sheets of revision A stand.")
    assert "Revision A of 2026-11-20 is this boat as entered now." in said(screen)
    assert accepted in said(screen)
    assert accepted in said(turned_to(screen, "dryfit"))
    screen = turned_to(screen, "files")
    (one_file,) = [one for one in screen.selectbox if one.label == "Or one file"]
    assert set(one_file.options) == set(again.files)  # none is a setting-up sheet
    assert {"Lists", "This job"} < {*heads(screen), *(one.value for one in screen.header)}
    screen = turned_to(screen, "dryfit")
    screen.text_input[0].set_value(screen.text_input[0].placeholder.removeprefix("designed: "))
    assert of(ran(screen).button, "Accept it and").label  # one more measure is another boat


def test_a_shop_that_is_settled_otherwise_since_stops_no_dry_fit(book, asked, settled_shop):
    """Issued for the shop of then; what differs is told, and frames are re-issued as they were."""
    screen = opened("dryfit", fitted_on(asked))
    of(screen.text_input, "The tape").set_value("1.0")
    screen = ran(screen)
    key = key_of(screen)
    frozen(book, key, drafted(screen))
    settled_shop(Shop(cutter_m=0.008, plywoods=(Plywood(0.012, 0.0115), Plywood(0.025, 0.024))))
    page = said(ran(screen))
    assert "Compared with revision A of 2026-11-20." in page
    assert "Otherwise now than revision A was made: Router's cutter, diameter, mm: 6 → 8; " in page
    assert "sold as = true, mm: none → 12 = 11.5. The dry fit goes on with revision A" in page
    screen = clicked(screen, "Accept it and re-issue")
    last = revisions(book, key)[-1]
    assert (last.letter, read_shop(last.stock)) == ("B", SHOP)
    assert print_again(last).remark.endswith("byte for byte as issued.")
    page = said(turned_to(screen, "files"))
    assert "Changed since: Router's cutter, diameter, mm: 6 → 8" in page
    assert "Issue revision C and make its files" in [one.label for one in screen.button]


def test_a_setting_that_this_boat_does_not_take_is_no_change(book, asked, settled_shop):
    """The day boat has no sheet of 25 mm."""
    screen = opened("dryfit", fitted_on(asked))
    of(screen.text_input, "The tape").set_value("1.0")  # any entry makes a job of it
    screen = ran(screen)
    frozen(book, key_of(screen), drafted(screen))
    settled_shop(Shop(plywoods=(Plywood(0.025, 0.024),)))
    page = said(turned_to(screen, "files"))
    assert "Revision A of 2026-11-20 is this boat as entered now." in page
    assert "Changed since" not in page
    assert not any(one.label.startswith("Issue") for one in screen.button)
    page = said(turned_to(screen, "dryfit"))
    assert "Compared with revision A" in page
    assert "Otherwise now" not in page


def test_another_boat_than_was_issued_is_told_by_what_differs(book, asked):
    screen = opened("dryfit", fitted_on(asked, off_mm=4.0))  # nothing to be read again
    of(screen.text_input, "The tape").set_value("1.0")
    screen = ran(screen)
    frozen(book, key_of(screen), drafted(screen))
    of(turned_to(screen, "paddler").text_input, "Weight").set_value("91")
    page = said(turned_to(ran(screen), "dryfit"))
    assert "What is entered now is not what was issued last: weight 82 → 91 kg. These" in page
    assert "Compared with revision" not in page
    assert all(one.disabled for one in screen.button if one.label.startswith("Accept it"))


def test_a_notchs_own_reading_stands_beside_what_to_do(asked):
    """One of two heights at a frame 7 mm high: all measures together say less."""
    one = measured()
    fit = one.dry_fit
    for this in asked:
        if this.what == "height" and this.stringer in ("gunwale", "keel"):
            high_mm = 7.0 * ((this.frame, this.side, this.stringer) == (FRAME, "port", "gunwale"))
            fit = fit.enter(this.key, repr(1000.0 * this.designed_m + high_mm), "mm",
                            (0.0, 9000.0))
    told = said(opened("dryfit", one.but(dry_fit=fit)))
    assert re.search(r"Stands high by \d\.\d mm: lower it\. By its own reading alone it stands "
                     r"high by 7\.0 mm\.", told)


def test_an_accepted_boat_that_does_not_pass_says_so_wherever_it_is_told(asked):
    one = fitted_on(asked, off_mm=14.0)
    screen = opened("dryfit", one.but(dry_fit=one.dry_fit.but(accepted=True)))
    (note,) = [one.value for one in screen.markdown if "Accepted as it stands" in one.value]
    assert "It DOES NOT PASS: radius of the tightest bend, too little. Do not cover it." in note
    assert "sz-fail" in note
    for path in ("dryfit", "boat"):  # above every page
        said_above = strip(turned_to(screen, path))
        assert "as it stands: " in said_above
        assert "does not pass" in said_above
        assert "radius of the tightest bend" in said_above


def test_frames_that_may_be_missed_are_named_where_that_helps(asked, fitted):
    """Keel alone tells of no frame, all of three frames of those, all but F3's of all but F3."""
    def doubts(picked):
        values = {one.key: one.designed_m for one in asked if one.what == "height" and picked(one)}
        found = engine_dry_fit(fitted, asked, values, "in")
        return [one for one in found.cautions if "too high or low" in one]

    (none,) = doubts(lambda one: one.stringer == "keel")
    assert "not surely whether each frame stands right: one 1/4 in too high or low" in none
    assert not re.search(r"\bF\d", none)
    (most,) = doubts(lambda one: one.frame in ("F4", "F5", "F6") or one.stringer == "keel")
    assert "may be missed, but at F4, F5, F6, until" in most
    (some,) = doubts(lambda one: one.frame != "F3" or one.stringer == "keel")
    assert re.findall(r"\bF\d", some) == ["F3"]
    assert doubts(lambda one: True) == []


def test_notches_of_wrong_frames_stand_behind_them_and_the_rows_are_short(asked):
    one = fitted_on(asked)
    for key, value in heights(asked).items():
        low = 10.0 if key.split("/")[2] == "F3" else 0.0
        one = one.but(dry_fit=one.dry_fit.enter(key, repr(value - low), "mm", (0.0, 9000.0)))
    wide = next(one for one in asked if one.key == "half_breadth/port/F7/gunwale")
    one = one.but(dry_fit=one.dry_fit.enter(wide.key, repr(1000.0 * wide.designed_m + 5.0), "mm",
                                            (0.0, 9000.0)))
    screen = opened("dryfit", one)
    labels = [one.label for one in screen.expander]
    (wait,) = [one for one in labels if "set the frame right first" in one]
    assert re.search(r"^\d+ notches at or beside F[35], F[35]: set", wait)
    tables = [one.value for one in screen.markdown if ">Notch<" in one.value]
    assert tables
    for cell in re.findall(r"<td[^>]*>(.*?)</td>", " ".join(tables)):
        assert len(re.findall(r"\d mm", cell)) <= 2  # an amount for each axis
        assert plain(cell).count(". ") <= 1


def test_banners_and_the_tape_are_in_the_unit_of_the_tables(asked, fitted):
    one = fitted_on(asked).in_units("in", "lb")
    long = next(one for one in asked if one.what == "length")
    one = one.but(dry_fit=one.dry_fit.enter(
        long.key, f"{1000.0 * long.designed_m + 12.7} mm", "in", (0.0, 9000.0)))
    screen = opened("dryfit", one)
    (odd,) = (one for one in engine_dry_fit(fitted, asked, {
        key: value / 1000.0 for key, value in one.dry_fit.values().items()}, "in").standing.odd
        if one.frame == FRAME)
    thirty_seconds = Fraction(round(1000.0 * odd.off_m / 25.4 * 32), 32)
    assert f"{FRAME} is off in height: lower it by {thirty_seconds} in (± " in said(screen)
    assert "The boat is 1/2 in too long over all" in said(screen)
    assert re.search(r"steadiness \(GM\) ± [\d/]+ in.* and ± 5/64 in are wanted", said(screen))
    cautions = [units_first(caution, "in", "lb") for caution in fitted.cautions]  # of the boat
    notes = {" ".join(plain(one.value).split()) for one in screen.markdown}
    assert [one for one in notes if re.search(r"\d mm", one) and "tightest" not in one  # a check
            and not any(caution in one for caution in cautions)] == []
    tape = of(screen.text_input, "The tape is good to, in")
    assert tape.value == "5/64"  # 2 mm
    tape.set_value("1/16")
    screen = ran(screen)
    assert drafted(screen).dry_fit.tape_mm == pytest.approx(25.4 / 16)
    of(screen.text_input, "The tape").set_value("2 in")
    screen = ran(screen)
    assert "1/16 in stays" in said(screen)
    assert of(screen.text_input, "The tape").value == "1/16"


def test_a_boat_of_which_no_frame_changes_is_accepted_without_another_revision(book, asked):
    screen = opened("dryfit", fitted_on(asked, off_mm=0.0))
    screen.text_input[0].set_value(screen.text_input[0].placeholder.removeprefix("designed: "))
    screen = ran(screen)  # the job is in the book from then on
    assert of(screen.button, "Accept it: no frame changes").disabled  # never issued
    key, one = key_of(screen), drafted(screen)
    frozen(book, key, one)
    screen = clicked(ran(screen), "Accept it: no frame changes")
    assert [one.letter for one in revisions(book, key)] == ["A"]
    assert drafted(screen).dry_fit.accepted
    assert of(screen.button, "Accept it").disabled
    accepted = "Accepted as it stands: no frame changes, every sheet of revision A stands."
    assert accepted in said(screen)
    assert job(book, key).state == "dry fit"
    assert accepted in said(turned_to(screen, "files"))
    assert "as it stood at the dry fit" in said(turned_to(screen, "launch"))


def test_the_boat_as_it_stands_becomes_a_base_with_its_lineage_and_goes_with_its_customer(
        book, asked):
    screen = clicked(opened("dryfit", fitted_on(asked)), "Keep it as a base")
    (kept,) = designs(book)
    assert of(screen.button, "Keep it as a base").disabled  # a second press would keep it twice
    assert f"Kept on {kept.date} as the base {kept.name}" in said(screen)
    assert "Understood" not in [one.label for one in screen.button]  # said where it was pressed
    of(screen.text_input, "The tape").set_value("9.0")
    assert not of(ran(screen).button, "Keep it as a base").disabled  # it stands otherwise
    key = key_of(screen)
    assert job(book, key).code in kept.lineage
    text = tomllib.loads(kept.text)
    high = next(one for one in text["frame"] if one["name"] == FRAME)
    designed = next(one.designed_m for one in asked if one.key == f"height/centre/{FRAME}/keel")
    stands_mm = high["points_mm"]["keel"][1] + 100.0  # over the strongback
    assert stands_mm == pytest.approx(1000.0 * designed + OFF_MM, abs=1.0)
    screen = clicked(turned_to(screen, "base"), "kept_0", by_key=True)
    assert drafted(screen).own_name == kept.name
    sister = clicked(clicked(turned_to(screen, "jobs"), f"more_{key}", by_key=True), "copy",
                     by_key=True)
    assert drafted(sister).own_name == kept.name
    assert drafted(sister).dry_fit.entries == {}  # that boat does not stand yet
    forget(book, key)
    assert designs(book) == ()
