"""Relief: what a round cutter of that radius reaches, found by rolling a disc over the free space.

A disc rolls wherever it touches no wood: the free space shrunk by its radius and grown again.
"""

import numpy as np
import pytest
from shapely.affinity import scale
from shapely.geometry import Polygon, box

from sizer.drawing.record import Circle, Drawing
from sizer.shop.relief import cut_paths, not_reached, outlines, relieved, routed, router_checks
from sizer.shop.settings import Shop
from sizer.shop.stem_drawing import stem_drawing
from sizer.shop.stems import stem_patterns

SEEN_M = 0.00008  # thickness of what may stay, with the steps of a drawn arc
BOARD = box(0.0, 0.0, 0.2, 0.1).difference(box(0.08, 0.06, 0.11, 0.2))  # a notch 30 x 40 mm


def seats(left, square):
    """Whether nothing thicker than can be seen stands in a square part's way, of what is left."""
    return left.intersection(square).buffer(-SEEN_M / 2.0).is_empty


def test_without_relief_a_cutter_leaves_the_rounding_of_its_radius():
    """In a square corner r (1 - 1/sqrt 2) along the diagonal, and (1 - pi/4) r^2 of area."""
    stick = box(0.08, 0.06, 0.11, 0.1)
    left = not_reached(BOARD, 0.006).intersection(stick)
    assert left.area == pytest.approx(2 * (1 - np.pi / 4) * 0.003**2, rel=0.01)
    for kind in ("dog-bone", "t-bone"):
        assert seats(not_reached(relieved(BOARD, 0.006, kind), 0.006), stick)
    assert not seats(not_reached(BOARD, 0.006), stick)


def test_the_two_kinds_bite_as_drawn_by_hand():
    """A dog-bone passes each edge by r (1 - 1/sqrt 2); a t-bone keeps the longer edge whole."""
    dog = BOARD.difference(relieved(BOARD, 0.006, "dog-bone"))
    reach = 0.003 * (1 - 1 / np.sqrt(2))
    assert dog.bounds == pytest.approx((0.08 - reach, 0.06 - reach, 0.11 + reach,
                                        0.06 + 0.003 * np.sqrt(2)), abs=2e-5)
    tee = BOARD.difference(relieved(BOARD, 0.006, "t-bone"))  # the walls, 40 mm, are longer
    assert tee.bounds == pytest.approx((0.08, 0.057, 0.11, 0.06), abs=1e-4)
    assert relieved(BOARD, 0.006, "none") is BOARD


@pytest.mark.parametrize(("kind", "cutter_m"), [("dog-bone", 0.00635), ("t-bone", 0.003)])
def test_sticks_and_tenons_seat_in_every_frame(frames, kind, cutter_m):
    for pattern in frames:
        cut = relieved(pattern.wood, cutter_m, kind)
        left, wood = not_reached(cut, cutter_m), pattern.wood.buffer(1e-7)
        parts = [notch.stock() for notch in pattern.section.notches]
        parts += [scale(one, -1.0, origin=(0.0, 0.0)) for one in parts]
        for seat in [*parts, *pattern.mortises]:
            gone = seat.difference(wood)  # what sawing by hand would free
            assert seats(left, gone), (pattern.name, kind)
        assert pattern.wood.buffer(1e-9).covers(cut)
        assert cut.area > 0.98 * pattern.wood.area


def test_a_drawing_keeps_its_holes_and_words_and_gets_its_relief(boat, frame_drawings):
    pattern = stem_patterns(boat)[0]
    plain = stem_drawing(pattern)
    drawn = routed(plain, Shop(cutter_m=0.008))
    (wood,) = outlines(drawn)
    assert isinstance(wood, Polygon)
    mouth = relieved(outlines(plain)[0], 0.008, "dog-bone")
    assert wood.symmetric_difference(mouth).area < 1e-12
    others = [one for one in plain.strokes if one.pen != "cut"]
    assert [one for one in drawn.strokes if one.pen != "cut"] == others
    frame = frame_drawings[3]
    assert len(outlines(routed(frame, Shop()))[0].interiors) == len(
        outlines(frame)[0].interiors)
    assert routed(frame, Shop(relief="none")) is frame


def test_checks_tell_what_a_cutter_leaves():
    """In a square corner less than r (sqrt 2 - 1), the arc's distance from it; a slot narrower than
    the cutter stays whole, so that its own width is left, but for the relief in its corners."""
    slotted = BOARD.difference(box(0.02, 0.02, 0.06, 0.032))
    drawing = Drawing("board", (*cut_paths(slotted), Circle("drill", (0.12, 0.08), 0.0016)))

    def told(**shop):
        return {one.name: one for one in router_checks([drawing], Shop(**shop))}

    plain = told(cutter_m=0.006, relief="none")["cutter reaches the corners"]
    assert plain.status == "caution"
    assert 0.0 < plain.value < 3.0 * (2**0.5 - 1.0)
    assert told(cutter_m=0.006)["cutter reaches the corners"].status == "pass"
    wide = told(cutter_m=0.0127)["cutter reaches the corners"]
    assert (wide.status, wide.value) == ("caution", pytest.approx(12.0, abs=1.5))
    # the hole's rim is 120 - 110 - 1.6 = 8.4 mm from the notch's wall
    assert told(relief="none")["plywood beside the relief"].value == pytest.approx(8.4)
