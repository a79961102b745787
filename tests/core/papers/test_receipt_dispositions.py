"""Every pair of findings with everything that can become of a tape: receipt and bill say the same of it.

On one format of every family: large and small shells, sound alone, film, pictures, discs.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from itertools import combinations

import pytest

from core.catalogue import condition
from core.catalogue.formats import catalogue
from core.model.dispositions import Disposition
from core.model.inventory import TapeLine
from core.model.job_records import Pickup
from core.model.names import Container, Finding, FormatName
from core.model.quote_records import QuotedTape, Storage
from core.model.ranges import ZERO, exactly
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.papers.handover import receipt
from core.papers.tape_words import became
from core.papers.voice import voice
from core.pricing import box_price, price_book
from tests.support import invented_job as records
from tests.support import pdf

VHS = FormatName("vhs")
FAMILIES = [
    FormatName(name) for name in ("vhs", "hi8", "audio-cassette", "super-8", "slides", "optical-disc")
]
THINGS = {
    Container.TAPE: ("tape", "tapes"),
    Container.REEL: ("reel of film", "reels of film"),
    Container.BOX: ("box of pictures", "boxes of pictures"),
    Container.DISC: ("disc", "discs"),
}
BOOK = price_book.in_force(date(2026, 3, 2))
# disposition: what a receipt says of the tape, whether anything may be charged for it, whether it goes home.
MODEL: dict[Disposition, tuple[str, bool, bool]] = {
    Disposition.COPIED: ("Copied: 1:02:00", True, True),
    Disposition.COPIED_IN_PART: ("Copied in part: 1:02:00", True, True),
    Disposition.NOTHING_ON_IT: ("Nothing on it, not copied", False, True),
    Disposition.NOT_WANTED: ("Not copied, as you wished", False, True),
    Disposition.REPAIR_DECLINED: ("Not repaired, as you wished", False, True),
    Disposition.CANNOT_BE_PLAYED: ("Could not be played here", False, True),
    Disposition.SENT_ELSEWHERE: ("Sent to another shop, and back", False, True),
    Disposition.LOST: ("Lost here", False, False),
    Disposition.DAMAGED: ("Damaged here", False, True),
}


def pairs(name: FormatName) -> list[frozenset[Finding]]:
    return [frozenset(pair) for pair in combinations(sorted(condition.possible(name), key=str), 2)]


def is_tape(name: FormatName) -> bool:
    return catalogue().format(name).counted_in is Container.TAPE


def tape(name: FormatName, found: frozenset[Finding], disposition: Disposition, place: int) -> TapeRecord:
    """A tape on which was done what its findings ask for, and of which that became."""
    verdict = condition.verdict(found, name)
    is_spliced = disposition.is_copied and any(each.code == "splice" for each in verdict.repairs)
    is_over = is_spliced and condition.splice_ends_reuse(name)
    return replace(
        records.job().tapes[0],
        code=records.tape_code(records.NUMBER, place),
        n=place,
        format=name,
        format_words=catalogue().format(name).words,
        station=Station.HANDED_BACK,
        findings=tuple(found),
        verdict=verdict,
        played_minutes=62.0 if disposition.is_copied else None,
        splices=(records.splice(),) if is_spliced else (),
        not_for_reuse=is_over,
        marked_at=datetime(2026, 3, 4, 15, tzinfo=UTC) if is_over else None,
        disposition=disposition,
    )


def quoted(record: TapeRecord, *, line: int = 1) -> QuotedTape:
    minutes = ZERO if record.played_minutes is None else exactly(record.played_minutes)
    draft = TapeLine(1, record.format, findings=record.findings)
    return QuotedTape(line, record.n, draft, minutes, record.verdict, record.disposition)


def handed(tapes: list[TapeRecord]) -> Pickup:
    price = box_price.price([quoted(each) for each in tapes], Storage(ZERO, ZERO, ()), BOOK, rush=False)
    return replace(records.pickup(), handed_back=tuple(tapes), still_here=(), copies=(), final=price)


every_family = pytest.mark.parametrize("name", FAMILIES)


@every_family
@pytest.mark.parametrize("disposition", Disposition)
def test_what_is_said_and_what_is_charged_agree_for_every_pair(
    name: FormatName, disposition: Disposition
) -> None:
    said, may_be_charged, _ = MODEL[disposition]
    speaker = voice(records.FRONT)
    for found in pairs(name):
        record = tape(name, found, disposition, 1)
        assert became(record, speaker) == said
        charges = box_price.price([quoted(record)], Storage(ZERO, ZERO, ()), BOOK, rush=False).charges
        assert (sum(each.amount.likely for each in charges) > 0) is may_be_charged, found
        assert any(each.code.startswith("capture-") for each in charges) is may_be_charged, found
        because = " ".join(each.because for each in charges)
        assert ("cannot be played" in because) is (disposition is Disposition.CANNOT_BE_PLAYED), found


@every_family
@pytest.mark.parametrize("disposition", Disposition)
def test_the_printed_receipt_says_it_of_each_tape(name: FormatName, disposition: Disposition) -> None:
    said, may_be_charged, goes_home = MODEL[disposition]
    found = pairs(name)
    pickup = handed([tape(name, pair, disposition, place) for place, pair in enumerate(found, 1)])
    words = pdf.words(receipt.render(pickup, records.FRONT))
    assert words.count(said) == len(found)
    one, many = THINGS[catalogue().format(name).counted_in]
    home = f"All {len(found)} {many} you get back" if len(found) > 1 else f"The {one} you get back"
    gone = f"{len(found)} {many} we could not return" if len(found) > 1 else f"One {one} we could not return"
    assert (home in words, gone in words) == (goes_home, not goes_home)
    assert ("copy the files to two places" in words) is disposition.is_copied
    assert ("not charged" in words.lower()) is not may_be_charged
    spliced = sum(each.not_for_reuse for each in pickup.handed_back)
    assert (words.count("Labeled Mar 4.")) == spliced
    assert ("NOT FOR REUSE" in words) is (spliced > 0)
    assert is_tape(name) or not spliced
    for other, (sentence, *_) in MODEL.items():
        assert other is disposition or sentence in said or sentence not in words


def test_a_note_for_the_customer_is_printed_and_one_for_us_is_not() -> None:
    plain = tape(VHS, pairs(VHS)[0], Disposition.COPIED_IN_PART, 1)
    for is_told in (True, False):
        record = replace(plain, note="the first twenty minutes", note_is_told=is_told)
        words = pdf.words(receipt.render(handed([record]), records.FRONT))
        assert ("the first twenty minutes" in words) is is_told


def test_nothing_is_left_out_of_the_model() -> None:
    assert set(MODEL) == set(Disposition)
    assert set(THINGS) == set(Container) == {catalogue().format(name).counted_in for name in FAMILIES}
