"""The tapes of a box written on one line, as one would say them: ``3 VHS T-120, 1 snapped Hi8``."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TypeVar

from core.catalogue import condition
from core.catalogue.formats import catalogue
from core.catalogue.markings import bare
from core.model.errors import WrongInput
from core.model.inventory import MOST_TAPES, TapeLine
from core.model.names import AnyFinding, FormatName
from core.model.spoken_names import spoken
from core.wording.messages import say

T = TypeVar("T")


def lines(text: str) -> tuple[TapeLine, ...]:
    """The lines of a box, divided by commas; WrongInput names the part that cannot be understood."""
    parts = [part.strip() for part in text.split(",") if part.strip()]
    if not parts:
        raise WrongInput(say("settings", "prices-box-place"), text, _accepted())
    return tuple(_line(part) for part in parts)


def written(box: Sequence[TapeLine]) -> str:
    """The line that `lines` reads back to the same formats, markings and findings."""
    return ", ".join(" ".join(_words(line)) for line in box)


def _words(line: TapeLine) -> Iterator[str]:
    yield str(line.count)
    yield from (spoken(finding) for finding in line.findings)
    yield catalogue().format(line.format).words
    if line.marking:
        yield line.marking


def _line(part: str) -> TapeLine:
    head, *rest = part.split()
    counted = head.isdecimal() and bool(rest)
    count, left = (int(head), rest) if counted else (1, [head, *rest])
    name, left = _taken(left, _formats())
    if name is None or not 1 <= count <= MOST_TAPES:
        raise WrongInput(say("settings", "prices-box-place"), part, _accepted())
    findings: list[AnyFinding] = []
    finding, left = _taken(left, _findings())
    while finding is not None:
        findings.append(finding)
        finding, left = _taken(left, _findings())
    marking = catalogue().format(name).marking(" ".join(left) or None)
    return TapeLine(count, name, marking.name if marking else None, findings=tuple(findings))


def _taken(words: Sequence[str], known: Mapping[str, T]) -> tuple[T | None, list[str]]:
    """What the longest run of the words means, and the words without it."""
    for size in range(len(words), 0, -1):
        for first in range(len(words) - size + 1):
            found = known.get(bare("".join(words[first : first + size])))
            if found is not None:
                return found, [*words[:first], *words[first + size :]]
    return None, list(words)


def _formats() -> dict[str, FormatName]:
    return {bare(each): known.name for known in catalogue().formats for each in (known.name, known.words)}


def _findings() -> dict[str, AnyFinding]:
    return {
        bare(each): finding for finding, words, _ in condition.choices() for each in (finding.value, words)
    }


def _accepted() -> str:
    return say("settings", "prices-box-accepted", example=written((TapeLine(3, FormatName("vhs"), "T-120"),)))
