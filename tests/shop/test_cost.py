"""Hours and cost against sums by hand; rates and prices read, kept and told apart from ours."""

import io
import json
from dataclasses import replace

import pytest
from pypdf import PdfReader

from sizer.errors import BadInput
from sizer.export.quote import cost_answer, quote_pdf
from sizer.shop.cost import cost_of
from sizer.shop.money import OUR_HOURS, USUAL, money_of_table, money_table, read_settings
from sizer.shop.work import counted, steps
from tests.conftest import MIDDLE

SETTINGS = """
cutter_mm = 8
[money]
currency = "shells"
hour = 50
cloth_per_m2 = 10
profit_percent = 0
tax_percent = 25
[money.hours]
lash = 0.1
"""


@pytest.fixture(scope="module", params=("day-boat", "long-tourer", "steady-boat"))
def built(request, middle_job, middle_bench):
    bench = middle_bench(request.param)
    return middle_job(request.param).stamped(None, bench), bench


def words_of(data):
    """The quote's page and those of the cautions, as text."""
    quote, *cautions = (" ".join(page.extract_text().split())
                        for page in PdfReader(io.BytesIO(data)).pages)
    assert ["Cautions: read before" in page for page in (quote, cautions[0])] == [False, True]
    return quote, " ".join(cautions)


def test_our_hours_are_of_the_steps_of_the_work():
    assert set(OUR_HOURS) == {step.key for step in steps()}


def test_hours_and_materials_are_the_boats_own_figures_times_the_rates(built):
    _, bench = built
    _, money = read_settings(SETTINGS)
    cost = cost_of(bench, money)
    hours = {one.key: one.hours for one in cost.hours}
    assert hours["lash"] == pytest.approx(0.1 * bench.materials.lashing.count)
    assert hours["frames"] == pytest.approx(0.25 * len(bench.frames))
    assert hours["coat"] == pytest.approx(0.5 * bench.materials.skin.area_m2)
    cloth = bench.materials.skin
    paid = {}
    for one in cost.bought:
        paid[one.price] = paid.get(one.price, 0.0) + one.cost
    assert paid["cloth_per_m2"] == pytest.approx(10.0 * cloth.cloth_m * cloth.cloth_width_m)
    sheets = [sheet.size_m[0] * sheet.size_m[1] * plan.thickness_m
              for plan in bench.layouts for sheet in plan.sheets]
    assert paid["plywood12_per_m2"] == pytest.approx(40.0 * sum(sheets) / 0.012)
    sticks = sum((cut + spare) * plan.width_m * plan.depth_m * stock
                 for plan in bench.materials.cutting
                 for stock, (cut, spare) in plan.to_buy.items())
    slats = sum(one.quantity * one.size_m[0] * one.size_m[1] * one.size_m[2]
                for one in bench.seat.items if "slat:" in one.what)
    assert paid["timber_per_m3"] == pytest.approx(2500.0 * (sticks + slats))
    listed = sum(paid.values())
    net = (50.0 * sum(hours.values()) + 1.1 * listed) * 1.2  # sundries 10 %, overhead 20 %
    assert cost.price == pytest.approx(1.25 * net)
    assert cost.tax == pytest.approx(0.25 * net)


def test_every_item_is_priced_or_named_as_small_or_not_bought(built):
    _, bench = built
    cost = cost_of(bench, USUAL[1])
    told = {one.what for one in cost.bought} | set(cost.small)
    left = [one for one in bench.materials.items if one.what not in told]
    assert all(one.group in ("strongback", "tools", "paddler") or (
        one.what.startswith(("clamp", "board", "okoume plywood"))
        and one.unit != "sheets") for one in left)
    assert all(one.cost > 0.0 for one in cost.bought)


def test_more_boat_is_more_hours(built):
    _, bench = built
    fewer = replace(bench, frames=bench.frames[:-2])
    assert counted(fewer)["frame"] == len(bench.frames) - 2
    assert cost_of(fewer, USUAL[1]).total_h < cost_of(bench, USUAL[1]).total_h


def test_what_the_shop_has_set_is_kept_and_the_rest_is_called_ours():
    shop, money = read_settings(SETTINGS)
    assert shop.cutter_m == pytest.approx(0.008)
    assert "timber_per_m3" in money.ours
    assert "hours.sew" in money.ours
    assert not {"hour", "currency", "hours.lash"} & set(money.ours)
    table = money_table(money)
    assert table == {"currency": "shells", "hour": 50, "cloth_per_m2": 10, "profit_percent": 0,
                     "tax_percent": 25, "hours": {"lash": 0.1}}
    assert money_of_table(json.loads(json.dumps(table))) == money


def test_every_fault_of_rates_and_settings_is_told_at_once():
    with pytest.raises(BadInput) as told:
        read_settings("cutter_mm = 99\n[money]\nhour = -1\nprofit_percent = 300\n"
                      "[money.hours]\nsew = 'long'")
    assert [fault.place for fault in told.value.faults] == [
        "shop: cutter_mm", "shop: money: hour", "shop: money: profit_percent",
        "shop: money: hours.sew"]
    for text in ("[money]\nhuor = 1", "[money.hours]\nsow = 1", "money = 3", "[money]\nhours = 3"):
        with pytest.raises(BadInput):
            read_settings(text)


def test_the_quote_is_one_page_with_the_price_and_says_what_is_invented(built):
    job, bench = built
    money = read_settings(SETTINGS)[1]
    cost = cost_of(bench, money)
    said, cautions = words_of(quote_pdf(job, bench, cost, money))
    passes = not job.imprint.refusal
    assert (f"{cost.price:,.2f} shells" in said) == passes
    assert ("INVENTED FIGURES" in said) == passes
    if passes:
        assert f"hours of {len(OUR_HOURS) - 1} steps" in said  # all but lash, which is set
        assert "An hour of work" not in said
    assert all(cautions.count(caution) == 1 for caution in job.cautions)
    assert "Read every caution at the end" in said
    assert f"{MIDDLE['weight_kg']:g}" not in said
    own = replace(money, ours=())
    assert "INVENTED" not in words_of(quote_pdf(job, bench, cost, own))[0]
    assert cost_answer(cost, money)["price"] == pytest.approx(cost.price, abs=1e-4)
    refused = replace(job, bench_failures=("a pattern",))
    assert "No price is told" in words_of(quote_pdf(refused, bench, cost, money))[0]
    long, _ = words_of(quote_pdf(job, bench, cost, USUAL[1], "Letter"))  # all of it invented
    assert (f"hours of {len(OUR_HOURS)} steps" in long) == passes
