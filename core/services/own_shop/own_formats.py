"""The formats of a shop's own in its settings: ``[[format]]``, read by the rules of every format's file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from core.catalogue import formats
from core.model.errors import WrongInput, at
from core.model.own_shop.settings_records import OwnFormat, own_format
from core.wording.messages import say

LONGEST_WORDS = 40
_KEY = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_LONGEST_KEY = 40


def of_entries(entries: Sequence[Mapping[str, Any]], where: str) -> tuple[OwnFormat, ...]:
    """The formats of the tables; WrongInput names the entry and the key, as for a format's file."""
    own: list[OwnFormat] = []
    for number, entry in enumerate(entries, 1):
        place = at(where, f"format {number}")
        own.append(_of_entry(entry, place))
        _check_words(own[-1], place)
        if any(form.name == own[-1].name for form in own[:-1]):
            raise WrongInput(at(place, "name"), own[-1].name, say("files", "format-name-taken"))
    try:
        formats.of_own(tuple(own))
    except WrongInput as wrong:
        raise _placed(wrong, own, where) from None
    return tuple(own)


def entries(own: Iterable[OwnFormat]) -> tuple[dict[str, Any], ...]:
    """The tables that `of_entries` reads back to the same formats."""
    return tuple(
        {"name": form.name, **({"retired": True} if form.retired else {}), **form.tables} for form in own
    )


def named(own: tuple[OwnFormat, ...]) -> tuple[tuple[str, str, str], ...]:
    """Key, words and container of each, as papers say them."""
    known = formats.of_own(own)
    return tuple((form.name, form.words, known.format(form.name).counted_in.value) for form in own)


def free_key(words: str, taken: Iterable[str]) -> str:
    """A key for a new format of these words that no other has: ``super-8-sound``, or ``super-8-sound-2``."""
    plain = re.sub(r"[^a-z0-9]+", "-", words.casefold()).strip("-")[: _LONGEST_KEY - 4].strip("-") or "own"
    used, number, key = set(taken), 1, plain
    while key in used:
        number += 1
        key = f"{plain}-{number}"
    return key


def _of_entry(entry: Mapping[str, Any], place: str) -> OwnFormat:
    name, retired = entry.get("name", ""), entry.get("retired", False)
    if not isinstance(name, str) or len(name) > _LONGEST_KEY or not _KEY.fullmatch(name):
        raise WrongInput(at(place, "name"), name, say("files", "format-key"))
    if not isinstance(retired, bool):
        raise WrongInput(at(place, "retired"), retired, say("files", "true-or-false"))
    tables = {key: value for key, value in entry.items() if key not in ("name", "retired")}
    return own_format(name, tables, retired=retired)


def _check_words(form: OwnFormat, place: str) -> None:
    """WrongInput where what it is called is no text that a paper could show."""
    words = form.tables.get("words")
    name = words.get("name", "") if isinstance(words, dict) else ""
    if not isinstance(name, str) or not name.strip() or not name.isprintable() or len(name) > LONGEST_WORDS:
        raise WrongInput(at(place, "words", "name"), name, say("files", "format-words", most=LONGEST_WORDS))


def _placed(wrong: WrongInput, own: Sequence[OwnFormat], where: str) -> WrongInput:
    """The same about the entry of the settings in place of a file."""
    for number, form in enumerate(own, 1):
        file = f"{form.name}.toml"
        if wrong.place == file or wrong.place.startswith((f"{file},", f"{file} ")):
            place = at(where, f"format {number}") + wrong.place.removeprefix(file)
            return WrongInput(place, wrong.found, wrong.accepted)
    return wrong
