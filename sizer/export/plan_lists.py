"""Sheets of a plan set that list: the construction drawing with its parts, what to buy."""

from itertools import zip_longest

from sizer.drawing.told import BOTH_UNITS
from sizer.export.fit_words import capital
from sizer.export.launch_sheet import trial_bags_words
from sizer.export.pages import Picture, air, heading, table, whole, words
from sizer.export.pdf_canvas import BOLD
from sizer.scenes.construction import construction
from sizer.scenes.sheets_to_scale import timber_to_scale
from sizer.shop.bag_ties import not_sold_words
from sizer.shop.items import SHEETS, rough_text
from sizer.shop.said import both_far
from sizer.shop.seat_parts import HARD_WOOD
from sizer.shop.sundries import NONE, PADDLER, PROTECTION
from sizer.shop.tools import TOOLS, USED_UP
from sizer.shop.trade_sizes import section_text
from sizer.units import MM_PER_M, tape_text

TABLE_PT, BUYING_PT = 8.0, 7.5
BUYING_PAD_PT = 0.4  # over and under the letters of that table; our drawing
TIMBER_SCALES = (15, 20, 25, 30, 40)
UNDER_MM = 0.4  # under the timber's pictures, so that no words sit on their lines; our drawing
TIMBER_MM = 2.0  # height of the letters on lengths of timber; our drawing
BALLOON_MM = 2.4  # height of a balloon's figures; our drawing


def construction_sheet(on, bench, parts):
    """The boat with its numbered parts."""
    on = on.titled("Construction")
    one_to, picture = on.pictured(construction, on.boat, bench, parts, less_mm=24.0,
                                  letters_mm=BALLOON_MM)
    return on.sheet(
        picture,
        words(f"Scale 1 : {one_to}. Above: from the side, bow on the left. Below: from above, "
              "starboard up; dashed: the float bags. Numbers as in the parts list, on the stick "
              "cards, and on the kit; without a balloon: " + ", ".join(
                  f"{one.number} {one.name}" for one in parts if one.at_m is None) + ".", 9.0))


def parts_sheet(on, parts):
    rows = [(str(one.number), one.name, str(one.count), on.read(one.stock),
             _sizes(one.size_m, lambda mm: f"{mm:.0f}"), _sizes(one.size_m, tape_text),
             one.sheet) for one in parts]
    return on.titled("Parts").sheet(
        words("Every part that has a number. Sizes are finished sizes, over all: a stick's length, "
              "else width or height first. Cut sticks longer, as their cards tell. Heel mat, caps "
              "and pads of foam, bags' rings, cords, elastic, pins and screws: What to buy."),
        table(("no.", "part", "off", "of", "size, mm", "feet, inches", "drawn on"), rows,
              (1.2, 4.6, 1.1, 10.0, 3.0, 5.6, 5.0), on.inner_mm, TABLE_PT, right_pt=3.0))


def buying_sheet(on, bench):
    groups, sawn = {}, []
    for one in bench.materials.items:
        (sawn if one.sawn else groups.setdefault(one.group, [])).append(one)
    tools = sorted((f"{capital(one.allowance)}: {one.what}." for one in groups.pop(TOOLS, [])),
                   key=len)
    out = "; ".join(f"{one.what}{_sized(one)} ({one.allowance})"
                    for one in groups.pop(PADDLER, []))
    used, worn = ("; ".join(f"{_bought(one)}: {one.what}" + (
        f" ({one.allowance})" if one.allowance != NONE else "") for one in groups.pop(group, []))
        for group in (USED_UP, PROTECTION))
    rows = [(group, one.what, _bought(one),
             _sizes(one.size_m, lambda mm: f"{mm:.4g}"), _inches(one), one.allowance)
            for group, items in groups.items() for one in items]
    return on.titled("What to buy").sheet(
        words("Worked out from this boat, for sheets, timber and cloth as the cover tells: for "
              "other stock than told there have it made again, the cutting differs. The "
              "allowance stands beside. "
              "Sizes in the order that the words name them; in inches sticks' sides never over, "
              "plywood as it is sold.", BUYING_PT),
        table(("for", "what", "how much", "size, mm", "feet, inches", "allowance"), rows,
              (2.6, 7.2, 3.7, 2.4, 3.8, 9.3), on.inner_mm, BUYING_PT, BUYING_PAD_PT, right_pt=3.0),
        words(_stock_words(bench.materials.items), BUYING_PT),
        words(not_sold_words(bench.bag_ties), BUYING_PT),
        words("Not bought, sawn from the sheets: "
              f"{'; '.join(map(_sawn, sawn))}.", BUYING_PT),
        words(f"To protect whoever works: {worn}.", BUYING_PT),
        words(f"To go out with, one each: {out}.", BUYING_PT),
        words(f"Used up: {used}.", BUYING_PT),
        table(("tools, once a shop's own or borrowed", ""),
              list(zip_longest(tools[::2], tools[1::2], fillvalue="")), (1.0, 1.0), on.inner_mm,
              BUYING_PT, BUYING_PAD_PT),
        words(f"Weights for the trial of the sheet Launch: {trial_bags_words(on.job)}.", BUYING_PT),
        *_cutting(bench, on.inner_mm))


def _stock_words(items):
    """How much hard wood is bought for all that is of the rails' stock."""
    rails = next(one for one in items if one.stock_m and len(one.size_m) > 2
                 and "rail for the footbrace" in one.what)
    taken = sum(one.stock_m for one in items)
    return (f"{capital(HARD_WOOD)} of the rails' stock, {rough_text(*rails.size_m[:2])}, in all "
            f"{both_far(taken, 2)}: rails, stops, posts, cleats, with the saw's cuts.")


def _sawn(item):
    return f"{item.quantity:.0f} {item.what.removeprefix(SHEETS).strip()}{_sized(item)}"


def _sized(item):
    """The sizes of an Item in both units behind its words, where it has some."""
    return "" if not item.size_m else (f" {_sizes(item.size_m, lambda mm: f'{mm:.4g}')} mm "
                                       f"({_inches(item)})")


def _inches(item):
    return " x ".join(item.inches(tape_text, '"'))


def _bought(item):
    figure, other = (" ".join(item.bought(unit)) for unit in ("mm", "in"))
    return figure if other == figure else f"{figure} ({other})"


def _cutting(bench, inner):
    """Which piece out of which length, each section and wood in a picture, all to one scale."""
    longest = max(one.stock_m for plan in bench.materials.cutting for one in plan.lengths)
    one_to = next(one for one in TIMBER_SCALES if longest / one * MM_PER_M <= inner - 1.0)
    letters = TIMBER_MM / MM_PER_M * one_to
    yield from heading("Cutting the timber")
    yield words(f"1 : {one_to} along, {BOTH_UNITS}; 1/2: the forward one of two that a scarf "
                "joins. Crossed out: left over.", TABLE_PT)
    for plan in bench.materials.cutting:
        yield whole(words(f"{plan.wood} {section_text(plan.width_m, plan.depth_m)}",
                          TABLE_PT + 1.0, BOLD),
                    Picture(timber_to_scale(plan, letters), 1.0 / one_to), air(UNDER_MM))


def _sizes(size_m, text):
    return " x ".join(text(float(size) * MM_PER_M) for size in size_m)
