"""The choice against greedy and against trying everything; the range against the exact engine."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from sizer.crowd import finished as finished_module
from sizer.crowd import pool as pool_module
from sizer.crowd.choose import greedy, pick, reached_by
from sizer.crowd.crew import crew
from sizer.crowd.finished import Verdict, persons_of, verdict
from sizer.crowd.placing import Placing
from sizer.crowd.served import OF_THE_PADDLER, judged_in
from sizer.crowd.sizes import size_range, which_size
from sizer.errors import BadInput, NotSolved
from sizer.fit.assess import assess
from sizer.fit.checks import checks_of
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import facts_with, mishaps
from sizer.hull.boat import SECTION_COUNT
from tests.crowd.conftest import TRIP, drawn_people, fewest_boats, small_pool


def goals(seed, people=60, boats=9):
    """Two goals, the second within the first, as served and served without a caution."""
    chance = np.random.default_rng(seed)
    first = chance.random((people, boats)) < chance.uniform(0.05, 0.5, boats)
    return first, first & (chance.random(first.shape) < 0.5)


@pytest.mark.parametrize("seed", range(6))
def test_pick_equals_trying_every_choice(seed):
    both = goals(seed)
    for count in (1, 2, 3):
        best = max(reached_by(both, boats) for boats in combinations(range(9), count))
        picked = pick(both, count)
        assert picked.reached == best
        assert picked.reached == picked.bounds
        assert picked.bounds == pytest.approx(best)


@pytest.mark.parametrize("seed", range(2))
def test_pick_is_never_worse_than_greedy_and_does_not_fall_with_count(seed):
    both = goals(seed, people=80, boats=20)
    before = (0, 0)
    for count in range(1, 6):
        picked = pick(both, count)
        assert picked.reached >= reached_by(both, greedy(both, count))
        assert picked.reached >= before
        assert picked.bounds[0] >= picked.reached[0]
        before = picked.reached


def test_a_search_that_gives_up_says_no_more_than_it_knows(monkeypatch):
    both = goals(3, people=80, boats=20)
    whole = pick(both, 4)
    monkeypatch.setattr("sizer.crowd.cover.MOST_TRIES", -1)
    short = pick(both, 4)
    assert whole.reached == whole.bounds
    assert short.reached != short.bounds
    assert reached_by(both, greedy(both, 4)) <= short.reached <= whole.reached
    assert all(most >= least for most, least in zip(short.bounds, whole.reached, strict=True))


def test_greedy_can_be_worse_so_the_choice_is_worth_solving():
    goal = np.zeros((6, 3), bool)
    goal[:4, 0] = True  # the greedy first take
    goal[[0, 1, 4], 1] = True
    goal[[2, 3, 5], 2] = True
    assert reached_by([goal], greedy([goal], 2)) == (5,)
    assert pick([goal], 2).reached == (6,)


def test_a_goal_that_nobody_reaches_is_no_error():
    assert pick([np.zeros((5, 3), bool)], 2).reached == (0,)


def engine_checks(hull, person, full=False):
    one = assess(hull.lines, hull.scaling, person, SECTION_COUNT)
    return checks_of(facts_with(one, mishaps(one)) if full else facts_of(one))


def test_everybody_served_passes_the_exact_checks_and_the_left_out_none(small_range):
    setting, choice = small_range.setting, small_range.choices[1]
    for index, (person, taken) in enumerate(zip(setting.crowd.persons, choice.taken, strict=True)):
        if taken < 0:
            assert not any(verdict(size.hull, person).serves for size in choice.sizes)
            continue
        statuses = {check.key: check.status
                    for check in engine_checks(choice.sizes[taken].hull, person)}
        assert "fail" not in statuses.values()
        if choice.verdicts[index].clean:
            assert not [key for key in OF_THE_PADDLER if statuses.get(key) == "caution"]


def test_heeled_and_swamped_the_full_answer_says_the_same_of_those_served(small_range):
    choice = small_range.choices[-1]
    people = np.flatnonzero(choice.taken >= 0)
    heaviest = people[np.argsort(small_range.setting.crowd.weight_kg[people])[::-4]]
    for person in heaviest[:8]:
        checks = engine_checks(choice.sizes[choice.taken[person]].hull,
                               small_range.setting.crowd.persons[person], full=True)
        off = [check.key for check in checks if check.row.mishap and check.status != "pass"]
        assert "flooded" not in off
        assert not off or not choice.verdicts[person].clean


def test_shares_with_the_left_out_add_up(small_range):
    people = len(small_range.measured)
    for choice in small_range.choices:
        by_size = [int((choice.taken == index).sum()) for index in range(len(choice.sizes))]
        left_out = sum(bool(one.fails) for one in choice.verdicts)
        assert sum(by_size) + left_out == people
        assert choice.roomy <= choice.clean <= choice.served
        # the tables err on the safe side, by no more than `test_served` allows them
        assert 0.75 * choice.clean <= choice.on_tables[0] <= choice.bounds[0]
        assert choice.unknown == 0


def test_each_size_more_serves_more_people_without_a_caution(small_range):
    clean = [choice.clean for choice in small_range.choices]
    assert clean[0] > 0
    assert clean == sorted(set(clean))
    assert clean[-1] >= 1.3 * clean[0]


def test_nobody_takes_a_size_that_cautions_where_another_is_clean(small_range):
    setting, choice = small_range.setting, small_range.choices[-1]
    cautioned = [index for index, one in enumerate(choice.verdicts) if one.serves and not one.clean]
    for index in cautioned[:10]:
        person = setting.crowd.persons[index]
        assert not any(verdict(size.hull, person).clean for size in choice.sizes)


def verdict_of(status, spare):
    fails = {"fail": ("hips",), "unknown": ("unknown",)}.get(status, ())
    return Verdict(status, fails, ("gm",) if status == "caution" else (), spare, "gm", ())


def placed(setting, boats, known):
    """Everybody placed in two boats."""
    with crew(setting, 1) as shared:
        return Placing(setting, boats, known, shared).of((0, 1))


@pytest.mark.parametrize(("verdicts", "wanted"), [
    (("caution", "pass"), 1), (("pass", "caution"), 0), (("fail", "caution"), 1),
    (("unknown", "caution"), 1), (("unknown", "fail"), 0), (("fail", "unknown"), 1)])
def test_clean_is_taken_before_served_and_unknown_told_before_failed(small_range, verdicts, wanted):
    """Whatever the tables say: here both are clean on them, the first with more to spare."""
    everybody = np.ones(len(small_range.measured), bool)
    boats = tuple(pool_module.Candidate(
        small_range.choices[1].sizes[0].hull, small_range.measured[0], spare * everybody,
        spare * everybody, everybody, everybody, everybody, everybody) for spare in (0.9, 0.4))
    known = {(boat, person): verdict_of(status, 0.0) for boat, status in enumerate(verdicts)
             for person in range(everybody.size)}
    taken, found = placed(small_range.setting, boats, known)
    assert set(taken) == {wanted}
    assert {one.status for one in found} == {verdicts[wanted]}


def test_people_who_cannot_be_worked_out_are_counted_and_not_said_to_sink(small_range, monkeypatch):
    def failing(*_given, **_more):
        raise NotSolved("no rest")

    setting = small_range.setting
    boats = tuple(pool_module.Candidate(size.hull, size.drawn, **pool_module._whom(
        judged_in(size.hull, setting.crowd))) for size in small_range.choices[1].sizes)
    real = finished_module.assess_crowd
    monkeypatch.setattr(finished_module, "assess_boat", failing)
    monkeypatch.setattr(finished_module, "assess_crowd", lambda *given: replace(
        real(*given), floats=np.zeros(given[2], bool)))
    _, verdicts = placed(setting, boats, {})
    near = np.max([one.hard for one in boats], axis=0) >= -0.5
    assert near.sum() > 20
    assert all(verdicts[index].unknown for index in np.flatnonzero(near))


def test_a_fit_that_cannot_be_worked_out_is_counted_in_the_pool(day_boat, monkeypatch):
    real, calls = pool_module.fit_many, []

    def second_failing(*given):
        calls.append(given)
        found = real(*given)
        return (found[0], NotSolved("no rest"), *found[2:]) if len(calls) == 1 else found

    fewest_boats(monkeypatch)
    monkeypatch.setattr(pool_module, "fit_many", second_failing)
    found = size_range(drawn_people(12, spread=1.0), day_boat, TRIP, 1)
    assert found.pool_unknown == 1


def test_sizes_are_named_from_the_smallest(small_range):
    choice = small_range.choices[-1]
    volumes = [np.trapezoid(size.hull.boat.sections.y_m.max(axis=1), size.hull.boat.sections.x_m)
               * size.hull.boat.depth_m for size in choice.sizes]
    assert [size.name for size in choice.sizes] == ["Size 1", "Size 2", "Size 3"]
    assert volumes == sorted(volumes)


def test_every_size_serves_the_body_it_is_drawn_for(small_range):
    for choice in small_range.choices:
        for size in choice.sizes:
            person, = persons_of([size.drawn], TRIP)
            assert verdict(size.hull, person).serves


def test_which_size_never_puts_a_caution_of_the_boat_before_a_pass(monkeypatch):
    monkeypatch.setattr("sizer.crowd.sizes.verdict", lambda hull, _person: hull)
    cautioned = Verdict("caution", (), ("fair",), 0.9, "gm", ())
    assert cautioned.clean  # it is no caution of the paddler's
    rows = which_size({"A": cautioned, "B": Verdict("pass", (), (), 0.2, "gm", ())}, None)
    assert [name for name, _ in rows] == ["B", "A"]


def test_which_size_puts_the_one_with_most_to_spare_first(small_range):
    choice = small_range.choices[-1]
    person = int(np.flatnonzero(choice.between)[0])
    body, = small_range.setting.persons([small_range.measured[person]])
    rows = which_size({size.name: size.hull for size in choice.sizes}, body)
    assert len(rows) == 3
    assert rows[0][1].serves
    order = [(found.status == "pass", found.clean, found.serves, found.spare)
             for _, found in rows]
    assert order == sorted(order, reverse=True)
    assert {key for key, _, _ in rows[0][1].margins} == {
        key for key, _, _ in rows[1][1].margins}


def test_the_same_people_get_the_same_answer_from_two_processes_that_tell_how_far_they_are(
        small_range, day_boat):
    told = []
    with pytest.MonkeyPatch.context() as patch:
        small_pool(patch)
        shared = size_range(drawn_people(80), day_boat, TRIP, 3,
                            lambda *one: told.append(one), workers=2)
    assert told[0][:2] == (0, 6)
    assert all(done < of for done, of, _ in told)
    assert len({words for *_, words in told}) == 4
    assert (shared.pool, shared.pool_unknown, shared.pool_refused) == (
        small_range.pool, small_range.pool_unknown, small_range.pool_refused)
    for one, other in zip(shared.choices, small_range.choices, strict=True):
        assert one.boats == other.boats
        assert (one.taken == other.taken).all()
        assert one.verdicts == other.verdicts
        assert (one.spare == other.spare).all()
        assert [(size.hull.scaling, size.drawn) for size in one.sizes] == [
            (size.hull.scaling, size.drawn) for size in other.sizes]


def test_spread_gives_round_bodies_and_none_twice():
    bodies = pool_module.spread(drawn_people(200), 30)
    assert len(set(bodies)) == len(bodies) > 20
    assert all(body.weight_kg == round(body.weight_kg) for body in bodies)


@pytest.mark.parametrize(("people", "sizes"), [(0, 1), (3, 0), (3, 7)])
def test_no_people_and_odd_counts_of_sizes_are_refused(day_boat, people, sizes):
    with pytest.raises(BadInput):
        size_range(drawn_people(people) if people else (), day_boat, TRIP, sizes)


def test_people_whom_no_boat_can_serve_are_refused_in_words(day_boat):
    with pytest.raises(BadInput, match="take another base, use or gear"):
        size_range(drawn_people(4), day_boat, replace(TRIP, gear_kg=150.0), 1)
