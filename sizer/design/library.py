"""Finds base designs: the shipped ones by name, any other by path."""

from importlib import resources
from pathlib import Path

from sizer.design.read import MOST_BYTES, read_design
from sizer.errors import BadInput, Fault, file_trouble


def shipped_folder():
    """Folder of the shipped base designs, in an installed package or in a checkout."""
    installed = Path(str(resources.files("sizer"))) / "baselines"
    return installed if installed.is_dir() else installed.parent.parent / "baselines"


def shipped_names():
    """Names of the shipped base designs, in order."""
    return tuple(sorted(path.stem for path in shipped_folder().glob("*.toml")))


def read_base(name_or_path):
    """The base design of this shipped name, or at this path; BadInput where there is none, it
    cannot be read, or it is at fault."""
    path = shipped_folder() / f"{name_or_path}.toml"
    if name_or_path not in shipped_names():
        path = Path(name_or_path)
        if path.suffix != ".toml":
            raise BadInput([Fault("base", f"{name_or_path!r:.80}",
                                  "a shipped base (" + ", ".join(shipped_names())
                                  + ") or the path of a .toml design file")])
    return read_design(_bytes(path), path.name)


def shipped_text(name):
    return (shipped_folder() / f"{name}.toml").read_text("utf-8")


def _bytes(path):
    try:
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:  # ValueError: a path that no system has
        why = (file_trouble(error) if isinstance(error, OSError) else
               "no path on this system: name one that is there")
        raise BadInput([Fault("base", f"{str(path)!r:.80}", f"cannot be read: {why}")]) from error
