"""Lists of people, as CSV or as JSON lines, read row by row: each a person to fit or a bad row.

A column may be headed in another unit, as `weight_lb` or `stature_in`: its figures are converted.

A row's number is its line in the file, the header's line counted, as editors and spreadsheets show
it. Nothing is mended in silence: what cannot be meant becomes a BadRow with every reason.
"""

import csv
import io
import re
from contextlib import suppress
from dataclasses import dataclass
from functools import cache

from sizer.as_typed import parse_length_mm, parse_mass_kg
from sizer.border import nearest, of_other_unit, typed_json, unknown_keys
from sizer.crowd.plausible import odd_measures, swapped
from sizer.design.library import shipped_names
from sizer.errors import BadInput, Fault
from sizer.fit.request import read_request
from sizer.fit.uses import USES
from sizer.paddler.measures import RANGES, REQUIRED, Measured, read_paddler

LABELS = ("id", "name")
TEXTS = ("hip_measured", "use", "base")
COLUMNS = (*LABELS, *RANGES, "gear_kg", *TEXTS)
OWN = ("gear_kg", "use", "base")  # of a row, which a range for all cannot follow
OTHER_UNITS_SAID = "weight_lb, stature_in, hip_width_in (or cm, m, ft, st)"
COLUMNS_SAID = (f"Columns: {', '.join(REQUIRED)}; if you like, "
                f"{', '.join(one for one in COLUMNS if one not in REQUIRED)}. In other units, head "
                f"them so: {OTHER_UNITS_SAID}.")
MOST_LINE_BYTES = 20_000  # a person is a few hundred bytes; our judgement
LONGEST_LABEL = 80
_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)", re.ASCII)


@dataclass(frozen=True)
class PersonRow:
    number: int  # line in the file
    label: str  # id and name, "" without
    given: dict  # `paddler`, and `gear_kg`, `use`, `base` where given: part of a request
    cautions: tuple[str, ...]  # measures that hardly belong to one body


@dataclass(frozen=True)
class BadRow:
    number: int
    label: str
    reasons: tuple[str, ...]  # every one


def request_of(row, trip):
    """The request of a PersonRow on a Trip, a JSON-like dict; the row's own base and use count."""
    water = {"kind": trip.water.kind, "temperature_c": trip.water.temperature_c}
    return {"base": trip.base, "use": trip.use, "water": water} | row.given


def text_lines(file):
    """Lines of a binary file as text, without loading it whole; strange bytes become U+FFFD.

    A line ends as any system or old spreadsheet ends it. One over MOST_LINE_BYTES is cut there,
    which `read_people` refuses.
    """
    text = io.TextIOWrapper(file, "utf-8-sig", "replace", newline=None)
    try:
        while line := text.readline(MOST_LINE_BYTES + 1):
            while len(line) > MOST_LINE_BYTES and not line.endswith("\n"):
                rest = text.readline(MOST_LINE_BYTES)
                if not rest or rest.endswith("\n"):
                    break
            yield line
    finally:
        with suppress(ValueError):  # its owner has closed it already
            text.detach()  # and else it stays its owner's


def read_people(lines, kind):
    """People of a list, one by one.

    Parameters
    ----------
    lines : iterable of str; nothing is kept, so a file of any length will do
    kind : "csv" (commas, or semicolons or tabs, decimal comma beside those) or "jsonl"

    Yields
    ------
    PersonRow or BadRow; empty lines and, in CSV, lines that begin with # are passed over.

    Raises
    ------
    BadInput at "people", where the CSV header is missing, or has unknown, repeated or missing
    columns.
    """
    numbered = ((number, line.lstrip("\ufeff") if number == 1 else line)
                for number, line in enumerate(lines, start=1))
    numbered = ((number, line) for number, line in numbered if line.strip())
    return _read_csv(numbered) if kind == "csv" else _read_jsonl(numbered)


def _read_csv(numbered):
    names = None
    for number, line in numbered:
        if line.lstrip(' "').startswith("#"):
            continue
        if names is None:
            separator = max(",;\t", key=line.count)
            names = _header(_header_cells(number, line, separator))
            continue
        try:
            cells = _cells(line, separator)
        except csv.Error as error:
            yield BadRow(number, "", (f"this line is not CSV: {error}; a row is one line",))
            continue
        if len(line) >= MOST_LINE_BYTES:
            yield BadRow(number, "", ("this line is far too long for a person",))
        elif not any(cell.strip() for cell in cells):
            continue
        elif len(cells) > len(names) and any(cell.strip() for cell in cells[len(names):]):
            hint = "; a decimal comma needs semicolons between the cells" * (separator == ",")
            yield BadRow(number, "", (f"{len(cells)} cells under {len(names)} columns{hint}",))
        else:
            values = {name: _value(name, unit, cell.strip(), separator)
                      for (name, unit), cell in zip(names, cells, strict=False)}
            yield _row(number, values)
    if names is None:
        raise BadInput([Fault("people", "no header", "a first line such as "
                              "name,weight_kg,stature_mm,hip_width_mm")])


def _read_jsonl(numbered):
    for number, line in numbered:
        try:
            values = typed_json(line) if len(line) < MOST_LINE_BYTES else None
        except ValueError as error:
            yield BadRow(number, "", (f"this line is not JSON: {error}",))
            continue
        if not isinstance(values, dict):
            yield BadRow(number, "", ("each line is one JSON object of a few hundred bytes",))
            continue
        values = _in_own_units(values)
        unknown = tuple(map(str, unknown_keys(values, COLUMNS)))
        if unknown:
            yield BadRow(number, _label(values), unknown)
        else:
            yield _row(number, values)


