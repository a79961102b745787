"""Each tape as the bill sees it: what became of it, the minutes it played, the repairs that were done."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

from core.catalogue import condition, findings
from core.model.dispositions import Disposition
from core.model.inventory import TapeLine
from core.model.names import Join, Outcome
from core.model.quote_records import QuotedTape
from core.model.ranges import ZERO, Range, exactly
from core.model.repair_records import Repair
from core.model.stations import Station
from core.playtime.deck_readings import found
from core.pricing.disposition_rules import DispositionRule
from core.pricing.price_book_file import PlayCharge
from core.store import row_records
from core.store.tables import SpliceRow, TapeRow


def as_it_stands(
    row: TapeRow, rules: Mapping[Disposition, DispositionRule], *, exact: bool = True
) -> QuotedTape:
    """A tape as it would be charged now: settled, by what became of it; else as it is expected.

    A tape handed back before dispositions were kept is charged as it was then. ``exact`` takes the likely
    minutes where nobody knows them, else they are a range.
    """
    disposition = row_records.disposition(row)
    if row.station is Station.HANDED_BACK and row.disposition is None:
        return _as_charged_before(row)
    if disposition is None:
        verdict = replace(row.verdict, repairs=_expected(row)) if row.verdict.is_worked_on else row.verdict
        return QuotedTape(row.line, row.n, _draft(row), _minutes(row, exact), verdict, redone=_redone(row))
    minutes = _minutes(row, exact)
    if rules[disposition].play is PlayCharge.PLAYED and row.played_minutes is None:
        minutes = ZERO
    verdict = replace(row.verdict, repairs=tuple(_repairs(row, _done(row))))
    return QuotedTape(row.line, row.n, _draft(row), minutes, verdict, disposition, _redone(row))


def _as_charged_before(row: TapeRow) -> QuotedTape:
    uncopied = row.returned_from is not None and row.returned_from.is_uncopied
    verdict = replace(row.verdict, outcome=Outcome.CANNOT) if uncopied else row.verdict
    return QuotedTape(row.line, row.n, row.draft, ZERO if uncopied else _minutes(row), verdict)


def _minutes(row: TapeRow, exact: bool = True) -> Range:
    if row.played_minutes is None and not exact:
        return row.minutes
    return exactly(row.minutes.likely if row.played_minutes is None else row.played_minutes)


def _draft(row: TapeRow) -> TapeLine:
    """As a deck showed it to be."""
    return row.draft if row.shown is None else found(row.draft, row.shown)


def _expected(row: TapeRow) -> tuple[Repair, ...]:
    """What is planned, and what was done besides."""
    planned = Counter(each.code for each in row.verdict.repairs)
    return tuple(_repairs(row, planned | _done(row, frozenset(planned))))


def _repairs(row: TapeRow, counts: Mapping[str, int]) -> Iterator[Repair]:
    for code in findings.repair_codes():
        for _ in range(counts.get(code, 0)):
            yield condition.repair(code, row.draft.format)


def _done(row: TapeRow, planned: frozenset[str] = frozenset()) -> Counter[str]:
    """How often each repair was done: those that held, those of findings that are settled, and the splices.

    ``planned`` are under way: a splice made on the way to one is paid for by it, before it is done as well.
    A repair that may need a splice by itself, like cutting out a bad length, pays for one (common practice).
    """
    held = {each.code for each in row.repairs if each.succeeded and each.struck_at is None}
    done = Counter(held | set(condition.codes_of(row.settled)) | planned)
    splices = _charged_splices(row)
    done[condition.RE_ANCHOR] = max(done[condition.RE_ANCHOR], splices[True])
    spare = sum(done[code] for code in condition.JOINING) - min(done[condition.RE_ANCHOR], splices[True])
    needed = int(condition.must_be_spliced(row.findings))
    done[condition.SPLICE] = max(min(needed, splices[False]), splices[False] - spare)
    return +done


def _charged_splices(row: TapeRow) -> Counter[bool]:
    """Splices to the leader (True) and within the tape that are charged."""
    return Counter(each.joined_with is Join.LEADER for each in _first_made(row))


def _redone(row: TapeRow) -> tuple[str, ...]:
    """The codes of the repairs that were done again at the shop's own cost."""
    again = [each for each in _standing(row) if each not in _first_made(row)]
    return tuple(
        condition.RE_ANCHOR if each.joined_with is Join.LEADER else condition.SPLICE for each in again
    )


def _first_made(row: TapeRow) -> list[SpliceRow]:
    """Splices that were not made again; where those were all struck out, the first: it was agreed once."""
    standing = _standing(row)
    return [each for each in standing if not each.redone] or standing[:1]


def _standing(row: TapeRow) -> list[SpliceRow]:
    return [each for each in row.splices if each.struck_at is None]
