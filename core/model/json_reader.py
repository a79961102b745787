"""Strict reading of JSON that a person or another program wrote, with a place for every complaint.

RFC 8259 leaves duplicate keys and the size of numbers to the reader, and the parser of the standard
library lets NaN through; here all of them are refused by name and position.
"""

from __future__ import annotations

import json
import math
import re
import unicodedata
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Any, NoReturn

from core.model.errors import AsWritten, WrongInput, nothing
from core.wording.messages import say

MOST_BYTES = 2_000_000
"""A box of 500 tapes written out one by one takes about 100 kB."""
DEEPEST = 16
"""Levels of brackets; an inventory needs four."""
_LONGEST_NUMBER = 18
"""Digits of a whole number; more than any count, and safe in 64 bits."""
_STRING_OR_BRACKET = re.compile(r'"(?:[^"\\]|\\.)*+"?|[\[{]|[\]}]', re.DOTALL)
_SPACE = " \t\r\n"
"""What RFC 8259 allows between tokens."""
_COMMA_TOO_MANY = re.compile(rf"[{_SPACE}]*+(,)[{_SPACE},]*+[}}\]]")
_EXTRA_COMMA = "comma"
_FAULTS = (
    (re.compile(_EXTRA_COMMA), "json-comma"),
    (re.compile("Expecting property name"), "json-name"),
    (re.compile("Expecting ',' delimiter"), "json-no-comma"),
    (re.compile("Expecting ':' delimiter"), "json-no-colon"),
    (re.compile("Expecting value"), "json-value"),
    (re.compile("Unterminated string"), "json-string"),
    (re.compile("Invalid control character"), "json-control"),
    (re.compile(r"Invalid \\"), "json-escape"),
    (re.compile("Extra data"), "json-more"),
)
"""The beginnings of what `json.JSONDecodeError` says, with the sentence of ``readers.ftl`` for each."""
_NOT_TEXT = ("Cc", "Zl", "Zp")
"""Unicode categories that break a line or a label: control, line separator, paragraph separator."""
_BYTE_ORDER_MARK = "\ufeff"


@dataclass(frozen=True, slots=True)
class Value:
    """One value of the file and where it stands, e.g. ``box.json: tapes[2].marking``."""

    file: str
    path: str
    content: Any

    @property
    def place(self) -> str:
        return f"{self.file}: {self.path}" if self.path else self.file

    @property
    def is_null(self) -> bool:
        return self.content is None

    def refuse(self, accepted: str) -> NoReturn:
        """Stop reading: this value cannot be right, and ``accepted`` says what can."""
        raise WrongInput(self.place, shown(self.content), accepted)

    def members(self, known: Collection[str]) -> dict[str, Value]:
        """The members of an object; an unknown name is refused."""
        if not isinstance(self.content, dict):
            self.refuse(say("readers", "accepted_object", known=", ".join(known)))
        for key in self.content:
            if key not in known:
                place = Value(self.file, self._below(key), None).place
                raise WrongInput(
                    place,
                    AsWritten(say("readers", "unknown_name")),
                    say("readers", "accepted_here", known=", ".join(known)),
                )
        return {key: Value(self.file, self._below(key), inner) for key, inner in self.content.items()}

    def items(self, accepted: str) -> Iterator[Value]:
        """The items of a list."""
        if not isinstance(self.content, list):
            self.refuse(accepted)
        for index, inner in enumerate(self.content):
            yield Value(self.file, f"{self.path}[{index}]", inner)

    def missing(self, key: str, accepted: str) -> NoReturn:
        """Stop reading: the object has no member ``key``."""
        raise WrongInput(Value(self.file, self._below(key), None).place, nothing(), accepted)

    def text(self, longest: int, accepted: str) -> str:
        """One line of text of at most ``longest`` characters."""
        if not isinstance(self.content, str):
            self.refuse(accepted)
        if len(self.content) > longest:
            self.refuse(say("readers", "most_characters_here", longest=longest, count=len(self.content)))
        if any(unicodedata.category(character) in _NOT_TEXT for character in self.content):
            self.refuse(say("readers", "one_line_text_without"))
        return self.content

    def one_of(self, names: Collection[str]) -> str:
        """One of ``names``, written exactly so."""
        if not isinstance(self.content, str) or self.content not in names:
            self.refuse(say("readers", "accepted_3", names=", ".join(names)))
        return self.content

    def whole(self, least: int, most: int) -> int:
        """A whole number; ``true`` and ``1.0`` are none."""
        if type(self.content) is not int or not least <= self.content <= most:
            self.refuse(say("readers", "accepted_whole_number", least=least, most=most))
        return self.content

    def number(self, least: float, most: float, accepted: str) -> float:
        """A number from ``least`` to ``most``."""
        if type(self.content) not in (int, float) or not least <= self.content <= most:
            self.refuse(accepted)
        return float(self.content)

    def yes_or_no(self) -> bool:
        if not isinstance(self.content, bool):
            self.refuse(say("readers", "accepted_true_false"))
        return self.content

    def _below(self, key: str) -> str:
        name = key if key.isidentifier() and len(key) <= 40 else json.dumps(key[:40])
        return f"{self.path}.{name}" if self.path else name


