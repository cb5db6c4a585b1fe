"""No cut goes through a stick or another part in three dimensions; every notch takes its stick."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from shapely.affinity import rotate, translate
from shapely.affinity import scale as scaled
from shapely.geometry import LineString, Point, Polygon, box
from shapely.ops import unary_union

from sizer.design.woods import WOODS
from sizer.fit.request import read_request
from sizer.hull.boat import sections_at
from sizer.job import run
from sizer.shop.boards import ends_m
from sizer.shop.coaming import coaming
from sizer.shop.hip_pads import hip_pads
from sizer.shop.lashing import HOLE_M
from sizer.shop.pattern_checks import pattern_checks
from sizer.shop.pedals import pedal_checks, pedals
from sizer.shop.risers import CHEEK_SCREW_MM, KINDS, risers
from sizer.shop.seat_parts import boards
from sizer.shop.spacers import spacers
from sizer.shop.stem_posts import stem_posts
from tests.shop.solids import Sticks, crossing_m, planes_m, stem_section, stem_x_m

# ANSUR II percentiles and odd builds: weight kg, stature mm, sitting hip breadth mm
PEOPLE = ((51.3, 1525, 348), (66.8, 1626, 397), (87.1, 1740, 456), (64.4, 1648, 333),
          (84.6, 1755, 378), (110.7, 1870, 431), (60.0, 1840, 345), (98.0, 1560, 450),
          (51.3, 1640, 333), (80.0, 1600, 456))
CROSSING_M = 0.0002  # what a saw line may run into a stick: less than a saw can follow
PLAY_M = (0.0003, 0.0008)  # of a stick in its notch
LEAST_WALL_M = 0.004  # a wall shorter than this is not asked to hold its stick
NEEDLE_M = 0.010  # beside a stem, to pass the cord
END_M = 0.005  # what a square end of a stick that rises leans by at most
FAR_M = 0.004  # no wall within this: nothing there to touch


@pytest.fixture(scope="module")
def built(lines, base_lines):
    """(job, frame patterns, sticks) of a base fitted to every fourth of the people; to the next
    ones on the next base, so that each sits in one or two."""
    made = []
    for weight, stature, hips in PEOPLE[list(base_lines.values()).index(lines) % 4::4]:
        job = run(read_request({
            "base": lines.design.name, "use": lines.design.drawn_for.use, "paddler": {
                "weight_kg": weight, "stature_mm": stature, "hip_width_mm": hips}}), lines)
        patterns = job.patterns.frames
        made.append((job, patterns, Sticks(job.fitted.assessed.boat, patterns)))
    return made


def test_frames_hold_whoever_they_are_for(built):
    for _, patterns, _ in built:
        assert [check for check in pattern_checks(patterns) if check.status == "fail"] == []


def crossings(patterns, sticks):
    """(frame, stick, how thick) where a frame's wood goes through a stick's body."""
    for pattern in patterns:
        for x in planes_m(pattern):
            for name, section in sticks.all_at(x).items():
                thick = crossing_m(pattern.wood, section)
                if thick > CROSSING_M:
                    yield pattern.name, name, round(1000.0 * thick, 2)


def test_no_frame_cuts_into_a_stick(built):
    for _, patterns, sticks in built:
        assert set(crossings(patterns, sticks)) == set()


def play_m(pattern, notch, sticks):
    """How far a stick can be shoved sideways in its notch, all of its way through the plywood
    taken together; None where the notch has no two walls, or a gunwale's not even one."""
    along = np.array(notch.along)
    body = unary_union([one for one in (sticks.section(notch.stringer, x)
                                        for x in planes_m(pattern)) if one is not None])
    middles = np.array([notch.at(0.5 * (notch.low_m + notch.high_m), share * notch.depth_m)
                        for share in np.linspace(0.1, 0.95, 18)])
    spare = {}
    for sign in (1.0, -1.0):
        rays = shapely.linestrings(np.stack(
            [middles, middles + sign * (0.5 * notch.width_m + 0.02) * along], axis=1))
        out, wall = (shapely.intersection(rays, one) for one in (body, pattern.wood))
        gaps = shapely.distance(shapely.points(middles), wall) - shapely.length(out)
        met = ~shapely.is_empty(out) & ~shapely.is_empty(wall)
        spare[sign] = gaps[met & (gaps < FAR_M)]
    step = 0.85 / 17 * notch.depth_m
    both = [min(one) for one in spare.values() if len(one) * step >= LEAST_WALL_M]
    if notch.role == "gunwale":
        low = spare[-1.0]
        return min(low) if len(low) * step >= LEAST_WALL_M else None
    return sum(both) if len(both) == 2 else None


