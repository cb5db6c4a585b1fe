"""Drawings as DXF R2010 in millimetres, one layer for each kind of work, words below the piece.

The file tells machines its unit in the header, and people its imprint among the file's properties.
Notes and cautions, the imprint, and what stands across a boat that does not pass are on layers of
their own that no machine follows. Guide strokes, which are for the eye only, are left out. The same
drawing and imprint give the same bytes.
"""

import io
import math

import ezdxf
from ezdxf import units
from ezdxf.enums import TextEntityAlignment

from sizer.drawing.pens import WORK_PENS
from sizer.drawing.record import LETTER_WIDTH, Circle, Path
from sizer.stamp import REFUSED
from sizer.units import MM_PER_M

ezdxf.options.write_fixed_meta_data_for_testing = True  # no clock in the file, no random names

NOTES, TITLE, ACROSS = "notes", "title", "does-not-pass"  # layers beside those of the work
COLOURS = {  # DXF colour numbers: 1 red, 6 magenta, 3 green, 4 cyan, 2 yellow, 5 blue, 8 grey
    "cut": 1, "mark": 5, "drill": 3, "text": 8, "cut-outside": 1, "cut-inside": 6,
    "holes": 3, "part-numbers": 4, "tabs": 2, "marks": 5, "words": 8, "sheet": 8,
    NOTES: 8, TITLE: 8, ACROSS: 6}
QUIET = (NOTES, TITLE, ACROSS, "sheet")  # looked at and never cut, engraved or plotted
PROPERTY = "Job"  # of the file, that holds the imprint's line
ACROSS_SHARE = 0.7  # of the piece's diagonal that the letters across it take; our drawing
ALIGNED = {"start": TextEntityAlignment.MIDDLE_LEFT, "middle": TextEntityAlignment.MIDDLE_CENTER,
           "end": TextEntityAlignment.MIDDLE_RIGHT}
WORDS_MM = 5.0  # letters of the notes and cautions below; our drawing
WORDS_APART = 1.8  # of their lines, over the letters' height
WORDS_BELOW_MM = 20.0  # of the first of them under the piece; our drawing


def dxf_bytes(drawing, imprint):
    """One Drawing as a DXF file, its Imprint, name, notes and cautions below it."""
    strokes = [(stroke.pen, stroke) for stroke in drawing.on(*WORK_PENS).strokes]
    return layered_dxf(drawing, strokes, WORK_PENS, imprint)


def layered_dxf(drawing, strokes, layers, imprint):
    """Strokes, (layer, stroke) each, as a DXF file with an Imprint, and a Drawing's name, notes and
    cautions, below that drawing's place; `layers` are all there are, used or not."""
    document = ezdxf.new("R2010", units=units.MM)
    for layer in (*layers, NOTES, TITLE, *((ACROSS,) if imprint.refusal else ())):
        document.layers.add(layer, color=COLOURS[layer], plot=layer not in QUIET)
    for key, words in ((PROPERTY, imprint.line), ("Status", imprint.refusal)):
        if words:
            document.header.custom_vars.append(key, words)
    space = document.modelspace()
    for layer, stroke in strokes:
        _add(space, stroke, layer)
    if imprint.refusal:
        _add_across(space, drawing)
    _add_words(space, drawing, imprint)
    for kind in sorted(document.entitydb.dxf_types_in_use()):  # else in the order of a set
        document.classes.add_class(kind)
    stream = io.StringIO(newline="\n")
    document.write(stream)
    return stream.getvalue().encode(document.output_encoding)


def _add(space, stroke, layer):
    on = {"layer": layer}
    if isinstance(stroke, Path):
        space.add_lwpolyline((stroke.points_m * MM_PER_M).tolist(), close=stroke.closed,
                             dxfattribs=on)
    elif isinstance(stroke, Circle):
        space.add_circle(_mm(stroke.centre_m), stroke.radius_m * MM_PER_M, dxfattribs=on)
    else:
        text = space.add_text(stroke.text, height=stroke.height_m * MM_PER_M,
                              rotation=stroke.angle_deg, dxfattribs=on)
        text.set_placement(_mm(stroke.at_m), align=ALIGNED[stroke.anchor])


def _add_across(space, drawing):
    """That the boat does not pass, from corner to corner of the piece."""
    left, bottom, right, top = (side * MM_PER_M for side in drawing.box_m)
    wide, high = right - left, top - bottom
    height = ACROSS_SHARE * math.hypot(wide, high) / (LETTER_WIDTH * len(REFUSED))
    text = space.add_text(REFUSED, height=height, rotation=math.degrees(math.atan2(high, wide)),
                          dxfattribs={"layer": ACROSS})
    text.set_placement((left + 0.5 * wide, bottom + 0.5 * high), align=ALIGNED["middle"])


def _add_words(space, drawing, imprint):
    left, bottom, _, _ = (side * MM_PER_M for side in drawing.box_m)
    lines = [*([(ACROSS, imprint.refusal)] if imprint.refusal else []), (TITLE, imprint.line),
             (NOTES, f"{drawing.name} - millimetres, true size"),
             *((NOTES, note) for note in drawing.notes),
             *((NOTES, f"CAUTION: {caution}") for caution in imprint.cautions)]
    for row, (layer, line) in enumerate(lines):
        text = space.add_text(line, height=WORDS_MM, dxfattribs={"layer": layer})
        text.set_placement((left, bottom - WORDS_BELOW_MM - row * WORDS_MM * WORDS_APART))


def _mm(point_m):
    return point_m[0] * MM_PER_M, point_m[1] * MM_PER_M
