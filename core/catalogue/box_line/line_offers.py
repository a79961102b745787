"""What may have been meant: words like an unknown one, and the ways to go on with a word half typed."""

from __future__ import annotations

from typing import NamedTuple

from core.catalogue import formats
from core.catalogue.box_line.line_records import LineReading
from core.catalogue.box_line.line_tokens import TokenKind, tokens
from core.catalogue.box_line.line_words import LONGEST_PHRASE, Meaning, Phrase, plain, shown, vocabulary
from core.catalogue.cassettes import Format
from core.wording.messages import worded_cache

ALIKE = 0.6
"""The least likeness (one less the share of letters that differ, an exchange of two counting once)."""
SHORTEST = 3
"""Letters; of shorter words nearly every other one is alike."""
MOST = 3
"""Corrections offered of one word (an assumption)."""
MOST_COMPLETIONS = 8


@worded_cache(maxsize=2048)
def resembling(word: str) -> tuple[Phrase, ...]:
    """The things of a tape whose names are most like ``word``, the likeliest first."""
    wanted = plain(word)
    if not SHORTEST <= len(wanted) <= 40:
        return ()
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    named = {key: each for key, phrases in vocabulary().items() for each in phrases if _names(each)}
    found = process.extract(
        wanted, list(named), scorer=OSA.normalized_similarity, score_cutoff=ALIKE, limit=4 * MOST
    )
    return tuple(dict.fromkeys(named[key] for key, _, _ in found))[:MOST]


def _names(phrase: Phrase) -> bool:
    return phrase.meaning in (Meaning.FORMAT, Meaning.FINDING, Meaning.SPEED, Meaning.TV)


def markings_with(shell: Format, number: str) -> tuple[str, ...]:
    """The listed markings of a format in which this number stands: ``T-120`` and ``E-120`` for 120."""
    ends = (marking.name for marking in shell.markings if _number_of(marking.name) == number)
    return tuple(ends)[:MOST]


def _number_of(name: str) -> str:
    digits = name.replace("-", " ").split()[-1]
    return "".join(sign for sign in digits if sign.isdigit())


class Completion(NamedTuple):
    """What stands from ``start`` to ``end`` may become one of these words."""

    start: int
    end: int
    words: tuple[str, ...]


def completions(reading: LineReading, cursor: int) -> Completion | None:
    """The words that may be meant by what is typed before the cursor; None where nothing begins so."""
    before = [piece for piece in tokens(reading.text[:cursor]) if piece.end <= cursor]
    if not before or before[-1].end != cursor:
        return None
    for length in range(min(LONGEST_PHRASE, len(before)), 0, -1):
        pieces = before[-length:]
        if all(piece.kind in (TokenKind.WORD, TokenKind.NUMBER) for piece in pieces):
            start = pieces[0].start
            if found := _beginning(plain(reading.text[start:cursor]), _markings_at(reading, start)):
                return Completion(start, cursor, found)
    return None


def _markings_at(reading: LineReading, place: int) -> tuple[str, ...]:
    """The markings of the format named in the row around a place of the line."""
    rows = [each.row for each in reading.stretches if each.row is not None and each.start <= place]
    row = rows[-1] if rows else None
    name = reading.rows[row].format if row is not None else None
    return tuple(m.name for m in formats.catalogue().format(name).markings) if name else ()


def _beginning(letters: str, markings: tuple[str, ...]) -> tuple[str, ...]:
    """Words that begin with these letters and go on; nothing where the letters are a word already."""
    if not letters or letters.isdecimal() or letters in vocabulary():
        return ()
    named = {phrase.words: None for phrase in shown() if plain(phrase.words).startswith(letters)}
    for key, phrases in vocabulary().items():
        if key.startswith(letters):
            named.update({each.words: None for each in phrases if _names(each)})
    printed = {name: None for name in markings if plain(name).startswith(letters)}
    if letters in map(plain, printed):
        return ()
    return tuple({**printed, **named})[:MOST_COMPLETIONS]
