"""The sheet of the lashings: how a stick is tied at a frame and a stem, the knot, every place."""

from sizer.drawing.told import row_of, told
from sizer.export.pages import air, heading, table, whole, words
from sizer.export.plan_build import SECTION_SCALES, TEXT_PT
from sizer.scenes.lashing_pattern import knot_drawing, lashing_drawing
from sizer.scenes.stem_joint import filled_words, lettered, stem_joint
from sizer.shop.lashing import CORD_MM, ENDS_M, HANGS_M, HOLE_SIZE, STRANDS, TURNS, one_holed
from sizer.shop.said import both, listed
from sizer.shop.tapers import TIES_APART_M, TIP_TIE_M
from sizer.shop.trade_sizes import fine_text


def lashing_sheet(on, bench):
    """How a stick is lashed, and every place where one is."""
    on = on.titled("Lashing")
    one_to, picture = on.pictured(lashing_drawing, bench, share=0.4, scales=SECTION_SCALES)
    _, knot = on.pictured(knot_drawing, share=0.2, scales=(1,))
    pieces = list(zip(bench.stems, bench.drawings[len(bench.frames):], strict=True))
    across = max(on.pictured(stem_joint, *one, share=0.34)[0] for one in pieces)
    stems = [on.pictured(stem_joint, *one, scales=(across,))[1] for one in pieces]
    rows = [(" with ".join(sticks), listed(list(frames)), str(count))
            for sticks, frames, count in bench.materials.lashing.frames]
    return on.sheet(
        picture, air(), words(
            f"1 : {one_to}. Left: the frame's face, a stick in its notch, the holes. Then the same "
            "from outside the boat: the way of the cord."
            + " Right: through one hole." * bool(_one_hole(bench.frames)), TEXT_PT),
        *(words(text, TEXT_PT) for text in _how(bench.materials, _one_hole(bench.frames))),
        whole(words("The reef knot, on the frame's after face behind the stick:", TEXT_PT), knot),
        *heading("Where, at the frames"),
        table(("sticks", "frames", "lashings"), rows, (5.0, 10.6, 2.0), on.inner_mm, 8.0),
        *_along(on, bench),
        whole(*heading("At the stems"), *(part for one in stems for part in (one, air())), words(
            f"1 : {across}, each with its end of the boat on the left. Shaded: a pair of sticks, "
            "one on each side, as far as its card's bevel lies flat on the stem, ends fair with "
            "its edge; a lashing farther inboard levers it off, but over a wedge. The keel's "
            "square end stands in the step below, tapered to the stem's thickness; drawn again "
            "under it from below. The ridge is lapped over the head. Heavy: the cord, at each "
            "letter one lashing of both sides. Through two holes: as at a frame, over the one "
            "stick, through, over the other, three turns. Through one hole: round keel and stem, "
            "or over ridge and stem, through the hole, three turns. Reef knot as above."
            + filled_words(bench.stems), TEXT_PT),
            *(words(on.read(told("{}: {}.", stem.name, row_of(lettered(stem), "; "))), TEXT_PT)
              for stem in bench.stems)))


def _along(on, bench):
    """Where sticks that end on another are lashed to it, none where none does."""
    rows = [(f"{stick.name} to {end.on}", listed(list(map(both, places))),
             str(stick.stringer.count * len(places)))
            for stick in bench.sticks for end, _, places in stick.ties]
    if rows:
        yield whole(
            *heading("Where, along sticks that end on another"),
            table(("sticks", "on the first one's tape", "lashings"), rows, (4.0, 11.6, 2.0),
                  on.inner_mm, 8.0),
            words(f"From the last frame that holds both to the feather tip, round both sticks, no "
                  f"hole: {TURNS} turns side by side over the outer faces, each pulled tight, the "
                  "reef knot inboard; from the frame towards the tip, so that the feather is drawn "
                  f"down as it thins. Never more than {both(TIES_APART_M)} apart, the last "
                  f"{both(TIP_TIE_M)} from the tip. No glue: the two work on each other as the "
                  "boat bends, and a glued feather splits. A scarf may lie under a "
                  "lashing: it is cured and flush. Our judgement. A tip that still lifts "
                  "under a thumbnail gets one more: it would chafe the skin.", TEXT_PT))


def _one_hole(frames):
    """How a lashing goes that found room for one hole alone, and which of FramePatterns has it; ""
    where none does."""
    found = [f"{notch.stringer} at {pattern.name}, both sides"
             for pattern, notch, _ in one_holed(frames)]
    return (f" Only one hole is bored for {listed(found)}: no second has room; bore none. From it "
            "forward, over the stick's outer face, its upper one and the plywood's edge behind "
            "it, rounded first, down the after face into the hole: one turn; as many, tied there "
            "in the same way.") if found else ""


def _how(bought, one_hole):
    yield (f"{bought.lashing.says}: {bought.lashing.cord_m:.0f} m of waxed cord with the spare, "
           "about 1 m each, 2 m at a stem. Cord of polyester, braided or twisted, waxed "
           f"(artificial sinew is such a cord), {fine_text(*CORD_MM)} thick: "
           f"{STRANDS} strands must go through a hole of {HOLE_SIZE}; no hole serves "
           "two lashings. Common practice, no source; thickness our judgement.")
    yield (f"1. Leave {both(HANGS_M)} of cord hanging aft out of the upper hole. 2. From that hole "
           "forward, over the stick's outer face, into the lower hole; out of it aft, over the "
           f"outer face, into the upper hole: one turn. 3. {TURNS} turns side by side, each pulled "
           "tight with a dowel; none crosses another on the outer face, where the skin lies. 4. "
           "Once more forward and out of the lower hole aft: tie the two ends there with a reef "
           f"knot, across the plywood behind the stick, ends {both(ENDS_M)}.{one_hole}" + (
               " Sticks that share a pocket, told with each other below, leave no way between "
               "them: one lashing goes over both, through the hole beside the one and the hole "
               "beside the other." if bought.lashing.pockets else ""))
    yield ("Oil sticks and plywood before this and let them dry: oil softens the cord's wax. Keel "
           "first, then gunwales, chines and ridges, from the middle to the ends, port and "
           "starboard in turn.")