def test_every_notch_takes_its_stick_at_its_angle(built):
    checked = 0
    for _, patterns, sticks in built:
        for pattern in patterns:
            pockets = {name for pair in pattern.shared_notches for name in pair}
            for notch in pattern.section.notches:
                play = None if notch.stringer in pockets else play_m(pattern, notch, sticks)
                if play is not None:
                    assert PLAY_M[0] <= play <= PLAY_M[1], (pattern.name, notch.stringer, play)
                    checked += 1
    assert checked >= 25 * len(built)


def test_a_notch_cut_for_the_reference_face_alone_binds(built):
    """What a square notch of the stock's width did: the solid model finds it."""
    _, patterns, sticks = built[0]
    plain = [replace(pattern, wood=pattern.wood.union(unary_union([
        notch.room().difference(replace(notch, drift_m=(0.0, 0.0)).room())
        for notch in pattern.section.notches]))) for pattern in patterns]
    assert set(crossings(plain, sticks))


def test_every_lashing_hole_is_clear_of_every_stick(built):
    for _, patterns, sticks in built:
        for pattern in patterns:
            for x in planes_m(pattern):
                bodies = unary_union(list(sticks.all_at(x).values()))
                for name, spot in pattern.holes:
                    clear = Point(spot).distance(bodies) - HOLE_M / 2.0
                    assert clear > 0.003, (pattern.name, name)


def test_a_stem_cuts_into_neither_keel_nor_ridge(built):
    """The ridge as lapped: over the head only what the lap leaves of its depth, then aslant."""
    for job, patterns, sticks in built:
        boat = job.fitted.assessed.boat
        for stem in job.patterns.stems:
            reach = stem.wood.bounds[2]
            faces = [x for pattern in patterns for x in planes_m(pattern)]
            assert min(abs(stem_x_m(boat, stem, reach) - x) for x in faces) > 0.010
            for inboard in np.arange(0.002, reach, 0.004):
                x = stem_x_m(boat, stem, inboard)
                wood = stem_section(stem, inboard)
                keel, ridge = sticks.both(stem.keel, x), sticks.both(stem.ridge, x)
                end = stem.keel_m[0, 0]  # square to the keel, which rises: its top a little inboard
                if keel is not None and inboard > end + END_M:
                    assert crossing_m(wood, keel) < CROSSING_M, (stem.name, inboard)
                lap = stem.ridge_lap
                gone = np.interp(inboard, (lap.flat_m, lap.length_m),
                                 (lap.depth_m - lap.left_m, 0.0))
                ridge = ridge.intersection(translate(ridge, 0.0, float(gone)))
                assert crossing_m(wood, ridge) < CROSSING_M, (stem.name, inboard)


def test_every_hole_of_a_stem_is_clear_of_every_stick(built):
    """The hole carried on out of the stem's sides, as a needle goes."""
    for job, _, sticks in built:
        boat = job.fitted.assessed.boat
        for stem in job.patterns.stems:
            half = 0.5 * stem.thickness_m + NEEDLE_M
            for tied, (inboard, z) in stem.holes:
                for off in (-HOLE_M / 2.0, 0.0, HOLE_M / 2.0):
                    x = stem_x_m(boat, stem, inboard + off)
                    bore = box(-half, z - HOLE_M / 2.0, half, z + HOLE_M / 2.0)
                    for name, body in sticks.all_at(x).items():
                        if name not in (stem.keel, stem.ridge):  # bevelled on the stem's sides
                            body = body.difference(box(
                                -0.5 * stem.thickness_m, -1.0, 0.5 * stem.thickness_m, 2.0))
                        assert bore.distance(body) > 0.001, (stem.name, tied, name)


