"""Writes a package into the folder of --out: all of it, or nothing.

The files go into a hidden folder beside the wanted one, which takes its place only when complete;
an older folder stands until then. Files beside those of a package in the older folder are kept; its
folder of frames is replaced whole, so that no frame of another boat stays among the new ones. A
package of another code or revision, whose files have other names, is therefore not written over.
"""

import os
import shutil
import tempfile
from pathlib import Path

from sizer.errors import BadInput, Fault, file_trouble
from sizer.export.range_package import ANSWER
from sizer.export.read_me import READ_ME

HIDDEN = ".sizer-"  # how the name of a package begins that is not whole yet


def checked_out(text, force):
    """The folder to write, as an absolute path. Raises BadInput, where it cannot be one, or is not
    empty and `force` is not said."""
    out = Path(os.path.realpath(text))  # unlike Path.resolve, it bears a loop of links
    try:
        used = [Path.cwd(), Path(os.path.realpath(os.path.expanduser("~")))]
        if not text.strip() or any(out in (one, *one.parents) for one in used):
            raise _refused(text, "is the folder you stand in, your home, or above: name a new one")
        if not out.parent.is_dir():
            raise _refused(text, f"there is no folder {out.parent}: make it first, or name a new "
                           "folder in one that is there")
        if out.exists() and not out.is_dir():
            raise _refused(text, "is a file: name a new folder")
        if out.is_dir() and not force and any(out.iterdir()):
            raise _refused(text, "is not empty: name a new folder, or say --force to replace an "
                           "older package there")
        os.rmdir(tempfile.mkdtemp(prefix=HIDDEN, dir=out.parent))  # before the work, not after it
    except OSError as error:
        raise unwritten(text, error) from error
    return out


def out_file(text, place, _given):
    """A new file as a reader of an option: what cannot be written is refused before the work."""
    path = Path(text)
    if path.exists():
        raise _refused(text, "is there already: name a new file", place)
    try:
        with tempfile.TemporaryFile(dir=path.absolute().parent):
            pass
    except OSError as error:
        raise unwritten(text, error, place) from error
    return text


def out_folder(text, _place, given):
    """`checked_out` as a reader of the option --out, beside --force."""
    return checked_out(text, given.force)


def write_folder(files, out):
    """Writes a package, {name: bytes}, as the folder of `checked_out`; an older one is replaced
    once the new one is complete. A name may hold one folder, as in "frames/F1.dxf". Raises
    BadInput, where a file cannot be written or the folder holds a package of another code or
    revision; then nothing has changed."""
    _refuse_another(files, out)
    try:
        beside = Path(tempfile.mkdtemp(prefix=HIDDEN, dir=out.parent))
    except OSError as error:
        raise unwritten(out, error) from error
    old = beside / "old"
    try:
        new = beside / "new"
        new.mkdir()
        _write(files, new)
        if out.is_dir():
            _keep_others(out, new, files)
            out.rename(old)
        new.rename(out)
    except OSError as error:
        raise unwritten(out, error) from error
    finally:
        if old.exists() and not out.exists():
            old.rename(out)
        shutil.rmtree(beside, ignore_errors=True)  # whatever happened, the result stands already


def write_new(path, data, place="--out", mode=0o666):
    """Writes the bytes of a file that is not there yet, whole or not at all, or raises BadInput.
    The mode is that of a new file, such as 0o600 for its owner only."""
    try:
        file = os.fdopen(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, mode), "wb")
    except FileExistsError as error:
        raise _refused(path, "is there already: name a new file", place) from error
    except OSError as error:
        raise unwritten(path, error, place) from error
    try:
        with file:
            file.write(data)
    except OSError as error:
        os.unlink(path)
        raise unwritten(path, error, place) from error


def _refuse_another(files, out):
    """Told by the one file that every package has, whatever its lead."""
    ends = [end for end in (READ_ME, ANSWER) if any(name.endswith(end) for name in files)]
    there = [path.name for path in out.iterdir()] if out.is_dir() else []
    for name in sorted(there):
        if name not in files and name.endswith(tuple(ends)):
            raise _refused(out, f"holds the package of {name}, and two packages must not mix: name "
                           "another folder")


def _write(files, folder):
    for name, data in files.items():
        path = folder / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(data)


def _keep_others(old, new, files):
    """Copies what in the older folder is no part of a package into the new one."""
    ours = {name.split("/")[0] for name in files}
    for path in old.iterdir():
        if path.name in ours:
            continue
        if path.is_dir() and not path.is_symlink():
            shutil.copytree(path, new / path.name, symlinks=True)
        else:
            shutil.copy2(path, new / path.name, follow_symlinks=False)


def _refused(text, allowed, place="--out"):
    return BadInput([Fault(place, str(text), allowed)])


def unwritten(text, error, place="--out"):
    """The BadInput of what cannot be written, for its OSError."""
    return BadInput([Fault(place, str(text), f"cannot be written: {file_trouble(error)}; nothing "
                           "was changed")])
