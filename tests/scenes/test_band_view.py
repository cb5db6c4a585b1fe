"""The backband's figure, measured on the boat's own sections."""

import numpy as np
import pytest

from sizer.drawing.record import Path, Text
from sizer.scenes.band_view import band_view


def test_the_ties_are_drawn_from_the_gunwales_to_the_band_with_their_figures(middle_job,
                                                                            middle_bench):
    """To starboard from above: the gunwale's inner face is its depth inside the skin's widest line,
    ahead of its frame; the band stands behind the buttocks."""
    for base in ("day-boat", "steady-boat"):
        boat, bench = middle_job(base).fitted.assessed.boat, middle_bench(base)
        band = bench.seat.backband
        view = band_view(boat, bench, 0.02)
        ties = [one.points_m for one in view.strokes if isinstance(one, Path) and one.pen == "here"]
        above = ties[0]
        station = next(one for one in middle_job(base).setting_up.stations
                       if one.name == band.frame)
        fore = min(station.x_m, station.far_x_m)
        skin = np.interp(fore, boat.sections.x_m, boat.sections.y_m[:, boat.sections.sheer])
        depth = next(one.depth_m for one in boat.design.stringers if one.role == "gunwale")
        loop = fore - 0.0125  # the loop's middle, ahead of the frame's face
        assert above[0] == pytest.approx((loop, skin - depth), abs=0.002)
        assert above[-1] == pytest.approx((boat.seat_x_m, 0.5 * boat.design.seat.width_m))
        assert len(ties) == 2
        told = {one.text for one in view.strokes if isinstance(one, Text)}
        for size in (boat.seat_x_m - loop, above[0][1], boat.design.cockpit.backband_height_m):
            assert f"{1000.0 * size:.0f}" in told, (base, told)
        assert {"half the band", f"{500.0 * boat.design.seat.width_m:.0f}"} <= told
        assert {"gunwale", "band", "tie", "eye", "elastic", "loop, 12.5 ahead", "seat's top",
                band.frame, band.behind} <= told
        side = ties[1]
        high = np.interp(loop, boat.sections.x_m, boat.sections.z_m[:, boat.sections.sheer])
        wide = next(one.width_m for one in boat.design.stringers if one.role == "gunwale")
        eye = boat.seat_z_m + boat.design.cockpit.backband_height_m
        assert side[0][1] - side[-1][1] == pytest.approx(  # from neither edge of the gunwale
            high - 0.5 * wide - eye, abs=0.003)
