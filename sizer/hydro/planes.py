"""Loops over planes of water, compiled (`sizer.compiled`): what a hull holds under each, and Newton
steps to where it carries its load. Planes and their signs as in `sizer.hydro.immersion`.
"""

import numpy as np

MOST_TRIM_DEG = 60.0  # past it the boat hangs by an end; our judgement
VOLUME_TOLERANCE = 1e-10  # of the volume
LEVER_TOLERANCE_M = 1e-9  # lengthwise distance of buoyancy from weight
MOST_TRIM_STEP_DEG = 4.0
MOST_LEVEL_STEP_M = 0.08
LEAST_AREA_M2 = 1e-9  # of a waterplane that is stepped by


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


def shares(x_m, sides, found):
    """Fills `found` (n_boats, n_sections, 3) with what each section's values count for in sums over
    the length, of themselves and times x and x^2: exact where they run straight between."""
    last = x_m.shape[1] - 1
    for boat in range(x_m.shape[0]):
        for section in range(last + 1):
            x = x_m[boat, section]
            ahead, behind = x_m[boat, max(section - 1, 0)], x_m[boat, min(section + 1, last)]
            near, far = sides * (x - ahead), sides * (behind - x)
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


def to_rest(x_m, y_m, z_m, rise_m, of, sides, heel_deg, wanted_m3, centre_m, mid_m, level_m,
            trim_deg, most_steps, sums):
    """Newton steps of each plane until it carries `wanted_m3`, centred under `centre_m`
    (n_planes, 3). Changes `level_m` and `trim_deg`, which hold where to start; fills `sums`
    (n_planes, 9), as `add_up`, with what is under the last plane that was looked at. A boat's
    next heel begins as far from where to start as its last one ended."""
    cut, water, share = np.empty((1, x_m.shape[1], 6)), np.ones((1, 5)), np.empty((*x_m.shape, 3))
    shares(x_m, sides, share)
    moved_m = moved_deg = 0.0
    for plane in range(of.size):
        heel, wanted, centre, own = (np.radians(heel_deg[plane]), wanted_m3[plane],
                                     centre_m[plane], sums[plane])
        given_m, given_deg = level_m[plane], trim_deg[plane]
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
                own[0], own[1:4], own[4], own[5], own[6], up, excess, moment, centre, mid_m[plane])
            level_m[plane] += d_level
            trim_deg[plane] = min(max(trim_deg[plane] + d_trim, -MOST_TRIM_DEG), MOST_TRIM_DEG)
        moved_m, moved_deg = level_m[plane] - given_m, trim_deg[plane] - given_deg


def newton_steps(volume_m3, moment_m4, area_m2, x_m3, x2_m4, ups, excess, moment, centre_m, mid_m,
                 steps):
    """Fills `steps` (3, n_planes) with the `newton_step` of each plane."""
    for plane in range(volume_m3.size):
        steps[:, plane] = newton_step(
            volume_m3[plane], moment_m4[plane], area_m2[plane], x_m3[plane], x2_m4[plane],
            ups[plane], excess[plane], moment[plane], centre_m[plane], mid_m[plane])


def newton_step(volume, moment_m4, area, x, x2, up, excess, moment, centre_m, mid_m):
    """Newton step in level (m) and trim (deg), limited so that it stays near the hull, and the
    determinant of their slopes: above 0 where the boat comes back from a touch.

    `excess` is volume too much, `moment` as `resting.moment_aft_m4`; the boat turns about `mid_m`.
    """
    area = max(area, LEAST_AREA_M2)
    # turning about the line across at mid-length: level moves with trim, so that
    # d(height)/d(trim) = -(x - mid)
    first = x - mid_m * area
    second = x2 - 2.0 * mid_m * x + mid_m * mid_m * area
    arm_x, stem = centre_m[0] - mid_m, 0.0
    for axis in range(3):
        stem += (moment_m4[axis] - volume * centre_m[axis]) * up[axis]
    d_moment_level = first - arm_x * area
    d_moment_trim = second - arm_x * first + stem
    # volume row: area dl + first dt = -excess ; moment row likewise
    determinant = area * d_moment_trim - first * d_moment_level
    sound = determinant > 1e-12 * area * max(second, 1e-12)
    d_trim = (excess * d_moment_level - moment * area) / (determinant if sound else np.inf)
    limit = np.radians(MOST_TRIM_STEP_DEG)
    d_trim = min(max(d_trim, -limit), limit)
    d_mid = min(max((-excess - first * d_trim) / area, -MOST_LEVEL_STEP_M), MOST_LEVEL_STEP_M)
    return d_mid - mid_m * np.hypot(up[1], up[2]) * d_trim, np.degrees(d_trim), determinant
