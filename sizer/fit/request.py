"""The request: whom to fit, in which base, for what; read with every fault at once."""

from dataclasses import dataclass, fields

from sizer.border import record_of, unknown_keys
from sizer.design.allowed import MOST_GEAR_KG
from sizer.errors import BadInput, Fault, caught
from sizer.fit.shop_bias import ALLOWED, NO_BIAS, ShopBias
from sizer.fit.sizes import SIZES, size_title, sizes_mm
from sizer.fit.sought import NO_WISHES, Wishes
from sizer.fit.uses import USES
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hydro.water import Water, water_at
from sizer.paddler.measures import Measured, read_paddler
from sizer.units import MM_PER_M, plain_number

JOB = "job"  # says to people whose request it is; nothing is read from it
KEYS = ("base", "paddler", "use", "gear_kg", "water", "fixed", "follow", "wishes",
        "shop_bias", JOB)
FIXED = {  # what can be held: lowest, highest, unit; the base's own limits are narrower
    **dict.fromkeys(SIZES, (100.0, 9000.0, "mm")), "deck_crown": (0.1, 4.0, "of the base"),
    "seat_shift_mm": (-1000.0, 1000.0, "mm"),
}
WISHES = {one.name: (-1.0, 1.0, "") for one in fields(Wishes)}
DEFAULT_WATER = ("fresh", 10.0)  # the careful side: less buoyant, and cold


@dataclass(frozen=True)
class Trip:
    """What the boat is for, whoever paddles it."""

    base: str  # shipped name or path
    use: str  # key of USES
    water: Water
    gear_kg: float | None = None  # in a list of people None: as their use has it


@dataclass(frozen=True)
class Request:
    """One paddler's wishes."""

    trip: Trip
    measured: Measured
    fixed: tuple[tuple[str, float], ...] = ()  # what is held, by key of FIXED
    follow: bool = False  # whether what is not held is fitted anew to what is
    wishes: Wishes = NO_WISHES
    shop_bias: ShopBias = NO_BIAS


def read_request(given):
    """A Request from a JSON-like dict.

    Raises
    ------
    BadInput with every fault; places are the request's own keys.
    """
    if not isinstance(given, dict):
        raise BadInput([Fault("request", f"{given!r:.60}", "a JSON object; see README.md")])
    faults = unknown_keys(given, KEYS)
    base = _text(given, "base", faults)
    use = _text(given, "use", faults)
    if use is not None and use not in USES:
        faults.append(Fault("use", f"{use!r:.60}", "one of " + ", ".join(USES)))
        use = None
    gear = _number(given, "gear_kg", "gear_kg", 0.0, MOST_GEAR_KG, "kg", faults)
    if gear is None and use is not None:
        gear = USES[use].gear_kg
    measured = caught(lambda: read_paddler(given.get("paddler", {})), faults)
    water = caught(lambda: _water(given.get("water")), faults)
    fixed = _numbers(given, "fixed", FIXED, "of what is held", faults)
    wishes = _numbers(given, "wishes", WISHES, "of wishes", faults)
    bias = _numbers(given, "shop_bias", ALLOWED, "of the shop's own bias", faults)
    follow = given.get("follow")
    if not isinstance(follow, bool | None):
        faults.append(Fault("follow", f"{follow!r:.60}", "true or false"))
    if faults:
        raise BadInput(faults)
    return Request(Trip(base, use, water, gear), measured, tuple(fixed.items()), bool(follow),
                   Wishes(**wishes), record_of(ShopBias, dict.fromkeys(ALLOWED, 0.0) | bias, {}))


def drawn_request(base, lines):
    """The request of whom a base was drawn for, with the base's own sizes held.

    Raises BadInput at the base, where one of them is none that a boat can be held to.
    """
    drawn, sizes = lines.design.drawn_for, sizes_mm(scaled_boat(lines, Scaling()))
    faults = [Fault(base, f"{size_title(key).lower()} {size:.0f} mm",
                    "{:g} to {:g} {}, as drawn".format(*FIXED[key]))
              for key, size in sizes.items() if not FIXED[key][0] <= size <= FIXED[key][1]]
    if faults:
        raise BadInput(faults)
    return read_request({
        "base": base, "use": drawn.use if drawn.use in USES else next(iter(USES)),
        "gear_kg": drawn.gear_kg, "water": {"kind": drawn.water},
        "paddler": {"weight_kg": drawn.weight_kg, "stature_mm": drawn.stature_m * MM_PER_M,
                    "hip_width_mm": drawn.hip_width_m * MM_PER_M},
        "fixed": sizes})


def _text(given, key, faults):
    value = given.get(key)
    if isinstance(value, str) and value.strip():
        return value.strip()
    found = "missing" if value is None else f"{value!r:.60}"
    faults.append(Fault(key, found, "is needed, as text"))
    return None


def _number(given, key, place, low, high, unit, faults):
    """A number in range, or None where it is absent or at fault."""
    value = given.get(key)
    if value is None:
        return None
    number = plain_number(value)
    if number is None or not low <= number <= high:
        faults.append(Fault(place, f"{value!r:.60} {unit}".strip(),
                            f"{low:g} to {high:g} {unit}".strip()))
        return None
    return number


def _water(given):
    if given is None:
        return water_at(*DEFAULT_WATER)
    if not isinstance(given, dict):
        raise BadInput([Fault("water", f"{given!r:.60}",
                              'an object such as {"kind": "salt", "temperature_c": 8}')])
    unknown = unknown_keys(given, ("kind", "temperature_c"), "water.")
    if unknown:
        raise BadInput(unknown)
    kind, temperature = DEFAULT_WATER
    return water_at(given.get("kind", kind), given.get("temperature_c", temperature))


def _numbers(given, place, allowed, words, faults):
    """{key: number} of an object whose keys are all allowed, in the order of `allowed`."""
    found = given.get(place)
    if found is None:
        return {}
    if not isinstance(found, dict):
        faults.append(Fault(place, f"{found!r:.60}",
                            f"an object {words}: " + ", ".join(allowed)))
        return {}
    faults += unknown_keys(found, allowed, f"{place}.")
    numbers = {key: _number(found, key, f"{place}.{key}", *allowed[key], faults)
               for key in allowed if key in found}
    return {key: number for key, number in numbers.items() if number is not None}
