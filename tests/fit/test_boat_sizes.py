"""The sizes that a boat is told by, against how far its own skin reaches."""

import numpy as np
import pytest

from sizer.fit.sizes import SIZES, main_sizes_text, size_title, sizes_mm
from sizer.hull.sections import closed_rings


def test_length_and_beam_are_those_of_the_skin_and_the_opening_is_the_coaming(boat):
    sizes, rings = sizes_mm(boat), closed_rings(boat.sections)
    assert sizes["length_mm"] == pytest.approx(1000.0 * np.ptp(boat.sections.x_m), abs=0.01)
    assert sizes["beam_mm"] == pytest.approx(1000.0 * np.ptp(rings[..., 0]), abs=0.5)
    assert sizes["cockpit_length_mm"] == pytest.approx(
        1000.0 * (boat.opening.back_x_m - boat.opening.front_x_m))
    assert main_sizes_text(boat) == (
        f"{sizes['length_mm']:.0f} x {sizes['beam_mm']:.0f} x {sizes['depth_mm']:.0f}")


def test_sizes_have_words():
    assert [size_title(key) for key in SIZES] == [
        "Length", "Beam", "Depth", "Cockpit length", "Cockpit width"]
