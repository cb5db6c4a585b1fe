"""How a wet exit goes, in steps, for who has seen it: common practice, no source."""

from sizer.export.fit_words import capital
from sizer.export.owners_leave import MAY_BE_PADDLED
from sizer.hydro.flooded import KEEP_HOLD, RIM_UPSIDE_DOWN

FIRST = ("An instructor shows it first and stands beside you; never learn it from paper. First "
         "without a spray deck, in a boat proved on the water; in this one once "
         f"{MAY_BE_PADDLED}. As it goes:")
STEPS = (
    "Hold your breath, lean forward, head to the deck, and stay so.",
    "Spray deck on: pull its loop forward and up, off the rim all round.",
    f"Let the paddle go: a hand on the rim beside each hip. {capital(RIM_UPSIDE_DOWN)}.",
    "Feet off the pedals, legs straight and loose. Push the boat off you, forward, as one takes "
    "off trousers: hips out first, then legs.",
    f"Come up beside it, a hand on it all the time: {KEEP_HOLD}.",
    "Take the deck line, or an end loop where it hangs too deep; the paddle only in reach. Leave "
    "the boat upside down until help holds it: rolled upright it scoops water (our judgement; do "
    "as your instructor has shown).")


def wet_exit_words():
    """Its paragraphs, the steps numbered."""
    yield FIRST
    for number, step in enumerate(STEPS, start=1):
        yield f"{number}. {step}"