@pytest.mark.parametrize("kind", KINDS)
def test_risers_let_every_stick_pass(built, kind):
    """Cheeks and hangers over their thickness, ledges over the plywood's, feet under all."""
    for job, patterns, sticks in built[::2]:
        up = job.setting_up
        for riser, pattern in zip(risers(up.stations, patterns, up.baseline_height_m, kind),
                                  patterns, strict=True):
            away = 1.0 if pattern.reference_face == "aft" else -1.0
            low, high = (level - up.baseline_height_m for level in (riser.low_m, riser.height_m))
            cheek = box(riser.inner_m, low, riser.outer_m, high)
            assert riser.outer_m - riser.inner_m > 0.0299, (pattern.name, "a screw splits it")
            lap = cheek.intersection(pattern.wood)
            assert np.ptp(lap.bounds[1::2]) >= 0.010, (pattern.name, "nothing to clamp")
            pieces = [(cheek, pattern.x_m + away * np.linspace(0.0, 0.021, 4))]
            if riser.ledge_m:
                ends = [level - up.baseline_height_m for level in riser.ledge_m]
                pieces.append((Polygon([(riser.inner_m, low), (riser.outer_m, low),
                                        (riser.outer_m, ends[1]), (riser.inner_m, ends[0])]),
                               planes_m(pattern)))
            for piece, places in pieces:
                bodies = [body for x in places for body in sticks.all_at(x).values()]
                assert shapely.distance(piece, bodies).min() > 0.001, (pattern.name, riser.kind)
                assert shapely.bounds(bodies)[:, 1].min() > 0.050 - up.baseline_height_m, (
                    "over every foot")


@pytest.mark.parametrize("kind", KINDS)
def test_a_hung_risers_legs_bar_and_foot_are_clear_of_the_boat(built, kind):
    """Boards 21 mm thick from the mark, bar and foot 45 mm behind them: no stick and no skin, which
    a stem stays inside, is there; the bar laps hangers and legs in full, and a screw bites."""
    met = 0
    for job, patterns, sticks in built[::2]:
        up, boat = job.setting_up, job.fitted.assessed.boat
        for riser, pattern in zip(risers(up.stations, patterns, up.baseline_height_m, kind),
                                  patterns, strict=True):
            if riser.bar_m is None:
                continue
            met += 1
            low, top = (edge - up.baseline_height_m for edge in riser.bar_m)
            away, half = (1.0 if pattern.reference_face == "aft" else -1.0), 0.5 * riser.foot_m
            leg = box(riser.leg_m, -up.baseline_height_m, riser.leg_m + 0.060, top)
            assert top - low == pytest.approx(0.045)
            assert riser.height_m == riser.bar_m[1], "hangers and legs lap it to its upper edge"
            assert half >= riser.leg_m + 0.060 + 0.020, "of the bar beyond a leg's screws"
            across = box(-half, low, half, top)
            foot = box(-half, -up.baseline_height_m, half, 0.045 - up.baseline_height_m)
            for pieces, depths in (([leg], (0.0, 0.021)), ([across, foot], (0.021, 0.066))):
                places = np.sort(pattern.x_m + away * np.linspace(*depths, 4))
                cut = sections_at(boat, places)
                hulls = shapely.linestrings(np.stack([cut.y_m, cut.z_m], axis=-1))
                bodies = [body for x in places.tolist() for body in sticks.all_at(x).values()]
                for piece in pieces:
                    assert shapely.distance(piece, bodies).min() > 0.010, pattern.name
                    assert shapely.distance(piece, hulls).min() > 0.010, pattern.name
    assert met or kind != "hung"
    assert CHEEK_SCREW_MM[1] - 21.0 > 25.0, "it bites six times its thickness"
    assert CHEEK_SCREW_MM[1] < 21.0 + 45.0


