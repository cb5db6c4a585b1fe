"""What a builder uploads: the box for it, and a design file or a table of offsets read."""

from html import escape

import streamlit as st

from sizer.design.offsets import with_offsets
from sizer.design.read import plain_text, read_design
from sizer.design.write import design_toml
from sizer.errors import BadInput, Fault
from sizer.hull.lines import fair_lines
from sizer.web.look import put
from sizer.web.state import read_fields, said, view

KINDS = ("toml", "csv")
MOST_UPLOAD_MB = 2


def put_upload(label, what, kinds, most_mb, take, **more):
    """A box for a file, emptied once its file is taken, with what is wrong with one that is not;
    `take(name, bytes)` raises BadInput and changes nothing where the file is at fault, and `more`
    is of st.file_uploader."""
    key = f"{what}_file:{view().get(f'{what}_taken', 0)}"
    st.file_uploader(label, type=list(kinds), max_upload_size=most_mb, key=key,
                     on_change=_given, args=(what, key, take), **more)
    faults = view().get(f"{what}_faults", ())
    if faults:
        put('<div class="sz-fault" role="alert">✕ This file was not used, and nothing was '
            "changed:<br>" + "<br>".join(f"✕ {escape(fault)}" for fault in faults) + "</div>")


def _given(what, key, take):
    read_fields()
    given = said().get(key)
    view()[f"{what}_faults"] = ()
    if given is None:
        return
    try:
        take(given.name, given.getvalue())
    except BadInput as error:
        view()[f"{what}_faults"] = tuple(str(fault) for fault in error.faults)
    else:
        view()[f"{what}_taken"] = view().get(f"{what}_taken", 0) + 1


def read_upload(name, data, base, base_text=""):
    """The text of a design file, or of a table of offsets for the frames of the BaseDesign `base`,
    and its BaseDesign; its name's ending says what it is, and the comments of `base_text` are kept.
    Raises BadInput with every fault, those of crossing curves included."""
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
