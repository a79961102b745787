"""The one line of the Counter, pasted tables and dropped files, as nobody should send them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from random import Random

from core.catalogue.box_line import (
    line_items,
    line_offers,
    line_reading,
    line_tokens,
    line_told,
    line_writing,
    pasted_table,
)
from core.model.typed_draft import TypedRow
from gui.counter import dropped_files
from gui.counter.line_entry import typed_row_of
from gui.counter.typed_box import read_row
from tests.fuzzed_readers import hostile_texts, input_files
from tests.fuzzed_readers.fault_found import FaultFound
from tests.fuzzed_readers.fed_commands import put
from tests.fuzzed_readers.throwaway_shop import ThrowawayShop
from tests.support.box_lines.accounted import unaccounted, untold
from tests.support.box_lines.line_phrases import PHRASES

Files = Mapping[str, bytes]
_WORDS = ("Wedding", "attic")
"""Words of the sheets that mean nothing to the Counter: they must stand in some cell."""
_SHEETS = (
    "Qty\tType\tTitle\tShelf\n2\tMini DV\tWedding\tattic\n1\tvsh\t\t\n",
    "5,VHS,T-120\n3,Hi8,snapped\n",
    'format;count\n"VHS";3\n"a;b";x\n',
    "5 vhs t120\n3 hi8 snapped\n",
)


def box_line(_: Files, dice: Random) -> object:
    """Phrases mixed, cut and spoiled: each character is taken or told, and what was taken reads back."""
    said = ", ".join(dice.choice(PHRASES).said for _ in range(dice.choice((1, 1, 2, 3))))
    text = hostile_texts.mutated(said, dice) if dice.random() < 0.8 else _shuffled(said, dice)
    reading = line_reading.read(text)
    if lost := unaccounted(reading):
        raise FaultFound("characters are lost", f"{text!r} {lost!r}")
    if left := untold(reading):
        raise FaultFound("words are with no row", f"{text!r} {left!r}")
    line_offers.completions(reading, dice.randint(0, len(text)))
    for row in reading.rows:
        read_row(typed_row_of(row))
    known = [row.tapes for row in reading.rows if row.tapes is not None]
    again = line_reading.read(line_writing.written(known))
    # Written out, the longest line that is read may be longer than that: it would be cut, and told so.
    if len(again.text) <= line_items.LONGEST and [row.tapes for row in again.rows] != known:
        raise FaultFound("reads back as something else", f"{text!r} {line_writing.written(known)!r}")
    return line_told.first_fault(reading), line_told.understood(reading)


def _shuffled(text: str, dice: Random) -> str:
    words = text.split()
    dice.shuffle(words)
    return " ".join(words)


def pasted(_: Files, dice: Random) -> object:
    """A table from the clipboard: what no cell of the Counter takes is in one all the same."""
    text = hostile_texts.mutated(dice.choice(_SHEETS), dice)
    rows = pasted_table.read(text, "table")
    cells = " ".join(map(_whole, rows))
    if lost := [word for word in _WORDS if word in text and word not in cells]:
        raise FaultFound("a cell is thrown away", f"{text!r} {rows!r} {lost}")
    for row in rows:
        read_row(row)
    return line_tokens.is_table(text)


def _whole(row: TypedRow) -> str:
    return " ".join((row.count, row.format, row.marking, row.recorded_as, row.speed, row.findings, row.label))


def dropped(_: ThrowawayShop, files: Files, dice: Random) -> object:
    """A file let go over the window: its faults stand in the cells, or it is refused."""
    name = dice.choice(("box.json", "box.json", "box.csv"))
    good = files["box.json"] if name.endswith("json") else dice.choice(_SHEETS).encode()
    file = Path("dropped") / name
    file.parent.mkdir(exist_ok=True)
    put(file, input_files.spoiled(name, good, dice) if dice.random() < 0.9 else good)
    try:
        return [read_row(row) for row in dropped_files.read_file(file, None).rows]
    finally:
        file.unlink()
        file.parent.rmdir()