def test_stem_posts_stand_under_the_stem_and_clear_of_every_stick(built):
    for job, _, sticks in built:
        boat, up = job.fitted.assessed.boat, job.setting_up
        stems = job.patterns.stems
        for post, stem in zip(stem_posts(boat, up, stems), stems, strict=True):
            outward = -1.0 if stem.end == "bow" else 1.0
            assert 0.0 <= post.strongback_m <= up.strongback_length_m
            floors, gaps = (post.inner_floor_m, post.outer_floor_m), []
            for share in np.linspace(0.0, 1.0, 7):
                x = post.x_m + outward * share * 0.045
                bottom = float(sections_at(boat, [x]).z_m[0, 0]) + up.baseline_height_m
                floor = np.interp(share, (0.0, 1.0), floors)
                gaps.append(bottom - floor)
                arm = box(post.slot_m / 2.0, 0.0, 0.0225,
                          max(floors) + post.arms_m).buffer(0.001)
                for name in set(sticks.all_at(x)) - set(post.tips):  # arms off before those come
                    body = sticks.section(name, x)
                    if name not in (stem.keel, stem.ridge):  # bevelled on the stem's side
                        body = body.intersection(box(0.5 * stem.thickness_m, -1.0, 2.0, 2.0))
                    lifted = translate(body, 0.0, up.baseline_height_m)
                    assert not arm.intersects(lifted), (stem.name, name)
            assert -0.0003 < min(gaps) < 0.0005, "the stem's edge stands on the slot's floor"
            assert post.arms_m >= 0.015
            assert post.head_m == pytest.approx(up.baseline_height_m + float(sections_at(
                boat, [0.0 if stem.end == "bow" else boat.length_m]).z_m[0, -1]), abs=0.003)


def spacer_bodies(spacer, patterns):
    """(x, polygon) of a spacer's board to starboard, winding from its one mortise to the other."""
    ends = []
    for one in patterns:
        if one.name in (spacer.fore, spacer.aft):
            slot = max(one.mortises, key=lambda slot: slot.centroid.x).minimum_rotated_rectangle
            up = max(np.diff(np.asarray(slot.exterior.coords), axis=0), key=np.linalg.norm)
            up = up * np.sign(up[1])
            ends.append([one.x_m, *slot.centroid.coords[0], np.degrees(np.arctan2(up[1], up[0]))])
    thick, high = 0.5 * spacer.thickness_m, 0.5 * spacer.high_m
    for x, out, z, turn in np.linspace(*ends, 13):
        yield x, translate(rotate(box(-thick, -high, thick, high), turn - 90.0, origin=(0.0, 0.0)),
                           out, z)


def test_spacers_are_clear_of_every_stick_of_the_seat_and_of_the_coamings_wall(built):
    met = 0
    for job, patterns, sticks in built:
        boat = job.fitted.assessed.boat
        below = coaming(boat).below_m
        for spacer in spacers(patterns):
            for x, body in spacer_bodies(spacer, patterns):
                met += 1
                assert all(body.distance(one) > 0.008 for one in sticks.all_at(x).values())
                for board in boards(boat):
                    assert body.distance(Polygon(board.section_m)) > 0.02
                if 0.0 < x - boat.opening.front_x_m < boat.opening.length_m:
                    assert body.bounds[3] < float(boat.opening.deck_height_m(x)) - below
    assert met


def test_the_seat_goes_into_no_stick_but_for_the_edge_that_is_planed(built):
    """A panel's edges are planed on their sticks, by less than half of their thickness."""
    for job, _, sticks in built:
        boat = job.fitted.assessed.boat
        seat = boat.design.seat
        planed = 0.5 * seat.thickness_m if seat.kind == "panel" else CROSSING_M
        front, back = ends_m(boat)
        for x in np.linspace(front + 0.001, back - 0.001, 9):
            for board in boards(boat, x):
                for name, body in sticks.all_at(x).items():
                    into = crossing_m(Polygon(board.section_m), body)
                    assert into < planed, (board.name, name, into)


