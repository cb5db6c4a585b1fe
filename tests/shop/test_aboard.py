"""What is aboard when the boat floats as its figures tell, in the papers' words."""

import io
import re
from dataclasses import replace

import pytest
from pypdf import PdfReader

from sizer.export.launch_sheet import launch_pdf
from sizer.export.plan_work import told_figures
from sizer.hydro.particulars import float_upright
from sizer.shop.aboard import aboard_rows, drysuit_words, gear_words, pad_words, whole_words
from sizer.shop.work import filled, steps

BASES = ("day-boat", "load-carrier", "long-tourer")


@pytest.mark.parametrize("base", BASES)
def test_the_parts_aboard_are_the_weight_that_floats(base, middle_job):
    """By the paddler's own weight and what floats: the boat is what is left of both and the gear.
    """
    job = middle_job(base)
    loading, gear = job.fitted.assessed.loading, job.person.gear_kg
    rows = dict(aboard_rows(loading))
    assert sum(rows.values()) == pytest.approx(job.fitted.assessed.particulars.displacement_kg,
                                               abs=0.05)
    assert rows["dressed paddler"] == pytest.approx(81.37 + 5.0)
    assert [kg for what, kg in rows.items() if "gear" in what] == [gear]
    parts = whole_words(loading).partition("of the paddler are")[0]
    told = [float(one) for one in re.findall(r"([\d.]+) kg \(", parts)]
    assert told[0] == pytest.approx(sum(told[1:]), abs=0.11)
    worn = re.search(r"\. (5 kg of the paddler .*?);", whole_words(loading))[1]
    whole, *each = (float(one) for one in re.findall(r"\d+\.?\d*", worn))
    assert whole == pytest.approx(sum(each))


@pytest.mark.parametrize("base", BASES)
def test_gear_is_aboard_before_the_first_reading_on_sheet_and_in_the_order_of_work(
        base, middle_job, middle_bench):
    job = middle_job(base)
    told = {one.key: one for one in filled(told_figures(job, middle_bench(base)))}
    sheet = " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(
        launch_pdf(job))).pages).split())
    heaps = job.fitted.assessed.loading.gear
    assert sum(heap.mass_kg for heap in heaps) == pytest.approx(job.person.gear_kg)
    frames = dict(zip((one.name for one in job.fitted.assessed.boat.design.frames),
                      job.fitted.assessed.boat.frame_x_m, strict=True))
    order, opening = list(frames), job.fitted.assessed.boat.opening

    def at(opening, way):
        return opening.front_x_m if "front" in way else opening.back_x_m

    for words in (told["aboard"].do, sheet):
        found = [(kg, 1000.0 * at(opening, way) + (1.0 if "behind" in way else -1.0) * float(off),
                  fore, aft) for kg, fore, aft, off, way in re.findall(
            r"([\d.]+) kg \([\d.]+ lb\) between (F\d+) and (F\d+), its middle (\d+) mm \([^)]+\) "
            r"(behind the opening's back|ahead of the opening's (?:back|front))", words)]
        assert sum(float(kg) for kg, *_ in found) == pytest.approx(
            sum(heap.mass_kg for heap in heaps), abs=0.11)
        assert sum(float(kg) * float(at) for kg, at, *_ in found) == pytest.approx(
            1000.0 * sum(heap.mass_kg * heap.lcg_m for heap in heaps), rel=0.003)
        assert all(frames[fore] <= float(at) / 1000.0 <= frames[aft]
                   and order.index(aft) == order.index(fore) + 1 for _, at, fore, aft in found)
    assert sheet.index("its middle") < sheet.index("water to sheer")
    keys = [one.key for one in steps()]
    assert keys.index("bags") < keys.index("aboard") < keys.index("boarding")
    assert "No steadiness trial with less aboard" in told["aboard"].danger
    assert keys.index("aboard") < keys.index("launch")
    assert f"Loaded as in step {keys.index('aboard') + 1}, " in told["launch"].do


