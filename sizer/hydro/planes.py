"""Loops over planes of water, compiled (`sizer.compiled`): what a hull holds under each, what water
cannot enter, and Newton steps to where a boat carries its load, whole, open to the sea or with
water loose inside. Planes and their signs as in `sizer.hydro.immersion`.
"""

import numpy as np

MOST_TRIM_DEG = 60.0  # past it the boat hangs by an end; our judgement
VOLUME_TOLERANCE = 1e-10  # of the volume
LEVER_TOLERANCE_M = 1e-9  # lengthwise distance of buoyancy from weight
MOST_TRIM_STEP_DEG = 4.0
MOST_LEVEL_STEP_M = 0.08
LEAST_AREA_M2 = 1e-9  # of a waterplane that is stepped by
LEAST_POOL_M3 = 1e-9  # of water inside, under which none is counted: less than a drop


def clip(x_m, y_m, z_m, rise_m, of, water, cut):
    """Fills rows of `cut` (n_planes, n_sections, 6) with int dA, int a dA, int b dA, and over the
    waterline int da, int a da, int a^2 da; `water` (n_planes, 5) is sin and cos of heel, slope in
    x, height at x = 0, and by how much a section's water is higher for each metre of rise."""
    _, sections, points = y_m.shape
    for plane in range(of.size):
        sin_heel, cos_heel, slope, level, upwards = water[plane]
        boat = of[plane]
        for section in range(sections):
            base = level - slope * x_m[boat, section] + upwards * rise_m[boat, section]
            area = moment_a = moment_b = breadth = first = second = 0.0
            y, z = y_m[boat, section, 0], z_m[boat, section, 0]
            next_a, next_b = cos_heel * y + sin_heel * z, cos_heel * z - sin_heel * y - base
            for point in range(1, points):
                start, low = next_a, next_b
                y, z = y_m[boat, section, point], z_m[boat, section, point]
                next_a, next_b = cos_heel * y + sin_heel * z, cos_heel * z - sin_heel * y - base
                end, high = next_a, next_b
                if low >= 0.0:  # the edge comes down through the waterline, or stays out
                    if high >= 0.0:
                        continue
                    start += low / (low - high) * (end - start)
                    breadth -= start
                    first -= start * start
                    second -= start * start * start
                    low = 0.0
                elif high >= 0.0:  # goes up through it
                    end = start + low / (low - high) * (end - start)
                    breadth += end
                    first += end * end
                    second += end * end * end
                    high = 0.0
                rise, both = high - low, start + end
                area += both * rise
                moment_a += (both * both - start * end) * rise
                moment_b += (low * (both + start) + high * (both + end)) * rise
            area /= 2.0
            cut[plane, section] = (  # b from the line through y = z = 0
                area, moment_a / 6.0, moment_b / 6.0 + base * area, breadth, first / 2.0,
                second / 3.0)


def shares(x_m, part, found):
    """Fills `found` (n_boats, n_sections, 3) with what each section's values count for in sums over
    the length, of themselves and times x and x^2: exact where they run straight between. `part`
    (n_sections - 1,) is how many times what is between two of them counts."""
    last = x_m.shape[1] - 1
    for boat in range(x_m.shape[0]):
        for section in range(last + 1):
            x = x_m[boat, section]
            ahead, behind = x_m[boat, max(section - 1, 0)], x_m[boat, min(section + 1, last)]
            near = part[section - 1] * (x - ahead) if section > 0 else 0.0
            far = part[section] * (behind - x) if section < last else 0.0
            found[boat, section] = (
                (near + far) / 2.0,
                (near * (ahead + 2.0 * x) + far * (2.0 * x + behind)) / 6.0,
                (near * (ahead**2 + 2.0 * ahead * x + 3.0 * x**2)
                 + far * (3.0 * x**2 + 2.0 * x * behind + behind**2)) / 12.0)


