"""Which cassette of an order is which in an inventory written anew.

A code is on the cassette and never changes, so each line of the new inventory takes over cassettes that are
there, and only what is left over is new or left out. A line that names codes takes those. The others take
first what is described exactly alike, then what differs least of the same format; a cassette of another
format is another cassette. Of cassettes alike, those that got furthest are kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.model.inventory import TapeLine
from core.model.names import TapeCode


@dataclass(frozen=True, slots=True)
class KnownTape:
    """One cassette of the order. ``progress``: how far it got, more is further."""

    code: TapeCode
    draft: TapeLine
    line: int
    progress: int = 0


@dataclass(frozen=True, slots=True)
class MatchedTape:
    """One cassette of the new inventory; ``code`` None: it is new."""

    line: int
    n: int
    draft: TapeLine
    code: TapeCode | None


def matched(
    known: Sequence[KnownTape],
    lines: Sequence[TapeLine],
    named: Sequence[tuple[TapeCode, ...]] = (),
) -> tuple[MatchedTape, ...]:
    """Every cassette of ``lines`` in their order; ``named`` holds the codes each line asks for.

    What of ``known`` is in none was left out.
    """
    free = {tape.code: tape for tape in known}
    taken: list[list[TapeCode]] = [[] for _ in lines]
    for place, codes in enumerate(named):
        taken[place] += [code for code in codes if free.pop(code, None) is not None]
    for most in (0, 1, 2, _MOST_APART):
        for place, line in enumerate(lines):
            _take(taken[place], line, place + 1, free, most)
    return tuple(
        MatchedTape(place, n, replace(line, count=1), codes[n - 1] if n <= len(codes) else None)
        for place, (line, codes) in enumerate(zip(lines, map(sorted, taken), strict=True), 1)
        for n in range(1, line.count + 1)
    )


_MOST_APART = 100
"""More than two descriptions of one format can differ in, so that it stops nobody (our choice)."""


def _take(
    codes: list[TapeCode], line: TapeLine, place: int, free: dict[TapeCode, KnownTape], most: int
) -> None:
    """The best of what is free, at most ``most`` apart, until the line is full."""
    near = [(apart, tape) for tape in free.values() if (apart := _apart(tape.draft, line)) <= most]
    near.sort(key=lambda pair: (pair[0], pair[1].line != place, -pair[1].progress, pair[1].code))
    for _, tape in near[: line.count - len(codes)]:
        codes.append(tape.code)
        del free[tape.code]


def _apart(draft: TapeLine, line: TapeLine) -> int:
    """In how many ways two descriptions differ; the format is none of them, for it must be the same."""
    if draft.format != line.format:
        return _MOST_APART + 1
    return sum(getattr(draft, name) != getattr(line, name) for name in _TOLD)


_TOLD = ("marking", "recorded_as", "speed", "tv", "fill", "findings", "label", "origin")
