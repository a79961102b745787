"""Reads Project Fluent files, leaving to Fluent only the messages that need it.

``fluent.runtime`` takes 45 ms to import and 7 ms to parse 138 messages: too long before the first paint. Most
messages are text on one line, or text with ``{ $name }`` in it: those are read here by the same grammar, and
a test holds both readings together.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from fluent.runtime import FluentBundle

FOLDER = Path(__file__).resolve().parents[2] / "resources" / "wording"
PLACES = ("", "screens", "trade")
"""Folders of a language: what is said everywhere, on the screens, and of the things of the trade."""

Alteration = Callable[[str], str]
"""Changes the words of a message: its spelling, or all of them for the pseudo-language."""

_ENTRY = re.compile(
    r"^([a-zA-Z][a-zA-Z0-9_-]*) *=[ \t]*(.*(?:\n(?:[ \t]+\S.*|[}].*|[ \t]*(?=\n[ \t]+\S)))*)", re.MULTILINE
)
_PLACEABLE = re.compile(r"\{[ \t]*(?:\$([a-zA-Z][a-zA-Z0-9_-]*)|\"([^\"\\{}\n]*)\")[ \t]*\}")


class Blank(NamedTuple):
    """A placeable filled in by the caller."""

    name: str


Parts = tuple[str | Blank, ...]
"""A message without selectors: its text and blanks in order."""


class Selected:
    """A message that only Fluent can say: it selects by number or word, or runs over several lines.

    Equal to itself alone: what it said is remembered by it, and its hash is taken for every sentence.
    """

    __slots__ = ("alter", "file", "key", "locale", "text", "wrap")

    def __init__(
        self,
        locale: str,
        file: Path,
        key: str,
        alter: Alteration | None,
        wrap: Alteration | None,
        text: str = "",
    ) -> None:
        self.locale, self.file, self.key = locale, file, key
        self.alter, self.wrap = alter, wrap
        self.text = text
        """The whole message where it is the shop's own and stands in no file."""

    def format(self, fill: Mapping[str, object]) -> tuple[str, list[Exception]]:
        """The sentence, and what Fluent found wrong with it."""
        bundle = _bundle(self.locale, self.file, self.alter, self.text)
        pattern = bundle.get_message(self.key).value
        if pattern is None:
            return "", [LookupError(self.key)]
        sentence, wrong = bundle.format_pattern(pattern, dict(fill))
        return self.wrap(str(sentence)) if self.wrap else str(sentence), wrong


Message = Parts | str | Selected


class OwnMessages(str):
    """A shop's own sentences that fit, by room and key; the same when their text is the same."""

    rooms: Mapping[str, Mapping[str, Message]]

    def __new__(cls, text: str, rooms: Mapping[str, Mapping[str, Message]]) -> OwnMessages:
        made = super().__new__(cls, text)
        made.rooms = rooms
        return made


def read(file: Path, locale: str, alter: Alteration | None, wrap: Alteration | None) -> dict[str, Message]:
    """Messages of a file by their id; ``alter`` changes their text, ``wrap`` is put around each sentence."""
    said: dict[str, Message] = {}
    for key, source in entries(_text_of(file)):
        parts = parts_of(source)
        if parts is None:
            said[key] = Selected(locale, file, key, alter, wrap)
        else:
            said[key] = joined(parts, alter, wrap)
    return said


def _text_of(file: Path) -> str:
    """What somebody wrote; a byte that is no UTF-8 becomes a sign that says so, and no sentence is lost."""
    return file.read_text(encoding="utf-8", errors="replace")


def entries(text: str) -> Iterator[tuple[str, str]]:
    """Each message of a file: its id, and all that stands after the equals sign."""
    return ((found[1], found[2].rstrip()) for found in _ENTRY.finditer(text))


def parts_of(source: str) -> Parts | None:
    """The text and blanks of a message on one line; None for one that only Fluent reads."""
    if "\n" in source or not source:
        return None
    parts: list[str | Blank] = []
    begun = 0
    for found in _PLACEABLE.finditer(source):
        parts += (source[begun : found.start()], Blank(found[1]) if found[1] else found[2])
        begun = found.end()
    parts.append(source[begun:])
    if any("{" in part or "}" in part for part in parts if isinstance(part, str)):
        return None
    return tuple(part for part in parts if part)


def joined(parts: Parts, alter: Alteration | None, wrap: Alteration | None) -> Message:
    """The text alone where nothing is to be filled in."""
    if alter is not None:
        parts = tuple(alter(part) if isinstance(part, str) else part for part in parts)
    if wrap is not None:
        before, after = wrap("\0").split("\0")
        parts = (before, *parts, after)
    return parts if any(isinstance(part, Blank) for part in parts) else "".join(map(str, parts))


@lru_cache(maxsize=256)
def _bundle(locale: str, file: Path, alter: Alteration | None, text: str) -> FluentBundle:
    from fluent.runtime import FluentBundle, FluentResource

    resource = FluentResource(text or _text_of(file))
    if alter is not None:
        _alter(resource, alter)
    bundle = FluentBundle([locale], use_isolating=False)
    bundle.add_resource(resource)
    return bundle


def _alter(resource: object, alter: Alteration) -> None:
    from fluent.syntax import ast, visitor

    class Text(visitor.Visitor):
        def visit_TextElement(self, element: ast.TextElement) -> None:
            element.value = alter(element.value)

    Text().visit(resource)
