"""The intended uses, each with its gear and its limits: the one table that the checks read.

No published standard covers the freeboard, steadiness or load of a kayak (ISO 12217-3 excludes
them), so every limit here is our judgement, set to the careful side. The freeboards and metacentric
heights start from what boats of this kind are commonly built to (common practice, no source); the
reasons stand beside the rows.
"""

from dataclasses import dataclass

# What one sees from shore, where no height can be measured: up to this height ripples, above it low
# round waves; our judgement.
RIPPLES_M, RIPPLES = 0.15, "ripples only"
ROUND_WAVES = "ripples and low, round, smooth waves only"
# Float bags, pads, what goes along on every trip, and what a drysuit is heavier than other clothing
# (`fit/dressed.py`), with half a kilogram over; our judgement.
LEAST_GEAR_KG = 6.0
FRACTION_BESIDE_SEAT = "behind the seat"
FRACTION_FORE = "fore end"
FRACTION_AFT = "after end"


@dataclass(frozen=True)
class Use:
    """One intended use and what it asks of the boat."""

    key: str
    words: str
    gear_kg: float
    gear_places: tuple[tuple[str, float], ...]  # place, share of the mass
    least_freeboard_m: float  # lowest side deck over water
    most_freeboard_m: float  # for a stature of STATURE_M: above it the wind has the boat
    least_rim_freeboard_m: float
    least_gm_m: float  # with the nominal seated centre
    most_gm_m: float  # above it the boat is stiff and jerky in waves
    least_reserve_kg: float  # that can be added before the side deck is at RESERVE_FREEBOARD_M
    most_load_share: float  # load over what the whole hull displaces
    most_hip_spare_m: float  # beside the hips, both sides together, that padding takes up well
    least_range_deg: float  # heel to which a paddler who keeps upright is still righted
    least_rim_deg: float  # heel at which the rim goes under
    least_arm_area_mrad: float  # under the righting arm of an upright paddler, spray deck off
    wave_height_m: float  # of the boat's own length, that it is set on
    checked_on_wave: bool  # whether what is left there is checked, or told only

    def seen_m(self, gm_m, wave_gm_m):
        """The highest waves, trough to crest, that a boat not tried yet is taken out in; 0: none.

        SEEN_SHARE of the wave that it is set on, or of a lower one: where GM, told for calm water
        and for the worse place on that wave and taken as falling evenly between, is still
        WAVE_SHARE of the least that any use asks for: a rougher use makes no boat steadier.
        """
        asked, share = WAVE_SHARE * max(one.least_gm_m for one in USES.values()), 1.0
        if wave_gm_m < asked:
            share = max(gm_m - asked, 0.0) / (gm_m - wave_gm_m) if gm_m > wave_gm_m else 0.0
        high = SEEN_SHARE * min(share, 1.0) * self.wave_height_m
        return round(SEEN_STEP_M * int(high / SEEN_STEP_M + 1e-9), 3)


# Of the wave that a boat was worked out on, as long as itself: short or breaking ones are steeper
# than any worked out. Told in steps, downwards. Our judgement, on the careful side.
SEEN_SHARE, SEEN_STEP_M = 0.5, 0.025
# The most wind, gusts too, for a boat not tried yet: the top of Beaufort 2, above which the scale
# has the first whitecaps. The scale from memory; that it is the most, our judgement. What is seen:
# the Beaufort scale's own words for force 2 on land and water, and for 3 after them, from memory.
MOST_WIND_SEEN = ("felt on the face, leaves rustle, small wavelets whose crests look glassy and do "
                  "not break. Leaves and twigs moving all the time, or a crest breaking, is more")
MOST_WIND_KN, MOST_WIND_BEAUFORT = 6.0, 2
# Of what is asked in calm water, what is asked on a crest and in a trough; our judgement.
WAVE_SHARE = 0.5
RESERVE_FREEBOARD_M = 0.060  # where we call a boat full; our judgement
STATURE_M = 1.75  # whom the highest freeboards are stated for; they go with stature
BEHIND = ((FRACTION_BESIDE_SEAT, 1.0),)
SPREAD = ((FRACTION_FORE, 0.45), (FRACTION_AFT, 0.55))

USES = {
    use.key: use
    for use in (
        # beginners and quiet water: steadiness first, a loose fit is forgiven
        Use("sheltered-day", "day trips on sheltered water", LEAST_GEAR_KG, BEHIND,
            0.120, 0.180, 0.140, 0.050, 0.120, 15.0, 0.33, 0.155, 60.0, 45.0, 0.039,
            0.15, False),
        # chop over the deck is part of the day, but so is a spray deck and some practice
        Use("coastal-day", "coastal day trips", 10.0, BEHIND,
            0.110, 0.170, 0.140, 0.025, 0.070, 20.0, 0.33, 0.115, 60.0, 40.0, 0.039,
            0.30, True),
        # loaded low on purpose; the load itself steadies the boat
        Use("camp-touring", "touring with camping gear", 40.0, SPREAD,
            0.100, 0.160, 0.130, 0.025, 0.070, 20.0, 0.38, 0.115, 60.0, 40.0, 0.039,
            0.30, False),
        # narrow and quick: near-zero initial steadiness is accepted by those who ask for it
        Use("fitness-paddling", "fitness paddling", LEAST_GEAR_KG, BEHIND,
            0.090, 0.150, 0.120, 0.005, 0.050, 10.0, 0.33, 0.095, 50.0, 40.0, 0.027,
            0.15, False),
        # low for wind and rolling, spray deck always on; a snug fit rolls the boat
        Use("rough-water", "rough-water practice", LEAST_GEAR_KG, BEHIND,
            0.070, 0.150, 0.100, 0.015, 0.070, 10.0, 0.33, 0.095, 60.0, 40.0, 0.039,
            0.45, True),
    )
}
