"""The sentences of the papers, read from ``resources/wording/<language>/paper.toml``.

A second language is a second folder; a sentence it does not have yet is said in English.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

from core.model import resource_files

FIRST_LANGUAGE = "en"


def sentences(language: str) -> Mapping[str, str]:
    """Sentences by their dotted name, e.g. ``quote.title``; blanks in braces are filled by the caller."""
    first = _read(FIRST_LANGUAGE)
    name = language.split("-")[0].split("_")[0].lower()
    if name == FIRST_LANGUAGE or not _file(name).is_file():
        return first
    return MappingProxyType({**first, **_read(name)})


def _file(language: str) -> Path:
    return resource_files.path("wording", language, "paper.toml")


@cache
def _read(language: str) -> Mapping[str, str]:
    document = tomllib.loads(_file(language).read_text(encoding="utf-8"))
    return MappingProxyType(dict(_flat(document, "")))


def _flat(table: Mapping[str, Any], prefix: str) -> Iterator[tuple[str, str]]:
    for key, value in table.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{prefix}{key}.")
        else:
            yield prefix + key, str(value)
