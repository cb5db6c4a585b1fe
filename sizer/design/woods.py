"""The woods a design file may name, with the numbers the engine uses.

Source: USDA Wood Handbook, clear wood at 12 % moisture, as reproduced in public data; Sitka spruce
and the rupture stress of white ash are quoted from memory, and so are all figures of wet wood: the
Handbook's for green wood, wetter than any boat's. Steep bends: the surface strain of a strip of
thickness t bent to radius R is t / (2 R); under R/t = 75 a cold stick is likely to break, 75 to 150
wants care and clear straight grain (our judgement between conflicting shop rules).
"""

from dataclasses import dataclass

EASY_BEND_RATIO = 150.0  # radius over thickness; our judgement, see above
CAREFUL_BEND_RATIO = 75.0  # radius over thickness; our judgement, see above


@dataclass(frozen=True)
class Wood:
    """One kind of wood or plywood."""

    name: str
    density_kgpm3: float
    rupture_stress_mpa: float | None  # modulus of rupture; None where we have no number
    elasticity_gpa: float | None  # modulus of elasticity
    wet_rupture_stress_mpa: float | None  # modulus of rupture of green wood


WOODS = {
    wood.name: wood
    for wood in (
        Wood("western red cedar", 370.0, 51.7, 7.7, 35.9),
        Wood("northern white cedar", 350.0, 45.0, 5.5, 29.0),
        Wood("Engelmann spruce", 430.0, 64.0, 8.9, 32.0),
        Wood("Sitka spruce", 430.0, 67.0, 10.3, 39.0),
        Wood("Douglas-fir", 545.0, 85.0, 13.4, 53.0),
        Wood("white ash", 680.0, 103.0, 12.0, 66.0),
        Wood("okoume plywood", 450.0, None, None, None),
    )
}
