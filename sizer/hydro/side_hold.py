"""How water holds a hull that goes ahead at U and slides sideways at v: a U v + c v^2, two parts.

- lift, a U v: slender-body theory (R. T. Jones, NACA Report 835, 1946; M. M. Munk, NACA Report 184,
  1924, for the same flow without a wake). Each section's water, rho pi/2 T^2 a metre for a draft T,
  the surface taken as a mirror, is set moving sideways as the hull cuts in: lift is carried
  where the draft grows, well ahead, and none behind the deepest section;
- cross-flow drag, c v^2 with c = rho/2 C A on the side area A under water, at the area's centre
  (H. J. Allen and E. W. Perkins, NACA Report 1048, 1951, add the two parts so).

Sources from memory. No bow wave, and a lean changes the draft alone.
"""

from dataclasses import dataclass

import numpy as np

CROSS_FLOW = 0.8  # ships' sections 0.5 to 1.2 (O. Faltinsen, Sea Loads, 1990); our choice


@dataclass(frozen=True)
class Hold:
    """The water's side force a U v + c v^2, in N for m/s; of many, arrays (...)."""

    lift_kgpm: float  # a
    lift_x_m: float
    cross_kgpm: float  # c
    cross_x_m: float

    def force_N(self, speed_mps, drift_mps):
        """Both parts."""
        return self.lift_kgpm * speed_mps * drift_mps + self.cross_kgpm * drift_mps**2


def hold(balance, density_kgpm3):
    """The Hold of a hull.

    Parameters
    ----------
    balance : WindBalance of one or of many
    density_kgpm3 : of the water
    """
    x = balance.outline.x_m
    draft = np.maximum.accumulate(np.maximum(-balance.outline.low_m, 0.0), axis=-1)
    fore, aft = draft[..., :-1], draft[..., 1:]
    squared = np.sum(np.diff(x) * (fore * fore + fore * aft + aft * aft), axis=-1) / 3.0
    deepest = draft[..., -1] ** 2
    below = balance.below
    return Hold(0.5 * np.pi * density_kgpm3 * deepest, x[..., -1] - squared / deepest,
                0.5 * density_kgpm3 * CROSS_FLOW * below.area_m2, below.x_m)


def drift_mps(square, linear, force):
    """The v of 0 or more at which square v^2 + linear v is the force."""
    return 2.0 * force / (linear + np.sqrt(linear**2 + 4.0 * square * force))
