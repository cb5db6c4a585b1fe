"""What a side view shows: boat, base, water, seat and the seated paddler, in m."""

from collections.abc import Callable
from dataclasses import dataclass

from sizer.drawing.hull_lines import water_z_m
from sizer.hull.boat import Boat
from sizer.hull.sections import half_section_at
from sizer.hydro.particulars import Particulars
from sizer.hydro.watertight import Chamber
from sizer.paddler.room import room_needed
from sizer.scenes.figure import SideFigure, side_figure

LEVEL_DEG = 0.05  # trim that rounds to nothing


@dataclass(frozen=True, eq=False)
class Scene:
    """Everything one side view is drawn from."""

    boat: Boat
    base: Boat
    particulars: Particulars
    figure: SideFigure
    length_text: Callable[[float], str]
    seated: bool = True  # whether somebody sits in it
    bags: tuple[Chamber, ...] = ()

    @property
    def shift_m(self):
        """Puts the base's half-length on the boat's."""
        return ends_m(self.boat, self.base)[2]

    @property
    def box_m(self):
        """Left, low, right, top of everything drawn."""
        front, back, _ = ends_m(self.boat, self.base)
        return front, self.low_m, back, self.top_m

    def water_m(self, x_m):
        return water_z_m(self.boat, self.particulars, x_m)

    def body(self, outline):
        """A figure's outline in the boat: (n, 2) x and height."""
        return outline * (-1.0, 1.0) + (self.boat.seat_x_m, self.boat.seat_z_m)

    @property
    def top_m(self):
        return max(float(self.body(self.figure.body_m)[:, 1].max()),
                   float(self.boat.sections.z_m.max()), float(self.base.sections.z_m.max()))

    @property
    def low_m(self):
        return min(float(self.boat.sections.z_m.min()), float(self.base.sections.z_m.min()))


def ends_m(boat, base):
    """The foremost and aftmost x of a boat and its base, and the base's shift to its middle."""
    shift = 0.5 * (boat.length_m - base.length_m)
    return min(0.0, shift), max(boat.length_m, boat.length_m - shift), shift


def trim_text(trim_deg):
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
