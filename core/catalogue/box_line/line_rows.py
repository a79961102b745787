"""The rows of a line while it is read: what each item is taken as, and which row it belongs to."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from core.catalogue import formats
from core.catalogue.box_line.line_clauses import Clause, names_format, takes_bare_number
from core.catalogue.box_line.line_items import LineItem
from core.catalogue.box_line.line_records import LineRow, LineStretch, Taken
from core.catalogue.box_line.line_words import ROOM, Meaning
from core.catalogue.cassettes import Format
from core.model.inventory import MOST_TAPES
from core.model.names import AnyFinding, FormatName, Speed, TvSystem, finding_of
from core.wording.messages import say

_EMPTY = (Meaning.FILLER, Meaning.JOINING, Meaning.AS, Meaning.SEPARATOR)
_DETAILS = {Meaning.FINDING, Meaning.SPEED, Meaning.TV, Meaning.LABEL, Meaning.NO_LABEL}
"""What may be said of some of the tapes named before, with a count alone."""
_TAKEN = {
    Meaning.COUNT: Taken.COUNT,
    Meaning.FORMAT: Taken.FORMAT,
    Meaning.MARKING: Taken.MARKING,
    Meaning.SPEED: Taken.SPEED,
    Meaning.TV: Taken.TV,
    Meaning.LABEL: Taken.LABEL,
    Meaning.NO_LABEL: Taken.LABEL,
    Meaning.OF_THEM: Taken.PART,
    Meaning.ALL: Taken.PART,
}


@dataclass(slots=True, eq=False)
class Claim:
    """One item and what it was taken as; may still be given up when the row is whole."""

    item: LineItem
    taken: Taken
    row: OpenRow | None = None
    offers: tuple[str, ...] = ()
    because: str = ""

    def give_up(self, offers: tuple[str, ...] = (), because: str = "") -> None:
        self.taken, self.offers, self.because = Taken.UNREAD, offers, because


@dataclass(slots=True, eq=False)
class OpenRow:
    """A row that more may be said of."""

    given: dict[Taken, Claim] = field(default_factory=dict)
    """What was said, each once."""
    findings: dict[AnyFinding, None] = field(default_factory=dict)
    parted: int = 0
    """Tapes of it that became rows of their own."""
    is_part: bool = False
    parts: list[OpenRow] = field(default_factory=list)

    def value(self, taken: Taken) -> str:
        return self.given[taken].item.value if taken in self.given else ""

    @property
    def format(self) -> str | None:
        claim = self.given.get(Taken.FORMAT)
        return None if claim is None else claim.item.implied or claim.item.value

    @property
    def count(self) -> int:
        """Tapes that are left in it."""
        return int(self.value(Taken.COUNT).removeprefix("x") or 1) - self.parted

    def part(self) -> OpenRow:
        """Some of its tapes, as a row that is the same so far."""
        made = OpenRow(dict(self.given), dict(self.findings), is_part=True)
        made.given.pop(Taken.COUNT, None)
        self.parts.append(made)
        return made


class LineRows:
    """Reads clause after clause."""

    def __init__(self, text: str) -> None:
        self._text = text
        self.rows: list[OpenRow] = []
        self.claims: list[Claim] = []
        self._base: OpenRow | None = None
        """The row that *of them* is about."""
        self._last: OpenRow | None = None

    def read(self, clause: Clause) -> None:
        """One more clause, in order."""
        meanings = {item.meaning for item in clause}
        if not meanings - set(_EMPTY):
            self.claims += [Claim(item, Taken.FILLER) for item in clause]
        elif self._is_own(clause, meanings):
            self._base = self._last = OpenRow()
            self.rows.append(self._last)
            self._take_all(clause, self._last)
        elif Meaning.COUNT in meanings:
            self._read_part(clause)
        else:
            self._read_more(clause, meanings)

    def _is_own(self, clause: Clause, meanings: set[Meaning]) -> bool:
        """Whether it is a row of its own, rather than said of the tapes before."""
        if self._last is None or any(item.meaning is Meaning.FORMAT or item.implied for item in clause):
            return True
        if Meaning.OF_THEM in meanings:
            return False
        if any(names_format(self._text, item) for item in clause):
            return True
        is_detail = meanings & _DETAILS and Meaning.MARKING not in meanings
        return Meaning.COUNT in meanings and not is_detail

    def _read_part(self, clause: Clause) -> None:
        """``2 of them mouldy``: so many of the tapes named before, if there are as many left."""
        base = self._base
        assert base is not None
        (place, *_) = (n for n, item in enumerate(clause) if item.meaning is Meaning.COUNT)
        count = clause[place]._replace(is_digits=False)
        clause = (*clause[:place], count, *clause[place + 1 :])
        wanted = int(count.value.removeprefix("x"))
        if not 1 <= wanted <= base.count:
            because = say(ROOM, "too-many-of-them", word=self._text[count.start : count.end])
            self._lose(clause, base, because)
            return
        if wanted == base.count:
            self._last = base
            self._take_all([item for item in clause if item is not count], base)
            self.claims.append(Claim(count, Taken.COUNT, base))
        else:
            self._last = made = base.part()
            base.parted += wanted
            self.rows.insert(self.rows.index(base) + len(base.parts), made)
            self._take_all(clause, made)

    def _read_more(self, clause: Clause, meanings: set[Meaning]) -> None:
        """More about the tapes named just before; *of them* without a number says nothing of how many."""
        assert self._last is not None
        if Meaning.OF_THEM in meanings:
            self._lose(clause, self._last, "")
        else:
            self._take_all(clause, self._last)

    def _lose(self, clause: Sequence[LineItem], row: OpenRow, because: str) -> None:
        for item in clause:
            self.claims.append(Claim(item, Taken.UNREAD, row, (), because))

    # --- one item ------------------------------------------------------------------------

    def _take_all(self, clause: Sequence[LineItem], row: OpenRow) -> None:
        said: list[Claim] = []
        for item in clause:
            claim = Claim(item, Taken.FILLER, row)
            self.claims.append(claim)
            follows_as = bool(said) and said[-1].item.meaning is Meaning.AS
            self._take(claim, row, said[-1] if follows_as else None)
            if item.meaning is not Meaning.FILLER:
                said.append(claim)

    def _take(self, claim: Claim, row: OpenRow, as_word: Claim | None) -> None:
        item = claim.item
        if item.meaning in (Meaning.FILLER, Meaning.JOINING, Meaning.AS):
            return
        if item.meaning is Meaning.UNKNOWN:
            claim.taken = Taken.UNREAD
        elif item.meaning is Meaning.FINDING:
            claim.taken = Taken.FINDING
            row.findings[finding_of(item.value)] = None
        elif item.meaning is Meaning.COUNT:
            _take_count(claim, row)
        elif item.meaning is Meaning.FORMAT and as_word is not None and row.format is not None:
            as_word.taken = Taken.RECORDED_AS
            _give(claim, row, Taken.RECORDED_AS)
        else:
            _take_plain(claim, row)


def _take_plain(claim: Claim, row: OpenRow) -> None:
    """What may be said once of a row."""
    taken = _TAKEN[claim.item.meaning]
    if taken is Taken.PART:
        claim.taken = taken
        return
    _give(claim, row, taken)
    if claim.item.implied and claim.taken is taken:
        row.given.setdefault(Taken.FORMAT, claim)


def _take_count(claim: Claim, row: OpenRow) -> None:
    """The count of a row; or a number that is a marking of its format."""
    number = int(claim.item.value.removeprefix("x"))
    may_be_marking = claim.item.is_digits and row.format and Taken.MARKING not in row.given
    if may_be_marking and row.format and takes_bare_number(row.format, claim.item.value):
        _give(claim, row, Taken.MARKING)
    elif not 1 <= number <= MOST_TAPES and Taken.COUNT not in row.given:
        claim.give_up(because=say(ROOM, "count-off", word=claim.item.value, most=str(MOST_TAPES)))
    else:
        _give(claim, row, Taken.COUNT)


def _give(claim: Claim, row: OpenRow, taken: Taken) -> None:
    """The row gets it, unless it was said already; of some of the tapes it replaces what held for all."""
    before = row.given.get(taken)
    if before is not None and not (row.is_part and before.row is not row):
        claim.give_up()
    else:
        claim.taken = taken
        row.given[taken] = claim


# --- the rows as they are told -----------------------------------------------------------


def by_row(claims: Sequence[Claim]) -> Mapping[int, list[Claim]]:
    """What was said of each row, by the identity of the row."""
    found: dict[int, list[Claim]] = defaultdict(list)
    for claim in claims:
        found[id(claim.row)].append(claim)
    return found


def finished(
    open_rows: Sequence[OpenRow], of_row: Mapping[int, Sequence[Claim]], text: str
) -> tuple[LineRow, ...]:
    """The rows with the words that nobody took."""
    return tuple(_finished(row, _unread(of_row[id(row)], text)) for row in open_rows)


def _finished(row: OpenRow, unread: tuple[str, ...]) -> LineRow:
    name, recorded = row.format, row.value(Taken.RECORDED_AS)
    speed, tv = row.value(Taken.SPEED), row.value(Taken.TV)
    return LineRow(
        count=row.count,
        format=FormatName(name) if name else None,
        marking=row.value(Taken.MARKING) or None,
        recorded_as=FormatName(recorded) if recorded else None,
        speed=Speed(speed) if speed else None,
        tv=TvSystem(tv) if tv else None,
        findings=tuple(row.findings),
        label=row.value(Taken.LABEL),
        unread=unread,
    )


def _unread(claims: Sequence[Claim], text: str) -> tuple[str, ...]:
    """Words that stand together stay together."""
    runs: list[list[int]] = []
    for claim in claims:
        if claim.taken is Taken.UNREAD:
            if runs and not text[runs[-1][1] : claim.item.start].strip():
                runs[-1][1] = claim.item.end
            else:
                runs.append([claim.item.start, claim.item.end])
    return tuple(text[start:end] for start, end in runs)


def stretches(open_rows: Sequence[OpenRow], claims: Sequence[Claim]) -> tuple[LineStretch, ...]:
    """What each item was taken as, in order."""
    places = {id(row): place for place, row in enumerate(open_rows)}
    return tuple(
        LineStretch(
            claim.item.start,
            claim.item.end,
            claim.taken,
            None if claim.row is None else places[id(claim.row)],
            claim.offers,
            claim.because,
        )
        for claim in claims
    )


def shell_of(row: OpenRow) -> Format | None:
    """The format of a row."""
    return formats.catalogue().format(row.format) if row.format else None
