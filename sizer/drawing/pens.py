"""The pens: how each kind of stroke looks on the page, in the theme's colours, and on paper.

Work pens stand for work on wood: "cut" is sawn through, "mark" is drawn or scribed, "drill" is
bored, "text" is written, "number" is a part's own on a sheet of parts; "guide" is for the eye only,
and so is "stick", what lies in a notch or on a stem, which is measured to.
All others are of pictures. Widths and dashes are millimetres of the picture, which the page
stretches to its own width.
"""

from dataclasses import dataclass

WORK_PENS = ("cut", "mark", "drill", "text")


@dataclass(frozen=True)
class Pen:
    """How one kind of stroke is drawn."""

    colour: str  # of the page's theme: the CSS variable --sz- and this
    width: float = 0.0  # on the page; 0 draws no line
    paper_mm: float = 0.15  # of the line on paper, where there is one
    fill: float = 0.0  # opacity of what it encloses
    strength: float = 1.0  # opacity of the line
    dashes: tuple[float, ...] = ()
    paper: str = "#000"  # colour on paper
    flat: bool = False  # its line's ends, where others are round


GUIDE = Pen("ink", 0.8, strength=0.55, dashes=(3.0, 2.0), paper="#666")
PENS = {  # those drawn first, lying under the others, stand first
    "water": Pen("water", fill=0.16), "wet": Pen("water", fill=0.24),
    "zone-fail": Pen("fail", fill=0.55), "zone-caution": Pen("caution", fill=0.4),
    "zone-pass": Pen("pass", fill=0.45),
    "waterline": Pen("water", 1.1, 0.2),
    "pencil": Pen("pencil", 1.1, paper="#999"),
    "wood": Pen("wood", 0.9, paper="#666"),
    "dot": Pen("wood", 4.0, 0.8, paper="#666"),  # a stick seen end on
    "centre": Pen("ink", 0.7, strength=0.55, dashes=(9.0, 3.0, 2.0, 3.0), paper="#666"),
    "hidden-body": Pen("body", 0.9, fill=0.07, dashes=(4.0, 3.0), paper="#666"),
    "body-fill": Pen("body", fill=0.1),
    "body": Pen("body", 1.2, fill=0.1, paper="#666"),
    "body-line": Pen("body", 1.2, paper="#666"),
    "paddle": Pen("wood", 1.4, 0.25, paper="#666"),
    "edge": Pen("wood", 2.5, 0.5),  # a board seen on edge
    "block": Pen("wood", 0.9, fill=0.3),
    "bar": Pen("body", 3.5, 0.7, flat=True),
    "thin": Pen("ink", 0.8),
    "fine": Pen("ink", 1.2, 0.25),
    "ink": Pen("ink", 1.5, 0.35),
    "cut": Pen("ink", 1.5, 0.35), "mark": Pen("ink", 0.8, 0.2), "drill": Pen("ink", 1.5, 0.3),
    "text": Pen("ink"), "number": Pen("ink"),
    "guide": GUIDE, "stick": GUIDE,
    "extension": Pen("ink", 0.6, strength=0.5, paper="#666"),
    "dimension": Pen("ink", 0.8), "scale": Pen("ink", 0.8),
    "short": Pen("fail", 1.6),
    "odds-met": Pen("pass", 1.2, 0.3, fill=0.75), "odds-missed": Pen("fail", 1.2, 0.3),
    "here": Pen("ink", 2.0, 0.4),
    "shape-pass": Pen("pass", 1.6), "shape-caution": Pen("caution", 1.6),
    "shape-fail": Pen("fail", 1.6),
    "grid": Pen("pencil", 0.5, paper="#bbb"),
    **{f"size-{number}": Pen(colour, 1.5, 0.3, paper=paper)
       for number, (colour, paper) in enumerate((
           ("water", "#1f3f66"), ("wood", "#b8541a"), ("body", "#2f7d5b"), ("ink", "#7a3b78"),
           ("pencil", "#8a7410"), ("caution", "#4d4d4d")), start=1)},
    "left-out": Pen("fail", 1.0, 0.3),
    "size": Pen("ink"),  # the words of a dimension
}


def page_css():
    """The rules that give every pen its look on the page, in the theme's colour variables."""
    rules = [".sz-drawing { stroke-linejoin: round; stroke-linecap: round; }",
             ".sz-drawing text[class] { fill: var(--sz-ink); stroke: none; }",
             ".sz-drawing text.sz-rim { stroke: var(--sz-paper); stroke-width: 4; "
             "paint-order: stroke; }"]
    for name, pen in PENS.items():
        colour = f"var(--sz-{pen.colour})"
        filled = f"{colour}; fill-opacity: {pen.fill:g}" if pen.fill else "none"
        line = f"{colour}; stroke-width: {pen.width:g}" if pen.width else "none"
        if pen.strength < 1.0:
            line += f"; stroke-opacity: {pen.strength:g}"
        if pen.flat:
            line += "; stroke-linecap: butt"
        if pen.dashes:
            line += f"; stroke-dasharray: {' '.join(f'{dash:g}' for dash in pen.dashes)}"
        rules.append(f".sz-drawing .sz-{name} {{ fill: {filled}; stroke: {line}; }}")
    return "\n".join(rules)
