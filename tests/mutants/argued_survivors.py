"""Changes that no test can notice, each with its reason: `argued.toml`, read by the command."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from tests.mutants.mutated_source import Mutant

FILE = Path(__file__).with_name("argued.toml")
Key = tuple[str, str, str, str]


@dataclass(frozen=True, slots=True)
class Argued:
    """One change that is left, and why."""

    key: Key
    reason: str


def read(file: Path = FILE) -> dict[Key, Argued]:
    """All of them by what names a mutant. ValueError for one without a reason, or told twice."""
    found: dict[Key, Argued] = {}
    for entry in tomllib.loads(file.read_text(encoding="utf-8")).get("argued", []):
        for change in entry["changes"]:
            key = (entry["file"], entry["function"], entry["text"], change)
            if key in found or not entry["reason"].strip():
                raise ValueError(f"{file.name}: {key} is told twice, or has no reason")
            found[key] = Argued(key, entry["reason"])
    return found


def stale(argued: Iterable[Key], mutants: Iterable[Mutant], files: Iterable[str]) -> list[Key]:
    """What is argued about a place of these files that is no longer there."""
    there, looked_at = {mutant.key for mutant in mutants}, set(files)
    return sorted(key for key in argued if key[0] in looked_at and key not in there)
