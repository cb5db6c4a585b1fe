"""The results file of a batch: its lead, one line for each row, and where a broken one goes on.

The lead is the same to the byte for the same people, base, use, water and program, and different
for others, so it tells whose results these are. Each row is one whole line; a line without its end
was cut off by a crash and is worked out again.
"""

import csv
import io
import json

from sizer import __version__
from sizer.errors import BadInput, Fault
from sizer.fit.sizes import FACTORS, SIZES
from sizer.fit.tried import UNKNOWN

BYTE_ORDER_MARK = "\ufeff"  # so that spreadsheets read the signs as UTF-8
FIGURES = ("freeboard_mm", "gm_mm", "load_kg")
LISTS = ("failing", "cautioning", "reasons", "cautions", "failing_keys", "cautioning_keys")
STATUSES = ("pass", "caution", "fail", "will not float", UNKNOWN, "bad row")
GOOD = ("pass", "caution")
_FORMULA = ("=", "+", "-", "@")  # what a spreadsheet takes a cell beginning so for


def lead_text(kind, options, cautions):
    """What stands before the rows.

    Parameters
    ----------
    kind : "csv" or "jsonl"
    options : dict of plain values that make these results these; the program's version is added
    cautions : sentences
    """
    options = {"program": __version__, **options}
    if kind == "jsonl":
        return _json_line({"batch": options, "cautions": list(cautions)})
    lines = [["# Sizer batch: one line for each row of the list of people; row is its line there"]]
    lines += [[f"# {key}: {value}"] for key, value in options.items()]
    lines += [[f"# CAUTION: {caution}"] for caution in cautions]
    header = ["row", "label", "status", "base", "use", *SIZES,
              *(f"{one}_factor" for one in FACTORS), *FIGURES, *LISTS]
    return BYTE_ORDER_MARK + "".join(_csv_line(cells) for cells in (*lines, header))


def result_line(kind, result):
    """One result, a dict as `sizer.crowd.batch.fitted_row` gives it, as a line of text."""
    if kind == "jsonl":
        return _json_line(result)
    size, factors = result.get("size", {}), result.get("factors", {})
    return _csv_line([
        result["row"], _safe(result["label"]), result["status"], _safe(result.get("base", "")),
        result.get("use", ""), *(size.get(key, "") for key in SIZES),
        *(factors.get(key, "") for key in FACTORS), *(result.get(key, "") for key in FIGURES),
        *(_safe("; ".join(result[key])) for key in LISTS)])


def _json_line(value):
    return json.dumps(value, ensure_ascii=False, allow_nan=False) + "\n"


def _csv_line(cells):
    text = io.StringIO()
    csv.writer(text, lineterminator="\r\n").writerow(cells)
    return text.getvalue()


def _safe(text):
    """Text on one line that no spreadsheet takes for a formula."""
    line = " ".join(text.split())
    return f"'{line}" if line.startswith(_FORMULA) else line


def whole_rows(file, kind, lead):
    """Row numbers and statuses of the whole lines in a results file, one by one.

    Leaves the file just after the last whole line. An empty file, or one cut off within its lead,
    has none, and is left at its start.

    Parameters
    ----------
    file : binary file, read from its start
    kind, lead : as `lead_text`

    Raises
    ------
    BadInput at "--out", where the file does not begin with this lead, or a line is no result.
    """
    expected = lead.encode()
    found = file.read(len(expected))
    if found != expected:
        if not expected.startswith(found):
            raise BadInput([Fault("--out", "holds other results", "those of the same people, base, "
                                  "use, water and program version; or a new file")])
        file.seek(0)
        return
    end = file.tell()
    for line in file:
        if not line.endswith(b"\n"):
            break
        yield _row_of(line, kind)
        end += len(line)
    file.seek(end)


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
