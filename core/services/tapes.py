"""The cassettes in the shop's care: where each one is, and the moves from station to station."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import select

from core.catalogue import acclimatisation, moves
from core.model import entered_text
from core.model.deck_showing import NOTHING, Shown
from core.model.dispositions import said_by
from core.model.errors import Refused, WrongInput
from core.model.inventory import TapeLine
from core.model.names import AnyFinding, TapeCode
from core.model.own_shop.settings_records import Permission
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import JournalEntry, TapeRecord
from core.scheduling import deck_choice
from core.services import (
    promise_entries,
    tape_facts,
)
from core.services.agreement import ceiling_watch
from core.services.checking import file_checking
from core.store import current_settings, lookup, permissions, row_records
from core.store import history as chain
from core.store.steps import step
from core.store.tables import TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.locale_figures import tape_code
from core.wording.messages import say

AT_WORK = tuple(each for each in Station if each.is_unfinished)
"""Stations of tapes that somebody still has to do something about."""


@step
def move(
    unit: Unit,
    code: TapeCode,
    station: Station,
    *,
    findings: Iterable[AnyFinding] = (),
    minutes: float | None = None,
    note: str = "",
    tell: bool = False,
    deck: str | None = None,
    without_splice: str | None = None,
    shown: Shown = NOTHING,
    counts_as_look: bool = True,
    sure: bool = False,
) -> TapeRecord:
    """Puts a tape at a station, with what was seen there and the minutes it played.

    ``tell``: the note is for the customer; else it is for us, and never spoken or printed. A tape is ready
    with its minutes or a file that is signed off; without, `tape_dispositions.settle` says what became of it.
    ``deck`` names the deck it plays on; ``without_splice`` says what was done where a splice was to be
    expected; ``shown`` is what the deck showed of a tape that has played. A repaired tape that nobody
    looked over again goes to a deck only if the move ``counts_as_look``, and the history says so. A tape
    that came in cold plays before its rest is over only
    if the ``note`` says why and the person may override. Refused, with where it may go, for a move out of
    order, an open repair or a deck in use; WrongInput for a code, deck, play time or recording that
    cannot be; Unconfirmed for minutes far beyond the tape's end unless somebody is ``sure``. Where a file was
    recorded, its exact minutes count.
    """
    row = lookup.tape_of_order(unit, code)
    check_is_in_the_agreement(row)
    price_before = ceiling_watch.before_step(unit, row)
    seen = tape_facts.add_findings(row, findings)
    if without_splice is not None:
        _settle_without_splice(row, without_splice)
    moves.check(tape_facts.standing(row, seen), station)
    early = station is Station.PLAYING and _end_rest(unit, row, note)
    looked = station.is_for_a_deck and _look_by_move(unit, row, counts_as_look)
    before = row.station
    shown = tape_facts.with_shown_before(row, shown, minutes)
    tape_facts.check_capture(row, shown, minutes)
    exact = _count_minutes(unit, row, minutes, shown, sure)
    _take_deck(unit, row, station, deck)
    _settle_repairs(row, before, station)
    row.station, row.since, row.note = station, unit.now, entered_text.line(say("tapes", "note"), note)
    row.note_is_told = tell and bool(row.note)
    _settle_disposition(unit, row)
    told = (
        (say("tapes", "looked_by_move"), looked),
        (say("tapes", "rest_over_early"), early),
        (say("tapes", "file_counts", minutes=minutes or 0), exact),
    )
    besides = [words for words, is_so in told if is_so]
    _tell_move(unit, row, before, seen, without_splice, shown, besides)
    ceiling_watch.follow(unit, row, price_before)
    promise_entries.note_finish(unit, row, before)
    unit.session.flush()
    return row_records.tape(row)


def get(unit: Unit, code: TapeCode) -> TapeRecord:
    """The tape of a code as scanned; WrongInput when it was mistyped or there is none."""
    return row_records.tape(lookup.tape_row(unit, code))


def history(unit: Unit, code: TapeCode) -> tuple[JournalEntry, ...]:
    """What happened to one tape, oldest first."""
    return chain.of_tape(unit, TapeCode(lookup.tape_row(unit, code).code))


def at_work(unit: Unit) -> tuple[TapeRecord, ...]:
    """Tapes that are neither ready nor handed back, job by job in the order they came."""
    rows = unit.session.scalars(
        lookup.whole_tapes().where(TapeRow.station.in_(AT_WORK)).order_by(TapeRow.job_id, TapeRow.place)
    )
    return tuple(row_records.tape(row) for row in rows)


def check_is_in_the_agreement(row: TapeRow) -> None:
    """Refused for a tape that its agreement left out: it only goes home."""
    if row.left_out_in is not None and row.station.is_in_the_shop:
        raise Refused(say("agreement", "left_out_waits", code=tape_code(row.code), n=row.left_out_in))


def _look_by_move(unit: Unit, row: TapeRow, counts: bool) -> bool:
    """Whether this move was the look after a repair; Refused where one is due and the move does not count."""
    if row.repaired_at is not None and row.look is None and not counts:
        raise Refused(say("tapes", "needs_look", code=tape_code(row.code)))
    return tape_facts.confirm_by_move(unit, row)


def _end_rest(unit: Unit, row: TapeRow, note: str) -> bool:
    """Whether a tape goes on a deck before its rest is over; Refused when nobody says why it may."""
    until, row.rests_until = row.rests_until, None
    if until is None or until <= unit.now:
        return False
    if not note.strip():
        clock = current_settings.local(unit, until)
        raise Refused(
            say(
                "tapes",
                "still_cold",
                code=tape_code(row.code),
                day=locale_figures.day(clock.date()),
                time=locale_figures.time_of_day(clock),
                caution=acclimatisation.caution(),
            )
        )
    permissions.check(unit, Permission.OVERRIDE)
    return True


def _settle_without_splice(row: TapeRow, reason: str) -> None:
    if not entered_text.line(say("tapes", "instead_of_splice"), reason):
        raise WrongInput(say("tapes", "instead_of_splice"), reason, say("tapes", "say_what_was_done"))
    row.settled += moves.needing_splice(tape_facts.open_findings(row))


def _settle_repairs(row: TapeRow, before: Station, there: Station) -> None:
    """A tape cleared at the bench has had its repairs."""
    if before is Station.AT_THE_BENCH and there is Station.CLEARED_TO_PLAY:
        row.settled += tape_facts.open_findings(row)


def _settle_disposition(unit: Unit, row: TapeRow) -> None:
    """What the station says became of a tape; Refused where nobody can say that it is ready."""
    if row.station is Station.READY:
        if not row_records.is_recorded(row):
            raise Refused(say("tapes", "not_accounted", code=tape_code(row.code), typed=row.code))
        file_checking.check_may_be_ready(unit, row)
    row.disposition = said_by(row.station)


def _count_minutes(unit: Unit, row: TapeRow, minutes: float | None, shown: Shown, sure: bool) -> bool:
    """Keeps what was read off the deck; whether the exact minutes of a file count in its stead."""
    tape_facts.take_minutes(row, minutes, sure=sure)
    if minutes is None:
        return False
    if row.station is Station.PLAYING:
        tape_facts.enter_capture(unit, row, minutes, shown)
    exact = tape_facts.minutes_of_files(unit, row)
    if exact is not None:
        row.played_minutes = exact
    return exact is not None


def _take_deck(unit: Unit, row: TapeRow, there: Station, deck: str | None) -> None:
    if there is not Station.PLAYING:
        if deck is not None:
            raise WrongInput(say("decks", "deck"), deck, say("decks", "named_to_play"))
        row.deck = None
        return
    if deck is None:
        return
    _check_plays(unit, deck, row.draft)
    taken = unit.session.scalars(select(TapeRow.code).where(TapeRow.deck == deck)).first()
    if taken is not None:
        raise Refused(say("decks", "is_taken", deck=deck, code=tape_code(taken)))
    row.deck = deck


def _check_plays(unit: Unit, name: str, draft: TapeLine) -> None:
    """WrongInput when the shop has no such deck; Refused when it is out of service or plays no such tape."""
    deck = current_settings.deck(unit, name)
    systems = deck_choice.possible_systems(draft.format, draft.recorded_as)
    if not deck.in_service:
        raise Refused(say("decks", "out_of_service", deck=name))
    if not deck.plays.intersection(systems):
        raise Refused(say("decks", "does_not_play", deck=name, systems=locale_figures.listed(systems, "or")))


def _tell_move(
    unit: Unit,
    row: TapeRow,
    before: Station,
    seen: tuple[AnyFinding, ...],
    without_splice: str | None,
    shown: Shown,
    besides: Iterable[str],
) -> None:
    parts = [say("tapes", "event_moved", **{"from": spoken(before), "to": spoken(row.station)})]
    if row.deck:
        parts.append(say("tapes", "event_on_deck", deck=row.deck))
    if seen:
        parts.append(say("tapes", "event_found", findings=", ".join(spoken(each) for each in seen)))
    if without_splice:
        parts.append(say("tapes", "event_instead_of_splice", what=without_splice))
    if not shown.is_nothing:
        parts.append(say("tapes", "event_deck_showed", what=shown.words))
    parts += besides
    parts += [row.note] if row.note else []
    chain.append_of_tape(
        unit,
        row,
        "moved",
        "; ".join(parts),
        played_minutes=row.played_minutes,
        deck=row.deck,
        shown=shown,
        rests_until=row.rests_until,
    )
