"""Drawings as DXF R2010 in millimetres, one layer for each kind of work, words below the piece.

The file tells machines its unit in the header. Guide strokes, which are for the eye only, are left
out. Two files of one drawing are the same bytes: no moment of writing is in them, no drawn number.
"""

import io

import ezdxf
from ezdxf import units
from ezdxf.enums import TextEntityAlignment

from sizer.drawing.pens import WORK_PENS
from sizer.drawing.record import Circle, Path, side_by_side
from sizer.units import MM_PER_M

COLOURS = {"cut": 1, "mark": 5, "drill": 3, "text": 8}  # DXF colour numbers: red, blue, green, grey
ALIGNED = {"start": TextEntityAlignment.MIDDLE_LEFT, "middle": TextEntityAlignment.MIDDLE_CENTER,
           "end": TextEntityAlignment.MIDDLE_RIGHT}
WORDS_MM = 5.0  # letters of the notes and cautions below; our drawing
WORDS_APART = 1.8  # of their lines, over the letters' height
WORDS_BELOW_MM = 20.0  # of the first of them under the piece; our drawing
BETWEEN_M = 0.030  # pieces side by side in one file; our drawing
ezdxf.options.write_fixed_meta_data_for_testing = True  # its way to leave dates and GUIDs out


def dxf_bytes(drawing, cautions):
    """One drawing as a DXF file, its name, notes and the cautions below it on the layer "text".

    Parameters
    ----------
    drawing : sizer.drawing.record.Drawing
    cautions : texts
    """
    document = ezdxf.new("R2010", units=units.MM)
    for layer in WORK_PENS:
        document.layers.add(layer, color=COLOURS[layer])
    space = document.modelspace()
    for stroke in drawing.on(*WORK_PENS).strokes:
        _add(space, stroke)
    _add_words(space, drawing, cautions)
    for kind in sorted(document.entitydb.dxf_types_in_use()):  # else in the order of a set
        document.classes.add_class(kind)
    stream = io.StringIO(newline="\n")
    document.write(stream)
    return stream.getvalue().encode(document.output_encoding)


def all_in_one_dxf(name, drawings, cautions):
    """Several drawings in a row in one DXF file."""
    bare = [one.on(*WORK_PENS) for one in drawings]
    return dxf_bytes(side_by_side(name, bare, BETWEEN_M), cautions)


def _add(space, stroke):
    on = {"layer": stroke.pen}
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
        text = space.add_text(line, height=WORDS_MM, dxfattribs={"layer": "text"})
        text.set_placement((left, bottom - WORDS_BELOW_MM - row * WORDS_MM * WORDS_APART))


def _mm(point_m):
    return point_m[0] * MM_PER_M, point_m[1] * MM_PER_M
