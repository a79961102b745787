"""The reading of a line as JSON: rows as an inventory names them, and every word with where it stands."""

from __future__ import annotations

from core.catalogue.box_line import line_writing
from core.catalogue.box_line.line_records import LineReading, LineRow, LineStretch, Taken


def reading(line: LineReading) -> dict[str, object]:
    """Rows count from 1, as the lines of a quote do; characters from 0, ``end`` is the first one after."""
    return {
        "text": line.text,
        "written": line_writing.written(row.tapes for row in line.rows if row.tapes is not None),
        "rows": [_row(row) for row in line.rows],
        "customer": None
        if line.customer is None
        else {"name": line.customer.name, "phone": line.customer.phone or None},
        "words": [_word(line, each) for each in line.stretches if each.taken is not Taken.UNREAD],
        "not_taken": [
            {**_word(line, each), "offers": list(each.offers), "because": each.because or None}
            for each in line.unread
        ],
    }


def inventory_row(row: LineRow) -> dict[str, object]:
    """A tape line of an inventory file; what is not known is left out."""
    told: dict[str, object] = {
        "count": row.count,
        "format": row.format,
        "marking": row.marking,
        "recorded_as": row.recorded_as,
        "speed": row.speed.value if row.speed else None,
        "tv": row.tv.value if row.tv else None,
        "findings": [finding.value for finding in row.findings] or None,
        "label": row.label or None,
    }
    return {key: value for key, value in told.items() if value is not None}


def _row(row: LineRow) -> dict[str, object]:
    return {**inventory_row(row), "format": row.format, "not_taken": list(row.unread)}


def _word(line: LineReading, each: LineStretch) -> dict[str, object]:
    row = None if each.row is None else each.row + 1
    return {
        "start": each.start,
        "end": each.end,
        "text": line.words(each),
        "as": each.taken.value,
        "row": row,
    }