def _cells(line, separator):
    return next(csv.reader([line.rstrip("\r\n")], delimiter=separator, strict=True,
                           skipinitialspace=True))


def _header_cells(number, line, separator):
    """Cells of the first line; raises BadInput where it is no text or no CSV."""
    if "\x00" in line or "\ufffd" in line:
        raise BadInput([Fault("people", f"line {number} is not UTF-8 text",
                              "save the list as CSV in UTF-8")])
    try:
        return _cells(line, separator)
    except csv.Error as error:
        raise BadInput([Fault("people", f"line {number} is not CSV: {error}",
                              "mend the quotes of the first line")]) from error


def _header(cells):
    """(name, its other unit or "") of the columns; raises BadInput with all that is wrong."""
    names = [re.sub(r"[^a-z0-9]+", "_", cell.strip().lower()).strip("_") for cell in cells]
    while names and not names[-1]:  # separators at the line's end
        names.pop()
    meant = [of_other_unit(name, COLUMNS) if name not in COLUMNS else None for name in names]
    units = [other[1] if other else "" for other in meant]
    names = [other[0] if other else name for name, other in zip(names, meant, strict=True)]
    faults = [Fault("people", f"column {cell.strip()!r:.40}", nearest(name, COLUMNS))
              for name, cell in zip(names, cells, strict=False) if name not in COLUMNS]
    faults += [Fault("people", f"column {name}", "once only")
               for name in COLUMNS if names.count(name) > 1]
    faults += [Fault("people", f"column {name}", "is missing, and always needed")
               for name in REQUIRED if name not in names]
    if faults:
        raise BadInput(faults)
    return list(zip(names, units, strict=True))


def _in_own_units(values):
    """A line of JSON with the figures of other units as the columns have them."""
    found = {}
    for key, value in values.items():
        name, unit = of_other_unit(str(key), COLUMNS) or (key, "")
        if key in COLUMNS or not unit or name in values or name in found:
            found[key] = value
        else:
            found[name] = value if value is None else _converted(name, unit, str(value))
    return found


def _converted(name, unit, text):
    """A figure of another unit in kg or mm; the text where it cannot be read."""
    try:
        if name.endswith("_kg"):
            return parse_mass_kg(text, unit, name)
        return parse_length_mm(text, unit, name)
    except BadInput:
        return f"{text} {unit}"


def _value(name, unit, text, separator):
    """A cell's number or text; None where it is empty."""
    if not text:
        return None
    if name in LABELS or name in TEXTS:
        return text
    if unit:
        return _converted(name, unit, text)
    typed = text.replace(",", ".") if separator != "," and text.count(",") == 1 else text
    return float(typed) if _NUMBER.fullmatch(typed) else text


def _label(values):
    parts = [str(values[key]) for key in LABELS if values.get(key) is not None]
    return "".join(one if one.isprintable() else " " for one in " ".join(parts))[:LONGEST_LABEL]


def _row(number, values):
    """The PersonRow of known columns, or the BadRow with every reason."""
    label = _label(values)
    given = {"paddler": {key: values[key] for key in (*RANGES, "hip_measured")
                         if values.get(key) is not None}}
    given |= {key: values[key] for key in OWN
              if values.get(key) is not None}
    reasons = swapped(given["paddler"])
    if "\ufffd" in label:
        reasons.append("the label is not UTF-8 text: save the list as UTF-8")
    if "base" in given and given["base"] not in shipped_bases():
        reasons.append(str(Fault("base", f"{given['base']!r:.40}",
                                 "one of " + ", ".join(shipped_bases()))))
    try:
        request = read_request({"base": "any", "use": next(iter(USES))} | given)
    except BadInput as error:
        return BadRow(number, label, (*reasons, *map(str, error.faults)))
    refused, cautions = odd_measures(request.measured)
    if reasons or refused:
        return BadRow(number, label, (*reasons, *refused))
    return PersonRow(number, label, given, cautions)


shipped_bases = cache(shipped_names)  # a row may name one of these, and no file


@dataclass(frozen=True, eq=False)
class Listed:
    rows: tuple[PersonRow, ...]
    measured: tuple[Measured, ...]  # of each row, in the same order
    bad: tuple[BadRow, ...]
    notes: tuple[str, ...]  # what a range cannot follow, and odd bodies


def listed(people, use, gear_kg):
    """The Listed of PersonRow and BadRow, all to be counted for one use and gear; raises BadInput
    at "people", where no row can be used."""
    rows = tuple(row for row in people if not isinstance(row, BadRow))
    bad = tuple(row for row in people if isinstance(row, BadRow))
    if not rows:
        raise BadInput([Fault("people", f"none of {len(bad)} rows can be used", str(reason))
                        for row in bad[:1] for reason in row.reasons]
                       or [Fault("people", "no rows", "give one person or more")])
    return Listed(rows, tuple(read_paddler(row.given["paddler"]) for row in rows), bad,
                  tuple(_notes(rows, use, gear_kg)))


def _notes(rows, use, gear_kg):
    own = sum(any(key in row.given for key in OWN) for row in rows)
    if own:
        yield (f"{own} rows name a base, a use or gear of their own: a range is for one, so all "
               f"are counted for {use} with {gear_kg:g} kg.")
    for row in rows:
        for caution in row.cautions:
            yield f"row {row.number} {row.label}".strip() + f": {caution}"
