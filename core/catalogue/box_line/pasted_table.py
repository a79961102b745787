"""A table out of a spreadsheet, as text with tabs, commas or semicolons, read into the cells of rows.

The columns may stand in any order. Heads are understood by the words of the wording file; without heads each
cell tells by itself what it is. What is not understood stays with its row as it was written.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Mapping, Sequence

from core.catalogue import formats
from core.catalogue.box_line import line_reading
from core.catalogue.box_line.line_items import LineItem, items
from core.catalogue.box_line.line_records import Taken
from core.catalogue.box_line.line_words import ROOM, Meaning, listed, plain
from core.model.errors import AsWritten, WrongInput
from core.model.inventory import MOST_TAPES
from core.model.names import Speed, finding_of
from core.model.spoken_names import spoken
from core.model.typed_draft import TypedRow
from core.wording.messages import say, worded_cache

COLUMNS = ("count", "format", "marking", "recorded_as", "speed", "tv", "findings", "label")
Table = Sequence[Sequence[str]]
_OF_MEANING = {
    Meaning.COUNT: "count",
    Meaning.FORMAT: "format",
    Meaning.MARKING: "marking",
    Meaning.SPEED: "speed",
    Meaning.TV: "tv",
    Meaning.FINDING: "findings",
    Meaning.LABEL: "label",
}
_COLUMN_TAKEN = {
    Taken.COUNT: "count",
    Taken.FORMAT: "format",
    Taken.MARKING: "marking",
    Taken.SPEED: "speed",
    Taken.TV: "tv",
    Taken.FINDING: "findings",
}
_ONE_FORMAT = ("format", "recorded_as")


def read(text: str, place: str) -> tuple[TypedRow, ...]:
    """The rows of a table; `WrongInput` at ``place`` for more than one order can hold."""
    table = [row for row in _table(text) if any(row)]
    heads = _heads(table[0]) if table else None
    below = table if heads is None else table[1:]
    if len(below) > MOST_TAPES:
        found = AsWritten(say(ROOM, "rows-found", count=len(below)))
        raise WrongInput(place, found, say(ROOM, "rows-accepted", most=MOST_TAPES))
    if heads is None:
        return tuple(_row(_by_themselves(row)) for row in below)
    return tuple(_row(_by_heads(row, table[0], heads)) for row in below)


# --- cells -------------------------------------------------------------------------------


def _table(text: str) -> list[list[str]]:
    try:
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text)))
    except csv.Error:  # a cell longer than the reader takes: the lines as they are
        rows = [line.split(_delimiter(text)) for line in text.splitlines()]
    return [[_on_one_line(cell) for cell in row] for row in rows]


def _delimiter(text: str) -> str:
    first = next((line for line in text.splitlines() if line.strip()), "")
    return max("\t;,", key=lambda sign: (first.count(sign), sign == "\t"))


def _on_one_line(cell: str) -> str:
    return " ".join("".join(sign if sign.isprintable() else " " for sign in cell).split())


def _heads(row: Sequence[str]) -> tuple[str, ...] | None:
    """The column that each head names ("": none); None where the first row is no row of heads."""
    known = _head_words()
    named = tuple(known.get(plain(cell), "") for cell in row)
    told = [cell for cell in row if cell]
    return named if 2 * len([name for name in named if name]) >= len(told) else None


@worded_cache(maxsize=8)
def _head_words() -> Mapping[str, str]:
    named = ((plain(word), column) for column in COLUMNS for word in listed(f"head-{column}"))
    return {**{plain(column): column for column in COLUMNS}, **dict(named)}


def _by_heads(row: Sequence[str], head: Sequence[str], heads: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Column and text of each cell; "" is the column of what nobody understands."""
    for place, cell in enumerate(row):
        if not cell:
            continue
        if place < len(heads) and heads[place]:
            yield heads[place], _as_written(heads[place], cell)
        else:
            named = head[place] if place < len(head) and head[place] else None
            yield (
                "",
                say(ROOM, "unread-cell", head=named or say(ROOM, "unknown-head", n=place + 1), text=cell),
            )


def _by_themselves(row: Sequence[str]) -> Iterator[tuple[str, str]]:
    """A cell without a head tells what it is; a second format is what was recorded."""
    has_format = False
    for cell in row:
        if several := _several(cell):
            yield from several
            has_format = True
            continue
        meanings = {item.meaning for item in _said(cell)}
        column = _OF_MEANING.get(next(iter(meanings)), "") if len(meanings) == 1 else ""
        if column == "format" and has_format:
            column = "recorded_as"
        has_format |= column == "format"
        if cell:
            yield column, _as_written(column, cell) if column else cell


def _several(cell: str) -> list[tuple[str, str]]:
    """A cell that is a whole row in words, like ``5 vhs t120``."""
    reading = line_reading.read(cell)
    if len(reading.rows) != 1 or not reading.is_whole or len(_said(cell)) < 2:
        return []
    told = [(_COLUMN_TAKEN.get(each.taken, ""), reading.words(each)) for each in reading.stretches]
    return [(column, _as_written(column, words)) for column, words in told if column]


def _row(cells: Iterator[tuple[str, str]]) -> TypedRow:
    """Two cells of one column stand in one, findings with commas; what nobody understands goes there, too."""
    found: dict[str, list[str]] = {}
    for column, text in cells:
        if text:
            found.setdefault(column or "findings", []).append(text)
    told = {name: (", " if name == "findings" else " ").join(texts) for name, texts in found.items()}
    return typed_row(told)


def typed_row(cells: Mapping[str, str]) -> TypedRow:
    """The row of these cells; one that is not among them is empty."""
    count, shell, marking, recorded_as, speed, tv, findings, label = (cells.get(name, "") for name in COLUMNS)
    return TypedRow(count, shell, marking, recorded_as, speed, tv, findings, label)


# --- words -------------------------------------------------------------------------------


def _as_written(column: str, cell: str) -> str:
    """The cell as the catalogue writes it where it is understood, else as it is."""
    if column == "findings":
        return _findings(cell)
    said = _said(cell)
    if column in ("marking", "label") or len(said) != 1:
        return cell
    return _written(column, said[0]) or cell


def _written(column: str, item: LineItem) -> str:
    if item.meaning is Meaning.COUNT and column == "count":
        return item.value.removeprefix("x")
    if item.meaning is Meaning.FORMAT and column in _ONE_FORMAT:
        return formats.catalogue().format(item.value).words
    if item.meaning is Meaning.SPEED and column == "speed":
        return Speed(item.value).words
    return item.value.upper() if item.meaning is Meaning.TV and column == "tv" else ""


def _findings(cell: str) -> str:
    """Each finding by its name; *ok* and *none* are nothing."""
    if plain(cell) in map(plain, listed("nothing-wrong")) or not plain(cell):
        return ""
    parts = (part.strip() for part in re.split(r"[,;/+&]", cell))
    return ", ".join(word for part in parts if part for word in _finding_words(part))


def _finding_words(part: str) -> list[str]:
    said = _said(part)
    if said and all(item.meaning is Meaning.FINDING for item in said):
        return [spoken(finding_of(item.value)) for item in said]
    return [part]


def _said(cell: str) -> tuple[LineItem, ...]:
    """What a cell says, without words that say nothing."""
    return tuple(item for item in items(cell) if item.meaning not in (Meaning.FILLER, Meaning.JOINING))
