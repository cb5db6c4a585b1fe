"""What holds the keel up while somebody sits in the frame on its strongback: no water does there.

Between the two frames beside a panel seat nothing stands under the keel. A block on the strongback
does what the soft floor does once the boat is lifted off.
"""

from dataclasses import dataclass

from sizer.shop.boards import hull_at, sit_x_m
from sizer.shop.said import both
from sizer.shop.stations import setting_up


@dataclass(frozen=True)
class SeatProp:
    """A block wedged between strongback and keel, under the sitting bones."""

    fore_frame: str
    aft_frame: str
    tape_m: float  # on the strongback, to its middle
    high_m: float  # of the keel's outer face over the strongback


def seat_prop(boat):
    """The SeatProp of a boat; None where its seat does not lie on the keel."""
    if boat.design.seat.kind != "panel":
        return None
    up, x = setting_up(boat), sit_x_m(boat)
    fore = max((one for one in up.stations if one.faces_x_m[0] <= x), key=lambda one: one.x_m)
    aft = min((one for one in up.stations if one.faces_x_m[0] > x), key=lambda one: one.x_m)
    keel_m = hull_at(boat, [x])[0][0, 1]
    return SeatProp(fore.name, aft.name, float(x - up.strongback_start_x_m),
                    float(keel_m + up.baseline_height_m))


def prop_words(boat):
    """How the block is set, as a sentence; "" where none is wanted."""
    prop = seat_prop(boat)
    return "" if prop is None else (
        f"Under the keel between {prop.fore_frame} and {prop.aft_frame}, at tape "
        f"{both(prop.tape_m)}, wedge a block on the strongback, {both(prop.high_m)} high, until "
        "it just bears: no water holds the keel up here. ")
