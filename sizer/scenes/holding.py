"""Arms and paddle in space: where a seated paddler's shoulders, elbows and hands are.

Places are (ahead of the back of the buttocks, to starboard, above the seat), m. The stroke is drawn
as it begins, flat and easy; posture and paddle are our drawing and are read nowhere else.
"""

from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np

from sizer.scenes.flesh import FOREARM_OF_SPAN, UPPER_ARM_OF_SPAN

NEAR = -1  # port: the side that a view from the side, bow to the left, shows
SHOULDER_OF_SITTING = 0.605  # height along the trunk of a shoulder joint
SHOULDER_OF_WIDTH = 0.350  # from the centre line, over the shoulders' breadth
TURNED_DEG = 14.0  # of the shoulders, port ahead
PADDLE_OF_STATURE = 1.24  # length; common practice, no source
GRIP_OF_WIDTH = 0.72  # from the paddle's middle to a hand, over the shoulders' breadth
SLANT = np.array([0.46, -0.83, -0.32])  # of the shaft towards the port blade
BLADE_M = (0.45, 0.082)  # length and half its width
HANG = np.array([-0.25, 0.42, -0.87])  # which way an elbow hangs, of the starboard arm
HAND_M = 0.055  # from wrist to the middle of the grip


@dataclass(frozen=True, eq=False)
class Holding:
    """Arms and paddle; starboard's first axis is the mirrored port's where nothing turns."""

    shoulders_m: np.ndarray  # (2, 3) port, starboard
    elbows_m: np.ndarray
    wrists_m: np.ndarray
    grips_m: np.ndarray
    shaft_m: np.ndarray  # (2, 3) from blade to blade, port first
    blades_m: tuple[np.ndarray, np.ndarray]  # (n, 3) closed

    def joints_m(self, side):
        """(4, 3) shoulder, elbow, wrist, grip of the port (-1) or starboard (1) arm."""
        at = 0 if side < 0 else 1
        return np.stack([part[at] for part in (
            self.shoulders_m, self.elbows_m, self.wrists_m, self.grips_m)])


def holding(body, girths, lean_deg):
    """The Holding of a Body with its Girths, its trunk leant back."""
    sitting, wide = body.sitting_height.value_m, body.shoulder_width.value_m
    lean, along = radians(lean_deg), SHOULDER_OF_SITTING * sitting
    middle = np.array([0.44 * girths.chest_m - along * sin(lean) + 0.008, 0.0,
                       along * cos(lean) + 0.44 * girths.chest_m * sin(lean)])
    turn = radians(TURNED_DEG)
    out = SHOULDER_OF_WIDTH * wide * np.array([-sin(turn), cos(turn), 0.0])
    shoulders = np.stack([middle - out, middle + out])
    upper, lower = (share * body.arm_span.value_m for share in (
        UPPER_ARM_OF_SPAN, FOREARM_OF_SPAN))
    slant = SLANT / np.linalg.norm(SLANT)
    hub = np.array([0.6 * max(girths.belly_m, girths.chest_m) + 0.27 * sitting, 0.0,
                    0.43 * sitting])
    grips = hub + GRIP_OF_WIDTH * wide * np.stack([slant, -slant])
    elbows = np.stack([_elbow(shoulder, grip, upper, lower + HAND_M, HANG * (1, side, 1))
                       for shoulder, grip, side in zip(shoulders, grips, (-1, 1), strict=True)])
    wrists = grips + (elbows - grips) * HAND_M / (lower + HAND_M)
    half = 0.5 * PADDLE_OF_STATURE * body.stature.value_m
    blades = tuple(_blade(hub + sign * half * slant, -sign * slant) for sign in (1, -1))
    inner = half - 0.9 * BLADE_M[0]
    shaft = hub + np.stack([inner * slant, -inner * slant])
    return Holding(shoulders, elbows, wrists, grips, shaft, blades)


def _elbow(shoulder, grip, upper, lower, hang):
    """Where the elbow of an arm is; of one too short, on its way to the grip."""
    reach = grip - shoulder
    far = float(np.linalg.norm(reach))
    along = reach / far
    run = min(0.5 * (far + (upper**2 - lower**2) / far), upper)
    off = hang - (hang @ along) * along
    return shoulder + run * along + np.sqrt(max(upper**2 - run**2, 0.0)) * (
        off / np.linalg.norm(off))


def _blade(tip, inwards):
    """A blade's outline, upright across the shaft."""
    long, half = BLADE_M
    up = np.array([0.45, 0.0, 0.9])
    up = up - (up @ inwards) * inwards
    up = up / np.linalg.norm(up)
    shape = np.array(((0.0, 0.0), (0.03, 0.62), (0.14, 0.95), (0.40, 1.0), (0.70, 0.72),
                      (0.92, 0.30), (1.0, 0.16)))
    ring = np.concatenate([shape, shape[:0:-1] * (1.0, -0.85)])
    return tip + long * ring[:, :1] * inwards + half * ring[:, 1:] * up
