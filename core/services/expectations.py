"""What the shop says will happen to it though nobody can say when: where counting begins."""

from __future__ import annotations

from dataclasses import replace

from core.model.errors import WrongInput
from core.model.settings_records import Expected, ShopSettings
from core.services import decks
from core.store import current_settings, history
from core.store.unit import Unit
from core.wording.messages import say


def expect(unit: Unit, wanted: Expected) -> ShopSettings:
    """Keeps what the shop states from now on; every date is made from that and from what was counted.

    WrongInput, with the figure by name, for one that cannot be: a deck that fails but is never mended, rush
    boxes without tapes in them, or anything beyond its bounds.
    """
    check(wanted)
    fitted = current_settings.read(unit)
    if wanted == fitted.expected:
        return fitted
    history.append(unit, "expects", _words(wanted), before=fitted.expected, now=wanted)
    return decks.refit(unit, replace(fitted, expected=wanted))


def check(wanted: Expected) -> None:
    """WrongInput for figures that contradict each other; their bounds are those of the fittings."""
    if wanted.hours_between_failures and not wanted.hours_to_repair:
        accepted = say("steps", "deck_fails_away_while")
        raise WrongInput(say("steps", "hours_until_deck_back"), wanted.hours_to_repair, accepted)
    if wanted.rush_boxes_a_week and wanted.tapes_in_a_rush_box < 1:
        accepted = say("steps", "rush_box_holds_least")
        raise WrongInput(say("steps", "tapes_rush_box"), wanted.tapes_in_a_rush_box, accepted)


def _words(wanted: Expected) -> str:
    return say(
        "steps",
        "expects_failure_playing_hours",
        hours_between_failures=f"{wanted.hours_between_failures:g}",
        hours_to_repair=f"{wanted.hours_to_repair:g}",
        rush_boxes_a_week=f"{wanted.rush_boxes_a_week:g}",
        tapes_in_a_rush_box=f"{wanted.tapes_in_a_rush_box:g}",
        unplanned_closures=f"{100 * wanted.unplanned_closures:g}",
    )
