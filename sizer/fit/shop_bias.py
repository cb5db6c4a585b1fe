"""What a shop's own launches say its boats and paddlers are off from what is calculated."""

from dataclasses import dataclass

from sizer.units import MM_PER_M

ALLOWED = {  # keys of a request's `shop_bias`: lowest, highest, unit
    "boat_share": (-0.5, 0.5, "of the boat's weight"), "seat_up_mm": (-60.0, 60.0, "mm"),
    "seat_ahead_mm": (-100.0, 100.0, "mm"), "boats": (1.0, 100_000.0, "launches")}


@dataclass(frozen=True)
class ShopBias:
    """What is added to what is calculated."""

    boat_share: float = 0.0  # of the boat's own weight
    seat_up_m: float = 0.0  # of the seated centre
    seat_ahead_m: float = 0.0
    boats: float = 0.0  # launches it rests on

    @property
    def words(self):
        """What every answer says of it; "" where there is none."""
        if self == NO_BIAS:
            return ""
        return (f"This shop's own bias over {self.boats:.0f} launches is in these figures: boats "
                f"{100.0 * self.boat_share:+.1f} % heavier than calculated, paddlers' centres "
                f"{self.seat_up_m * MM_PER_M:+.0f} mm higher and "
                f"{self.seat_ahead_m * MM_PER_M:+.0f} mm farther ahead.")


NO_BIAS = ShopBias()
