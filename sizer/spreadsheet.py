"""Tables for spreadsheets, as CSV."""

import csv
import io

BYTE_ORDER_MARK = "\ufeff"  # so that spreadsheets read the signs as UTF-8
_FORMULA = ("=", "+", "-", "@")  # what a spreadsheet takes a cell beginning so for


def csv_text(lead, header, rows):
    """A table, led by sentences behind #."""
    return BYTE_ORDER_MARK + csv_lines((*([f"# {line}"] for line in lead), header, *rows))


def csv_lines(rows):
    """Rows of cells as lines."""
    text = io.StringIO()
    csv.writer(text, lineterminator="\r\n").writerows(rows)
    return text.getvalue()


def safe_cell(text):
    """What a person typed, on one line that no spreadsheet takes for a formula."""
    line = " ".join(text.split())
    return f"'{line}" if line.startswith(_FORMULA) else line