def add_up(share, of, water, sides, cut, sums):
    """Fills `sums` (n_planes, 9) with what the sections hold, by their `shares`: volume, its
    moments about x, y and z, and the waterline's as in Immersed, across x."""
    for plane in range(of.size):
        sin_heel, cos_heel = water[plane, 0], water[plane, 1]
        volume = by_x = across = upwards = breadth = breadth_x = breadth_x2 = first = second = 0.0
        for section in range(cut.shape[1]):
            one, x, x2 = share[of[plane], section]
            volume += one * cut[plane, section, 0]
            by_x += x * cut[plane, section, 0]
            across += one * cut[plane, section, 1]
            upwards += one * cut[plane, section, 2]
            breadth += one * cut[plane, section, 3]
            breadth_x += x * cut[plane, section, 3]
            breadth_x2 += x2 * cut[plane, section, 3]
            first += one * cut[plane, section, 4]
            second += one * cut[plane, section, 5]
        if sides == 2.0:  # what one side adds the other takes away
            across = first = 0.0
        sums[plane] = (volume, by_x, cos_heel * across - sin_heel * upwards,
                       sin_heel * across + cos_heel * upwards, breadth, breadth_x, breadth_x2,
                       first, second)


def to_rest(x_m, y_m, z_m, rise_m, share, of, sides, heel_deg, wanted_m3, centre_m, mid_m, level_m,
            trim_deg, most_steps, sums):
    """Newton steps of each plane until it carries `wanted_m3`, centred under `centre_m`
    (n_planes, 3). Changes `level_m` and `trim_deg`, which hold where to start; fills `sums`
    (n_planes, 9), as `add_up`, with what is under the last plane that was looked at. A boat's
    next heel begins as far from where to start as its last one ended."""
    cut, water = np.empty((1, x_m.shape[1], 6)), np.ones((1, 5))
    moved_m = moved_deg = 0.0
    for plane in range(of.size):
        heel, wanted, centre = np.radians(heel_deg[plane]), wanted_m3[plane], centre_m[plane]
        given_m, given_deg, own = level_m[plane], trim_deg[plane], sums[plane]
        if plane and of[plane] == of[plane - 1] and heel_deg[plane] > heel_deg[plane - 1]:
            level_m[plane] += moved_m
            trim_deg[plane] += moved_deg
        for step in range(most_steps + 1):
            trim = np.radians(trim_deg[plane])
            slant = np.cos(trim)  # of the plane, across the boat
            up = (-np.sin(trim), -slant * np.sin(heel), slant * np.cos(heel))
            water[0] = (-up[1], up[2], up[0], level_m[plane], 1.0)
            water /= slant
            clip(x_m, y_m, z_m, rise_m, of[plane:plane + 1], water, cut)
            add_up(share, of[plane:plane + 1], water, sides, cut, sums[plane:plane + 1])
            own[4:] /= slant  # along the water's own slope in x
            excess = own[0] - wanted
            moment = slant * (own[1] - own[0] * centre[0])
            for axis in (1, 2):
                moment -= up[0] * up[axis] / slant * (own[1 + axis] - own[0] * centre[axis])
            if (abs(excess) < VOLUME_TOLERANCE * wanted
                    and abs(moment) < LEVER_TOLERANCE_M * wanted) or step == most_steps:
                break
            d_level, d_trim, _ = newton_step(
                own, own[4], own[5], up, excess, moment, centre, mid_m[plane])
            level_m[plane] += d_level
            trim_deg[plane] = min(max(trim_deg[plane] + d_trim, -MOST_TRIM_DEG), MOST_TRIM_DEG)
        moved_m, moved_deg = level_m[plane] - given_m, trim_deg[plane] - given_deg


def add_solids(solids, of, ups, level_m, sums):
    """Fills `sums` (n_planes, 8) with what of solids (n_boats, n, 5), as `watertight.Solids`, lies
    under each plane, in the order of `watertight.Under`."""
    for plane in range(level_m.size):
        boat = of[plane]
        slope, level = ups[plane, 0] / ups[plane, 2], level_m[plane] / ups[plane, 2]
        total = by_x = by_z = plane_area = plane_x = plane_x2 = plane_a2 = 0.0
        for one in range(solids.shape[1]):
            x, low, high, volume, breadth = solids[boat, one]
            height = level - slope * x
            if height <= low:
                continue
            if height >= high:
                height = high
            else:
                area = volume / (high - low)
                volume = area * (height - low)
                plane_area += area
                plane_x += area * x
                plane_x2 += area * x * x
                plane_a2 += area * breadth * breadth / 12.0
            total += volume
            by_x += volume * x
            by_z += volume * 0.5 * (low + height)
        sums[plane] = (total, by_x, 0.0, by_z, plane_area, plane_x, plane_x2, plane_a2)


