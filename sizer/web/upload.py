"""Reads what a builder uploads: a design file, or a table of offsets for a given base."""

from sizer.design.offsets import with_offsets
from sizer.design.read import plain_text, read_design
from sizer.design.write import design_toml
from sizer.errors import BadInput, Fault
from sizer.hull.lines import fair_lines

KINDS = ("toml", "csv")


def read_upload(name, data, base, base_text=""):
    """The text of a design file and its BaseDesign.

    Parameters
    ----------
    name : str, the file's own; its ending says what it is
    data : bytes
    base : BaseDesign, whose frames a table of offsets is for
    base_text : str, of the base's file, whose comments are kept then

    Raises
    ------
    BadInput, with every fault, those of crossing curves included.
    """
    kind = name.lower().rpartition(".")[2]
    if kind not in KINDS:
        raise BadInput([Fault(name, "another kind of file",
                              "a design file (.toml) or a table of offsets (.csv)")])
    if kind == "csv":
        design = with_offsets(base, data, name)
        text = design_toml(design, base_text)
    else:
        text = plain_text(data, name, "a design file")
        design = read_design(text, name)
    fair_lines(design)
    return text, design
