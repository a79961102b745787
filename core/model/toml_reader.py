"""Reading a TOML file key by key, with a sentence for everything that is not as it should be."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from enum import Enum
from pathlib import Path
from typing import Any, TypeVar

from core.model.errors import WrongInput, nothing
from core.wording.messages import say

Choice = TypeVar("Choice", bound=Enum)


class Page:
    """One table of a file. Remembers which keys were read, so that a misspelt key is not passed over."""

    def __init__(self, content: dict[str, Any], where: str) -> None:
        self.content = content
        self.where = where
        self._read: set[str] = set()
        self._below: list[Page] = []

    def __iter__(self) -> Iterator[str]:
        return iter(tuple(self.content))

    def wrong(self, key: str, found: object, accepted: str) -> WrongInput:
        """The error for one key of this table; the caller raises it."""
        return WrongInput(f"{self.where}, {key}", found, accepted)

    def text(self, key: str) -> str:
        found = self._found(key)
        if not isinstance(found, str) or not found.strip():
            raise self.wrong(key, found, say("readers", "words_quotes_accepted"))
        return found

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of words; may be empty."""
        found = self._found(key)
        if not isinstance(found, list) or not all(isinstance(item, str) for item in found):
            raise self.wrong(key, found, say("readers", "list_words_quotes_accepted"))
        return tuple(found)

    def flag(self, key: str) -> bool:
        found = self._found(key)
        if not isinstance(found, bool):
            raise self.wrong(key, found, say("readers", "true_false_accepted"))
        return found

    def whole(self, key: str, *, least: int, most: int) -> int:
        found = self._found(key)
        if not isinstance(found, int) or isinstance(found, bool) or not least <= found <= most:
            raise self.wrong(key, found, say("readers", "whole_number_accepted", least=least, most=most))
        return found

    def share(self, key: str, *, least: float, most: float) -> float:
        found = self._found(key)
        if not isinstance(found, int | float) or isinstance(found, bool) or not least <= found <= most:
            raise self.wrong(key, found, say("readers", "number_accepted", least=least, most=most))
        return float(found)

    def day(self, key: str) -> date:
        return self._as_day(key, self._found(key))

    def days(self, key: str) -> tuple[date, ...]:
        """A list of dates; may be empty."""
        found = self._found(key)
        if not isinstance(found, list):
            raise self.wrong(key, found, say("readers", "list_dates_accepted_like"))
        return tuple(self._as_day(key, item) for item in found)

    def one_of(self, key: str, choices: type[Choice]) -> Choice:
        found = self._found(key)
        try:
            return choices(found)
        except ValueError:
            words = ", ".join(str(choice.value) for choice in choices)
            raise self.wrong(key, found, say("readers", "accepted", words=words)) from None

    def price(self, key: str, minor_digits: int) -> Decimal:
        """An amount in minor units, exact and not negative."""
        return self._number(key, say("readers", "amount_quotes_accepted_like")).scaleb(minor_digits)

    def percent(self, key: str, *, most: int) -> Decimal:
        accepted = say("readers", "percentage_quotes_accepted_like", most=most)
        number = self._number(key, accepted)
        if number > most:
            raise self.wrong(key, self.content[key], accepted)
        return number

    def table(self, key: str) -> Page:
        found = self._found(key)
        if not isinstance(found, dict):
            raise self.wrong(key, found, say("readers", "table_accepted"))
        return self._page(found, f"{self.where}, {key}")

    def tables(self, key: str) -> tuple[Page, ...]:
        """Every table of a list of tables; none when the key is not there."""
        self._read.add(key)
        found = self.content.get(key, [])
        if not isinstance(found, list) or not all(isinstance(item, dict) for item in found):
            raise self.wrong(key, found, say("readers", "list_tables_accepted", name=key))
        return tuple(self._page(item, f"{self.where}, {key} {n}") for n, item in enumerate(found, 1))

    def optional_text(self, key: str) -> str | None:
        """Words, or None when the key is not there or empty."""
        if self.content.get(key, "") == "":
            self._read.add(key)
            return None
        return self.text(key)

    def refuse_unread(self) -> None:
        """WrongInput for the first key, here or in the tables below, that nobody asked for."""
        for key in self.content:
            if key not in self._read:
                accepted = ", ".join(sorted(self._read)) or say("files", "nothing")
                raise WrongInput(self.where, key, say("readers", "keys_accepted_here", accepted=accepted))
        for page in self._below:
            page.refuse_unread()

    def _page(self, content: dict[str, Any], where: str) -> Page:
        page = Page(content, where)
        self._below.append(page)
        return page

    def _found(self, key: str) -> Any:
        self._read.add(key)
        if key not in self.content:
            raise WrongInput(self.where, nothing(), say("readers", "key_needed", name=key))
        return self.content[key]

    def _number(self, key: str, accepted: str) -> Decimal:
        found = self._found(key)
        if not isinstance(found, str):
            raise self.wrong(key, found, accepted)
        try:
            number = Decimal(found)
        except InvalidOperation:
            raise self.wrong(key, found, accepted) from None
        if not number.is_finite() or not 0 <= number < 1_000_000:
            raise self.wrong(key, found, accepted)
        return number

    def _as_day(self, key: str, found: object) -> date:
        if not isinstance(found, date) or isinstance(found, datetime):
            raise self.wrong(key, found, say("readers", "date_accepted_like_without"))
        return found


def read(path: Path) -> Page:
    """The whole file as one page; WrongInput when it cannot be read or is no TOML."""
    try:
        return page_of(path.read_text(encoding="utf-8"), path.name)
    except (OSError, UnicodeDecodeError) as failure:
        raise WrongInput(str(path), str(failure), say("readers", "readable_text_file_accepted")) from None


def page_of(text: str, where: str) -> Page:
    """A text as one page; ``where`` names it in sentences."""
    try:
        return Page(tomllib.loads(text), where)
    except tomllib.TOMLDecodeError as failure:
        raise WrongInput(where, str(failure), say("readers", "file_toml_accepted")) from None
