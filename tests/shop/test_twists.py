"""How hard sticks are twisted, against a soap film over their section and a circle's shaft."""

import io
import re
from itertools import pairwise

import numpy as np
import pytest
from pypdf import PdfReader

from sizer.export.plan_work import told_figures
from sizer.export.stick_cards import sticks_pdf
from sizer.shop.stringers import stringer_list
from sizer.shop.twists import BREAKS_STRAIN, bay_twists, shear_strain
from sizer.shop.work import filled


def film_strain(thin_m, wide_m, turn_per_m, cells=48):
    """Steepest slope at the edge of a film under even pressure over the section: the strain.

    Laplacian of f = -2 on the section, f = 0 on its edge, on a grid of its own for each side.
    """
    rows, columns = cells - 1, cells - 1
    across, up = thin_m / cells, wide_m / cells
    one = (np.diag(-2.0 * np.ones(rows)) + np.diag(np.ones(rows - 1), 1)
           + np.diag(np.ones(rows - 1), -1))
    values, vectors = np.linalg.eigh(one)
    load = vectors.T @ (-2.0 * np.ones((rows, columns))) @ vectors
    film = vectors @ (load / (values[:, None] / across**2 + values[None, :] / up**2)) @ vectors.T
    middle = film[:, columns // 2]
    slope = (4.0 * middle[0] - middle[1]) / (2.0 * across)  # one-sided, second order, 0 at the edge
    return slope * turn_per_m


@pytest.mark.parametrize("sides", [(0.016, 0.016), (0.016, 0.019), (0.019, 0.024),
                                   (0.016, 0.038)])
def test_a_twisted_bars_strain_is_a_soap_films_slope(sides):
    turn, long = np.radians(25.7), 0.352
    assert shear_strain(sides, turn, long) == pytest.approx(
        film_strain(*sides, turn / long), rel=0.02)


def test_each_bay_is_told_as_hard_as_it_is(boat):
    for stick in stringer_list(boat):
        bays = list(bay_twists(stick))
        names = [one.frame for one in stick.crossings]
        assert [(one.fore, one.aft) for one in bays] == list(pairwise(names))
        for found, turn in zip(bays, stick.twists_deg, strict=True):
            assert found.deg == pytest.approx(abs(turn))
            assert (found.share >= 0.9) == (found.verdict == "twist it hot and wet")
            assert (found.share < 0.5) == (found.verdict == "twists easily")


def test_no_stick_is_twisted_to_a_stem_that_would_strain_it_to_half_of_what_splits_it(boat):
    """By a film over its section; what it would turn by the way of the skin there, which holds the
    stick's run and the stem's edge, against its face at the nearest frame."""
    found = []
    for stick in stringer_list(boat):
        for end, near in ((stick.forward, stick.crossings[0]), (stick.after, stick.crossings[-1])):
            if end.kind != "stem side":
                continue
            run, edge = end.lay.run, end.lay.edge
            across = run / run[0] - edge / edge[0]
            turn = np.degrees(np.arctan2(abs(across[2]), abs(across[1]))) - near.angle_deg
            long = near.along_m if end is stick.forward else stick.length_m - near.along_m
            share = film_strain(*sorted((stick.stringer.width_m, stick.stringer.depth_m)),
                                np.radians(abs(turn)) / long) / BREAKS_STRAIN
            assert end.lay.share == pytest.approx(share, rel=0.04, abs=0.005)
            assert (end.aslant is not None) == (end.lay.share >= 0.5)
            found.append(end.lay.share)
    assert min(found) < 0.5 < max(found), "of every base some end is not twisted"


def test_bilges_that_wind_into_their_host_are_told_hot_on_card_and_in_the_step(
        middle_job, middle_bench):
    """What winds a quarter of a right angle within a bay never "bends easily" and no more."""
    job, bench = middle_job("long-tourer"), middle_bench("long-tourer")
    cards = " ".join(" ".join(page.extract_text().split()) for page in PdfReader(
        io.BytesIO(sticks_pdf(job, bench))).pages)
    told = {one.key: one for one in filled(told_figures(job, bench))}
    for stick in bench.sticks:
        if stick.name not in ("fore bilge", "aft bilge"):
            continue
        found = max(bay_twists(stick), key=lambda one: one.share)
        assert found.deg > 20.0
        assert re.search(rf"From {found.fore} to {found.aft}, {found.deg:.1f}° in .*?, "
                         "twist it hot", cards)
        assert f"from {found.fore} to {found.aft}" in told["chines"].do
        assert found.share * BREAKS_STRAIN == pytest.approx(film_strain(
            0.016, 0.019, np.radians(found.deg) / found.long_m), rel=0.1)
    assert "boiling water" in told["chines"].do
    assert "scalds" in told["chines"].danger
    assert any("kettle" in one.what for one in bench.materials.items)


def test_a_boat_whose_sticks_twist_easily_tells_nothing_of_it(middle_job, middle_bench):
    told = {one.key: one for one in filled(
        told_figures(middle_job("surf-runner"), middle_bench("surf-runner")))}
    assert "boiling" not in told["chines"].do + told["chines"].danger
    assert "wisted slowly" not in told["chines"].do


def test_ends_that_are_not_twisted_are_told_on_the_card_and_in_the_step(middle_job, middle_bench):
    job, bench = middle_job("day-boat"), middle_bench("day-boat")
    step = {one.key: one for one in filled(told_figures(job, bench))}["chines"].do
    assert "Not twisted up to a stem, nor by a tie" in step
    assert "lower chine at the bow stem and stern stem" in step
    card = next(page for one in PdfReader(io.BytesIO(sticks_pdf(job, bench))).pages
                if "\nlower chine\n" in (page := one.extract_text()))
    for end, frame in ((stick := next(one for one in bench.sticks if one.name == "lower chine"))
                       .forward, "F1"), (stick.after, "F9"):
        lay = end.aslant
        assert f"as it comes out of {frame};" in " ".join(card.split())
        for out in (*lay.inner_m, lay.outer_m[0]):
            assert f"{1000.0 * out:.1f} mm" in card
    assert card.count("twist it slowly") == 2, "at both ends of the boat"
