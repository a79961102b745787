"""One, two and three findings with everything that can become of a tape: the bill says what was done.

What is charged for a tape by what became of it is common practice, no source; the reasons stand beside each.
That nobody pays for what was spoiled in the shop's hands, nor for a repair made again because the shop's own
was bad, is the shop's word (and in many places the law's, which goes first). The table of the findings is
that of `test_finding_combinations`; here it is worked off as that plans, on every family, and then billed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import UTC, date, datetime
from itertools import combinations

import pytest

from core.catalogue import condition
from core.model.dispositions import Disposition
from core.model.inventory import TapeLine
from core.model.names import Finding, FormatName, Join
from core.model.quote_records import QuotedTape, Storage
from core.model.ranges import ZERO, Range
from core.model.stations import Station
from core.pricing import box_price, price_book
from core.services import billed_tapes
from core.store.tables import RepairRow, SpliceRow, TapeRow
from tests.reference.test_finding_combinations import WORK, done, sets, stage

NOW = datetime(2026, 3, 4, 15, tzinfo=UTC)
BOOK = price_book.in_force(date(2026, 3, 2))
FAMILIES = [
    FormatName(name) for name in ("vhs", "hi8", "audio-cassette", "super-8", "slides", "optical-disc")
]
"""One of each: large and small shells, sound alone, film, pictures, discs."""

# disposition: whether copying is charged, whether the repairs that were done are, why. Common practice.
RULES: dict[Disposition, tuple[bool, bool, str]] = {
    Disposition.COPIED: (True, True, "the work that was ordered"),
    Disposition.COPIED_IN_PART: (True, True, "what plays is copied, for its own minutes"),
    Disposition.NOTHING_ON_IT: (False, False, "there is no copy to sell"),
    Disposition.NOT_WANTED: (False, False, "nothing was ordered any more"),
    Disposition.REPAIR_DECLINED: (False, False, "nobody pays for a repair that was declined"),
    Disposition.CANNOT_BE_PLAYED: (False, False, "a repair that leads to no copy is the shop's risk"),
    Disposition.SENT_ELSEWHERE: (False, False, "the partner charges for its own work"),
    Disposition.LOST: (False, False, "nobody pays for what was lost here"),
    Disposition.DAMAGED: (False, False, "nobody pays for what was damaged here"),
}


def tape(name: FormatName, found: frozenset[Finding], became: Disposition | None) -> TapeRow:
    """A tape on which was done what its findings ask for: splices on record, the rest tried and settled."""
    codes, is_done = done(found), became is None or became.is_copied
    row = TapeRow(
        code="0000180014",
        place=1,
        line=1,
        n=1,
        draft=TapeLine(1, name, findings=tuple(found)),
        station=Station.AT_THE_BENCH if became is None else became.station,
        since=NOW,
        findings=tuple(found),
        verdict=condition.verdict(found, name),
        minutes=Range(50, 60, 70),
        played_minutes=62.0 if became is not None and became.is_copied else None,
        disposition=became,
    )
    if codes:
        joins = ((Join.TAPE, "splice"), (Join.LEADER, "re-anchor"))
        row.splices += [_splice(join) for join, code in joins if code in codes]
        row.repairs += [_repair(code) for code in sorted(codes - {"splice", "re-anchor"})]
        row.settled = row.findings if is_done else ()
    return row


def _splice(join: Join, *, redone: bool = False) -> SpliceRow:
    return SpliceRow(
        at_minutes=12.0,
        cut_cm=2.0,
        joined_with=join,
        seconds_removed=0.6,
        seconds_disturbed=0.1,
        by="Kim",
        at=NOW,
        redone=redone,
    )


def _repair(code: str) -> RepairRow:
    named = {"part": None, "donor_id": None, "came_from": "", "note": "", "settled": ()}
    return RepairRow(code=code, succeeded=True, by="Kim", at=NOW, **named)


def billed(row: TapeRow) -> QuotedTape:
    return billed_tapes.as_it_stands(row, BOOK.dispositions)


def charges(row: TapeRow) -> Counter[str]:
    """How often each repair is charged, and ``copying`` where that is; sums are in `total`."""
    found: Counter[str] = Counter()
    for each in box_price.price([billed(row)], Storage(ZERO, ZERO, ()), BOOK, rush=False).charges:
        if each.code.startswith("repair-"):
            found[each.code.removeprefix("repair-")] += int(each.quantity)
        elif each.code.startswith("capture-"):
            found["copying"] += 1
    return found


def total(row: TapeRow) -> int:
    return box_price.price([billed(row)], Storage(ZERO, ZERO, ()), BOOK, rush=False).gross.high


def some(name: FormatName, most: int) -> Iterator[frozenset[Finding]]:
    return (found for found in sets(name) if len(found) <= most)


every_family = pytest.mark.parametrize("name", FAMILIES)


@every_family
@pytest.mark.parametrize("became", Disposition)
def test_a_tape_is_charged_by_what_became_of_it(name: FormatName, became: Disposition) -> None:
    copying, repairs, _ = RULES[became]
    for found in some(name, 3 if became is Disposition.COPIED else 2):
        row = tape(name, found, became)
        expected = Counter(done(found) if repairs else ())
        expected["copying"] = int(copying)
        assert charges(row) == +expected, found
        assert (total(row) > 0) is copying, found


@every_family
def test_a_tape_at_work_is_charged_as_it_was_quoted(name: FormatName) -> None:
    """The same whether its splices are made already or not: nobody is asked about a price that holds."""
    for found in some(name, 3):
        begun = tape(name, found, None)
        planned = tape(name, found, None)
        planned.splices, planned.repairs, planned.settled = [], [], ()
        expected = Counter({*done(found), "copying"} if stage(found) == WORK else ())
        assert charges(planned) == charges(begun) == expected, found


@every_family
def test_a_repair_made_again_costs_nothing_and_is_shown(name: FormatName) -> None:
    for found in some(name, 2):
        row = tape(name, found, Disposition.COPIED)
        if not row.splices:
            continue
        once, before = charges(row), total(row)
        for kind in (Join.TAPE, Join.LEADER):
            row.splices.append(_splice(kind, redone=True))
        assert (charges(row), total(row)) == (once, before), found
        price = box_price.price([billed(row)], Storage(ZERO, ZERO, ()), BOOK, rush=False)
        given = [each for each in price.charges if each.code.startswith("redone-")]
        assert {each.code for each in given} == {"redone-splice", "redone-re-anchor"}, found
        assert all("no charge" in each.text and each.amount.high == 0 for each in given), found


@every_family
def test_a_pair_never_costs_more_than_its_two_findings_alone(name: FormatName) -> None:
    """One verdict for both: what one repair does for two findings is charged once."""
    for pair in combinations(sorted(condition.possible(name), key=str), 2):
        together = tape(name, frozenset(pair), Disposition.COPIED)
        apart = sum(total(tape(name, frozenset({each}), Disposition.COPIED)) for each in pair)
        assert total(together) <= apart, pair


def test_every_disposition_has_its_rule_and_its_reason() -> None:
    assert set(RULES) == set(Disposition)
    assert all(why for *_, why in RULES.values())
    for became, (copying, repairs, _) in RULES.items():
        rule = BOOK.dispositions[became]
        assert (rule.play.value != "none", rule.repairs) == (copying, repairs)
