"""The lines of the price table: the prices as the shop writes amounts, and what is wrong with them.

No Qt. A line holds the row of the book's file; what is no amount stays as it was typed, with a sentence.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from core.catalogue.formats import catalogue
from core.model.errors import WrongInput
from core.pricing import price_book, price_rows
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import TaxMode, Way
from core.pricing.price_rows import BOOK, BREAKS, CAPTURE, MEDIA, REPAIR, TERMS, PriceRow
from core.wording import locale_numbers, typed_amounts
from core.wording.messages import current
from gui.tables import choices
from gui.tables.choices import CellChoice
from gui.toolkit.text import say, sentence_case

USUAL_PERIOD = "30"
"""Minutes of a started period until the owner writes others."""
COLUMNS = ("words", "way", "price", "percent", "number")


@dataclass(frozen=True, slots=True)
class PriceLine:
    """One line of the table."""

    row: PriceRow
    currency: str
    head: str = ""
    """What the lines from here on are about; stands on the first of them."""
    typed: tuple[tuple[str, str], ...] = ()
    """Column and text of what nobody can read."""
    refused: tuple[str, str] = ("", "")
    """Column and sentence of what the book does not take."""

    def wrong(self, column: str) -> str:
        """The sentence on a cell, or nothing."""
        if column in dict(self.typed):
            return _accepted(column, self.currency)
        return self.refused[1] if self.refused[0] == column else ""

    def is_edited(self, column: str) -> bool:
        """Whether something may be typed into the cell."""
        key = key_of(self.row, column)
        by_period = key != "minutes" or self.row.way == Way.PER_PERIOD.value
        return bool(key) and key in price_rows.columns_of(self.row) and by_period

    def shown(self, column: str) -> str:
        """The cell as it stands in the table."""
        if column in dict(self.typed):
            return dict(self.typed)[column]
        if column == "words":
            return self.row.words if self.is_edited(column) else sentence_case(self.row.words)
        cell = str(getattr(self.row, key_of(self.row, column), "")) if self.is_edited(column) else ""
        if column == "way":
            return next((words.words for words in ways(self.row) if words.aliases == (cell,)), cell)
        return _in_locale(column, cell, self.currency) if column in ("price", "percent") else cell

    @property
    def counts(self) -> bool:
        """Whether the line is in the book: a format without a price is not, nor a break without figures."""
        if self.row.part == CAPTURE:
            return bool(self.row.price) or "price" in dict(self.typed)
        return self.row.part != BREAKS or bool(self.row.value or self.row.percent or self.typed)


def lines(content: Mapping[str, Any]) -> tuple[PriceLine, ...]:
    """The table of a book, with every format of the catalogue, also those it has no price for."""
    rows = price_rows.of_document(content)
    known = {row.code for row in rows if row.part == CAPTURE}
    without = [
        PriceRow(CAPTURE, name, price_rows.format_words(name), Way.PER_TAPE.value)
        for name in (form.name for form in catalogue().offered)
        if name not in known
    ]
    own = [row for row in rows if row.part == CAPTURE]
    others = [row for row in rows if row.part not in (BOOK, CAPTURE)]
    currency = str(content["currency"])
    return arranged([PriceLine(row, currency) for row in (*own, *without, *others)])


def arranged(given: Sequence[PriceLine]) -> tuple[PriceLine, ...]:
    """The lines under their heads, the breaks numbered, with one empty line for a further break."""
    steps = [line for line in given if line.row.part == BREAKS and line.counts]
    steps.append(PriceLine(PriceRow(BREAKS, ""), given[0].currency))
    words = say("settings", f"prices-row-{BREAKS}")
    numbered = [
        replace(line, row=replace(line.row, code=str(n), words=words)) for n, line in enumerate(steps, 1)
    ]
    return tuple(_headed([*(line for line in given if line.row.part != BREAKS), *numbered]))


def written(line: PriceLine, column: str, text: str) -> PriceLine:
    """The line with a cell as it was typed."""
    if not line.is_edited(column) or text == line.shown(column):
        return line
    key, typed = key_of(line.row, column), tuple(each for each in line.typed if each[0] != column)
    cell = _read(line, column, text.strip())
    refused = ("", "") if line.refused[0] == column else line.refused
    if cell is None:
        return replace(line, typed=(*typed, (column, text)), refused=refused)
    row = replace(line.row, **{key: cell})
    if key == "way" and row.part == CAPTURE:
        row = replace(row, minutes=(row.minutes or USUAL_PERIOD) if cell == Way.PER_PERIOD.value else "")
    return replace(line, row=row, typed=typed, refused=refused)


def checked(
    given: Sequence[PriceLine], heading: Mapping[str, str]
) -> tuple[PriceBook | None, tuple[PriceLine, ...]]:
    """The book of the lines, or None, and the lines with what is wrong in them.

    ``heading``: the cells of the rows that are no prices (`price_rows.BOOK`), by their code.
    """
    clean = [replace(line, refused=("", "")) for line in given]
    places = [place for place, line in enumerate(clean) if line.counts]
    rows = [PriceRow(BOOK, code, value=value) for code, value in heading.items()]
    rows += [clean[place].row for place in places]
    if any(line.typed for line in clean):
        return None, tuple(clean)
    where = say("settings", "the-prices")
    try:
        return price_book.of_document(price_rows.document(rows), where), tuple(clean)
    except WrongInput as error:
        found = price_rows.fault(error, where, rows)
        if found.row is None or found.row < len(heading):
            raise
        place, column = places[found.row - len(heading)], _column(found.column)
        sentence = error.accepted if column in ("words", "way") else _accepted(column, clean[place].currency)
        if found.column == "value" and clean[place].row.part == BREAKS:
            sentence = say("settings", "prices-rising")
        clean[place] = replace(clean[place], refused=(column, sentence))
        return None, tuple(clean)


def first_wrong(given: Sequence[PriceLine]) -> tuple[int, str, WrongInput] | None:
    """Line, column and error of the first cell that is not accepted."""
    for place, line in enumerate(given):
        for column in COLUMNS:
            if sentence := line.wrong(column):
                where = say(
                    "settings", "prices-cell", what=line.row.words, column=head(column, line.currency)
                )
                return place, column, WrongInput(where, line.shown(column), sentence)
    return None


def head(column: str, currency: str) -> str:
    """The heading of a column."""
    sign = typed_amounts.symbol(currency) if currency else ""
    return say("settings", f"prices-column-{column}", currency=sign)


def ways(row: PriceRow) -> tuple[CellChoice, ...]:
    """The ways of charging, or of taxing, as they are offered."""
    kinds = tuple(TaxMode) if row.part == TERMS else tuple(Way)
    return tuple(CellChoice(say("settings", f"prices-way-{kind.value}"), (kind.value,)) for kind in kinds)


def key_of(row: PriceRow, column: str) -> str:
    """The column of the book's row that a column of the table shows; nothing where it shows none."""
    if column != "number":
        return column if column != "value" else ""
    if row.part == CAPTURE:
        return "minutes"
    return "value" if row.part == BREAKS or row.code == "quote_valid_days" else ""


