"""Fresh and salt water: density and viscosity by temperature, and what its cold asks for."""

from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicSpline

from sizer.design.records import WATERS
from sizer.errors import BadInput, Fault
from sizer.units import plain_number, temperature_text

KINDS = WATERS
LOWEST_C, HIGHEST_C = 0.0, 30.0

# Columns: degrees C, fresh density kg/m3, fresh kinematic viscosity 1e-6 m2/s, sea density, sea
# viscosity. Density: TEOS-10 at the surface (IOC, SCOR and IAPSO 2010), sea at absolute salinity
# 35.165 g/kg. Fresh viscosity: IAPWS. Sea viscosity: Sharqawy, Lienhard & Zubair, Desalination
# and Water Treatment 16, 2010.
_TABLE = np.array(
    [
        [0.0, 999.844, 1.7914, 1028.107, 1.8538],
        [5.0, 999.967, 1.5182, 1027.676, 1.5763],
        [10.0, 999.703, 1.3063, 1026.954, 1.3605],
        [15.0, 999.103, 1.1386, 1025.976, 1.1892],
        [20.0, 998.207, 1.0034, 1024.766, 1.0508],
        [25.0, 997.048, 0.8927, 1023.344, 0.9372],
        [30.0, 995.650, 0.8007, 1021.726, 0.8426],
    ]
)
_AT_TEMPERATURE = CubicSpline(_TABLE[:, 0], _TABLE[:, 1:])

# Under these water upsets the breathing, asks for immersion dress, is cold, and is at its worst;
# sources at `temperature_caution`. What papers call warm is what asks for no immersion dress.
TIRES_C, WARM_C, COLD_C, WORST_C = 25.0, 21.0, 15.0, 10.0
# The bottom wherever somebody gets in or may turn over, and where coming out is practised: one
# wording everywhere; our judgement.
BOTTOM = "sand or mud, no stones"
PRACTISED = (f"warm water over {BOTTOM}, where helpers stand and a head upside down clears the "
             "bottom")
# Who goes in such water, and for what; our judgement, on the careful side.
LEARNT = ("Never alone, only near shore. Only here: first sitting, launch, wet exits and all that "
          "you learn (wet exits in a heated pool too).")
COLDER = ("Never alone, only near shore. What you learnt in warm water is tried here, in that "
          "dress, with an instructor beside you and not otherwise; with other company only after "
          "that.")
COLDEST = ("Never alone, only near shore, in that dress; first with an instructor beside you, as "
           "in the water before.")
_DEFER = "Local rules and instructed practice come first."


@dataclass(frozen=True)
class Water:
    """The water a boat floats in."""

    kind: str  # "fresh" or "salt"
    temperature_c: float
    density_kgpm3: float
    viscosity_m2ps: float  # kinematic


def water_at(kind, temperature_c):
    """The water of this kind ("fresh" or "salt") at 0 to 30 degrees C, at the surface.

    Cubic spline through the table above, which has its sources. Raises BadInput with every fault
    found, at "water.kind" and "water.temperature_c".
    """
    faults = _temperature_faults(temperature_c)
    if kind not in KINDS:
        faults.insert(0, Fault("water.kind", repr(kind), "write fresh or salt"))
    if faults:
        raise BadInput(faults)
    temperature_c = float(temperature_c)
    column = 2 * KINDS.index(kind)
    density, viscosity = _AT_TEMPERATURE(temperature_c)[column : column + 2]
    return Water(kind, temperature_c, float(density), float(viscosity) * 1e-6)


def temperature_caution(temperature_c):
    """What water of 0 to 30 degrees C asks of a paddler, in two short sentences.

    Thresholds: breathing is affected below 25 and immersion dress is due below 21 (National
    Center for Cold Water Safety); below 15 is cold (RNLI), and cold shock is near its worst from
    about 15 down, peaking near 10 (House 2017, and the same Center). The water alone counts: a
    sum with the air's temperature would pass dangerous water on a warm day. No survival times,
    as safety bodies advise against them. Raises BadInput at "water.temperature_c".
    """
    faults = _temperature_faults(temperature_c)
    if faults:
        raise BadInput(faults)
    return f"Water at {temperature_text(temperature_c)} {_demand(temperature_c)} {_DEFER}"


def by_temperature(temperature_c, barred=""):
    """(the water measured, what it asks for, who goes and for what), in words, from warm to worst.

    Parameters
    ----------
    temperature_c : of the water that a boat is worked out for; its line bears the caution for it
    barred : why the boat stays ashore in water that asks for a drysuit, in place of who goes there
    """
    warm, cold, worst = map(temperature_text, (WARM_C, COLD_C, WORST_C))
    lines = (
        (f"{warm} or more", WARM_C, LEARNT),
        (f"under {warm}, over {cold}", 0.5 * (WARM_C + COLD_C), COLDER),
        (f"{cold} or less, over {worst}", COLD_C, barred or COLDEST),
        (f"{worst} or less", WORST_C, barred or COLDEST))
    own = (temperature_c < WARM_C) + (temperature_c <= COLD_C) + (temperature_c <= WORST_C)
    return tuple((measured, temperature_caution(temperature_c) if line == own
                  else f"It {_demand(least_c)}", goes)
                 for line, (measured, least_c, goes) in enumerate(lines))


def asks_for_drysuit(temperature_c):
    """Whether water so cold asks for a drysuit, or for a wetsuit as thick; see the source above."""
    return temperature_c <= COLD_C


def _demand(temperature_c):
    if temperature_c >= TIRES_C:
        return "still tires a swimmer: stay where you can reach the shore."
    if temperature_c >= WARM_C:
        return "can upset your breathing when you fall in: dress so that you can stay in it."
    if not asks_for_drysuit(temperature_c):
        return "calls for immersion clothing: wear a wetsuit or drysuit, however warm the air is."
    if temperature_c > WORST_C:
        return (
            "is cold, and cold shock can drown a swimmer in minutes: wear a drysuit or thick "
            "wetsuit and paddle with company near shore."
        )
    return (
        "brings cold shock at its worst: stay ashore unless you wear a drysuit over warm layers, "
        "have practised in cold water and paddle with company near shore."
    )


def _temperature_faults(temperature_c):
    number = plain_number(temperature_c)
    if number is not None and LOWEST_C <= number <= HIGHEST_C:
        return []
    allowed = f"give the water's own temperature, {LOWEST_C:g} to {HIGHEST_C:g} °C"
    shown = f"{temperature_c!r:.40}" if number is None else f"{number:g} °C"
    return [Fault("water.temperature_c", shown, allowed)]