def test_a_hip_pads_board_lies_on_its_spacer_clear_of_all_else(built):
    """The board as a body in planes along it; the foam leaves the hips the room of their check."""
    found = 0
    for job, patterns, sticks in built:
        assessed, between = job.fitted.assessed, spacers(patterns)
        boat, pads = assessed.boat, hip_pads(assessed, patterns, between, job.patterns.seat)
        if pads is None:
            continue
        found += 1
        own = next(one for one in between if one.name == pads.spacer)
        board = Polygon([(pads.face_m(z, deep), z) for z, deep in (
            (pads.low_m, 0.0), (pads.low_m, 0.012), (pads.high_m, 0.012), (pads.high_m, 0.0))])
        beside = [(x, body) for x, body in spacer_bodies(own, patterns)
                  if pads.fore_x_m <= x <= pads.aft_x_m]
        for x, body in beside:
            assert body.distance(board) < 0.004
            assert crossing_m(board, body) < 0.004  # where it winds; the board is sprung to it
            assert all(board.distance(one) > 0.005 for one in sticks.all_at(x).values())
            assert all(board.distance(Polygon(one.section_m)) > 0.01 for one in boards(boat, x))
        middle = min(beside, key=lambda one: abs(one[0] - 0.5 * (pads.fore_x_m + pads.aft_x_m)))
        assert middle[1].distance(board) < 0.0015
        for pattern in patterns:
            assert (max(planes_m(pattern)) <= pads.fore_x_m + 1e-9
                    or min(planes_m(pattern)) >= pads.aft_x_m - 1e-9)
        level = LineString([(0.0, boat.seat_z_m + 0.100), (1.0, boat.seat_z_m + 0.100)])
        inner = level.intersection(board).bounds[0]
        hips = 0.5 * assessed.person.body.hip_sitting.value_m + 0.012
        level_m = pads.pad_m / np.cos(np.radians(pads.lean_deg))  # of a slab that leans
        assert inner - level_m == pytest.approx(hips + 0.003, abs=1e-4), "free at the most"
        assert pads.pad_m >= 0.003
        assert pads.board_m[1] == pytest.approx(0.250)
    assert found >= 1


def test_the_footbraces_rails_lie_in_the_openings_clear_of_every_part(built):
    """Rail and stop as bodies; the holes of two lashings at each frame reach past the rail."""
    for job, patterns, sticks in built:
        rails = job.patterns.foot_rails
        ends = {one.name: one for one in patterns}
        start = job.patterns.seat.footbrace.start_x_m
        between = [one for spacer in spacers(patterns) for one in spacer_bodies(spacer, patterns)]
        # it spreads aft, so that each frame's after edge bears it
        spots = [planes_m(ends[name]).max() for name in (rails.fore, rails.aft)]
        for x in start + np.linspace(0.0, rails.long_m, 25):
            half, lean = (np.interp(x, spots, pair) for pair in (
                (rails.fore_half_m, rails.aft_half_m), (rails.fore_lean_deg, rails.aft_lean_deg)))
            rail, stop = (translate(rotate(box(left, -0.009, right, 0.009), -lean,
                                           origin=(0.0, 0.0)), half, rails.z_m)
                          for left, right in ((-rails.thick_m, 0.0), (0.0, 0.012)))
            past = x > max(planes_m(ends[rails.aft])) + 1e-6
            for body in [rail, *([stop] if past else [])]:
                for name, other in sticks.all_at(x).items():
                    assert body.distance(other) > 0.001, (x, name)
                assert not [at for at, board in between if abs(at - x) <= 0.02
                            and body.intersects(board)]
            for pattern in patterns:
                if planes_m(pattern).min() - 1e-6 < x < planes_m(pattern).max() + 1e-6:
                    assert crossing_m(rail, pattern.wood) < 0.0007, (pattern.name, x)
        assert abs(rails.fore_lean_deg - rails.aft_lean_deg) < 6.0
        for pattern in job.patterns.frames:
            bodies = [unary_union(list(sticks.all_at(x).values())) for x in planes_m(pattern)]
            found = [(y, z) for name, (y, z) in pattern.holes if name == "footbrace rail"]
            assert len(found) == (8 if pattern.name in (rails.fore, rails.aft) else 0)
            for y, z in found:
                spot = Point(y, z)
                assert pattern.wood.contains(spot.buffer(0.0016 + 0.0049)), "wall left"
                assert min(spot.distance(one) for one in bodies) > 0.0046, "clear of sticks"
                half, lean = ((rails.fore_half_m, rails.fore_lean_deg) if pattern.name == rails.fore
                              else (rails.aft_half_m, rails.aft_lean_deg))
                at = rotate(translate(Point(abs(y), z), -half, -rails.z_m), lean,
                            origin=(0.0, 0.0))  # seen with the rail upright
                assert 0.009 + 0.0016 + 0.003 < abs(at.y) < 0.05, "over or under the rail"
                assert 0.005 < at.x < 0.02
            assert sum(z > rails.z_m for _, z in found) == len(found) / 2


