"""The pieces of a line with what each may mean by itself: the longest phrase that is known is taken first."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from core.catalogue import formats
from core.catalogue.box_line.line_tokens import LONGEST_COUNT, Token, TokenKind, tokens
from core.catalogue.box_line.line_words import LONGEST_PHRASE, Meaning, Phrase, plain, vocabulary
from core.model.errors import WrongInput
from core.model.names import FormatName
from core.wording.messages import worded_cache

LONGEST = 4000
"""Characters of a line that are read: more than 500 tapes take, one by one."""


class LineItem(NamedTuple):
    """Some characters of the line and one meaning."""

    meaning: Meaning
    start: int
    end: int
    value: str = ""
    """A name of the inventory file, a number, a marking or a label as typed."""
    implied: str = ""
    """The format that a marking names by itself, as *80 slides* does."""
    is_digits: bool = False
    """Of a count: a bare number, which may as well be a marking."""
    meant: tuple[Phrase, ...] = ()
    """Of unknown words: the things they name at once, where they name several."""


_PRINTED = re.compile(r"[^\W\d_]{1,8}\d?[-–\s]?\d{1,4}[^\W\d_]{0,3}")
"""``T-120``, ``P6-120``, ``DVM 60``, ``BCT-30M``: letters, then the number that tells the minutes."""
_TOLD = re.compile(
    r"(?:[^\W\d_]+\.?\s+|[~≈]\s*)?\d{1,4}(?:[.,]\d{1,2})?\s*[^\W\d_]+\.?(?:\s*\d{1,2}\s*[^\W\d_]+\.?)?"
)
"""``90 min``, ``about 1 h 30 min``, ``50 ft``, ``80 slides``."""
_ODD = re.compile(r"(?:^|\s)[^\w\s]+(?=\s|$)|[^\w\s\-–.,'’_\u0300-\u036f]")
"""A sign that no phrase has, or that stands by itself: comparing letters alone must not swallow it."""
_BEFORE = re.compile(r"(\d{1,12})[x×]", re.IGNORECASE)
_BEHIND = re.compile(r"[x×](\d{1,12})", re.IGNORECASE)
_GLUED = re.compile(r"(\d{1,3})(\D.*)", re.DOTALL)


def items(text: str) -> tuple[LineItem, ...]:
    """The items of a line in order; together they hold every token. What is beyond the longest is unknown."""
    end = len(text) if len(text) <= LONGEST else _last_break(text)
    found = tuple(_labelled(text, tuple(_items(text, tokens(text[:end])))))
    rest = text[end:].strip()
    start = text.find(rest, end)
    return (*found, LineItem(Meaning.UNKNOWN, start, start + len(rest))) if rest else found


def _last_break(text: str) -> int:
    """The end of the last word within the longest line."""
    return max((text.rfind(sign, 0, LONGEST) for sign in " ,;\n"), default=-1) + 1 or LONGEST


def _items(text: str, pieces: Sequence[Token]) -> Iterator[LineItem]:
    place = 0
    while place < len(pieces):
        found, used = _longest(text, pieces, place)
        yield from found
        place += used


def _longest(text: str, pieces: Sequence[Token], place: int) -> tuple[list[LineItem], int]:
    """What begins at a token, and how many tokens that takes."""
    for length in range(_run(pieces, place), 0, -1):
        start, end = pieces[place].start, pieces[place + length - 1].end
        if found := _phrase(text, start, end) or _marking(text, start, end):
            return [found], length
        if length == 2 and (counted := _times(pieces[place], pieces[place + 1])):
            return [counted], length
    return list(_single(pieces[place])), 1


def _run(pieces: Sequence[Token], place: int) -> int:
    """How many words and numbers stand in a row from here; a phrase never goes past a comma."""
    length = 0
    for piece in pieces[place : place + LONGEST_PHRASE]:
        if piece.kind not in (TokenKind.WORD, TokenKind.NUMBER):
            break
        length += 1
    return length


def _phrase(text: str, start: int, end: int) -> LineItem | None:
    typed = text[start:end]
    phrases = vocabulary().get(plain(typed), ())
    if not phrases or _ODD.search(typed):
        return None
    if len(phrases) > 1 or phrases[0].meaning is Meaning.TIMES:
        named = tuple(each for each in phrases if each.value)
        return LineItem(Meaning.UNKNOWN, start, end, meant=named)
    return LineItem(phrases[0].meaning, start, end, phrases[0].value)


def _marking(text: str, start: int, end: int) -> LineItem | None:
    typed = text[start:end]
    if typed.isdecimal() or not (_PRINTED.fullmatch(typed) or _TOLD.fullmatch(typed)):
        return None
    taking = formats_marked(typed)
    if not taking:
        return None
    named = [word for word in re.findall(r"[^\W\d_]+", typed) for word in _formats_named(word)]
    implied = next((name for name in named if name in taking), "")
    return LineItem(Meaning.MARKING, start, end, typed, implied)


def _formats_named(word: str) -> list[str]:
    phrases = vocabulary().get(plain(word), ())
    return [each.value for each in phrases if each.meaning is Meaning.FORMAT]


@worded_cache(maxsize=4096)
def formats_marked(typed: str) -> tuple[FormatName, ...]:
    """The formats that take ``typed`` as a marking."""
    return tuple(form.name for form in formats.catalogue().offered if _takes(form.name, typed))


def _takes(name: FormatName, typed: str) -> bool:
    try:
        return formats.catalogue().format(name).marking(typed) is not None
    except WrongInput:
        return False


def _times(first: Token, second: Token) -> LineItem | None:
    """``5 ×`` before a format, ``× 5`` behind it."""
    for number, sign, digits in ((first, second, True), (second, first, False)):
        if number.kind is TokenKind.NUMBER and _is_times(sign) and len(number.text) <= LONGEST_COUNT:
            value = str(int(number.text)) if digits else f"x{int(number.text)}"
            return LineItem(Meaning.COUNT, first.start, second.end, value)
    return None


def _is_times(token: Token) -> bool:
    phrases = vocabulary().get(plain(token.text), ())
    return token.text == "×" or any(each.meaning is Meaning.TIMES for each in phrases)


def _single(token: Token) -> Iterator[LineItem]:
    start, end = token.start, token.end
    if token.kind is TokenKind.NUMBER:
        yield _number(token)
    elif token.kind is TokenKind.SEPARATOR:
        yield LineItem(Meaning.SEPARATOR, start, end)
    elif token.kind is TokenKind.QUOTED:
        yield LineItem(Meaning.QUOTED, start, end, token.text)
    elif token.kind is TokenKind.SIGN:
        yield LineItem(Meaning.JOINING if token.text in "&+" else Meaning.FILLER, start, end)
    else:
        yield from _unknown(token)


def _number(token: Token) -> LineItem:
    if len(token.text) > LONGEST_COUNT:
        return LineItem(Meaning.UNKNOWN, token.start, token.end)
    return LineItem(Meaning.COUNT, token.start, token.end, str(int(token.text)), is_digits=True)


def _unknown(token: Token) -> Iterator[LineItem]:
    """``5x``, ``x5`` and ``5vhs``; else a word that nobody knows."""
    start, end, text = token.start, token.end, token.text
    if before := _BEFORE.fullmatch(text):
        yield LineItem(Meaning.COUNT, start, end, str(int(before[1])))
    elif behind := _BEHIND.fullmatch(text):
        yield LineItem(Meaning.COUNT, start, end, f"x{int(behind[1])}")
    elif (glued := _GLUED.fullmatch(text)) and (named := _formats_named(glued[2])) and len(named) == 1:
        middle = start + len(glued[1])
        yield LineItem(Meaning.COUNT, start, middle, str(int(glued[1])))
        yield LineItem(Meaning.FORMAT, middle, end, named[0])
    else:
        yield LineItem(Meaning.UNKNOWN, start, end)


def _labelled(text: str, found: Sequence[LineItem]) -> Iterator[LineItem]:
    """Words behind *label* are the label, up to the next comma."""
    place = 0
    while place < len(found):
        item = found[place]
        if item.meaning is Meaning.QUOTED:
            yield item._replace(meaning=Meaning.LABEL)
        elif item.meaning is Meaning.LABEL:
            item, place = _with_label(text, found, place)
            yield item
        else:
            yield item
        place += 1


def _with_label(text: str, found: Sequence[LineItem], place: int) -> tuple[LineItem, int]:
    """The label that follows here as one item with the word before it, and the place of its last item."""
    last = place
    while last + 1 < len(found) and found[last + 1].meaning is not Meaning.SEPARATOR:
        last += 1
        if found[last].meaning is Meaning.QUOTED:
            between = found[place + 1 : last]
            if all(each.meaning is Meaning.FILLER for each in between):
                return found[place]._replace(end=found[last].end, value=found[last].value), last
    said = text[found[place].end : found[last].end].lstrip(" :").strip()
    if not said:
        return found[place]._replace(meaning=Meaning.UNKNOWN), place
    return found[place]._replace(end=found[last].end, value=said), last