def read(data: bytes, file: str) -> Value:
    """The JSON document in ``data``; ``file`` names it in complaints.

    Raises `WrongInput` for anything but one UTF-8 document (RFC 8259) of at most `MOST_BYTES`.
    """
    text = _decoded(data, file)
    _refuse_depth(text, file)
    try:
        content = json.loads(
            text, object_pairs_hook=_Pairs, parse_constant=_Odd, parse_int=_whole, parse_float=_decimal
        )
    except json.JSONDecodeError as error:
        wrong = _at_the_comma(error)
        place = f"{file}: line {wrong.lineno}, column {wrong.colno}"
        found = AsWritten(_near(text, wrong.pos))
        raise WrongInput(place, found, _fault(wrong.msg)) from error
    return Value(file, "", _plain(Value(file, "", content)))


def _at_the_comma(error: json.JSONDecodeError) -> json.JSONDecodeError:
    """The same complaint on every Python: 3.13 names a trailing comma or the space before it, older ones
    the bracket after it.
    """
    comma = _COMMA_TOO_MANY.match(error.doc, len(error.doc[: error.pos].rstrip(_SPACE + ",")))
    if comma is None or not comma.start() <= error.pos <= comma.end():
        return error
    return json.JSONDecodeError(_EXTRA_COMMA, error.doc, comma.start(1))


def _fault(said: str) -> str:
    """What is wrong with the text, by the beginning of what Python's parser said."""
    key = next((key for beginning, key in _FAULTS if beginning.match(said)), "json-other")
    return say("readers", key)


def shown(content: Any) -> object:
    """``content`` as it is named in a sentence: JSON's own words, never a whole object."""
    if content is None or isinstance(content, bool):
        return AsWritten(json.dumps(content))
    if isinstance(content, dict):
        return AsWritten(say("readers", "object"))
    if isinstance(content, list):
        return AsWritten(say("readers", "list") if content else say("readers", "empty_list"))
    return content


class _Pairs(list[tuple[str, Any]]):
    """An object as it was written, duplicate keys and all."""


class _Odd(str):
    """A number that JSON does not know or that nobody can mean."""


def refuse_size(data: bytes, file: str) -> None:
    """WrongInput for more than `MOST_BYTES`: of a larger file only the beginning was read."""
    if len(data) > MOST_BYTES:
        raise WrongInput(
            file,
            AsWritten(say("readers", "larger_file")),
            say("readers", "most_bytes_accepted", most_bytes=MOST_BYTES),
        )


def _decoded(data: bytes, file: str) -> str:
    refuse_size(data, file)
    try:
        text = data.decode("utf-8").removeprefix(_BYTE_ORDER_MARK)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        found = AsWritten(say("readers", "byte_x", data=f"{data[error.start]:02X}"))
        raise WrongInput(f"{file}: line {line}", found, say("readers", "file_must_utf_text")) from error
    if not text.strip():
        raise WrongInput(
            file, AsWritten(say("readers", "empty_file")), say("readers", "accepted_one_json_object")
        )
    return text


def _refuse_depth(text: str, file: str) -> None:
    depth = 0
    for match in _STRING_OR_BRACKET.finditer(text):
        mark = match[0]
        depth += (mark in "[{") - (mark in "]}")
        if depth > DEEPEST:
            line = text.count("\n", 0, match.start()) + 1
            found = AsWritten(say("readers", "brackets_within_brackets"))
            raise WrongInput(
                f"{file}: line {line}", found, say("readers", "most_levels_accepted", deepest=DEEPEST)
            )


def _whole(digits: str) -> int | _Odd:
    return int(digits) if len(digits) <= _LONGEST_NUMBER else _Odd(digits)


def _decimal(digits: str) -> float | _Odd:
    number = float(digits)
    return number if math.isfinite(number) else _Odd(digits)


def _near(text: str, position: int) -> str:
    snippet = text[position : position + 20].split("\n")[0].strip()
    if snippet:
        return repr(snippet)
    return say("readers", "end_line") if position < len(text) else say("readers", "end_file")


def _plain(value: Value) -> Any:
    """Dicts, lists and scalars, after the checks that the parser leaves out."""
    content = value.content
    if isinstance(content, _Pairs):
        return _object(value, content)
    if isinstance(content, list):
        return [_plain(item) for item in value.items("")]
    if isinstance(content, _Odd):
        raise WrongInput(value.place, AsWritten(_cut(content)), say("readers", "accepted_ordinary_number"))
    if isinstance(content, str) and not _is_unicode(content):
        raise WrongInput(value.place, content, say("readers", "half_surrogate_pair_character"))
    return content


def _object(value: Value, pairs: _Pairs) -> dict[str, Any]:
    members: dict[str, Any] = {}
    for key, inner in pairs:
        if not _is_unicode(key):
            raise WrongInput(value.place, key, say("readers", "half_surrogate_pair_character"))
        below = Value(value.file, value._below(key), inner)
        if key in members:
            raise WrongInput(
                below.place,
                AsWritten(say("readers", "same_name_twice")),
                say("readers", "each_name_once_accepted"),
            )
        members[key] = _plain(below)
    return members


def _is_unicode(text: str) -> bool:
    return not any("\ud800" <= character <= "\udfff" for character in text)


def _cut(text: str) -> str:
    return text if len(text) <= 24 else say("readers", "long_number", begin=text[:20], count=len(text))