def test_a_pedal_goes_to_every_place_that_is_told_and_leaves_the_shoe_room(built):
    """Cheek, block and plate as bodies at the first, this paddler's and the last pair of holes."""
    for job, patterns, sticks in built:
        rails, assessed = job.patterns.foot_rails, job.fitted.assessed
        start = job.patterns.seat.footbrace.start_x_m
        ends = {one.name: one for one in patterns}
        spots = [planes_m(ends[name]).max() for name in (rails.fore, rails.aft)]
        made = job.patterns.pedals
        thick = rails.thick_m
        cheek = box(-thick - 0.012, -0.030, -thick - 0.0001, 0.030)
        block = box(-thick - 0.052, -0.030, -thick - 0.012, 0.030)
        foot = assessed.room.foot_width_m / 4.0  # half of one shoe's width
        for sole in (rails.soles_m[0], rails.set_m, rails.soles_m[-1]):
            for x in start + sole + np.linspace(-0.0315, 0.0675, 23):
                half, lean = (np.interp(x, spots, pair) for pair in (
                    (rails.fore_half_m, rails.aft_half_m),
                    (rails.fore_lean_deg, rails.aft_lean_deg)))
                ahead = start + sole - x
                flat = unary_union([cheek, *([block] if ahead > 0.012 else [])])
                body = translate(rotate(flat, -lean, origin=(0.0, 0.0)), half, rails.z_m)
                if 0.0 <= ahead <= 0.012:  # out or in with its rail from where it is sawn to
                    out = half - np.interp(start + rails.set_m, spots,
                                           (rails.fore_half_m, rails.aft_half_m))
                    body = body.union(translate(Polygon(made.plate_m), out))
                assert body.bounds[0] > 0.0, "over the centre line"
                if ahead < 0.0:
                    assert body.bounds[0] > 0.070 + foot, "no room for the shoe"
                for name, other in sticks.all_at(x).items():
                    assert body.distance(other) > 0.001, (name, x)
                for pattern in patterns:
                    if planes_m(pattern).min() - 1e-6 < x < planes_m(pattern).max() + 1e-6:
                        assert crossing_m(body, pattern.wood) < 0.0007, (pattern.name, ahead)
        # a row of holes reaches as far forward as the fit counts on, to within a step, or 50 mm
        far = assessed.boat.seat_x_m - start - rails.soles_m[0]
        assert far <= assessed.space.footbrace_m[1] + 1e-9
        assert (far > assessed.space.footbrace_m[1] - 0.025
                or rails.set_m - rails.soles_m[0] > 0.050)
        assert rails.soles_m[0] <= rails.set_m - 0.025, "no hole in reserve"


def left_open(job, sticks, sole_m):
    """(the boat across at a sole up to the plates' upper edge, what is solid there of sticks and
    footbrace), from the sizes that are told."""
    rails, made = job.patterns.foot_rails, job.patterns.pedals
    boat, start = job.fitted.assessed.boat, job.patterns.seat.footbrace.start_x_m
    ends = {one.name: planes_m(one).max() for one in job.patterns.frames}
    half, lean = (np.interp(start + sole_m, (ends[rails.fore], ends[rails.aft]), pair) for pair in (
        (rails.fore_half_m, rails.aft_half_m), (rails.fore_lean_deg, rails.aft_lean_deg)))
    thick = rails.thick_m
    held = unary_union([box(-thick - 0.012, -0.030, -thick, 0.030),
                        box(-thick, -0.009, 0.0, 0.009)])
    held = translate(rotate(held, -lean, origin=(0.0, 0.0)), half, rails.z_m)
    out = half - rails.half_m(made.set_m)  # in or out with its rail from where it is sawn to
    side = unary_union([translate(Polygon(made.plate_m), out), held])
    high, strap = made.plate_m[:, 1].max(), Polygon(made.strap_m)
    assert strap.bounds[3] == pytest.approx(high), "a step would hold toes that come back"
    skin = sections_at(boat, np.array([start + sole_m]))
    hull = np.stack([skin.y_m[0], skin.z_m[0]], axis=1)[:skin.sheer + 1]
    bodies = unary_union(list(sticks.all_at(start + sole_m).values()))
    inside = Polygon([*hull, *(hull[::-1] * (-1.0, 1.0))]).intersection(box(-1.0, -1.0, 1.0, high))
    solid = unary_union([strap, *(scaled(side.union(bodies), sign, 1.0, origin=(0.0, 0.0))
                                  for sign in (1.0, -1.0))])
    return inside, solid


