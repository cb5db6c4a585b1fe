"""The page of the shop: every setting typed, kept in the book, used by what is printed."""

import pytest
from app_screen import clicked, measured, of, opened, ran, rows, said, turned_to
from hypothesis import given, settings
from hypothesis import strategies as st

from sizer.book.settings import keep_money, keep_shop
from sizer.border import table_of
from sizer.job import run
from sizer.shop.cost import cost_of
from sizer.shop.money import USUAL
from sizer.shop.plywood import Plywood
from sizer.shop.settings import KINDS, PATTERNS, RELIEFS, SHOP, Shop, shop_of_table, tidy
from sizer.web.history import History
from sizer.web.keeping import money_now, shop_book, shop_now
from sizer.web.setting_fields import exact_text, setting_fields, typed_value
from sizer.web.steps import own_use


@pytest.fixture
def shop_page():
    yield opened("shop", measured())
    keep_shop(shop_book()[0], SHOP)
    keep_money(shop_book()[0], USUAL[1])


def typed(screen, label, text):
    of(screen.text_input, label).set_value(text)
    return ran(screen)


def test_what_is_typed_is_kept_and_the_bench_is_made_for_it(shop_page):
    """A sheet named by the inch is the boat's nearest: 15/32 in is 11.90625 mm."""
    screen = shop_page
    for label, text in (("Router's cutter", "1/4 in"), ("What plywood", "12 = 11,7; 18=17.6"),
                        ("Timber comes", "4,8 m, 3000"), ("Cloth comes", "1.6 m"),
                        ("Sheet of plywood", "2500x1250")):
        screen = typed(screen, label, text)
    of(screen.selectbox, "Relief").set_value("t-bone")
    of(screen.selectbox, "Frames on the pages").set_value("half")
    ran(screen)
    assert table_of(shop_now(), {}) == {
        "cutter_mm": 6.35, "relief": "t-bone", "plywood": [
            {"nominal_mm": 12, "true_mm": 11.7}, {"nominal_mm": 18, "true_mm": 17.6}],
        "sheet_mm": [2500, 1250], "stock_lengths_mm": [3000, 4800], "cloth_widths_mm": [1600],
        "risers": SHOP.risers, "patterns": "half"}
    screen = turned_to(typed(screen, "What plywood", "1/2 in = 15/32 in; 18=17.6"), "bench")
    assert ("cutter 6.35 mm, t-bone relief; plywood, 12 mm measures 11.9062 (0.469 in, entered for "
            "1/2 in, taken as this" in said(screen))
    (bench,) = screen.session_state["mine"]["kept"]["bench"].values()
    assert bench.shop == shop_now()
    assert {round(one.thickness_m, 9) for one in bench.frames} == {0.01190625}
    assert [one.true_m for one in bench.layouts] == pytest.approx([0.006, 0.01190625, 0.0176])
    assert of(turned_to(screen, "shop").text_input, "Timber comes").value == "3000; 4800"


def test_an_entry_for_no_sheet_of_this_boat_is_told_as_such(shop_page):
    """The day boat's frames are 12 mm, its stems 18, its seat's plates 6."""
    screen = typed(shop_page, "What plywood", "25 = 24.1")
    page, no_part = said(screen), "No part of this boat is of 25 mm plywood: it has 6, 12 and 18 mm"
    assert "is of plywood sold as 6, 12 and 18 mm" in page
    assert no_part in page
    screen = turned_to(screen, "bench")
    assert no_part in said(screen)
    assert "measures 24.1" not in said(screen)
    assert "plywood, 6, 12 and 18 mm as sold" in said(screen)


def test_rates_typed_are_the_quotes_and_no_longer_invented(shop_page):
    screen = typed(typed(shop_page, "An hour of work", "52,5"), "Your currency", "shells")
    screen = typed(typed(screen, "Lash, h a lashing", "0.2"), "Profit", "-4")
    assert "0 or more" in said(screen)
    money = money_now()
    assert (money.hour, money.currency, money.hours["lash"]) == (52.5, "shells", 0.2)
    assert not {"hour", "currency", "hours.lash"} & set(money.ours)
    assert "profit_percent" in money.ours
    screen = turned_to(screen, "files")
    (bench,) = screen.session_state["mine"]["kept"]["bench"].values()
    assert rows(screen, "Step")["Lash"] == [f"{0.2 * bench.materials.lashing.count:.1f}"]
    assert rows(screen, "Sum")["price"] == [f"{cost_of(bench, money).price:,.2f}"]
    assert "INVENTED FIGURES" in said(screen)


