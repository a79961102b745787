"""Rows written as one line that reads back as the same rows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from core.catalogue.box_line.line_items import items
from core.catalogue.box_line.line_words import Meaning, listed, shown
from core.model.inventory import TapeLine
from core.wording.messages import worded_cache


def written(lines: Iterable[TapeLine]) -> str:
    """``5 × VHS T-120 · SP, Hi8 · snapped``; what a line cannot say (shares, origins) is left out."""
    return ", ".join(_row(line) for line in lines)


def _row(line: TapeLine) -> str:
    """The dots between keep two words from being read as the name of a third thing."""
    head = [f"{line.count} ×"] if line.count > 1 else []
    head += [_phrase(Meaning.FORMAT, line.format)]
    head += [line.marking] if line.marking is not None else []
    return " · ".join([" ".join(head), *_details(line)])


def _details(line: TapeLine) -> Iterator[str]:
    if line.recorded_as is not None:
        yield f"{listed(Meaning.AS.value)[0]} {_phrase(Meaning.FORMAT, line.recorded_as)}"
    if line.speed is not None:
        yield _phrase(Meaning.SPEED, line.speed.value)
    if line.tv is not None:
        yield _phrase(Meaning.TV, line.tv.value)
    yield from (_phrase(Meaning.FINDING, finding.value) for finding in line.findings)
    if line.label:
        yield f'"{line.label.replace(chr(34), chr(34) * 2)}"'


@worded_cache(maxsize=512)
def _phrase(meaning: Meaning, value: str) -> str:
    """The words of a thing if a line takes them for it, else its name."""
    words = next((each.words for each in shown() if (each.meaning, each.value) == (meaning, value)), value)
    read = items(words)
    fits = len(read) == 1 and (read[0].meaning, read[0].value) == (meaning, value)
    return words if fits else value
