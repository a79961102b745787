"""What is seen of a tape while it plays: told at once, so that price and date are known before it ends."""

from __future__ import annotations

from core.catalogue import condition
from core.model.deck_showing import NOTHING, Shown
from core.model.errors import Refused, WrongInput
from core.model.names import TapeCode
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.playtime import deck_readings, tape_minutes
from core.scheduling import deck_choice, partner_choice
from core.services import deck_queue
from core.services.agreement import ceiling_watch
from core.store import current_settings, history, lookup, row_records
from core.store.steps import step
from core.store.tables import TapeRow
from core.store.unit import Unit
from core.wording.locale_figures import tape_code
from core.wording.messages import say


@step
def see(unit: Unit, code: TapeCode, shown: Shown) -> TapeRecord:
    """Keeps what the deck shows of a tape that plays, and estimates its minutes and its price anew.

    The tape leaves a deck that does not play such a recording, and goes to *asking the customer* where the
    price goes over what was agreed. Refused for a tape that is not on a deck; WrongInput for what it cannot
    be.
    """
    row = lookup.tape_in_the_shop(unit, code)
    if row.station is not Station.PLAYING:
        raise Refused(say("agreement", "not_playing", code=tape_code(row.code), station=spoken(row.station)))
    if shown.is_nothing:
        raise WrongInput(say("tapes", "what_deck_showed"), "", say("agreement", "say_what_shows"))
    tape_minutes.check(deck_readings.found(row.draft, shown), None)
    before, expected = ceiling_watch.before_step(unit, row), row.minutes.likely
    row.shown = shown.over(row.shown or NOTHING)
    _estimate(unit, row)
    unfit = _leave_unfit_deck(unit, row)
    words = say(
        "agreement",
        "event_deck_shows",
        what=row.shown.words,
        was=round(expected),
        now=round(row.minutes.likely),
        unfit=unfit or "",
        given=len(unfit or ""),
    )
    history.append_of_tape(unit, row, "deck-showed", words, shown=row.shown, deck=row.deck)
    ceiling_watch.follow(unit, row, before)
    unit.session.flush()
    return row_records.tape(row)


def _estimate(unit: Unit, row: TapeRow) -> None:
    """The belief given what was seen; a recording that no deck of the shop plays is not for this shop."""
    settings = current_settings.read(unit)
    draft = deck_readings.found(row.draft, row.shown or NOTHING)
    elsewhere = partner_choice.elsewhere(settings.decks, settings.partners, draft)
    row.verdict = condition.verdict(row.findings, draft.format, elsewhere)
    deck_queue.believe_anew(unit, row)


def _leave_unfit_deck(unit: Unit, row: TapeRow) -> str | None:
    """Takes the tape off a deck that does not play what was found on it; gives its name."""
    if row.deck is None:
        return None
    deck = current_settings.deck(unit, row.deck)
    draft = deck_readings.found(row.draft, row.shown or NOTHING)
    if deck.plays.intersection(deck_choice.possible_systems(draft.format, draft.recorded_as)):
        return None
    name, row.deck, row.station, row.since = row.deck, None, Station.CLEARED_TO_PLAY, unit.now
    return name