@pytest.mark.parametrize(("label", "text", "key", "value"), [
    ("An hour of work", "$65", "hour", 65.0), ("An hour of work", "65,5 €", "hour", 65.5),
    ("Timber for sticks", "£ 1900", "timber_per_m3", 1900.0),
    ("Profit", "12 %", "profit_percent", 12.0)])
def test_a_price_is_read_with_its_currencys_sign(shop_page, label, text, key, value):
    typed(shop_page, label, text)
    assert getattr(money_now(), key) == value
    assert key not in money_now().ours


@pytest.mark.parametrize(("label", "text", "key", "per"), [
    # board foot and gallon: NIST SP 811, appendix B; the sheet is 2.4384 by 1.2192 m
    ("Timber for sticks", "6.5", "timber_per_m3", 2.359737e-3),
    ("Plywood, a sheet of 4 by 8 ft", "$90", "plywood12_per_m2", 2.972897),
    ("Cloth of the skin, a square yard", "14", "cloth_per_m2", 0.8361274),
    ("Coating, a pound", "20", "coating_per_kg", 0.45359237),
    ("Oil or varnish, a US gallon", "60", "oil_per_litre", 3.785412),
    ("Webbing of the seat, a foot", ".9", "webbing_per_metre", 0.3048)])
def test_a_shop_in_inches_types_its_prices_as_it_buys(shop_page, label, text, key, per):
    shop_page.session_state["mine"]["history"] = History(measured(length_unit="in"))
    screen = typed(ran(shop_page), label, text)
    asked = float(text.removeprefix("$"))
    assert getattr(money_now(), key) == pytest.approx(asked / per, rel=1e-6)
    assert of(screen.text_input, label).value == f"{asked:g}"
    screen.session_state["mine"]["history"] = History(measured())
    shown = of(ran(screen).text_input, label.split(",")[0]).value
    assert float(shown) == pytest.approx(asked / per, rel=1e-5)


def test_hours_grow_with_feet_and_square_yards_in_inches(shop_page):
    """0.2 h a foot are 0.2 / 0.3048 a metre; 0.5 h a m² are 0.41806 a square yard."""
    shop_page.session_state["mine"]["history"] = History(measured(length_unit="in"))
    screen = typed(ran(shop_page), "Sew the seams and the coaming, h a foot of seam", "0.2")
    assert money_now().hours["sew"] == pytest.approx(0.656168, rel=1e-6)
    assert of(screen.text_input, "Sew the seams").value == "0.2"
    assert of(screen.text_input, "Skin on, h a square yard of skin").value == "0.418064"


@pytest.mark.parametrize(("label", "text", "told"), [
    ("Timber for sticks", "2,500", "thousands or decimals: leave it out"),
    ("Lash, h a lashing", "$0.2", "a number alone, such as 12.5"),
    ("Profit", "$12", "a number alone, such as 12.5")])
def test_a_sum_that_may_mean_another_is_asked_about(shop_page, label, text, told):
    assert told in said(typed(shop_page, label, text))
    assert money_now() == USUAL[1]


def test_what_the_shop_says_is_its_own_is_invented_no_longer(shop_page):
    screen = clicked(typed(shop_page, "An hour of work", "52"), "These are mine")
    assert money_now().ours == ("currency",)  # a shop has one of its own
    assert (money_now().hour, money_now().epoxy_per_kg) == (52.0, USUAL[1].epoxy_per_kg)
    assert "INVENTED" not in said(screen)
    assert "This shop has not said its currency: the price is in units of money." in said(screen)
    assert not any(one.label.startswith("These are mine") for one in screen.button)
    screen = typed(screen, "Your currency", "shells")
    assert money_now().ours == ()
    assert "not said its currency" not in said(screen)
    assert "INVENTED" not in said(turned_to(screen, "files"))
    screen = clicked(clicked(turned_to(screen, "shop"), "Undo"), "Undo")
    assert "INVENTED" in said(screen)


def test_the_way_to_the_rates_opens_them(shop_page):
    rates = [one for one in shop_page.expander if one.label.startswith("Rates")]
    assert [one.proto.expanded for one in rates] == [False]
    screen = clicked(turned_to(shop_page, "files"), "Change rates and prices")
    rates = [one for one in screen.expander if one.label.startswith("Rates")]
    assert [one.proto.expanded for one in rates] == [True]
    assert screen.session_state["mine"]["view"]["in_hand"][0] == "rates"