def under_level(x_m, y_m, z_m, rise_m, share, solids, boat, ups, level_m, own):
    """Fills `own` (8,), in the order of Under, with what of sections, as Outline has them, and
    solids lies under one plane without heel: ups (1, 3), level_m (1,)."""
    cut, water, of = np.empty((1, x_m.shape[1], 6)), np.ones((1, 5)), np.zeros(1, np.int64)
    wet, dry, slant = np.empty((1, 9)), np.empty((1, 8)), ups[0, 2]
    water[0] = (0.0, 1.0, ups[0, 0] / slant, level_m[0] / slant, 1.0 / slant)
    of[0] = boat if x_m.shape[0] > 1 else 0
    clip(x_m, y_m, z_m, rise_m, of, water, cut)
    add_up(share, of, water, 2.0, cut, wet)
    of[0] = boat if solids.shape[0] > 1 else 0
    add_solids(solids, of, ups, level_m, dry)
    own[:4] = wet[0, :4] + dry[0, :4]
    own[4:7] = wet[0, 4:7] / slant + dry[0, 4:7]
    own[7] = wet[0, 8] / slant + dry[0, 7]


def moment_aft(own, up, centre_m):
    """As `resting.moment_aft_m4`, of one plane without heel."""
    return up[2] * (own[1] - own[0] * centre_m[0]) - up[0] * (own[3] - own[0] * centre_m[2])


def open_to_rest(x_m, y_m, z_m, rise_m, share, solids, wanted_m3, centre_m, mid_m, level_m,
                 trim_deg, limits, sums, rests):
    """Newton steps, without heel, of each boat (n,) until sections and solids carry `wanted_m3`,
    centred under `centre_m` (n, 3), as `to_rest`. Fills `sums` (n, 8), in the order of Under, and
    `rests` (n,): no place counts that the boat would leave by the bow or stern at a touch. `limits`
    are steps, deg of trim, and how near: of the volume, and m of lever."""
    most_steps, most_deg, volume_near, lever_near_m = limits
    ups = np.empty((1, 3))
    for boat in range(wanted_m3.size):
        own, wanted, centre = sums[boat], wanted_m3[boat], centre_m[boat]
        rests[boat] = False
        for step in range(most_steps):
            trim = np.radians(trim_deg[boat])
            ups[0] = (-np.sin(trim), 0.0, np.cos(trim))
            under_level(x_m, y_m, z_m, rise_m, share, solids, boat, ups, level_m[boat:boat + 1],
                        own)
            excess, moment = own[0] - wanted, moment_aft(own, ups[0], centre)
            d_level, d_trim, stiff = newton_step(
                own, own[4], own[5], ups[0], excess, moment, centre, mid_m[boat])
            if stiff <= 0.0 or abs(trim_deg[boat]) >= most_deg:
                break
            rests[boat] = (abs(excess) < volume_near * wanted
                           and abs(moment) < lever_near_m * wanted)
            if rests[boat] or step == most_steps - 1:
                break
            level_m[boat] += d_level
            trim_deg[boat] = min(max(trim_deg[boat] + d_trim, -most_deg), most_deg)


def open_levels(x_m, y_m, z_m, rise_m, share, solids, ups, wanted_m3, low_m, high_m, limits,
                level_m, sums):
    """As `resting.levels`, of one boat's sections and solids under planes without heel (n, 3):
    fills `level_m` (n,) and `sums` (n, 8), in the order of Under. `limits` are the most rounds, and
    how near, of the volume."""
    most_rounds, near = limits
    for plane in range(level_m.size):
        low, high, own = low_m[plane], high_m[plane], sums[plane]
        level_m[plane] = 0.5 * (low + high)
        for _ in range(most_rounds):
            under_level(x_m, y_m, z_m, rise_m, share, solids, 0, ups[plane:plane + 1],
                        level_m[plane:plane + 1], own)
            excess = own[0] - wanted_m3
            if abs(excess) < near * wanted_m3:
                break
            low, high = (level_m[plane], high) if excess < 0.0 else (low, level_m[plane])
            newton = level_m[plane] - excess / max(own[4], LEAST_AREA_M2)
            level_m[plane] = newton if low < newton < high else 0.5 * (low + high)


