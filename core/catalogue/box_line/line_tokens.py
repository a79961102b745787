"""A line cut into words, numbers, quotations and separators; every character but spaces is in one of them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from enum import Enum
from typing import NamedTuple

LONGEST_COUNT = 12
"""Digits; Python makes no number of a text of thousands of them."""


class TokenKind(Enum):
    WORD = "word"
    NUMBER = "number"
    SEPARATOR = "separator"
    """A comma, a semicolon, the end of a line: what stands on either side are different rows, or details."""
    SIGN = "sign"
    """Punctuation that means nothing here."""
    QUOTED = "quoted"
    ODD = "odd"
    """A character that belongs to no word."""


class Token(NamedTuple):
    kind: TokenKind
    start: int
    end: int
    text: str
    """As written; of a quotation what stands between the quotation marks."""


_PIECE = re.compile(
    r"""
      (?P<quoted>"(?:[^"\n\r]|"")*(?:"|(?=[\n\r])|\Z) | “[^”\n\r]*(?:”|(?=[\n\r])|\Z)
        | «[^»\n\r]*(?:»|(?=[\n\r])|\Z) | „[^“”\n\r]*(?:[“”]|(?=[\n\r])|\Z))
    | (?P<separator>[,;\n\r\v\f\x1c-\x1e\x85\u2028\u2029]+)
    | (?P<word>[^\s,;"“”«»„\x1c-\x1e\x85]+)
    | (?P<odd>\S)
    """,
    re.VERBOSE,
)
_BEFORE, _AFTER = "([{", ")]}.:!?"
_ALONE = frozenset("-–—•*·|/=.:()[]{}!?&+")
"""Signs that mean nothing standing by themselves; & and + join as *and* does."""


def is_table(text: str) -> bool:
    """Whether ``text`` has cells or rows, rather than being one line of words."""
    return "\t" in text or len([line for line in text.splitlines() if line.strip()]) > 1


def tokens(text: str) -> tuple[Token, ...]:
    """The pieces of a line in order."""
    return tuple(_tokens(text))


def _tokens(text: str) -> Iterator[Token]:
    for match in _PIECE.finditer(text):
        if match.lastgroup == "word":
            yield from _words(match[0], match.start())
        elif match.lastgroup == "separator":
            # A line may end in spaces that Python counts among separators; those alone are none.
            kind = TokenKind.SEPARATOR
            yield Token(kind, match.start(), match.end(), match[0])
        elif match.lastgroup == "quoted":
            yield Token(TokenKind.QUOTED, match.start(), match.end(), _unquoted(match[0]))
        else:
            yield Token(TokenKind.ODD, match.start(), match.end(), match[0])


def _words(text: str, start: int) -> Iterator[Token]:
    """The words of a run without spaces: a slash parts them, brackets and end stops are no part of them."""
    place = start
    for piece in re.split(r"(/)", text):
        if piece:
            yield from _word(piece, place)
        place += len(piece)


def _word(text: str, start: int) -> Iterator[Token]:
    if all(sign in _ALONE for sign in text):
        yield Token(TokenKind.SIGN, start, start + len(text), text)
        return
    inner = text.lstrip(_BEFORE)
    before = len(text) - len(inner)
    word = inner.rstrip(_AFTER)
    if before:
        yield Token(TokenKind.SIGN, start, start + before, text[:before])
    start += before
    kind = TokenKind.NUMBER if word.isdecimal() else TokenKind.WORD
    yield Token(kind, start, start + len(word), word)
    if word != inner:
        yield Token(TokenKind.SIGN, start + len(word), start + len(inner), inner[len(word) :])


def _unquoted(text: str) -> str:
    closed = len(text) > 1 and text[-1] in '"”»“'
    inner = text[1:-1] if closed else text[1:]
    return (inner.replace('""', '"') if text[0] == '"' else inner).strip()
