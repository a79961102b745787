"""What a customer may say when the price would go over what was agreed: each choice with its price and
day."""

from __future__ import annotations

from collections.abc import Sequence

from core.model.agreement_records import CeilingChoice, CeilingQuestion, OfferedChoice
from core.model.errors import Refused, WrongInput
from core.model.names import TapeCode
from core.model.stations import Station
from core.pricing import box_price
from core.services import deck_queue, payments
from core.services.agreement import agreement_versions, left_out
from core.store import lookup
from core.store.tables import JobRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

_BEGUN = (Station.PLAYING, Station.BEING_CHECKED, Station.READY, Station.HANDED_BACK)


def offered(
    unit: Unit,
    row: JobRow,
    questions: dict[int, CeilingQuestion],
    choice: CeilingChoice,
    about: TapeRow,
) -> OfferedChoice:
    """One choice of an order at hand, without its day."""
    held = agreement_versions.current(row)
    leaves = _leaves(unit, row, questions, choice, about)
    rest = [each for each in lookup.standing_tapes(row) if each not in leaves]
    fee = held.fee_minor
    if choice is CeilingChoice.RETURN_ALL:
        fee += fee_for(unit, row, leaves)
    stands = payments.price_of(unit, row, rest, ceiling_minor=None, fee_minor=fee).due.likely
    ceiling, given = held.ceiling_minor, held.given_away_minor
    if choice is CeilingChoice.GO_ON:
        habits = deck_queue.habits_of_order(unit, row.id)
        expected = payments.price_of(unit, row, rest, ceiling_minor=None, habits=habits).ceiling_minor
        ceiling = max(ceiling, expected, stands)
    elif choice is not CeilingChoice.LEAVE:
        given = max(given, stands - ceiling)
    codes = tuple(TapeCode(each.code) for each in leaves)
    billed = payments.price_of(unit, row, rest, ceiling_minor=ceiling, fee_minor=fee).due.likely
    return OfferedChoice(choice, billed, ceiling, given, None, codes)


def about_tape(row: JobRow, questions: dict[int, CeilingQuestion], tape: TapeCode | None) -> TapeRow:
    """The tape a question is about. Refused where nothing is asked, WrongInput for a tape that is not asked
    about."""
    if not questions:
        raise Refused(say("agreement", "nothing_asked", number=row.number))
    asking = asking_tapes(row, questions)
    if tape is None:
        return asking[-1]
    found = next((each for each in asking if each.code == tape), None)
    if found is None:
        codes = locale_figures.listed([locale_figures.tape_code(each.code) for each in asking], "or")
        raise WrongInput(say("records", "tape_code"), tape, say("agreement", "asked_about", codes=codes))
    return found


def fee_for(unit: Unit, row: JobRow, leaves: Sequence[TapeRow]) -> int:
    """The book's fee, before tax, for calling these tapes of an order off."""
    standing = lookup.standing_tapes(row)
    rest = [each for each in standing if each not in leaves]
    was = payments.price_of(unit, row, standing, ceiling_minor=None, fee_minor=0).net.likely
    now = payments.price_of(unit, row, rest, ceiling_minor=None, fee_minor=0).net.likely if rest else 0
    return box_price.cancellation_fee(payments.book_of(unit, row), max(0, was - now), whole=not rest)


def asking_tapes(row: JobRow, questions: dict[int, CeilingQuestion]) -> list[TapeRow]:
    """The tapes that wait, the one stopped last at the end."""
    asking = (each for each in row.tapes if each.id in questions)
    return sorted(asking, key=lambda each: (each.since, each.place))


def _leaves(
    unit: Unit, row: JobRow, questions: dict[int, CeilingQuestion], choice: CeilingChoice, about: TapeRow
) -> list[TapeRow]:
    standing = lookup.standing_tapes(row)
    if choice is CeilingChoice.GO_ON:
        return []
    if choice is CeilingChoice.LEAVE:
        return [about]
    if choice is CeilingChoice.RETURN_ALL:
        return [each for each in standing if each.id in questions or not left_out.was_copied(each)]
    return _beyond(unit, row, questions, standing)


def _beyond(
    unit: Unit, row: JobRow, questions: dict[int, CeilingQuestion], standing: Sequence[TapeRow]
) -> list[TapeRow]:
    """Tapes not begun that the agreed sum does not cover beside those that are, in the order of the box."""
    held = agreement_versions.current(row)
    kept = [each for each in standing if _is_begun(each, questions)]
    beyond = []
    for tape in standing:
        if tape in kept:
            continue
        price = payments.price_of(unit, row, [*kept, tape], ceiling_minor=None).due.likely
        if price <= held.ceiling_minor + held.given_away_minor:
            kept.append(tape)
        else:
            beyond.append(tape)
    return beyond


def _is_begun(tape: TapeRow, questions: dict[int, CeilingQuestion]) -> bool:
    asked = questions.get(tape.id)
    return (
        tape.played_minutes is not None
        or tape.station in _BEGUN
        or (asked is not None and asked.bound_for in _BEGUN)
    )
