"""The shopping list, each line with its allowance, and the weights by kind of part."""

from dataclasses import dataclass, replace

from sizer.hull.weight import own_weight
from sizer.shop.coaming import COAMING_WOOD, Coaming, coaming
from sizer.shop.items import MILL_M, Item, more_text, rough_text, tallied, waxed_cord
from sizer.shop.layout import WHOLE
from sizer.shop.notches import frame_section
from sizer.shop.said import both, both_far
from sizer.shop.scarfs import KERF_M, SPARE_SHARE, CuttingPlan, cutting_plans
from sizer.shop.settings import SHOP
from sizer.shop.skin import ENDS_M, PULL_M, Lashing, Seams, Skin, lashing, most_wet, seams, skin
from sizer.shop.spacers import spacer_items
from sizer.shop.stems import stem_patterns
from sizer.shop.stringers import Stick
from sizer.shop.sundries import sundries
from sizer.shop.trade_sizes import cord_text
from sizer.units import both_cloth, both_volume

COATING_SPARE_SHARE = 0.15  # left in pots and brushes; our judgement
OIL_M2_PER_L = 6.0  # of wood, two coats; our judgement
OIL_SPARE_SHARE = 0.10  # our judgement
STRIP_SPARE = 1  # strips of each size that may break in bending; our judgement
LINE_ENDS = 4  # of two deck lines
LINE_KNOT_M = 0.25  # of a line's end in a bowline, or a round turn and two half hitches; ours
LOOP_OUT_M = 0.080  # of an end loop's bight, where a line ends, beyond the stem; our judgement
DECK_LINE_SPARE_M = 0.5  # to draw both tight by, a hand's hold each; our judgement
POINT_M = (0.020, 0.080)  # of a loop for a point of the deck line: width, length; our judgement
DECK_LINE_MM = 6  # thickness: a wet hand holds it, and it bears a swimmer; our judgement
DECK_LINE = f"deck line, {cord_text(DECK_LINE_MM)}"
LOOP_CORD_MM, LOOP_M = 6, 1.2  # of an end loop: thickness and length; our judgement
# What a part's name begins with by its kind, and parts that are a kind by themselves
KINDS = {"frames": "frame ", "spacers": "spacers ", "stems": ("bow stem", "stern stem")}
OWN_KINDS = ("skin", "coaming", "seat and backband", "footbrace", "lashing and lines")


@dataclass(frozen=True)
class WeightGroup:
    """Parts of one kind with their mass and its centre."""

    name: str
    mass_kg: float
    x_m: float
    z_m: float


@dataclass(frozen=True, eq=False)
class Materials:
    """Everything the boat takes."""

    items: tuple[Item, ...]
    weights: tuple[WeightGroup, ...]
    cutting: tuple[CuttingPlan, ...]
    sticks: tuple[Stick, ...]
    skin: Skin
    lashing: Lashing
    coaming: Coaming
    seams: Seams

    @property
    def sides(self):
        """(Stick, its Joints) of every single stick: of a pair, port and starboard."""
        return tuple((stick, side) for stick in self.sticks for side in stick.sides.values())


def materials(boat, sticks, shop=SHOP, layouts=(), stems=None, spacers=(), more=()):
    """The Materials of a boat of these Sticks and Spacers, its plywood in Layouts; its StemPatterns
    where they are drawn already, `more` Items of seat, strongback and outfit."""
    plans, rim = cutting_plans(sticks, shop.stock_lengths_m), coaming(boat)
    cloth = skin(boat, shop.cloth_widths_m)
    cord = lashing(boat, sticks, stems or stem_patterns(boat))
    items = (*_timber(plans), *(item for one in layouts for item in _sheets(one)),
             *spacer_items(spacers), *_coaming_stock(rim), *_covering(boat, cloth),
             *_oil(boat, sticks), *_ties(boat, cord, sticks), *more)
    listed = Materials(items, weights_by_kind(own_weight(boat)), plans, sticks, cloth, cord, rim,
                       seams(boat, sticks, cloth, rim))
    return replace(listed, items=tallied((*items, *sundries(listed))))


def weights_by_kind(weight):
    """The parts of an OwnWeight by kind: they sum to the weight that is used afloat."""
    kinds = {}
    for part in weight.parts:
        kinds.setdefault(_kind(part.name), []).append(part)
    groups = []
    for kind, parts in kinds.items():
        mass = sum(part.mass_kg for part in parts)
        groups.append(WeightGroup(kind, mass, sum(p.mass_kg * p.x_m for p in parts) / mass,
                                  sum(p.mass_kg * p.z_m for p in parts) / mass))
    return tuple(groups)


def _kind(name):
    if name in OWN_KINDS:
        return name
    return next((kind for kind, begins in KINDS.items() if name.startswith(begins)), "stringers")


def _timber(plans):
    for plan in plans:
        for stock, (cut, spare) in plan.to_buy.items():
            yield Item("timber", f"{plan.wood}, clear: width, depth, length", cut + spare,
                       "pieces", (plan.width_m, plan.depth_m, stock),
                       f"{rough_text(plan.width_m, plan.depth_m)} or more; {cut} cut, {spare} "
                       "spare" + (f": at least {more_text(SPARE_SHARE)}" if spare else ""),
                       sides=2)


