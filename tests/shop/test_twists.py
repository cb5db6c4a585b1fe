"""How hard sticks are twisted, against a soap film over their section and a circle's shaft."""

import io
import re

import numpy as np
import pytest
from pypdf import PdfReader

from sizer.export.plan_work import told_figures
from sizer.export.stick_cards import sticks_pdf
from sizer.shop.stringers import stringer_list
from sizer.shop.twists import BREAKS_STRAIN, hardest_twist, shear_strain
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


def test_the_hardest_twist_is_over_one_bay_and_no_less_than_any_other(boat):
    for stick in stringer_list(boat):
        found = hardest_twist(stick)
        if len(stick.crossings) < 2:
            assert found is None
            continue
        names = [one.frame for one in stick.crossings]
        row = names.index(found.fore)
        assert names[row + 1] == found.aft
        assert found.deg == pytest.approx(abs(stick.twists_deg[row]))
        assert (found.share >= 0.9) == (found.verdict == "twist it hot and wet")
        assert (found.share < 0.5) == (found.verdict == "twists easily")


def test_bilges_that_wind_into_their_host_are_told_hot_on_card_and_in_the_step(
        middle_job, middle_bench):
    """What winds a quarter of a right angle within a bay never "bends easily" and no more."""
    job, bench = middle_job("long-tourer"), middle_bench("long-tourer")
    cards = " ".join(" ".join(page.extract_text().split()) for page in PdfReader(
        io.BytesIO(sticks_pdf(job, bench))).pages)
    told = {one.key: one for one in filled(told_figures(job, bench))}
    for stick in bench.sticks:
        found = hardest_twist(stick)
        if stick.name not in ("fore bilge", "aft bilge"):
            continue
        assert found.deg > 20.0
        assert re.search(rf"From {found.fore} to {found.aft}, {found.deg:.1f}° in .*?, "
                         "twist it hot", cards)
        assert f"{stick.name} from {found.fore} to {found.aft}" in told["chines"].do
        assert found.share * BREAKS_STRAIN == pytest.approx(film_strain(
            0.016, 0.019, np.radians(found.deg) / found.long_m), rel=0.1)
    assert "boiling water" in told["chines"].do
    assert "scalds" in told["chines"].danger
    assert any("kettle" in one.what for one in bench.materials.items)


def test_a_boat_whose_sticks_twist_easily_tells_nothing_of_it(middle_job, middle_bench):
    told = {one.key: one for one in filled(
        told_figures(middle_job("surf-runner"), middle_bench("surf-runner")))}
    assert "boiling" not in told["chines"].do + told["chines"].danger
    assert "wisted" not in told["chines"].do
