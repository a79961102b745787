"""What the one line would add to the box: quoted while it is typed, written into the box when it is taken."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from core.model.typed_draft import TypedBox, TypedRow
from core.wording.messages import worded_cache
from gui.counter.typed_box import read_row, row_of

if TYPE_CHECKING:
    from core.catalogue.box_line.line_records import LineRow


@dataclass(frozen=True, slots=True)
class PendingLine:
    """The rows of a line and who is named in it."""

    rows: tuple[TypedRow, ...] = ()
    name: str = ""
    phone: str = ""
    is_whole: bool = False
    """Whether every word was understood, so that nothing of it is left when it is taken."""

    @property
    def fields(self) -> dict[str, Any]:
        """The fields of the box that it fills in."""
        named = {"name": self.name, "phone": self.phone}
        return {field: text for field, text in named.items() if text}

    def laid_out(self, box: TypedBox) -> TypedBox:
        """The box as it would be with the line taken, as far as it is understood."""
        if not self.rows and not self.fields:
            return box
        line = "" if self.is_whole else box.line
        rows = (*filled(box), *self.rows)
        return replace(box, rows=rows or (TypedRow(),), line=line, **self.fields)


_NOTHING = PendingLine()


def filled(box: TypedBox) -> tuple[TypedRow, ...]:
    """The rows of a box without the empty ones at its end, in whose place new ones are put."""
    rows = box.rows
    while rows and rows[-1].is_empty:
        rows = rows[:-1]
    return rows


def pending(text: str) -> PendingLine:
    """What a text would add; the grammar is imported with the first one."""
    return _pending(text) if text.strip() else _NOTHING


@worded_cache(maxsize=64)
def _pending(text: str) -> PendingLine:
    from core.catalogue.box_line import line_reading

    reading = line_reading.read(text)
    rows = tuple(typed_row_of(row) for row in reading.rows)
    clear = all(row.format is not None for row in reading.rows) and not any(
        read_row(row).wrong for row in rows
    )
    quoted = tuple(typed_row_of(replace(row, unread=())) for row in reading.rows if row.format is not None)
    is_whole = clear and not reading.unread
    customer = reading.customer
    name, phone = (customer.name, customer.phone) if customer is not None else ("", "")
    return PendingLine(rows if is_whole else quoted, name, phone, is_whole)


def typed_row_of(row: LineRow) -> TypedRow:
    """The cells of a row; what was not understood stands where the format or a finding would."""
    unread = list(row.unread)
    tapes = row.tapes
    if tapes is not None:
        cells = row_of(tapes)
    else:
        cells = replace(row_of(row.without_format), format=unread.pop(0) if unread else "")
    count = unread.pop(0) if row.count == 1 and unread and unread[0].isdecimal() else cells.count
    findings = ", ".join([text for text in (cells.findings, *unread) if text])
    return replace(cells, count=count, findings=findings)