def _sheets(layout):
    """A line for each size of sheet, with how well it is used."""
    for kind, size in dict.fromkeys((one.kind, one.size_m) for one in layout.sheets):
        alike = [one for one in layout.sheets if one.kind == kind]
        share = sum(one.used_share for one in alike) / len(alike)
        what = "" if kind == WHOLE else f", {kind}"
        yield Item("plywood", f"okoume plywood{what}: thickness, length, width",
                   len(alike), "sheets", (layout.thickness_m, *size),
                   f"as the layout nests the parts: {100.0 * share:.0f} % becomes parts, "
                   f"{both(alike[-1].offcut_m)} are left at its end"
                   + ("" if kind == WHOLE else "; face grain "
                      f"{'across' if alike[-1].grain_up else 'along'} its length"))


def _rectangles_m2(boat):
    """Of the rectangle round every frame and stem."""
    for index in range(len(boat.design.frames)):
        left, low, right, high = frame_section(boat, index).outline().bounds
        yield (right - left) * (high - low)
    for stem in (boat.design.bow, boat.design.stern):
        x, z = stem.profile_m.T
        long = float(boat.map(x[-1]) - boat.map(x[0]))
        yield long * boat.scaling.depth * float(z.max() - z.min())


def _coaming_stock(rim):
    for strip in rim.strips:
        yield Item("coaming", f"{COAMING_WOOD} strips, {strip.name}: thickness, width, length",
                   strip.count + STRIP_SPARE, "pieces",
                   (strip.thickness_m, strip.width_m, strip.length_m),
                   f"{strip.count} bent and {STRIP_SPARE} spare: sawn from a board {_board(strip)}",
                   sides=1)


def _board(strip):
    """The board that a coaming's strips are sawn from, as it is sold: its wider side first."""
    ripped = (strip.count + STRIP_SPARE) * (strip.thickness_m + KERF_M)  # a saw cut to each
    thick, wide = sorted((strip.width_m + MILL_M, ripped))
    return f"{both(wide)} wide, {both(thick)} thick, {both(strip.length_m)} long"


def coating_on_kg(boat, cloth):
    """Of coating on a boat's Skin when it is dry, as its weight is reckoned."""
    return cloth.area_m2 * boat.design.skin.coating_kgpm2


def _covering(boat, cloth):
    design = boat.design
    yield Item("skin", f"cloth, {both_cloth(design.skin.fabric_kgpm2)}: width",
               cloth.cloth_m, "m", (cloth.cloth_width_m,),
               f"{both(PULL_M)} over the girth, {both(ENDS_M)} beyond each end{_wider(cloth)}")
    coating = coating_on_kg(boat, cloth) * (1.0 + COATING_SPARE_SHARE)
    kg, litres = most_wet(coating)
    yield Item("skin", "coating, as it dries", coating, "kg", (),
               f"{more_text(COATING_SPARE_SHARE)} than stays on the boat; wet to {kg:.2f} kg, "
               f"{both_volume(litres)}: Skin")


def _wider(cloth):
    """What a wider cloth would save, where one length does not go round."""
    if cloth.wider_m is None:
        return ""
    fewer = cloth.lengths - 1
    return (f"; {cloth.lengths} lengths side by side: cloth {both(cloth.wider_m)} wide or more "
            f"takes {fewer}, {both_far(cloth.cloth_m * fewer / cloth.lengths, 2)} instead of "
            f"{both_far(cloth.cloth_m, 2)}")


def _oil(boat, sticks):
    wood = sum(2.0 * (one.stringer.width_m + one.stringer.depth_m) * one.length_m
               * one.stringer.count for one in sticks)
    wood += 2.0 * sum(_rectangles_m2(boat))
    yield Item("finish", "oil, two coats, dry before lashing: it softens the cord's wax",
               wood / OIL_M2_PER_L * (1.0 + OIL_SPARE_SHARE), "l", (), more_text(OIL_SPARE_SHARE))


def line_points(boat):
    return 2 * len(boat.design.frames)


def _ties(boat, cord, sticks):
    yield waxed_cord(cord.count, "the sticks", cord.cord_m)
    gunwale = next(one for one in sticks if one.stringer.role == "gunwale")
    ends = LINE_ENDS * (LINE_KNOT_M + LOOP_OUT_M) + DECK_LINE_SPARE_M
    yield Item("lashing", DECK_LINE, 2.0 * gunwale.length_m + ends, "m", (),
               f"both gunwales, {both_far(ends, 1)} for loops and knots")
    yield Item("lashing", f"cord {cord_text(LOOP_CORD_MM)} for the end loops", 2.0 * LOOP_M, "m",
               (), f"two of {both_far(LOOP_M, 1)}; each lifts the boat")
    yield Item("fittings", "loop of leather or webbing, points of the deck line: width, length",
               line_points(boat), "pieces", POINT_M,
               "one a side at every frame, sewn over the gunwale; offcuts will do; our judgement")
