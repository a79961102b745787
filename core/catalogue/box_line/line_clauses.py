"""Where one row ends and the next begins: at a comma, and in dictation at the next count or format."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from core.catalogue import formats
from core.catalogue.box_line.line_items import LineItem
from core.catalogue.box_line.line_offers import resembling
from core.catalogue.box_line.line_words import Meaning

Clause = tuple[LineItem, ...]
_EMPTY = (Meaning.FILLER, Meaning.JOINING)


def clauses(text: str, found: Sequence[LineItem]) -> Iterator[Clause]:
    """The items of each row, or of what is said of the row before; separators stand by themselves."""
    segment: list[LineItem] = []
    for item in found:
        if item.meaning is Meaning.SEPARATOR:
            yield from _cut(text, _negated(segment))
            segment = []
            yield (item,)
        else:
            segment.append(item)
    yield from _cut(text, _negated(segment))


def names_format(text: str, item: LineItem) -> bool:
    """Whether an item names a format, or is most like the name of one."""
    if item.meaning is Meaning.UNKNOWN:
        likely = item.meant or resembling(text[item.start : item.end])[:1]
        return any(each.meaning is Meaning.FORMAT for each in likely)
    return item.meaning is Meaning.FORMAT or bool(item.implied)


def takes_bare_number(name: str, number: str) -> bool:
    """Whether a number alone is a marking of the format, as 30 is of Betacam."""
    form = formats.catalogue().format(name)
    return any(rule.number(number) is not None for rule in form.rules if not rule.entry.told)


def _negated(segment: Sequence[LineItem]) -> Sequence[LineItem]:
    """*not* and what follows it are one unknown thing: nobody takes *not snapped* for snapped."""
    merged: list[LineItem] = []
    for item in segment:
        if merged and merged[-1].meaning is Meaning.NOT:
            merged[-1] = LineItem(Meaning.UNKNOWN, merged[-1].start, item.end)
        else:
            merged.append(item)
    return [
        item._replace(meaning=Meaning.UNKNOWN) if item.meaning is Meaning.NOT else item for item in merged
    ]


def _cut(text: str, segment: Sequence[LineItem]) -> Iterator[Clause]:
    so_far = _SoFar(text, segment)
    for place, item in enumerate(segment):
        if so_far.items and so_far.ends_before(place):
            yield tuple(so_far.items)
            so_far = _SoFar(text, segment)
        so_far.add(place, item)
    if so_far.items:
        yield tuple(so_far.items)


@dataclass(slots=True)
class _SoFar:
    """The row that is being collected."""

    text: str
    segment: Sequence[LineItem]
    items: list[LineItem] = field(default_factory=list)
    format: str | None = None
    """The name of its format; "" for one that is not understood."""
    has_count: bool = False
    has_marking: bool = False

    def add(self, place: int, item: LineItem) -> None:
        if item.meaning is Meaning.ARTICLE:
            counts = self._format_ahead(place) and not self.has_count and self.format is None
            item = item._replace(meaning=Meaning.COUNT, value="1") if counts else _filler(item)
        if item.meaning is Meaning.COUNT:
            self.has_marking |= self._is_marking(item)
            self.has_count = True
        elif names_format(self.text, item) and not self._follows_as():
            self.format = self.format or item.implied or item.value
        self.has_marking |= item.meaning is Meaning.MARKING
        self.items.append(item)

    def ends_before(self, place: int) -> bool:
        """Whether the next row begins with the item at a place."""
        item = self.segment[place]
        if item.meaning is Meaning.COUNT:
            return self._ends_before_count(place, item)
        if item.meaning in (Meaning.ARTICLE, Meaning.JOINING):
            return self.format is not None and self._format_ahead(place)
        if not names_format(self.text, item) or self.format is None or self._follows_as():
            return False
        return not (item.implied == self.format and not self.has_marking)

    def _ends_before_count(self, place: int, item: LineItem) -> bool:
        if item.value.startswith("x"):
            return False
        if self.format is None and not self.has_count:
            return False
        if self._format_ahead(place):
            return True
        details = any(each.meaning not in _EMPTY for each in self.segment[place + 1 :])
        return self.format is not None and self.has_count and details and not self._is_marking(item)

    def _is_marking(self, item: LineItem) -> bool:
        return bool(
            self.format
            and item.is_digits
            and not self.has_marking
            and takes_bare_number(self.format, item.value)
        )

    def _format_ahead(self, place: int) -> bool:
        """Whether a format is named after a place, before the next count."""
        follows_as = False
        for item in self.segment[place + 1 :]:
            if item.meaning is Meaning.COUNT and not item.value.startswith("x"):
                return False
            if names_format(self.text, item) and not follows_as:
                return True
            if item.meaning is not Meaning.FILLER:
                follows_as = item.meaning is Meaning.AS
        return False

    def _follows_as(self) -> bool:
        """Whether the last word was *as*: the format that follows is what was recorded."""
        said = [item for item in self.items if item.meaning is not Meaning.FILLER]
        return bool(said) and said[-1].meaning is Meaning.AS and self.format is not None


def _filler(item: LineItem) -> LineItem:
    return item._replace(meaning=Meaning.FILLER)