def test_no_bar_as_thick_as_toes_goes_by_the_pedals(built):
    """Bars held everywhere across the boat, 3 mm apart, behind the rails too: one of 29 mm fits
    nowhere round pedals that let one of 25 by at most, at any place that is told to keep that, and
    those that are told to go in do so."""
    for job, _, sticks in built:
        made = job.patterns.pedals
        first, last = made.safe_m
        for one in made.openings:
            inside, solid = left_open(job, sticks, one.sole_m)
            left, low, right, high = inside.bounds
            spots = shapely.points(*np.meshgrid(np.arange(left, right, 0.003),
                                                np.arange(low, high, 0.003)))
            spots = spots[shapely.contains(inside, spots)]
            room = 2.0 * np.minimum(shapely.distance(spots, solid),
                                    shapely.distance(spots, inside.boundary))
            assert room.max() < one.bar_m + 0.002
            if one is made.here:
                assert room.max() > one.bar_m - 0.005
            if first <= one.sole_m <= last:
                assert room.max() < 0.023 + 0.004
                assert one.bar_m <= made.worst[0] <= 0.023
        inside, _ = left_open(job, sticks, made.set_m)
        assert made.here.safe
        assert made.here.off_m >= 0.005
        plate = Polygon(made.plate_m)
        assert inside.buffer(1e-6).contains(plate)
        assert plate.distance(unary_union(list(sticks.all_at(
            job.patterns.seat.footbrace.start_x_m + made.set_m).values()))) > 0.004
        assert first <= made.set_m <= last


def test_a_pedal_comes_off_its_rail_inwards_along_its_notch(built):
    """Plate and cheek drawn off the rail in steps of 2 mm, up as the notch leans: through no rail,
    stick, skin or deck."""
    for job, _, sticks in built:
        rails, made = job.patterns.foot_rails, job.patterns.pedals
        x = job.patterns.seat.footbrace.start_x_m + made.set_m
        half, lean = rails.half_m(made.set_m), rails.lean_deg(made.set_m)
        rail, cheek = (translate(rotate(one, -lean, origin=(0.0, 0.0)), half, rails.z_m)
                       for one in (box(0.0002 - rails.thick_m, -0.009, 0.0, 0.009),
                                   box(-rails.thick_m - 0.012, -0.030, -rails.thick_m, 0.030)))
        skin = sections_at(job.fitted.assessed.boat, np.array([x]))
        ring = np.stack([skin.y_m[0], skin.z_m[0]], axis=1)
        inside = Polygon([*ring, *(ring[::-1] * (-1.0, 1.0))])
        bodies = unary_union([scaled(one, side, 1.0, origin=(0.0, 0.0))
                              for one in sticks.all_at(x).values() for side in (1.0, -1.0)])
        pedal, way = Polygon(made.plate_m).union(cheek), np.radians(lean)
        for far in np.arange(0.0, 0.080, 0.002):
            moved = translate(pedal, -far * np.cos(way), far * np.sin(way))
            assert moved.intersection(rail).area < 1e-7
            assert inside.contains(moved)
            assert moved.intersection(bodies).area < 1e-7
        assert moved.bounds[2] < half - 0.005, "off it"


