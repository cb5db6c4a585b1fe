"""The coaming: the opening in its own sloped plane, and the strips that are bent round it.

The coaming is a wall of thin strips bent round the opening, standing on the frames and the ends of
the deck sticks, with a lip of more strips round its outside at the top for the spray deck.
"""

from dataclasses import dataclass

import numpy as np

from sizer.shop.stringers import bend_verdict

COAMING_WOOD = "white ash"
STRIP_M = 0.003  # thickness of one strip; our drawing
WALL_STRIPS = 3  # our drawing
LIP_STRIPS = 6  # so that the lip stands out by 18 mm; our drawing
LIP_HEIGHT_M = 0.016  # of the lip; our drawing
BELOW_DECK_M = 0.020  # of the wall under the deck line, to fasten it; our drawing
OVERLAP_SHARE = 8.0  # of a strip's ends over its thickness, feathered; common practice, no source
SPARE_M = 0.050  # more of every strip, to trim; our judgement
OUTLINE_COUNT = 241  # points round the opening
FINE_COUNT = 4001


@dataclass(frozen=True)
class Strip:
    """Strips of one size for the coaming."""

    name: str
    count: int
    length_m: float  # to cut, each
    width_m: float
    thickness_m: float


@dataclass(frozen=True, eq=False)
class Coaming:
    """The coaming for the bench; its plane is that of the rim's top."""

    slope_deg: float  # of the rim's top, positive where it rises forward
    deck_slope_deg: float  # of the line its wall stands on
    length_m: float  # of the opening, in its plane
    width_m: float
    widest_m: float  # from the front, in its plane
    outline_m: np.ndarray  # (n, 2) aft from the front, to starboard; last repeats first
    girth_m: float  # round the opening, inside of the wall
    lip_girth_m: float  # round the lip's outside
    wall_m: tuple[float, float]  # height of the wall over the deck line, front and back
    strips: tuple[Strip, ...]
    tightest_m: float  # radius of the opening's outline
    ratio: float  # of that over a strip's thickness
    verdict: str  # as in `sizer.shop.stringers`


def coaming(boat):
    """The Coaming of a boat."""
    opening = boat.opening
    front, back = opening.rim_z_m
    slope = float(np.arctan2(front - back, opening.length_m))
    deck = float(np.arctan2(opening.deck_z_m[0] - opening.deck_z_m[1], opening.length_m))
    fine = _half_outline_m(opening, slope)
    girth = 2.0 * float(np.linalg.norm(np.diff(fine, axis=0), axis=1).sum())
    wall = STRIP_M * WALL_STRIPS
    lip = wall + STRIP_M * LIP_STRIPS
    tightest = _tightest_radius_m(fine)
    heights = tuple(float(rim - deck) for rim, deck in
                    zip(opening.rim_z_m, opening.deck_z_m, strict=True))
    return Coaming(
        float(np.degrees(slope)), float(np.degrees(deck)), float(fine[-1, 0]), opening.width_m,
        float(fine[fine[:, 1].argmax(), 0]), _outline_m(fine), girth,
        girth + 2.0 * np.pi * lip, heights, _strips(girth, max(heights)), tightest,
        tightest / STRIP_M, bend_verdict(tightest / STRIP_M))


def _half_outline_m(opening, slope):
    """Starboard half in the sloped plane, front to back, points crowded to the ends. (n, 2)."""
    share = 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, FINE_COUNT)))
    x = opening.front_x_m + opening.length_m * share
    half = opening.half_width_m(x)
    half[[0, -1]] = 0.0
    return np.column_stack([opening.length_m * share / np.cos(slope), half])


def _outline_m(half):
    """All round, evenly spaced: front, down the starboard side, back, up the port side."""
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(half, axis=0), axis=1))])
    places = np.linspace(0.0, along[-1], OUTLINE_COUNT // 2 + 1)
    side = np.column_stack([np.interp(places, along, column) for column in half.T])
    return np.concatenate([side, side[-2::-1] * (1.0, -1.0)])


def _tightest_radius_m(half):
    """Least radius of circles through three points of the outline, the two ends with it.

    Points are taken a strip's bending length apart, so that no single crowded point counts.
    """
    ring = np.concatenate([half[::-1] * (1.0, -1.0), half[1:], half[-2::-1] * (1.0, -1.0)])
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(ring, axis=0), axis=1))])
    places = np.arange(0.0, along[-1], 0.010)
    points = np.column_stack([np.interp(places, along, column) for column in ring.T])
    one, two, three = points[:-2], points[1:-1], points[2:]
    a, b, c = (np.linalg.norm(p - q, axis=1) for p, q in ((one, two), (two, three), (one, three)))
    (u, v), (s, t) = (two - one).T, (three - one).T
    doubled = np.abs(u * t - v * s)
    return float((a * b * c / np.maximum(2.0 * doubled, 1e-12)).min())


def _strips(girth, wall_height):
    """Each strip lies one thickness farther out than the one inside it; all are cut alike."""
    over = OVERLAP_SHARE * STRIP_M + SPARE_M
    wall = girth + 2.0 * np.pi * STRIP_M * WALL_STRIPS + over
    lip = girth + 2.0 * np.pi * STRIP_M * (WALL_STRIPS + LIP_STRIPS) + over
    return (Strip("coaming wall", WALL_STRIPS, float(wall), wall_height + BELOW_DECK_M, STRIP_M),
            Strip("coaming lip", LIP_STRIPS, float(lip), LIP_HEIGHT_M, STRIP_M))
