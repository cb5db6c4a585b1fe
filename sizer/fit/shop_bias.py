"""What a shop's own launches say its boats and paddlers are off from what is calculated, and by how
much one of them still strays from that."""

from dataclasses import dataclass

from sizer.units import MM_PER_M, both_text

ALLOWED = {  # keys of a request's `shop_bias`: lowest, highest, unit
    "boat_share": (-0.5, 0.5, "of the boat's weight"), "seat_up_mm": (-60.0, 60.0, "mm"),
    "seat_ahead_mm": (-100.0, 100.0, "mm"), "boats": (1.0, 100_000.0, "launches"),
    "boat_spread": (0.0, 0.5, "of the boat's weight"), "seat_up_spread_mm": (0.0, 60.0, "mm"),
    "seat_ahead_spread_mm": (0.0, 100.0, "mm")}
STRAYS = {  # by key of `sizer.paddler.spread.SPREADS`, with the least that is believed; ours
    "boat-weight": ("boat_spread", 0.01), "centre-height": ("seat_up_spread_m", 0.004),
    "centre-ahead": ("seat_ahead_spread_m", 0.004)}


@dataclass(frozen=True)
class ShopBias:
    """What is added to what is calculated."""

    boat_share: float = 0.0  # of the boat's own weight
    seat_up_m: float = 0.0  # of the seated centre
    seat_ahead_m: float = 0.0
    boats: float = 0.0  # launches it rests on
    # one standard deviation of the next boat about that; 0: not told, as of every shop
    boat_spread: float = 0.0
    seat_up_spread_m: float = 0.0
    seat_ahead_spread_m: float = 0.0

    @property
    def spreads(self):
        """(key of SPREADS, standard deviation) of what the launches tell."""
        return tuple((key, max(getattr(self, name), least))
                     for key, (name, least) in STRAYS.items() if getattr(self, name))

    @property
    def words(self):
        """What every answer says of it; "" where there is none."""
        if self == NO_BIAS:
            return ""
        return (f"This shop's own bias over {self.boats:.0f} launches is in these figures: boats "
                f"{abs(100.0 * self.boat_share):.1f} % "
                f"{'lighter' if self.boat_share < 0.0 else 'heavier'} than calculated, paddlers' "
                f"centres {_off(self.seat_up_m, 'higher', 'lower')} and "
                f"{_off(self.seat_ahead_m, 'farther ahead', 'farther aft')}{self._straying}.")

    @property
    def _straying(self):
        said = [words for told, words in (
            (self.boat_spread, f"{100.0 * self.boat_spread:.1f} % of the boat's weight"),
            (self.seat_up_spread_m, f"{both_text(self.seat_up_spread_m * MM_PER_M)} of height"),
            (self.seat_ahead_spread_m,
             f"{both_text(self.seat_ahead_spread_m * MM_PER_M)} fore and aft")) if told]
        return "; odds reckon with one boat's own ± " + ", ± ".join(said) if said else ""


def _off(value_m, up, down):
    return f"{both_text(abs(value_m) * MM_PER_M)} {down if value_m < 0.0 else up}"


NO_BIAS = ShopBias()
