"""Drawings as DXF R2010 in millimetres, one layer for each kind of work, words below the piece.

The file tells machines its unit in the header. Notes and cautions are on a layer of their own that
no machine follows. Guide strokes, which are for the eye only, are left out. Two files of one
drawing hold the same geometry but not the same bytes: DXF carries dates.
"""

import io

import ezdxf
from ezdxf import units
from ezdxf.enums import TextEntityAlignment

from sizer.drawing.pens import WORK_PENS
from sizer.drawing.record import Circle, Path
from sizer.units import MM_PER_M

COLOURS = {  # DXF colour numbers: 1 red, 6 magenta, 3 green, 4 cyan, 2 yellow, 5 blue, 8 grey
    "cut": 1, "mark": 5, "drill": 3, "text": 8, "notes": 8, "cut-outside": 1, "cut-inside": 6,
    "holes": 3, "part-numbers": 4, "tabs": 2, "marks": 5, "words": 8, "sheet": 8}
QUIET = ("notes", "sheet")  # layers that are looked at and never cut, engraved or plotted
ALIGNED = {"start": TextEntityAlignment.MIDDLE_LEFT, "middle": TextEntityAlignment.MIDDLE_CENTER,
           "end": TextEntityAlignment.MIDDLE_RIGHT}
WORDS_MM = 5.0  # letters of the notes and cautions below; our drawing
WORDS_APART = 1.8  # of their lines, over the letters' height
WORDS_BELOW_MM = 20.0  # of the first of them under the piece; our drawing


def dxf_bytes(drawing, cautions):
    """One drawing as a DXF file, its name, notes and the cautions below it on the layer "notes".

    Parameters
    ----------
    drawing : sizer.drawing.record.Drawing
    cautions : texts
    """
    strokes = [(stroke.pen, stroke) for stroke in drawing.on(*WORK_PENS).strokes]
    return layered_dxf(drawing, strokes, WORK_PENS, cautions)


def layered_dxf(drawing, strokes, layers, cautions):
    """Strokes on layers as a DXF file, with a drawing's name, notes and the cautions below it.

    Parameters
    ----------
    drawing : Drawing, for its place, name and notes
    strokes : (layer, stroke) each
    layers : names of all layers, used or not; "notes" comes of itself
    cautions : texts
    """
    document = ezdxf.new("R2010", units=units.MM)
    for layer in (*layers, "notes"):
        document.layers.add(layer, color=COLOURS[layer], plot=layer not in QUIET)
    space = document.modelspace()
    for layer, stroke in strokes:
        _add(space, stroke, layer)
    _add_words(space, drawing, cautions)
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


def _add_words(space, drawing, cautions):
    left, bottom, _, _ = (side * MM_PER_M for side in drawing.box_m)
    lines = [f"{drawing.name} - millimetres, true size", *drawing.notes,
             *(f"CAUTION: {caution}" for caution in cautions)]
    for row, line in enumerate(lines):
        text = space.add_text(line, height=WORDS_MM, dxfattribs={"layer": "notes"})
        text.set_placement((left, bottom - WORDS_BELOW_MM - row * WORDS_MM * WORDS_APART))


def _mm(point_m):
    return point_m[0] * MM_PER_M, point_m[1] * MM_PER_M