@pytest.mark.parametrize("base", BASES)
def test_the_float_bags_weight_is_told_with_and_without_gear(base, middle_job, middle_bench):
    """By the litres to buy, seven grams each."""
    job, bench = middle_job(base), middle_bench(base)
    litres = sum(float(one) for one in re.findall(r"(\d+) litres",
                                                  told_figures(job, bench)["bag_ties"]))
    bare = replace(job.fitted.assessed, loading=replace(job.fitted.assessed.loading, gear=()))
    told = {one.key: one for one in filled(told_figures(job, bench))}["aboard"].do
    for words in (told, gear_words(bare, job.mishaps.swamped)):
        found = re.search(r"[Ff]loat bags \(about ([\d.]+) kg", words)
        assert float(found[1]) == pytest.approx(0.007 * litres, abs=0.06)


def test_without_gear_it_stays_ashore(middle_job):
    assessed = middle_job("day-boat").fitted.assessed
    bare = replace(assessed, loading=replace(assessed.loading, gear=(), gear_kg=0.0))
    swamped = middle_job("day-boat").mishaps.swamped
    assert "stays ashore" in gear_words(bare, swamped)
    assert "no gear 0.0 kg" in whole_words(bare.loading)


@pytest.mark.parametrize("base", BASES)
def test_a_pad_under_the_paddler_costs_the_steadiness_that_is_told(base, middle_job):
    """By floating the boat anew with the paddler 10 mm higher."""
    job = middle_job(base)
    assessed, water = job.fitted.assessed, job.person.water
    load, sections = assessed.loading.load, assessed.boat.sections
    said = re.search(r"take (\d+) mm .+? of the (\d+) mm", pad_words(assessed))
    costs, of = map(int, said.groups())
    up = 0.010 * assessed.loading.paddler_kg / load.mass_kg
    flat = float_upright(sections, load, water).gm_m
    raised = float_upright(sections, replace(load, vcg_m=load.vcg_m + up), water).gm_m
    assert 1000.0 * flat == pytest.approx(of, abs=0.6)
    assert 1000.0 * (flat - raised) == pytest.approx(costs, abs=0.6)


def test_clothes_for_cold_water_are_told_where_the_weight_is(middle_job):
    said = whole_words(middle_job("day-boat").fitted.assessed.loading)
    assert "drysuit over warm layers with boots, may weigh 4 kg" in said
    assert "1.5 kg (3.3 lb) more than clothing and shoes: so much less gear goes in" in said


@pytest.mark.parametrize("base", BASES)
def test_a_drysuit_eats_the_gear_by_its_weight_over_the_clothing_reckoned_with(base, middle_job,
                                                                              middle_bench):
    """4 kg against 2.5; float bags at seven grams a litre."""
    job, bench = middle_job(base), middle_bench(base)
    told = {one.key: one for one in filled(told_figures(job, bench))}["aboard"].do
    litres = sum(float(one) for one in re.findall(r"(\d+) litres",
                                                  told_figures(job, bench)["bag_ties"]))
    boards = re.search(r"\(boards ([\d.]+) kg", told)
    left = (float(job.fitted.assessed.loading.gear_kg) - (4.0 - 2.5) - 0.007 * litres
            - (float(boards[1]) if boards else 0.0))
    found = re.search(r"A drysuit, 1.5 kg \(3.3 lb\) heavier .*? leaves ([\d.]+) kg", told)
    assert (found is not None) == (left >= 2.0)
    assert found is None or float(found[1]) == pytest.approx(left, abs=0.12)
    nothing = drysuit_words(2.0, job.mishaps.swamped, 0.4)
    assert "LEAVES NOTHING, less than the 2.0 kg (4.4 lb)" in nothing
    assert "15 °C (59 °F) or less THIS BOAT DOES NOT GO OUT" in nothing
    little = drysuit_words(5.0, job.mishaps.swamped, 0.4)
    some = 5.0 - 1.5 - 0.007 * litres - 0.4
    said = re.search(r"LEAVES ([\d.]+) kg", little)
    assert (said is not None) == (0.0 < some < 2.0)
    assert said is None or float(said[1]) == pytest.approx(some, abs=0.06)
    assert "before you build" not in nothing  # who reads it has the boat