def _column(key: str) -> str:
    return "number" if key in ("minutes", "value") else key


def _headed(given: Sequence[PriceLine]) -> Iterator[PriceLine]:
    before = ""
    for line in given:
        part = TERMS if line.row.part == BREAKS else line.row.part
        yield replace(line, head="" if part == before else say("settings", f"prices-part-{part}"))
        before = part


def _read(line: PriceLine, column: str, text: str) -> str | None:
    """What was typed as it stands in the book's file; None for what cannot be read."""
    if column == "words":
        return text or None
    if column == "way":
        found = choices.meant(ways(line.row), text)
        return found.aliases[0] if found else None
    if not text:
        return "" if _may_be_empty(line, column) else None
    if column == "number":
        return text if text.isascii() and text.isdecimal() and len(text) <= 6 else None
    return price_of(text, line.currency) if column == "price" else percent_of(text)


def _may_be_empty(line: PriceLine, column: str) -> bool:
    return line.row.part == BREAKS or (line.row.part == CAPTURE and column == "price")


def price_of(text: str, currency: str) -> str | None:
    """An amount typed in the shop's locale as the book's file has it: ``9,50`` is ``9.50``."""
    minor = typed_amounts.minor_of(text, currency)
    if minor is None:
        return None
    digits = typed_amounts.decimals(currency)
    return f"{Decimal(minor).scaleb(-digits):.{digits}f}"


def percent_of(text: str) -> str | None:
    """A percentage typed in the shop's locale, with or without its sign, as the book's file has it."""
    value = typed_amounts.number_of(text.removesuffix("%"))
    return None if value is None else f"{value.normalize():f}"


def _in_locale(column: str, cell: str, currency: str) -> str:
    try:
        value = Decimal(cell)
    except ArithmeticError:
        return cell
    if column == "price":
        return typed_amounts.typed_amount(value.scaleb(typed_amounts.decimals(currency)), currency)
    places = max(0, -int(value.normalize().as_tuple().exponent))
    return locale_numbers.decimal(float(value), current().locale, places)


def _accepted(column: str, currency: str) -> str:
    """What may stand in a column."""
    if column == "price":
        return say("settings", "prices-accepted-price", example=typed_amounts.example(currency))
    if column == "way":
        return say("settings", "prices-accepted-way")
    return say("settings", f"prices-accepted-{column}")


PARTS = (CAPTURE, REPAIR, MEDIA, TERMS)
"""The parts of the table, in their order."""
