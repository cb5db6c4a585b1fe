"""The boat in space, turned by hand: frames, sticks and skin on a canvas that keeps its view."""

import numpy as np

from sizer.hull.boat import frame_points_m
from sizer.hull.stick_curves import stick_ends_base_x_m, stick_points_m
from sizer.units import MM_PER_M
from sizer.web.component import component
from sizer.web.look import COLOURS

STICK_POINTS = 41  # along a stick
RIM_POINTS = 49  # along one side of the opening
SKIN_STEP_M = 0.11  # between sections of the skin outside the opening
HOW = "Drag, or use the arrow keys, to turn. Ctrl and wheel, two fingers, or + and − to zoom."
_mount = component("turning", f"""
<div class="turning">
  <canvas role="img" tabindex="0" aria-describedby="how"></canvas>
  <div class="buttons" role="group" aria-label="view">
    <button type="button" data-view="bow">From the bow</button>
    <button type="button" data-view="side">From the side</button>
    <button type="button" data-view="above">From above</button>
    <button type="button" data-view="skin" aria-pressed="true">Skin</button>
    <button type="button" data-view="whole">Whole boat</button>
  </div>
  <p id="how">{HOW}</p>
</div>
""")


def put_turning(boat, base=None):
    """Puts a Boat on the page, to be turned by hand, its `base` behind it in pencil; the view that
    a hand gave it stays while the boat changes."""
    _mount(key="turning", data={"key": "turning", "colours": COLOURS, **turning_data(boat, base)})


def turning_data(boat, base=None):
    """What the canvas draws, in mm and one side of the boat: x aft, y to starboard, z up.

    Returns
    -------
    {"said": the boat in a sentence,
     "lines": [{"kind", "points": [[x, y, z], ...]}]: a kind of frame, stick, stem, edge or base,
     "skin": [[[x, y, z], ...] per section], "coaming": the same for the strip round the opening,
     "long", "middle": length and half-way point}. The other side is the mirror in y.
    """
    lines = [*_frames(boat), *_sticks(boat), *_stems(boat), _rim(boat)]
    if base is not None:
        lines += _pencil(base, 0.5 * (boat.length_m - base.length_m))
    skin, coaming = _skin(boat)
    sections = boat.sections
    return {
        "said": f"{boat.design.name} in space: {MM_PER_M * boat.length_m:.0f} mm long, "
                f"{MM_PER_M * boat.beam_m:.0f} mm wide, {len(boat.frame_x_m)} frames.",
        "lines": lines, "skin": skin, "coaming": coaming,
        "long": round(MM_PER_M * boat.length_m),
        "middle": _mm([[0.5 * boat.length_m, 0.0,
                        0.5 * float(sections.z_m.min() + sections.z_m.max())]])[0],
    }


def _mm(points_m):
    return np.round(np.asarray(points_m, float) * MM_PER_M).astype(int).tolist()


def _line(kind, points_m):
    return {"kind": kind, "points": _mm(points_m)}


def _frames(boat):
    """Half rings up to the ridge, or to the gunwale of a frame that stands in the opening."""
    for index, x in enumerate(boat.frame_x_m):
        points = np.array(list(frame_points_m(boat, index).values()))
        yield _line("frame", np.column_stack([np.full(len(points), x), points]))


def _sticks(boat):
    for line in boat.lines.lines:
        start, end = stick_ends_base_x_m(boat, line)
        yield _line("stick", stick_points_m(boat, line, np.linspace(start, end, STICK_POINTS)))


def _stems(boat):
    """The bottom's outline ahead of the keel and behind it, up to the deck."""
    sections, keel = boat.sections, boat.lines.lines[0]
    x = sections.x_m
    bottom = np.column_stack([x, 0.0 * x, sections.z_m[:, 0]])
    front, back = boat.map(np.array([keel.start_x_m, keel.end_x_m]))
    for rows, end in ((x <= front, 0), (x >= back, -1)):
        head = np.array([[x[end], 0.0, sections.z_m[end, -1]]])
        stem = np.concatenate([head, bottom[rows]] if end == 0 else [bottom[rows], head])
        yield _line("stem", stem)


def _rim(boat):
    opening = boat.opening
    turn = 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, RIM_POINTS)))
    x = opening.front_x_m + turn * opening.length_m
    return _line("edge", np.column_stack([x, opening.half_width_m(x), opening.rim_height_m(x)]))


def _skin(boat):
    """Points of the skin from the bottom to the deck's edge, and of the coaming's side."""
    sections, opening = boat.sections, boat.opening
    inside = (sections.x_m >= opening.front_x_m) & (sections.x_m <= opening.back_x_m)
    kept, last = [], -np.inf
    for row, x in enumerate(sections.x_m):
        if inside[row] or x - last >= SKIN_STEP_M or row == sections.x_m.size - 1:
            kept.append(row)
            last = x
    x = np.broadcast_to(sections.x_m[:, None], sections.y_m.shape)
    points = np.stack([x, sections.y_m, sections.z_m], axis=-1)
    return _mm(points[kept][:, :-2]), _mm(points[inside][:, -3:-1])


def _pencil(base, shift_m):
    """The base's bottom and gunwale, its middle on the boat's."""
    sections = base.sections
    for column in (0, sections.sheer):
        yield _line("base", np.column_stack([
            sections.x_m + shift_m, sections.y_m[:, column], sections.z_m[:, column]]))
