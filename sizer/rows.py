"""Many boats at once: every array of a record has them along its first axis."""

from dataclasses import fields, is_dataclass, replace
from functools import cache

import numpy as np

from sizer.compiled import compiled

PLAIN = frozenset((float, np.float64, str, bool, np.bool_, int, type(None)))  # most of a record
SHARED = {"shared": True}  # metadata of a record's field that all of many share


def one_of(many, index):
    """One of many: of every array its row, in the record and in the records that it holds."""
    return _each(many, lambda values: values[index])


def many_of(one):
    """The one as the only one of many: every array with a leading axis; plain numbers stay."""
    return _each(one, lambda values: values[None])


def stacked(records):
    """Many of like records: every number that differs among them an array (n,)."""
    first = records[0]
    if isinstance(first, (bool, str, tuple)) or all(one == first for one in records[1:]):
        return first
    if is_dataclass(first):
        return type(first)(*(stacked([getattr(one, field.name) for one in records])
                             for field in fields(first)))
    if isinstance(first, dict):
        return {key: stacked([one[key] for one in records]) for key in first}
    return np.array(records)


def side_by_side(records):
    """Many of like records, as `many_of` holds one: every array with a leading axis, every number
    with a fraction an array (n,), even where all are equal; the rest is the first one's."""
    first = records[0]
    if isinstance(first, (float, np.ndarray)):
        return np.stack(records)
    if isinstance(first, tuple):
        return tuple(side_by_side(each) for each in zip(*records, strict=True))
    if isinstance(first, dict):
        return {key: side_by_side([one[key] for one in records]) for key in first}
    if is_dataclass(first):
        return replace(first, **{
            name: side_by_side([getattr(one, name) for one in records])
            for name, own in _fields(type(first)) if own})
    return first


def joined(records):
    """Like records of several lots of many as one."""
    first = records[0]
    if isinstance(first, tuple):
        return tuple(joined(each) for each in zip(*records, strict=True))
    if is_dataclass(first):
        return type(first)(*(joined([getattr(one, field.name) for one in records])
                             for field in fields(first)))
    return np.concatenate(records) if np.ndim(first) else first


def _each(record, change):
    kind = type(record)
    if kind in PLAIN:
        return record
    if kind is np.ndarray:
        return change(record)
    if isinstance(record, tuple):
        return tuple(_each(one, change) for one in record)
    if isinstance(record, dict):
        return {key: _each(one, change) for key, one in record.items()}
    if is_dataclass(kind):  # `replace` would take twice as long
        made = object.__new__(kind)
        held, values = vars(record), vars(made)
        for name, own in _fields(kind):
            values[name] = _each(held[name], change) if own else held[name]
        return made
    return record


@cache
def _fields(kind):
    """Name of each field, and whether each of many has its own of it."""
    return tuple((one.name, not one.metadata.get("shared")) for one in fields(kind))


def along(value, x):
    """A number for each boat, made to stand against places along it; x has them in its last axis,
    or is one place for all."""
    return value if np.ndim(x) == 0 else np.asarray(value)[..., None]


def interp(x, places, values):
    """As `np.interp`, for each row its own: x (..., m), rising places and values (..., k)."""
    if np.ndim(places) == 1 and np.ndim(values) == 1:
        return np.interp(x, places, values)
    lead = np.broadcast_shapes(np.shape(x)[:-1], places.shape[:-1], values.shape[:-1])
    x, places, values = (flat(lead, one, 1) for one in (np.asarray(x, float), places, values))
    found = np.empty(x.shape)
    compiled(_interp)(x, places, values, found)
    return found.reshape(*lead, x.shape[-1])


def flat(lead, values, axes):
    """Values with their last axes kept and all before them, broadcast to `lead`, as one axis: the
    rows of a compiled loop, which only reads them. A copy, where they are not so already or may not
    be written, since a loop is compiled anew for such arrays."""
    kept = values.shape[values.ndim - axes:]
    if values.shape != (*lead, *kept) or not (values.flags.c_contiguous
                                              and values.flags.writeable):
        rows = np.empty((*lead, *kept), values.dtype)
        rows[...] = values
        values = rows
    return values.reshape(-1, *kept)


def _interp(x, places, values, found):
    """Fills `found`; each array has as many rows."""
    rows, last = places.shape[0], places.shape[1] - 1
    for row in range(rows):
        for index in range(x.shape[1]):
            at, passed = x[row, index], 0
            for place in places[row]:
                passed += place <= at
            low = min(max(passed - 1, 0), last - 1)
            start, step = places[row, low], places[row, low + 1] - places[row, low]
            share = (at - start) / (step if step > 0.0 else 1.0)
            if share < 0.0:
                share = 0.0
            if share > 1.0 or passed > last:
                share = 1.0
            first, end = values[row, low], values[row, low + 1]
            found[row, index] = end if share == 1.0 else first + (end - first) * share