def test_a_pedal_that_ends_40_mm_over_the_bottom_fails_its_check(built, monkeypatch):
    job, _, _ = built[0]
    given = (job.fitted.assessed.boat, job.patterns.foot_rails,
             job.patterns.seat.footbrace.start_x_m)
    assert [one.status for one in pedal_checks(pedals(*given))] == ["pass", "pass"]
    monkeypatch.setattr("sizer.shop.pedals.OFF_SKIN_M", 0.040)
    wide = pedals(*given)
    assert [one.status for one in pedal_checks(wide)] == ["fail", "pass"]
    assert wide.safe_m is None
    assert wide.here.bar_m >= 0.038
    monkeypatch.setattr("sizer.shop.pedals.OFF_SKIN_M", 0.002)
    assert [one.status for one in pedal_checks(pedals(*given))] == ["pass", "caution"]


def test_the_footbrace_weighs_what_the_boats_own_weight_takes_for_it(built):
    """Plywood, ash and a tenth of a kilogram or so of pins, bolts and rings, from their sizes; what
    stouter rails weigh more is left out, and little."""
    for job, _, _ in built:
        made, rails = job.patterns.pedals, job.patterns.foot_rails
        plywood = 0.012 * 2.0 * Polygon(made.plate_m).area + 0.012 * Polygon(made.strap_m).area
        plywood += 2.0 * 0.012 * 0.100 * 0.060
        ash = 2.0 * (rails.long_m * 0.018 * 0.018 + 0.012 * 0.040 * 0.018 + 0.020 * 0.040 * 0.060)
        stouter = 2.0 * rails.long_m * (rails.thick_m - 0.018) * 0.018
        found = (WOODS["okoume plywood"].density_kgpm3 * plywood
                 + WOODS["white ash"].density_kgpm3 * ash + 0.12)
        parts = {one.name: one.mass_kg for one in job.fitted.assessed.weight.parts}
        assert parts["footbrace"] == pytest.approx(found, abs=0.25)
        assert 0.0 <= WOODS["white ash"].density_kgpm3 * stouter < 0.25


def wall_at(rim, boat, x_m):
    """The coaming's wall to starboard where a plane across the boat cuts it: (breadths, places
    round its inside) of its inner and outer face, from the outline moved out by 9 mm."""
    ring = Polygon(rim.outline_m)
    inner, outer = LineString(rim.outline_m), LineString(ring.buffer(0.009, 32).exterior.coords)
    at = (x_m - boat.opening.front_x_m) / np.cos(np.radians(rim.slope_deg))
    plane = LineString([(at, 0.0), (at, 1.0)])
    return [(max(spot.coords[0][1] for spot in getattr(hit, "geoms", [hit])), inner.project(hit))
            for hit in (inner.intersection(plane), outer.intersection(plane))]


def test_the_coamings_wall_is_notched_wherever_it_meets_wood(built):
    """Under the deck line: over every arm whose wood lies where the wall goes, all through it."""
    met = 0
    for job, patterns, _ in built:
        boat = job.fitted.assessed.boat
        rim = coaming(boat)
        half = LineString(rim.outline_m).length / 2.0
        notches = {one.over: one for one in rim.notches}
        for pattern in patterns:
            for x in planes_m(pattern):
                if not 0.001 < x - boat.opening.front_x_m < boat.opening.length_m - 0.001:
                    continue
                faces = wall_at(rim, boat, x)
                deck = float(boat.opening.deck_height_m(x))
                wall = box(faces[0][0], deck - rim.below_m, faces[1][0], deck)
                if crossing_m(wall, pattern.wood) > CROSSING_M and pattern.name not in (
                        under_ridge(patterns, boat)):
                    notch = notches[pattern.name]
                    met += 1
                    for _, round_m in faces:
                        place = min(round_m, 2.0 * half - round_m)
                        assert abs(place - notch.round_m) < 0.5 * notch.wide_m, pattern.name
                    assert notch.deep_m == rim.below_m
        for ridge in (one for one in boat.design.stringers if one.role == "ridge"):
            notch = notches[ridge.name]
            assert notch.wide_m > ridge.width_m
            assert notch.round_m == pytest.approx(0.0 if ridge.end.kind == "coaming" else half,
                                                  abs=0.001)
    assert met


def under_ridge(patterns, boat):
    """Frames that stand outside the opening but for their plywood: the ridge's notch is there."""
    return [one.name for one in patterns
            if not 0.0 < one.x_m - boat.opening.front_x_m < boat.opening.length_m]
