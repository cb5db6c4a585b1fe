"""The results file of a batch: its lead, one line for each row, and where a broken one goes on.

The lead is the same to the byte for the same people, base, use, water and program, and different
for others, so it tells whose results these are. Each row is one whole line; a line without its end
was cut off by a crash and is worked out again.
"""

import csv
import hashlib
import json
import re
import time
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from sizer import __version__
from sizer.crowd.batch import fitted_rows, pace_words
from sizer.crowd.crew import cores
from sizer.design.library import read_base, shipped_folder, shipped_names
from sizer.errors import BadInput, Fault
from sizer.fit.cautions import cautions_for
from sizer.fit.sizes import FACTORS, SIZES
from sizer.fit.tried import UNKNOWN
from sizer.spreadsheet import csv_lines, csv_text, safe_cell
from sizer.stamp import REFUSED, Imprint, base_name, no_job

FIGURES = ("freeboard_mm", "gm_mm", "odds_all_hard", "total_kg")
LISTS = ("failing", "cautioning", "reasons", "cautions", "failing_keys", "cautioning_keys")
STATUSES = ("pass", "caution", "fail", "will not float", UNKNOWN, "bad row")
GOOD = ("pass", "caution")
REFUSALS = (f"A row whose status is fail is a boat that {REFUSED}: do not build or paddle it.",
            "A row without sizes has no boat.")
NOTE = ("Statuses are those of a full fit and of its sticks, not of its sawn patterns; fit "
        "one row by itself for those, its righting curve and the size of its float bags.")


def batch_lead(kind, people, trip, stamp):
    """What stands before the rows.

    Parameters
    ----------
    kind : "csv" or "jsonl"
    people : SHA-256 of the list of people, hexadecimal
    trip : Trip
    stamp : Stamp; its date may be another day's where results are gone on with
    """
    shipped = trip.base in shipped_names()
    path = shipped_folder() / f"{trip.base}.toml" if shipped else Path(trip.base)
    base = hashlib.sha256(path.read_bytes())
    options = {"program": __version__, "people": f"sha256 {people}",
               "base": trip.base, "base_file": f"sha256 {base.hexdigest()}", "use": trip.use,
               "water": trip.water.kind, "temperature_c": trip.water.temperature_c}
    cautions = (*REFUSALS, NOTE, *cautions_for(trip.water))
    about = f"{base_name(trip.base, read_base(trip.base))}, people one by one"
    line = Imprint(stamp, about, "", cautions).line
    if kind == "jsonl":
        return _json_line({"batch": options, "job": stamp.told | {"line": line},
                           "cautions": list(cautions)})
    lines = ["Sizer batch: one line for each row of the list of people; row is its line there",
             line, *(f"{key}: {value}" for key, value in options.items()),
             *(f"CAUTION: {caution}" for caution in cautions)]
    header = ["row", "label", "status", "base", "use", *SIZES,
              *(f"{one}_factor" for one in FACTORS), *FIGURES, *LISTS]
    return csv_text(lines, header, ())


def result_line(kind, result):
    """One result, a dict as `sizer.crowd.batch.fitted_lot` gives it, as a line of text."""
    if kind == "jsonl":
        return _json_line(result)
    size, factors = result.get("size", {}), result.get("factors", {})
    return csv_lines([[
        result["row"], safe_cell(result["label"]), result["status"],
        safe_cell(result.get("base", "")), result.get("use", ""),
        *(size.get(key, "") for key in SIZES), *(factors.get(key, "") for key in FACTORS),
        *(result.get(key, "") for key in FIGURES),
        *(safe_cell("; ".join(result[key])) for key in LISTS)]])


@dataclass(frozen=True)
class Everyone:
    """A whole list fitted: how many came to what, and the results file."""

    statuses: tuple[tuple[str, int], ...]  # of STATUSES, the most first
    csv: str


def everyone(rows, people, trip, progress):
    """The Everyone of a list of PersonRow and BadRow, on all cores; `people` and `trip` as of
    `batch_lead`, `progress(done, of, words)` hears how far it is."""
    lines = [batch_lead("csv", people, trip, no_job())]
    statuses, begun = Counter(), time.monotonic()
    for done, result in enumerate(fitted_rows(rows, trip, cores()), start=1):
        lines.append(result_line("csv", result))
        statuses[result["status"]] += 1
        pace = pace_words(done, len(rows) - done, time.monotonic() - begun)
        progress(done, len(rows), f"people fitted, {pace}")
    return Everyone(tuple(statuses.most_common()), "".join(lines))


def _json_line(value):
    return json.dumps(value, ensure_ascii=False, allow_nan=False) + "\n"


def whole_rows(file, kind, lead):
    """Row numbers and statuses of the whole lines in a results file, one by one.

    Leaves the file just after the last whole line. An empty file, or one cut off within its lead,
    has none, and is left at its start.

    Parameters
    ----------
    file : binary file, read from its start
    kind, lead : as `batch_lead`

    Raises
    ------
    BadInput at "--out", where the file does not begin with this lead, or a line is no result.
    """
    expected = lead.encode()
    found = file.read(len(expected))
    if _undated(found) != _undated(expected):
        if not _undated(expected).startswith(_undated(found)):
            raise BadInput([Fault("--out", "holds other results", "those of the same people, base, "
                                  "use, water, job and program version; or a new file")])
        file.seek(0)
        return
    end = file.tell()
    for line in file:
        if not line.endswith(b"\n"):
            break
        yield _row_of(line, kind)
        end += len(line)
    file.seek(end)


def _undated(lead):
    """A lead whatever its day: what was begun yesterday is gone on with today."""
    return re.sub(rb"\d{4}-\d\d-\d\d", b"day", lead)


def _row_of(line, kind):
    try:
        text = line.decode()
        if kind == "jsonl":
            result = json.loads(text)
            row, status = result["row"], result["status"]
        else:
            cells = next(csv.reader([text]))
            row, status = int(cells[0]), cells[2]
    except (ValueError, KeyError, IndexError, TypeError) as error:
        raise _not_a_result(line) from error
    if status not in STATUSES:
        raise _not_a_result(line)
    return row, status


def _not_a_result(line):
    return BadInput([Fault("--out", f"{line[:40]!r}", "a line of results; the file was changed, so "
                           "take a new one")])
