"""The box on the counter as it was typed, and what can be read from it.

The typed text is the truth while a box is open: what nobody accepts stays where it was typed, with a
sentence on what is accepted, and everything else is quoted all the same.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING, TypeVar

from core.catalogue import formats
from core.model.errors import WrongInput
from core.model.inventory import CustomerDraft, Inventory, TapeLine
from core.model.names import AnyFinding, FormatName, TapeCode, TvSystem
from core.model.spoken_names import spoken
from core.model.typed_draft import TypedBox, TypedRow
from core.playtime import possibilities
from core.wording.messages import worded_cache
from gui.counter import accepted_words
from gui.toolkit.text import say, short_day
from gui.widgets import wishes

if TYPE_CHECKING:
    from core.pricing.amendment_records import OpenedOrder

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class ParsedRow:
    """A row as the shop understands it. ``line`` is None while it names no format."""

    line: TapeLine | None
    wrong: tuple[tuple[str, str], ...] = ()
    """Column and sentence."""

    def complaint(self, column: str) -> str:
        """The sentence on one cell, or nothing."""
        return next((sentence for name, sentence in self.wrong if name == column), "")


@dataclass(frozen=True, slots=True)
class ParsedBox:
    """A box as the shop understands it."""

    inventory: Inventory
    places: tuple[int, ...]
    """The row of each line of the inventory."""
    wrong: tuple[tuple[int | None, str, str], ...]
    """Row (None: a field beside the tray), name and sentence."""

    def complaint(self, field: str) -> str:
        """The sentence on one field beside the tray, or nothing."""
        return next((words for row, name, words in self.wrong if row is None and name == field), "")


def read_box(box: TypedBox, today: date) -> ParsedBox:
    """What can be quoted now, and everything that stands in the way of booking it."""
    wrong: list[tuple[int | None, str, str]] = []
    rows = [(place, read_row(row, box.tv)) for place, row in enumerate(box.rows)]
    for place, reading in rows:
        wrong += [(place, column, sentence) for column, sentence in reading.wrong]
    inventory = Inventory(
        lines=tuple(reading.line for _, reading in rows if reading.line is not None),
        tv=_field(wrong, "tv", lambda: accepted_words.read_tv(box.tv), None),
        customer=CustomerDraft(box.name.strip(), box.phone.strip() or None) if box.name.strip() else None,
        deliver=_field(wrong, "copies", lambda: wishes.deliveries(box.copies), ()),
        rush=box.rush,
        needed_by=_field(wrong, "needed_by", lambda: wishes.day(box.needed_by, today), None),
        cold=box.cold,
        tax_exempt=_field(wrong, "tax_exempt", lambda: accepted_words.read_exemption(box.tax_exempt), ""),
        way=box.way,
    )
    if box.line.strip():
        wrong.append((None, "line", say("counter", "line_left")))
    places = tuple(place for place, reading in rows if reading.line is not None)
    return ParsedBox(inventory, places, tuple(wrong))


@worded_cache(maxsize=4096)
def read_row(row: TypedRow, box_tv: str = "") -> ParsedRow:
    """One row; cells that cannot be read are left out of the line and complained of."""
    if row.is_empty:
        return ParsedRow(None)
    wrong: list[tuple[str, str]] = []
    count = _cell(wrong, "count", lambda: accepted_words.read_count(row.count), None)
    shell = _cell(wrong, "format", lambda: accepted_words.read_shell(row.format), None)
    none: tuple[AnyFinding, ...] = ()
    findings = _cell(wrong, "findings", lambda: accepted_words.read_findings(row.findings), none)
    label = _cell(wrong, "label", lambda: accepted_words.read_label(row.label), "")
    tv = _cell(wrong, "tv", lambda: accepted_words.read_tv(row.tv), None)
    if shell is None or count is None:
        return ParsedRow(None, tuple(wrong))
    recorded_as = _cell(
        wrong, "recorded_as", lambda: accepted_words.read_recorded_as(row.recorded_as, shell), None
    )
    system = formats.catalogue().format(recorded_as) if recorded_as else shell
    marking = _cell(wrong, "marking", lambda: accepted_words.read_marking(row.marking, shell), None)
    plain = TapeLine(count, shell.name, marking, recorded_as, tv=tv)
    known_tv = possibilities.told_tv(plain, _tv_or_none(box_tv))
    line = TapeLine(
        count=count,
        format=shell.name,
        marking=marking,
        recorded_as=recorded_as,
        speed=_cell(wrong, "speed", lambda: accepted_words.read_speed(row.speed, system, known_tv), None),
        tv=tv,
        fill=row.fill,
        fill_known=row.fill_known,
        fill_off=row.fill_off,
        findings=findings,
        label=label,
        origin=row.origin,
    )
    return ParsedRow(line, tuple(wrong))


def row_sentence(row: int | None, sentence: str) -> str:
    """A complaint with the row it is about; ``row`` counts from 0, None: a field beside the tray."""
    return sentence if row is None else say("counter", "row", row=row + 1, sentence=sentence)


def tidied(row: TypedRow) -> TypedRow:
    """The row with every readable cell written as the catalogue writes it."""
    reading = read_row(row)
    if reading.line is None:
        shell = accepted_words.shell_called(row.format)
        return replace(row, format=shell.words) if shell else row
    return answered(row, reading.line)


def answered(row: TypedRow, line: TapeLine) -> TypedRow:
    """The row written as ``line`` says, but for the cells nobody accepts: those stay as typed."""
    as_typed = {column: getattr(row, column) for column, _ in read_row(row).wrong}
    return replace(row_of(line), codes=row.codes, **as_typed)


def answered_for(row: TypedRow, line: TapeLine, tapes: int) -> tuple[TypedRow, ...]:
    """The row as ``line`` says; where that holds for fewer ``tapes`` the others follow as they were."""
    written = replace(answered(row, replace(line, count=min(tapes, line.count))), label=row.label)
    rest = line.count - tapes
    return (written,) if rest <= 0 else (written, replace(row, count=f"{rest}"))


def row_of(line: TapeLine) -> TypedRow:
    """The cells of a line."""
    return TypedRow(
        count=str(line.count),
        format=_words(line.format),
        marking=line.marking or "",
        recorded_as=_words(line.recorded_as) if line.recorded_as else "",
        speed=line.speed.words if line.speed else "",
        tv=line.tv.value.upper() if line.tv else "",
        findings=", ".join(spoken(finding) for finding in line.findings),
        label=line.label,
        fill=line.fill,
        fill_known=line.fill_known,
        fill_off=line.fill_off,
        origin=line.origin,
    )


def box_of(inventory: Inventory) -> TypedBox:
    """The box an inventory was read from, e.g. a draft out of older books."""
    customer = inventory.customer or CustomerDraft("")
    return TypedBox(
        rows=tuple(row_of(line) for line in inventory.lines) or (TypedRow(),),
        name=customer.name,
        phone=customer.phone or "",
        tv=inventory.tv.value.upper() if inventory.tv else "",
        copies=wishes.copies_words(inventory.deliver),
        needed_by=short_day(inventory.needed_by) if inventory.needed_by else "",
        rush=inventory.rush,
        cold=inventory.cold,
        tax_exempt=inventory.tax_exempt or None,
        way=inventory.way,
    )


def box_of_order(order: OpenedOrder) -> TypedBox:
    """A booked order laid out to be changed; each row holds the codes of its cassettes."""
    box = box_of(order.version.inventory)
    customer = order.job.customer
    rows = zip(box.rows, order.codes, strict=True)
    return replace(
        box,
        rows=tuple(replace(row, codes=codes) for row, codes in rows),
        name=customer.name,
        phone=customer.phone or "",
        amends=order.job.number,
        version=order.version.number,
    )


def codes_of(box: TypedBox) -> tuple[tuple[TapeCode, ...], ...]:
    """The cassettes that each line of the inventory names: none twice, none where a row holds fewer now."""
    seen: set[str] = set()
    named: list[tuple[TapeCode, ...]] = []
    for row in box.rows:
        line = read_row(row, box.tv).line
        if line is None:
            continue
        codes = tuple(TapeCode(code) for code in row.codes if code not in seen)
        seen.update(codes)
        named.append(codes if len(codes) <= line.count else ())
    return tuple(named)


def _words(name: FormatName) -> str:
    known = formats.catalogue()
    return known.format(name).words if name in known.names else name


def _cell(wrong: list[tuple[str, str]], column: str, look: Callable[[], T], otherwise: T) -> T:
    try:
        return look()
    except WrongInput as failure:
        wrong.append((column, failure.sentence))
        return otherwise


def _field(wrong: list[tuple[int | None, str, str]], name: str, look: Callable[[], T], otherwise: T) -> T:
    try:
        return look()
    except WrongInput as failure:
        wrong.append((None, name, failure.sentence))
        return otherwise


def _tv_or_none(text_of_box: str) -> TvSystem | None:
    """The TV system of the box; what is wrong with it is said beside its own field."""
    try:
        return accepted_words.read_tv(text_of_box)
    except WrongInput:
        return None
