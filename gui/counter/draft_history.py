"""The box before it is booked: frozen, with every change on the undo stack, and the open cell beside it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from weakref import WeakMethod

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtGui import QUndoCommand, QUndoStack

from core.model.price_ways import PriceWay
from core.model.typed_draft import TypedBox, TypedRow
from gui.counter.typed_box import tidied
from gui.toolkit.text import say


class Draft(QObject):
    """One frozen `TypedBox` at a time. Nothing is ever lost before booking: every step can be undone."""

    changed = Signal()
    """The box, or what is half typed in it, is another."""
    line_changed = Signal(str)
    """The text of the one line is another. Its rows are quoted, and in the box once they are taken."""
    text_changed = Signal()
    """The typed text changed: time to save it against a power cut."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.undo = QUndoStack(self)
        self.box = TypedBox()
        self._half_typed: TypedBox | None = None

    @property
    def shown(self) -> TypedBox:
        """The box with the text of the open cell."""
        return self.box if self._half_typed is None else self._half_typed

    # --- typing --------------------------------------------------------------------------

    def half_type(self, row: int, column: str, text: str) -> None:
        """Take the text of the open cell: it counts for the quote, and is no step to undo yet."""
        if row < len(self.box.rows):
            self._half_typed = _with_cell(self.box, row, column, text)
            self.changed.emit()
            self.text_changed.emit()

    def drop_half_typed(self) -> None:
        """Drop the text of the open cell: only what was committed counts."""
        if self._half_typed is not None:
            self._half_typed = None
            self.changed.emit()
            self.text_changed.emit()

    # --- steps ---------------------------------------------------------------------------

    def write(self, row: int, column: str, text: str) -> None:
        """Commit one cell."""
        changed = _with_cell(self.box, row, column, text)
        written = tidied(changed.rows[row])
        self.put(_with_row(self.box, row, written), _undo_cell(column, row))

    def write_row(self, row: int, written: TypedRow, words: str) -> None:
        """Commit a whole row."""
        self.write_rows(row, (written,), words)

    def write_rows(self, row: int, written: tuple[TypedRow, ...], words: str) -> None:
        """Commit rows in the place of one, e.g. an answer that holds for some of its tapes."""
        rows = self.box.rows
        self.put(replace(self.box, rows=(*rows[:row], *written, *rows[row + 1 :])), words)

    def add_row(self, row: TypedRow = TypedRow()) -> int:  # noqa: B008  # frozen
        """One more row at the end; returns its place."""
        self.put(replace(self.box, rows=(*self.box.rows, row)), say("counter", "undo_new_row"))
        return len(self.box.rows) - 1

    def repeat_above(self, row: int) -> int:
        """Repeat the row above in an empty row, else the row itself below. Returns the place of the copy."""
        rows = self.box.rows
        if rows[row].is_empty and row > 0:
            self.write_row(row, replace(rows[row - 1], label=""), say("counter", "undo_repeated", row=row))
            return row
        repeated = (*rows[: row + 1], replace(rows[row], label=""), *rows[row + 1 :])
        self.put(replace(self.box, rows=repeated), say("counter", "undo_repeated", row=row + 1))
        return row + 1

    def add_rows(self, rows: tuple[TypedRow, ...], words: str, **fields: Any) -> int:
        """Several rows at the end, in the place of empty ones there; returns the place of the first.

        ``fields`` of the box are written in the same step: one undo takes all of it back.
        """
        kept = self.box.rows
        while kept and kept[-1].is_empty:
            kept = kept[:-1]
        self.put(replace(self.box, rows=(*kept, *rows), **fields), words)
        return len(kept)

    def remove_row(self, row: int) -> None:
        """Remove a row; the last one leaves an empty row behind."""
        rows = self.box.rows[:row] + self.box.rows[row + 1 :]
        self.put(replace(self.box, rows=rows or (TypedRow(),)), say("counter", "undo_removed", row=row + 1))

    def write_field(self, field: str, value: str | bool | tuple[str, ...] | PriceWay) -> None:
        """Commit one of the fields beside the tray; keys in one field are one step to undo."""
        changed: dict[str, Any] = {field: value}
        self.put(replace(self.box, **changed), say("counter", f"undo_{field}"), run=field)

    @Slot(object)
    def write_told(self, told: tuple[str, ...]) -> None:
        """Commit what the customer has been told."""
        self.write_field("told", told)

    @Slot(str)
    def write_deposit(self, typed: str) -> None:
        """Commit the deposit as typed."""
        self.write_field("deposit", typed)

    def start_new(self) -> None:
        """An empty box; the one before comes back with undo."""
        self.put(TypedBox(), say("counter", "undo_new_box"))

    def put(self, box: TypedBox, words: str, run: str = "") -> None:
        """Replace the box. Steps with the same ``run`` in a row are undone together."""
        self._half_typed = None
        box = _with_id(box)
        if box == self.box:
            self.changed.emit()
        elif (going_on := self._run_under_way(run)) is not None:
            going_on.after = box
            self._show(box)
        else:
            self.undo.push(_Step(self, self.box, box, words, run))

    def _run_under_way(self, run: str) -> _Step | None:
        """The newest step, when another key of the same ``run`` belongs to it.

        Not by `QUndoCommand.mergeWith`: of every command merged so PySide keeps the wrapper for ever.
        """
        if not run or self.undo.canRedo():
            return None
        newest = self.undo.command(self.undo.count() - 1)
        return newest if isinstance(newest, _Step) and newest.run == run else None

    def begin(self, box: TypedBox) -> None:
        """Begin with a restored box, or an empty one after booking: nothing to undo."""
        self.undo.clear()
        self._show(_with_id(box))

    def become_another(self) -> None:
        """What is on the counter is booked as a box of its own: nothing of it was booked before."""
        self.begin(replace(self.box, command=""))

    def _show(self, box: TypedBox) -> None:
        self._half_typed = None
        self.box = box
        self.changed.emit()
        self.line_changed.emit(box.line)
        self.text_changed.emit()


class _Step(QUndoCommand):
    def __init__(self, draft: Draft, before: TypedBox, after: TypedBox, words: str, run: str) -> None:
        super().__init__(words)
        self._show = WeakMethod(draft._show)  # a cycle through the stack crashed the collector now and then
        self._before = before
        self.after = after
        self.run = run

    def redo(self) -> None:
        self._write(self.after)

    def undo(self) -> None:
        self._write(self._before)

    def _write(self, box: TypedBox) -> None:
        show = self._show()
        assert show is not None, "a step without the draft it belongs to"
        show(box)


def _with_id(box: TypedBox) -> TypedBox:
    """The box with the id it is booked under, which it keeps wherever it is kept and restored."""
    if box.command or box.is_empty:
        return box
    from uuid import uuid4  # not before the first paint

    return replace(box, command=uuid4().hex)


def _with_cell(box: TypedBox, row: int, column: str, text: str) -> TypedBox:
    cell: dict[str, Any] = {column: text}
    return _with_row(box, row, replace(box.rows[row], **cell))


def _with_row(box: TypedBox, row: int, written: TypedRow) -> TypedBox:
    return replace(box, rows=(*box.rows[:row], written, *box.rows[row + 1 :]))


def _undo_cell(column: str, row: int) -> str:
    return say("counter", "undo_cell", column=say("counter", f"column-{column}"), row=row + 1)
