"""A TOML file turned into records of a stated shape; whatever does not fit is a sentence.

msgspec compares content and shape; here its answer gets its place in the file, what was found there and what
is accepted. A type names the sentence on what it accepts, of ``files.ftl``, by ``Meta(description=…)``.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from enum import Enum
from pathlib import Path
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

import msgspec

from core.model.errors import AsWritten, WrongInput, at, missing, one_of
from core.wording.messages import say

T = TypeVar("T")

ROOM = "files"
"""The wording file of what is accepted in files."""
_FAULT = re.compile(r"(?P<what>.*?)(?: - at `\$(?P<path>.*)`)?", re.DOTALL)
_STEP = re.compile(r"\.(?P<key>[^.\[]+)|\[(?P<at>\d+|\.\.\.)\]")
_NAMED = re.compile(r"Object (?P<kind>missing required|contains unknown) field `(?P<key>.*)`")
_WORDS: dict[Any, str] = {
    str: "text",
    bool: "true-or-false",
    int: "whole-number",
    float: "number",
    dict: "table",
    tuple: "list",
}


def read(path: Path) -> dict[str, Any]:
    """The content of a file; WrongInput when it cannot be read or is no TOML."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as failure:
        raise WrongInput(str(path), str(failure), say(ROOM, "text-file")) from None
    return parsed(text, path.name)


def parsed(text: str, where: str) -> dict[str, Any]:
    """A TOML text as plain tables; WrongInput when it is none, or one that only a machine can have made."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as failure:
        found: object = str(failure)
    except RecursionError:
        found = AsWritten(say("readers", "brackets_within_brackets"))
    except ValueError:  # Python reads no whole number of thousands of digits
        found = AsWritten(say("readers", "endless_number"))
    raise WrongInput(where, found, say(ROOM, "toml-file"))


def shaped(content: object, kind: type[T], where: str) -> T:
    """``content`` as a ``kind``; WrongInput names ``where``, the key, what was found and what is accepted."""
    try:
        return msgspec.convert(content, kind)
    except msgspec.ValidationError as fault:
        raise _wrong(str(fault), content, kind, where) from None
    except UnicodeEncodeError as fault:
        raise WrongInput(where, fault.object, say("entered", "printable")) from None


def _wrong(fault: str, content: Any, kind: Any, where: str) -> WrongInput:
    parts = _FAULT.fullmatch(fault)
    assert parts is not None
    for step in _STEP.finditer(parts["path"] or ""):
        name, content, kind = _entered(step, content, bare(kind))
        where = f"{where} {name}" if name.isdigit() else at(where, name)
    named = _NAMED.fullmatch(parts["what"])
    if named is None:
        return WrongInput(where, content, _accepted(kind))
    hints = _keys(bare(kind))
    if named["kind"].startswith("missing"):
        return missing(where, named["key"], _accepted(hints[named["key"]]))
    return WrongInput(where, named["key"], say(ROOM, "keys", keys=", ".join(hints)))


def _entered(step: re.Match[str], content: Any, kind: Any) -> tuple[str, Any, Any]:
    """One step down: its name as a person counts, what lies there, and the shape it should have."""
    if step["key"]:
        return step["key"], content[step["key"]], _keys(kind)[step["key"]]
    inner = get_args(kind)
    if step["at"] == "...":
        key = next(_unfit(content, inner[1]))
        return key, content[key], inner[1]
    place = int(step["at"])
    return str(place + 1), content[place], inner[0] if inner[-1] is Ellipsis else inner[place]


def _keys(kind: Any) -> dict[str, Any]:
    """The keys of a table as they stand in the file, each with its shape."""
    hints = get_type_hints(kind, include_extras=True)
    return {field.encode_name: hints[field.name] for field in msgspec.structs.fields(kind)}


def _unfit(content: dict[str, Any], kind: Any) -> Iterator[str]:
    for key, value in content.items():
        try:
            msgspec.convert(value, kind)
        except msgspec.ValidationError:
            yield key


def bare(kind: Any) -> Any:
    """A shape without what is told about it, and without the None of an optional one."""
    if get_origin(kind) is Annotated:
        return bare(get_args(kind)[0])
    if get_origin(kind) in (Union, UnionType):
        return bare(next(each for each in get_args(kind) if each is not NoneType))
    return kind


def _accepted(kind: Any) -> str:
    if get_origin(kind) is Annotated:
        told = [meta.description for meta in get_args(kind)[1:] if meta.description]
        return say(ROOM, told[0]) if told else _accepted(get_args(kind)[0])
    if get_origin(kind) in (Union, UnionType):
        return _accepted(next(each for each in get_args(kind) if each is not NoneType))
    if get_origin(kind) is Literal:
        return one_of(repr(each) for each in get_args(kind))
    if isinstance(kind, type) and issubclass(kind, Enum):
        return one_of(repr(each.value) for each in kind)
    return say(ROOM, _WORDS.get(get_origin(kind) or kind, _WORDS[dict]))