def loose_to_rest(x_m, y_m, z_m, rise_m, share, dry_x_m, dry_y_m, dry_z_m, dry_rise_m, dry_share,
                  solids, wanted_m3, centre_m, mid_m, inside_m, level_m, trim_deg, limits, rests):
    """Newton steps of one hull with loose water inside, at each of rising heights `inside_m` (n,)
    at half its length: what it holds under the sea, less what is wet inside, carries `wanted_m3`.
    What is dry inside comes as `under_level` takes it. Fills `level_m`, `trim_deg` and `rests`
    (n,); each begins where the last came to rest, or straight on from the last two. `limits` as of
    `open_to_rest`."""
    most_steps, most_deg, volume_near, lever_near_m = limits
    ups, inner, nothing = np.empty((1, 3)), np.empty(1), np.empty((1, 0, 5))
    net, hull, wet, dry = np.empty(8), np.empty(8), np.empty(8), np.empty(8)
    for one in range(inside_m.size):
        if one and rests[one - 1]:
            share_on = 0.0
            if one > 1 and rests[one - 2]:
                share_on = (inside_m[one] - inside_m[one - 1]) / (
                    inside_m[one - 1] - inside_m[one - 2])
            for values in (level_m, trim_deg):
                values[one] = values[one - 1] + share_on * (values[one - 1] - values[one - 2])
        rests[one] = False
        for _ in range(most_steps):
            trim = np.radians(trim_deg[one])
            ups[0] = (-np.sin(trim), 0.0, np.cos(trim))
            inner[0] = ups[0, 2] * inside_m[one] + ups[0, 0] * mid_m
            under_level(x_m, y_m, z_m, rise_m, share, nothing, 0, ups, level_m[one:one + 1], hull)
            under_level(x_m, y_m, z_m, rise_m, share, nothing, 0, ups, inner, wet)
            under_level(dry_x_m, dry_y_m, dry_z_m, dry_rise_m, dry_share, solids, 0, ups, inner,
                        dry)
            wet -= dry
            net[:] = hull - wet if wet[0] > LEAST_POOL_M3 else hull
            excess, moment = net[0] - wanted_m3, moment_aft(net, ups[0], centre_m)
            rests[one] = (abs(excess) < volume_near * wanted_m3
                          and abs(moment) < lever_near_m * wanted_m3)
            if rests[one] or abs(trim_deg[one]) >= most_deg:
                break
            d_level, d_trim, _ = newton_step(net, hull[4], hull[5], ups[0], excess, moment,
                                             centre_m, mid_m)
            level_m[one] += d_level
            trim_deg[one] = min(max(trim_deg[one] + d_trim, -most_deg), most_deg)


def newton_step(own, area, x, up, excess, moment, centre_m, mid_m):
    """Newton step in level (m) and trim (deg), limited so that it stays near the hull, and the
    determinant of their slopes: above 0 where the boat comes back from a touch.

    `own` is what carries the boat, its sums as of Immersed; `area` and `x` are those of the
    waterplane that the level moves: its own, but where water stands inside at a height that stays.
    `excess` is volume too much, `moment` as `resting.moment_aft_m4`; the boat turns about `mid_m`.
    """
    area, turned = max(area, LEAST_AREA_M2), max(own[4], LEAST_AREA_M2)
    # turning about the line across at mid-length, level moves: d(height)/d(trim) = -(x - mid)
    first = own[5] - mid_m * turned
    second = own[6] - 2.0 * mid_m * own[5] + mid_m * mid_m * turned
    arm_x, stem = centre_m[0] - mid_m, 0.0
    for axis in range(3):
        stem += (own[1 + axis] - own[0] * centre_m[axis]) * up[axis]
    d_moment_level = x - mid_m * area - arm_x * area
    d_moment_trim = second - arm_x * first + stem
    # volume row: area dl + first dt = -excess ; moment row likewise
    determinant = area * d_moment_trim - first * d_moment_level
    sound = determinant > 1e-12 * area * max(second, 1e-12)
    d_trim = (excess * d_moment_level - moment * area) / (determinant if sound else np.inf)
    limit = np.radians(MOST_TRIM_STEP_DEG)
    d_trim = min(max(d_trim, -limit), limit)
    d_mid = min(max((-excess - first * d_trim) / area, -MOST_LEVEL_STEP_M), MOST_LEVEL_STEP_M)
    return d_mid - mid_m * np.hypot(up[1], up[2]) * d_trim, np.degrees(d_trim), determinant
