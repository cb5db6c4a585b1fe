"""What a side view shows: boat, base, water and the seated paddler, in m."""

from collections.abc import Callable
from dataclasses import dataclass
from math import radians, tan

from sizer.hull.boat import Boat, half_section_at
from sizer.hydro.particulars import Particulars
from sizer.paddler.room import room_needed
from sizer.web.drawings.figure import SideFigure, side_figure

LEVEL_DEG = 0.05  # trim that rounds to nothing


@dataclass(frozen=True, eq=False)
class Scene:
    """Everything one side view is drawn from."""

    boat: Boat
    base: Boat
    particulars: Particulars
    figure: SideFigure
    length_text: Callable[[float], str]

    @property
    def shift_m(self):
        """Puts the base's half-length on the boat's."""
        return 0.5 * (self.boat.length_m - self.base.length_m)

    def water_m(self, x_m):
        """Height of the water's surface at x."""
        slope = tan(radians(self.particulars.trim_deg))
        return self.particulars.sinkage_m + slope * (x_m - self.boat.sections.mid_x_m)

    def body(self, outline):
        """x and z of a figure's outline in the boat."""
        return self.boat.seat_x_m - outline[:, 0], self.boat.seat_z_m + outline[:, 1]

    @property
    def top_m(self):
        """Highest thing drawn."""
        return max(float(self.body(self.figure.body_m)[1].max()),
                   float(self.boat.sections.z_m.max()), float(self.base.sections.z_m.max()))

    @property
    def low_m(self):
        """Lowest thing drawn."""
        return min(float(self.boat.sections.z_m.min()), float(self.base.sections.z_m.min()))


def trim_text(trim_deg):
    """Trim in words."""
    if abs(trim_deg) < LEVEL_DEG:
        return "level trim"
    return f"trim {abs(trim_deg):.1f}°, {'stern' if trim_deg > 0 else 'bow'} deeper"


def scene_of(boat, base, particulars, person, length_text):
    """The Scene of a boat afloat and its paddler, a Body."""
    reach = room_needed(person, boat.design.cockpit.entry).foot_rest_ahead_m
    bottom = float(half_section_at(boat.sections, boat.seat_x_m - reach)[1][0])
    floor = bottom + boat.design.stringers[0].depth_m  # the heels stand on the keel stringer
    figure = side_figure(person, boat.design.cockpit.entry, floor - boat.seat_z_m)
    return Scene(boat, base, particulars, figure, length_text)
