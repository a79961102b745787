"""The vocabulary of the line: names of the catalogue, and what the wording file ``box_line`` adds to them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum
from typing import NamedTuple

from core.catalogue import condition, formats
from core.catalogue.markings import bare
from core.model.folding import folded
from core.model.names import AnyFinding, Speed, TvSystem
from core.model.spoken_names import spoken
from core.wording import spelling
from core.wording.messages import knows, say, worded_cache

ROOM = "box_line"
LONGEST_PHRASE = 5
"""Words of the longest phrase that is looked for."""


class Meaning(Enum):
    """What a phrase of the vocabulary is for; the last few are found in the line, never in the vocabulary."""

    FORMAT = "format"
    FINDING = "finding"
    SPEED = "speed"
    TV = "tv"
    COUNT = "count"
    TIMES = "times"
    ARTICLE = "articles"
    JOINING = "joining"
    AS = "recorded-as"
    OF_THEM = "of-them"
    ALL = "all-of-them"
    LABEL = "label-follows"
    NO_LABEL = "no-label"
    NOT = "negations"
    FILLER = "fillers"
    MARKING = "marking"
    QUOTED = "quoted"
    SEPARATOR = "separator"
    UNKNOWN = "unknown"


class Phrase(NamedTuple):
    """Words that mean one thing: ``value`` is its name in the inventory file."""

    meaning: Meaning
    value: str
    words: str
    """As it is shown, and understood again."""


_LISTED = (
    *(Meaning.TIMES, Meaning.ARTICLE, Meaning.JOINING, Meaning.AS, Meaning.OF_THEM, Meaning.ALL),
    *(Meaning.LABEL, Meaning.NO_LABEL, Meaning.NOT, Meaning.FILLER),
)
"""Meanings whose words stand in one sentence each."""
_COUNTED = 200
"""No count above it has words."""


def plain(text: str) -> str:
    """Letters and digits only, without accents and capitals: how words are compared."""
    return bare(folded(text))


def listed(key: str) -> tuple[str, ...]:
    """The words of one sentence of the file, which are parted by commas; none where there is no such one."""
    if not knows(ROOM, key):
        return ()
    return tuple(word for part in say(ROOM, key).split(",") if (word := part.strip()))


@worded_cache(maxsize=8)
def vocabulary() -> Mapping[str, tuple[Phrase, ...]]:
    """Every phrase by its plain letters; several where the same words mean several things."""
    found: dict[str, dict[Phrase, None]] = {}
    for text, phrase in _phrases():
        if key := plain(text):
            found.setdefault(key, {})[phrase] = None
    for key, phrase in list(_plurals(found)):
        found.setdefault(key, {phrase: None})
    return {key: tuple(phrases) for key, phrases in found.items()}


@worded_cache(maxsize=8)
def shown() -> tuple[Phrase, ...]:
    """One phrase for each thing that can be named of a tape: what completion and corrections offer."""
    named = (Meaning.FORMAT, Meaning.FINDING, Meaning.SPEED, Meaning.TV)
    first = {(each.meaning, each.value): each for _, each in _phrases() if each.meaning in named}
    return tuple(first.values())


def _phrases() -> Iterator[tuple[str, Phrase]]:
    """Each way to say something with what it says; the usual way of each comes first."""
    yield from _of_formats()
    for finding in condition.offered():
        yield from _of_finding(finding)
    for speed in Speed:
        said = (speed.words, speed.value, *listed(f"speed-{speed.value}"))
        yield from _all(said, Phrase(Meaning.SPEED, speed.value, speed.words))
    for tv in TvSystem:
        yield tv.value, Phrase(Meaning.TV, tv.value, tv.value.upper())
    for number in range(1, _COUNTED + 1):
        yield from _all(listed(f"count-{number}"), Phrase(Meaning.COUNT, str(number), str(number)))
    for meaning in _LISTED:
        said = listed(meaning.value)
        yield from _all((*said, *map(spelling.british, said)), Phrase(meaning, "", ""))


def _of_formats() -> Iterator[tuple[str, Phrase]]:
    for form in formats.catalogue().offered:
        # A name with a comma in it cannot stand in a line of things with commas between.
        words = form.name if "," in form.words else form.words
        said = (form.words, form.name, *listed(f"format-{form.name}"))
        yield from _all(said, Phrase(Meaning.FORMAT, form.name, words))


def _of_finding(finding: AnyFinding) -> Iterator[tuple[str, Phrase]]:
    words = spoken(finding)
    said = (words, finding.value, *listed(f"finding-{finding.value}"))
    shown_words = finding.value if "," in words else words
    yield from _all(
        (*said, *map(spelling.british, said)), Phrase(Meaning.FINDING, finding.value, shown_words)
    )


def _all(said: tuple[str, ...], phrase: Phrase) -> Iterator[tuple[str, Phrase]]:
    yield from ((words, phrase) for words in said)


def _plurals(found: Mapping[str, Mapping[Phrase, None]]) -> Iterator[tuple[str, Phrase]]:
    endings = listed("plural-endings")
    for key, phrases in found.items():
        named = [phrase for phrase in phrases if phrase.meaning is Meaning.FORMAT]
        if len(named) == len(phrases) == 1:
            yield from ((key + ending, named[0]) for ending in endings)
