"""A shop's own sentences over the built-in ones: read, checked, and those that are not the shop's to change.

An own sentence names the same blanks as the one it takes the place of. One that does not, or that Fluent
cannot read, gives way to the built-in one.
"""

from __future__ import annotations

from enum import Enum
from fnmatch import fnmatchcase
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from core.wording import message_files, messages
from core.wording.message_files import Blank, Message, OwnMessages, Selected

if TYPE_CHECKING:
    from fluent.syntax import ast

CLOSED = (
    "findings/*",
    "moves/*",
    "look/*",
    "formats/protect*",
    "formats/plays-*",
    "tapes/still_cold",
    "cli/careful",
    "pickup/tell_*",
    "pickup/label_*",
    "handing_back/*label*",
    "repair/*",
    "bench/*label*",
    "bench/band_*",
    "bench/not_for_reuse",
    "inspection/careful",
    "bench/spliced",
    "bench/marked",
    "customer/band_*",
    "inspection/change_reuse",
    "paper/law",
    "paper/home-*",
    "paper/incident-law",
    "paper/fee-storage-*",
    "paper/band-*",
    "paper/splice-*",
    "paper/label-*",
    "paper/know-*",
    "paper/why-*",
    "paper/reminder-storage*",
    "paper/receipt-do_spliced*",
    "paper/receipt-told_spliced",
    "paper/station-kept-apart",
    "paper/outcome-cannot",
)
"""What protects people, tapes and machines: hazards, cautions, not for reuse, the law."""


class Misfit(Enum):
    """Why an own sentence cannot take the place of the built-in one."""

    UNKNOWN = "own-words-unknown"
    CLOSED = "own-words-closed"
    UNREADABLE = "own-words-unreadable"
    BLANKS = "own-words-blanks"


def is_closed(place: str) -> bool:
    """Whether the sentence at ``room/key`` stays as it is."""
    return any(fnmatchcase(place, pattern) for pattern in CLOSED)


@lru_cache(maxsize=8)
def of(language: str, own: tuple[tuple[str, str], ...]) -> OwnMessages | None:
    """Those of the shop's own sentences (``room/key`` and text) that fit, to be said in its language."""
    if not own:
        return None
    rooms: dict[str, dict[str, Message]] = {}
    locale = messages.speech(language).locale
    for place, text in own:
        room, _, key = place.partition("/")
        found = read(place, text, messages.built_in(room, language).get(key), locale)
        if not isinstance(found, Misfit):
            rooms.setdefault(room, {})[key] = found
    return OwnMessages(f"{language} {own!r}", rooms)


def read(place: str, text: str, built_in: Message | None, locale: str) -> Message | Misfit:
    """The own sentence for ``room/key``, or why there is none; ``locale`` is that of its plurals."""
    if built_in is None:
        return Misfit.UNKNOWN
    if is_closed(place):
        return Misfit.CLOSED
    key = place.partition("/")[2]
    source = f"{key} = {text}" if "\n" not in text else f"{key} =\n" + _indented(text)
    named = _blanks_of(key, source)
    if named is None or not text.strip():
        return Misfit.UNREADABLE
    if named != blanks(built_in):
        return Misfit.BLANKS
    parts = message_files.parts_of(text)
    if parts is None:
        return Selected(locale, Path(), key, None, None, source)
    return message_files.joined(parts, None, None)


def blanks(message: Message) -> frozenset[str]:
    """The names that a sentence asks to be filled in."""
    if isinstance(message, str):
        return frozenset()
    if isinstance(message, tuple):
        return frozenset(part.name for part in message if isinstance(part, Blank))
    return _blanks_of(message.key, source_of(message)) or frozenset()


def source_of(message: Message) -> str:
    """A sentence as it is written in a wording file: text with its blanks, a selector line by line."""
    if isinstance(message, str):
        return message
    if isinstance(message, tuple):
        return "".join(part if isinstance(part, str) else f"{{ ${part.name} }}" for part in message)
    text = message.text or message.file.read_text(encoding="utf-8")
    return f"{message.key} = {dict(message_files.entries(text))[message.key]}"


@lru_cache(maxsize=512)
def _blanks_of(key: str, source: str) -> frozenset[str] | None:
    """The blanks of one message; None where Fluent reads anything but one sentence of text and blanks."""
    from fluent.syntax import FluentParser, ast

    body = FluentParser(with_spans=False).parse(source + "\n").body
    if len(body) != 1 or not isinstance(body[0], ast.Message) or body[0].id.name != key:
        return None
    if body[0].attributes or body[0].value is None:
        return None
    found: set[str] = set()
    return frozenset(found) if _collect(body[0].value, found) else None


def _collect(pattern: ast.Pattern, found: set[str]) -> bool:
    """Adds the blanks of a pattern; whether it holds nothing but text, blanks and choices by a blank."""
    from fluent.syntax import ast

    for element in pattern.elements:
        if isinstance(element, ast.TextElement):
            continue
        inside = element.expression
        if isinstance(inside, ast.VariableReference):
            found.add(inside.id.name)
        elif isinstance(inside, ast.SelectExpression) and isinstance(inside.selector, ast.VariableReference):
            found.add(inside.selector.id.name)
            if not all(_collect(variant.value, found) for variant in inside.variants):
                return False
        elif not isinstance(inside, ast.StringLiteral):
            return False
    return True


def _indented(text: str) -> str:
    return "\n".join(f"    {line}" for line in text.splitlines())