def test_what_cannot_be_is_told_beside_it_and_nothing_is_kept(shop_page):
    screen = shop_page
    for label, text, told in (
            ("Router's cutter", "99", "✕ 99: 1 to 25 mm is allowed; measure again"),
            ("Router's cutter", "six", "✕ 'six': this cannot be read"),
            ("What plywood", "12", "✕ 12: two lengths such as 12 mm = 11.7 mm"),
            ("What plywood", "12 = 1", "✕ 1: 2 to 80 mm is allowed; if you mean 1 cm"),
            ("Sheet of plywood", "2440",
             "✕ 2440: 2 entries with a semicolon between them, such as 2440; 1220"),
            ("Timber comes", "3600 5000", "more entries stand between semicolons"),
            ("Timber comes", "3600; 1 m", "✕ 1 m: 1800 to 12000 mm is allowed"),
            ("Timber comes", "", "✕ blank: 1 to 12 entries"),
            ("Your currency", "shells of the sea by the dozen", "dozen: at most 20 letters")):
        screen = typed(screen, label, text)
        assert told in said(screen)
        assert of(screen.text_input, label).value == text
    assert shop_now() == SHOP


LENGTHS = st.lists(st.integers(18_000, 50_000).map(lambda tenths: tenths / 10_000.0), min_size=1,
                   max_size=4).map(tuple)


@settings(deadline=None, max_examples=40)
@given(shop=st.builds(
    Shop, cutter_m=st.integers(10, 250).map(lambda tenths: tenths / 10_000.0),
    relief=st.sampled_from(RELIEFS), risers=st.sampled_from(KINDS),
    patterns=st.sampled_from(PATTERNS), stock_lengths_m=LENGTHS, cloth_widths_m=LENGTHS,
    plywoods=st.lists(st.tuples(st.integers(30, 680), st.integers(-4, 2)).map(
        lambda given: Plywood(given[0] / 10_000.0, sum(given) / 10_000.0)),
                      max_size=2).map(tuple)).map(tidy),
       unit=st.sampled_from(("mm", "cm", "in")))
def test_a_shop_read_back_from_its_own_texts_is_that_shop(shop, unit):
    for one in setting_fields(shop, unit):
        typed_now = {one.key: typed_value(shop, one.key, one.text, unit)}
        back = table_of(shop_of_table(table_of(shop, {}) | typed_now), {})
        assert back[one.key] == table_of(shop, {})[one.key]


@pytest.mark.parametrize(("length_mm", "unit", "text"), [
    (12.0, "in", "12 mm"), (12.7, "in", "1/2"), (11.90625, "mm", "15/32 in"), (12.7, "mm", "12.7"),
    (11.6, "in", "11.6 mm"), (11.938, "in", "0.47"), (12.303125, "in", "31/64 in"),
    (6.35, "mm", "6.35"), (3600.0, "cm", "360"), (2438.4, "in", "96"), (2440.0, "in", "2440 mm"),
])
def test_a_length_is_shown_as_it_was_typed(length_mm, unit, text):
    assert exact_text(length_mm, unit) == text


def test_one_figure_typed_anew_leaves_the_others_as_they_were(shop_page):
    """Typed in mm; then the screen is in inches and one figure alone is typed."""
    screen = typed(shop_page, "What plywood", "12 = 11.6; 18 = 17.5")
    screen.session_state["mine"]["history"] = History(measured(length_unit="in"))
    screen = ran(screen)
    shown = of(screen.text_input, "What plywood").value
    assert shown == "12 mm = 11.6 mm; 18 mm = 17.5 mm"
    typed(screen, "What plywood", shown.replace("17.5 mm", "0.7"))
    assert [(one.nominal_m, one.true_m) for one in shop_now().plywoods] == [
        (0.012, pytest.approx(0.0116)), (0.018, pytest.approx(0.01778))]


def test_an_own_design_is_judged_by_the_shops_plywood(shop_page, monkeypatch):
    """No shipped base is so near a limit that its plywood alone would tell."""
    given = []
    monkeypatch.setattr(own_use, "run", lambda *what, **how: given.append(how) or run(*what, **how))
    screen = turned_to(typed(shop_page, "What plywood", "12 = 13.5"), "own")
    clicked(clicked(screen, "copy_long-tourer", by_key=True), "Use as base design")
    assert "As drawn, with whom it was drawn for, it passes every check" in said(screen)
    (how,) = given
    assert [(one.nominal_m, one.true_m) for one in how["shop"].plywoods] == [(0.012, 0.0135)]
