"""Frozen records as JSON and back, by their type hints.

What was agreed must be kept exactly as it was said: a quote is stored whole, not taken apart into
columns that a later price book could reinterpret. Dataclasses become objects, tuples lists, sets
sorted lists, enums their values, dates and times ISO 8601, decimals strings. A field is kept under its
name, or under the ``key`` of its metadata: records written before it was renamed are read all the same.
"""

from __future__ import annotations

import dataclasses
import json
import types
from collections.abc import Callable
from datetime import date, datetime
from decimal import Decimal
from enum import Enum
from functools import cache
from typing import Any, TypeVar, Union, get_args, get_origin, get_type_hints

T = TypeVar("T")
Decoder = Callable[[Any], Any]


def dumps(value: object) -> str:
    """``value`` as one line of canonical JSON: sorted keys, no spaces, no NaN or infinity (ValueError)."""
    return json.dumps(
        plain(value), ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":")
    )


def loads(kind: type[T], text: str) -> T:
    """The record of type ``kind`` that `dumps` wrote; ValueError when the text is no such record."""
    try:
        record: T = record_of(kind, json.loads(text))
    except RecursionError as error:
        raise ValueError(f"no {getattr(kind, '__name__', kind)}: {error}") from error
    return record


def plain(value: object) -> Any:
    """``value`` as dicts, lists, strings, numbers, booleans and None."""
    if value is None or isinstance(value, (bool, int, float, str)):
        return value
    if isinstance(value, Enum):
        return value.value
    if dataclasses.is_dataclass(value):
        return {_key(field): plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    return _plain_of_many(value)


def record_of(kind: Any, data: Any) -> Any:
    """The record of type ``kind`` (a hint such as ``tuple[Finding, ...]`` will do) from plain ``data``.

    A missing key takes the field's default; an unknown key, or a value of the wrong shape, is a ValueError.
    """
    try:
        return _decoder(kind)(data)
    except (KeyError, TypeError, AttributeError, ArithmeticError) as error:
        raise ValueError(f"no {getattr(kind, '__name__', kind)}: {error}") from error


def _key(field: dataclasses.Field[Any]) -> str:
    """The name of a field in JSON."""
    return str(field.metadata.get("key", field.name)) if field.metadata else field.name


def _plain_of_many(value: object) -> Any:
    if isinstance(value, (tuple, list)):
        return [plain(item) for item in value]
    if isinstance(value, (set, frozenset)):
        return sorted((plain(item) for item in value), key=str)
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, (date, datetime)):
        return value.isoformat()
    if isinstance(value, Decimal):
        return str(value)
    raise TypeError(f"cannot be written down: {type(value).__name__}")


@cache
def _decoder(kind: Any) -> Decoder:
    """How to read one type; compiled once, since a quote holds hundreds of small records."""
    if kind in _SIMPLE:
        return _SIMPLE[kind]
    if hasattr(kind, "__supertype__"):
        return _decoder(kind.__supertype__)
    if dataclasses.is_dataclass(kind):
        return _dataclass_decoder(kind)
    if isinstance(kind, type) and issubclass(kind, Enum):
        return kind
    if isinstance(kind, type) and issubclass(kind, str):
        return lambda data: kind(_SIMPLE[str](data))
    return _generic_decoder(kind)


def _generic_decoder(kind: Any) -> Decoder:
    origin, arguments = get_origin(kind), get_args(kind)
    if origin in (Union, types.UnionType) and type(None) in arguments and len(arguments) == 2:
        inner = _decoder(next(each for each in arguments if each is not type(None)))
        return lambda data: None if data is None else inner(data)
    if origin in (Union, types.UnionType):
        return _first_of(tuple(_decoder(argument) for argument in arguments))
    if origin is tuple and arguments[-1:] == (...,):
        each = _decoder(arguments[0])
        return lambda data: tuple([each(item) for item in _list(data)])
    if origin is tuple:
        parts = tuple(_decoder(argument) for argument in arguments)
        return lambda data: tuple([part(item) for part, item in zip(parts, _list(data), strict=True)])
    if origin is frozenset:
        member = _decoder(arguments[0])
        return lambda data: frozenset(member(item) for item in _list(data))
    if origin is dict:
        entry = _decoder(arguments[1])
        return lambda data: {str(key): entry(item) for key, item in data.items()}
    raise TypeError(f"no way to read {kind!r}")


def _first_of(kinds: tuple[Decoder, ...]) -> Decoder:
    """The first of several kinds that takes the value: a name of the program, else one of the shop's own."""
    *first, last = kinds

    def read(data: Any) -> Any:
        for kind in first:
            try:
                return kind(data)
            except ValueError:
                continue
        return last(data)

    return read


def _dataclass_decoder(kind: Any) -> Decoder:
    hints = get_type_hints(kind)
    fields = {_key(field): (field.name, _Late(hints[field.name])) for field in dataclasses.fields(kind)}

    def decode(data: Any) -> Any:
        if not isinstance(data, dict):
            raise ValueError(f"no {kind.__name__}: {data!r}")
        if unknown := data.keys() - fields.keys():
            raise ValueError(f"{kind.__name__}: {', '.join(sorted(unknown))}?")
        return kind(**{fields[key][0]: fields[key][1](item) for key, item in data.items()})

    return decode


class _Late:
    """A field's decoder, made when first needed so that records may refer to each other."""

    __slots__ = ("decode", "hint")

    def __init__(self, hint: Any) -> None:
        self.hint = hint
        self.decode: Decoder | None = None

    def __call__(self, data: Any) -> Any:
        if self.decode is None:
            self.decode = _decoder(self.hint)
        return self.decode(data)


def _list(data: Any) -> list[Any]:
    if not isinstance(data, list):
        raise ValueError(f"list: {data!r}?")
    return data


def _of(*kinds: type) -> Decoder:
    def decode(data: Any) -> Any:
        if isinstance(data, kinds) and (bool in kinds or not isinstance(data, bool)):
            return data
        raise ValueError(f"no {kinds[0].__name__}: {data!r}")

    return decode


_SIMPLE: dict[Any, Decoder] = {
    str: _of(str),
    bool: _of(bool),
    int: _of(int),
    float: _of(float, int),
    date: date.fromisoformat,
    datetime: datetime.fromisoformat,
    Decimal: Decimal,
    object: lambda data: data,
}
