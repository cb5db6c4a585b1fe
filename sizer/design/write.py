"""Writes a base design back as a design file, format 2."""

from sizer.border import DECIMALS, table_of
from sizer.design.records import StringerEnd
from sizer.design.schema import FORMAT, DesignFile
from sizer.design.toml import toml_like, toml_text
from sizer.units import MM_PER_M


def design_toml(design, like=""):
    """The text of a design file that reads back as the same BaseDesign.

    `like` is the text of the file that the design came from: its comments and order are kept.
    """
    table = file_of(design).model_dump()
    return toml_like(like, table) if like else toml_text(table)


def file_of(design):
    """The DesignFile, in mm, of a BaseDesign."""
    return DesignFile.model_validate(
        {"format": FORMAT} | table_of(design, {StringerEnd: _end}))


def _end(end):
    if end.x_m is None:
        return end.kind
    place = {"x_mm": round(end.x_m * MM_PER_M, DECIMALS)}
    return {"into": end.into} | place if end.kind == "into" else place
