"""Every sentence a shop may word its own way, found by typing part of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from core.wording import messages, own_words

MOST_FOUND = 30
_PAPERS = "paper"


@dataclass(frozen=True, slots=True)
class BuiltIn:
    """A built-in sentence: where it stands, and how it is written with its blanks."""

    place: str
    """``room/key``."""
    text: str
    blanks: tuple[str, ...]

    @property
    def shown(self) -> str:
        """On one line."""
        return " ".join(self.text.split())


class SentenceSearch:
    """The open sentences of one language; they are read when something is looked for first."""

    def __init__(self) -> None:
        self._language = ""
        self._open: dict[str, BuiltIn] = {}

    def of(self, place: str, language: str) -> BuiltIn | None:
        """The built-in sentence at ``room/key``; None where there is none, or none that is open."""
        return self._sentences(language).get(place)

    def found(self, typed: str, own: Mapping[str, str], language: str) -> tuple[BuiltIn, ...]:
        """Those that hold all the words typed, as built in or as the shop says them, papers first.

        Without a word: those that the shop words its own way.
        """
        wanted = typed.casefold().split()
        hits = [
            each
            for each in self._sentences(language).values()
            if _holds(each, own.get(each.place, ""), wanted) and (wanted or each.place in own)
        ]
        hits.sort(key=lambda each: (not each.place.startswith(f"{_PAPERS}/"), len(each.text)))
        return tuple(hits[:MOST_FOUND])

    def _sentences(self, language: str) -> Mapping[str, BuiltIn]:
        if language != self._language:
            self._open = {each.place: each for each in _read(language)}
            self._language = language
        return self._open


def _read(language: str) -> Iterator[BuiltIn]:
    for room in messages.rooms():
        for key, message in messages.built_in(room, language).items():
            place = f"{room}/{key}"
            if not own_words.is_closed(place):
                names = tuple(sorted(own_words.blanks(message)))
                yield BuiltIn(place, own_words.source_of(message), names)


def _holds(each: BuiltIn, own: str, wanted: list[str]) -> bool:
    said = f"{each.place} {each.text} {own}".casefold()
    return all(word in said for word in wanted)
