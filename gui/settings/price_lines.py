"""The lines of the price table: the prices as the shop writes amounts, and what is wrong with them.

No Qt. A line holds the row of the book's file; what is no amount stays as it was typed, with a sentence.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from core.catalogue.formats import catalogue
from core.model.errors import WrongInput
from core.pricing import price_book, price_rows
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import Way
from core.pricing.price_rows import (
    BOOK,
    BREAKS,
    CAPTURE,
    DISPOSITIONS,
    LISTS,
    MEDIA,
    REPAIR,
    TAXES,
    TERMS,
    PriceRow,
)
from core.wording import typed_amounts
from gui.settings import price_texts
from gui.settings.price_texts import key_of
from gui.toolkit.text import say, sentence_case

USUAL_PERIOD = "30"
"""Minutes of a started period until the owner writes others."""
COLUMNS = ("words", "way", "price", "minimum", "percent", "number")


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
            return price_texts.accepted(self.row, column, self.currency)
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
        if column == "words" and not self.is_edited(column):
            return sentence_case(self.row.words)
        if column == "words" and self.row.part == TAXES and not self.counts:
            return say("settings", f"prices-row-{TAXES}")
        return price_texts.shown(self.row, column, self.currency) if self.is_edited(column) else ""

    @property
    def means(self) -> str:
        """A sentence on what the line is for, where its words do not say it all."""
        of_part = self.row.part in (DISPOSITIONS, *LISTS)
        key = f"prices-means-{self.row.part if of_part else self.row.code}"
        if self.row.part not in (TERMS, DISPOSITIONS, *LISTS):
            return ""
        example = (
            price_texts.storage_example(self.row, self.currency) if self.row.code == "storage_fee" else ""
        )
        return " ".join(filter(None, (say("settings", key), example)))

    @property
    def counts(self) -> bool:
        """Whether the line is in the book: what has no price is not, nor a break without figures."""
        if self.row.part == CAPTURE or price_rows.is_own(self.row):
            return bool(self.row.price) or "price" in dict(self.typed)
        filled = self.row.value or self.row.percent or (self.row.part == TAXES and self.row.words)
        return self.row.part not in LISTS or bool(filled or self.typed)


def lines(content: Mapping[str, Any]) -> tuple[PriceLine, ...]:
    """The table of a book, with every format and all the shop's own, also what it has no price for."""
    rows = price_rows.of_document(content)
    known = {row.code for row in rows if row.part == CAPTURE}
    without = [
        PriceRow(CAPTURE, name, price_rows.format_words(name), Way.PER_TAPE.value)
        for name in (form.name for form in catalogue().offered)
        if name not in known
    ]
    own = [row for row in rows if row.part == CAPTURE]
    parts = [[row for row in rows if row.part == part] for part in (REPAIR, MEDIA)]
    added = [
        [row for row in price_rows.own_rows(part) if row.code not in content[part]]
        for part in (REPAIR, MEDIA)
    ]
    bench = [row for some, new in zip(parts, added, strict=True) for row in (*some, *new)]
    others = [row for row in rows if row.part not in (BOOK, CAPTURE, REPAIR, MEDIA)]
    currency = str(content["currency"])
    return arranged([PriceLine(row, currency) for row in (*own, *without, *bench, *others)])


def arranged(given: Sequence[PriceLine]) -> tuple[PriceLine, ...]:
    """The lines under their heads, taxes and breaks numbered, with one empty line for a further one each."""
    found = [line for line in given if line.row.part not in LISTS]
    empty = {TAXES: PriceRow(TAXES, "", on=price_texts.EVERYTHING), BREAKS: PriceRow(BREAKS, "")}
    for part in LISTS:
        own = [line for line in given if line.row.part == part and line.counts]
        own.append(PriceLine(empty[part], given[0].currency))
        words = say("settings", f"prices-row-{part}")
        found += [
            replace(
                line, row=replace(line.row, code=str(n), words=line.row.words if part == TAXES else words)
            )
            for n, line in enumerate(own, 1)
        ]
    return tuple(_headed(found))


def written(line: PriceLine, column: str, text: str) -> PriceLine:
    """The line with a cell as it was typed."""
    if not line.is_edited(column) or text == line.shown(column):
        return line
    key, typed = key_of(line.row, column), tuple(each for each in line.typed if each[0] != column)
    cell = price_texts.read(line.row, column, text.strip(), line.currency)
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
        row = clean[place].row
        told = column in ("way", "minimum") or (row.part == TAXES and column == "percent")
        sentence = error.accepted if told else price_texts.accepted(row, column, clean[place].currency)
        if found.column == "value" and row.part == BREAKS:
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


def _column(key: str) -> str:
    return "number" if key in ("minutes", "value", "on") else key


def _headed(given: Sequence[PriceLine]) -> Iterator[PriceLine]:
    before = ""
    for line in given:
        part = TERMS if line.row.part in LISTS else line.row.part
        yield replace(line, head="" if part == before else say("settings", f"prices-part-{part}"))
        before = part


PARTS = (CAPTURE, REPAIR, MEDIA, DISPOSITIONS, TERMS)
"""The parts of the table, in their order."""
