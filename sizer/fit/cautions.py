"""The words on danger that go with every result, screen, sheet and file."""

from sizer.hydro.flooded import KEEP_HOLD
from sizer.hydro.water import PRACTISED, temperature_caution
from sizer.paddler.body import NINE_IN_TEN_SD
from sizer.units import both_text

TENDER_MM = 25.0  # of GM that one in ten may have: as good as nothing to read; our judgement

_STANDING = (
    "Wear a PFD (buoyancy aid) that fits, and keep it fastened whenever you are on the water.",
    "Dress for the water, not the air.",
    "A fall into cold water takes your breath at once and your strength to swim soon after: "
    f"{KEEP_HOLD}. Breathe first, then get ashore with it.",
    "A skin-on-frame boat has no flotation of its own beyond its wood: fit float bags at both "
    "ends and tie them in.",
    f"Practise wet exits, first on dry land, then with an instructor in {PRACTISED}, until you "
    "leave the cockpit without thinking.",
    "Launch a new boat for the first time near shore and with company.",
    "These figures are calculated, not a trial: prove the boat in calm water near shore first.",
    "Local rules and licensed or instructed practice come before anything printed here.",
    "ISO 12217-3 (stability) and 33 CFR 183 (flotation and capacity) exclude canoes and kayaks: "
    "nothing here claims to meet them, so load and test with your own margin.",
)


def standing_cautions():
    """The cautions that hold for every boat and every water; tuple of sentences.

    Exclusions: scope of ISO 12217-3; 33 CFR 183.201 and 183.301. Order of cold shock and swim
    failure: Transport Canada TP 13822. The rest is common practice, no source.
    """
    return _STANDING


def tender_cautions(checks):
    """That a boat is tender, where its Check of GM may be as little as TENDER_MM; else empty."""
    for check in checks:
        if check.key != "gm" or check.spread is None:
            continue
        least = check.value - NINE_IN_TEN_SD * check.spread
        if least < TENDER_MM:
            yield (f"A tender boat: its GM is {both_text(check.value)}, and one in ten such "
                   f"paddlers, sitting higher or heavier above, has {both_text(least)} or less in "
                   "it: the paddler's own balance keeps it up, not the boat. Sit in it first where "
                   "your feet stand flat beside it, a helper's hands on both gunwales. The "
                   "launch's steadiness trial may find no weight that is safe: then make none. "
                   "Before it is built, more beam or a wish for steadier leaves more.")


def cautions_for(water):
    """The caution for this Water's temperature, then the standing ones; tuple of sentences."""
    return (temperature_caution(water.temperature_c), *_STANDING)
