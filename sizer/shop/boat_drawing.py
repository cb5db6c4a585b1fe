"""The boat from the side and from above, bow on the left, as an owner wants to see it."""

import numpy as np

from sizer.drawing.record import Drawing, Path

COUNT = 61  # points along the opening
APART_M = 0.10  # between the two views; our drawing


def boat_drawing(boat, particulars):
    """The Drawing of a boat afloat: profile with the water, and plan below it."""
    sections, opening = boat.sections, boat.opening
    x = sections.x_m
    half = float(sections.y_m.max())
    side = sections.y_m[:, sections.sheer]
    middle = float(sections.z_m.min()) - APART_M - half
    rim_x = np.linspace(opening.front_x_m, opening.back_x_m, COUNT)
    rim = opening.half_width_m(rim_x)
    ends = np.array([x[0] - APART_M, x[-1] + APART_M])
    water = particulars.sinkage_m + np.tan(np.radians(particulars.trim_deg)) * (
        ends - sections.mid_x_m)
    front, back = zip((opening.front_x_m, opening.back_x_m), opening.rim_z_m, strict=True)
    profile = [Path("cut", np.column_stack([x, sections.z_m[:, 0]])),
               Path("mark", np.column_stack([x, sections.z_m[:, sections.sheer]])),
               Path("cut", np.column_stack([x, sections.z_m[:, -1]])),
               Path("cut", np.array([front, back])),
               Path("guide", np.column_stack([ends, water]))]
    plan = [Path("cut", np.column_stack([x, middle + sign * side])) for sign in (1.0, -1.0)]
    plan += [Path("cut", np.column_stack([np.append(rim_x, rim_x[::-1]),
                                          middle + np.append(rim, -rim[::-1])]), closed=True),
             Path("guide", np.array([(x[0], middle), (x[-1], middle)]))]
    return Drawing("boat", (*profile, *plan))
