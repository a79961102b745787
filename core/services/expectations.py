"""What the shop says will happen to it though nobody can say when: where counting begins."""

from __future__ import annotations

from dataclasses import replace

from core.model.errors import WrongInput
from core.model.settings_records import Expected, ShopSettings
from core.services import decks
from core.store import history
from core.store.unit import Unit


def expect(unit: Unit, wanted: Expected) -> ShopSettings:
    """Keeps what the shop states from now on; every date is made from that and from what was counted.

    WrongInput, with the figure by name, for one that cannot be: a deck that fails but is never mended, rush
    boxes without tapes in them, or anything beyond its bounds.
    """
    check(wanted)
    fitted = decks.fittings(unit)
    if wanted == fitted.expected:
        return fitted
    history.append(unit, "expects", _words(wanted), before=fitted.expected, now=wanted)
    return decks.refit(unit, replace(fitted, expected=wanted))


def check(wanted: Expected) -> None:
    """WrongInput for figures that contradict each other; their bounds are those of the fittings."""
    if wanted.hours_between_failures and not wanted.hours_to_repair:
        accepted = "a deck that fails is away for a while: more than 0 hours are accepted"
        raise WrongInput("hours until a deck is back", wanted.hours_to_repair, accepted)
    if wanted.rush_boxes_a_week and wanted.tapes_in_a_rush_box < 1:
        accepted = "a rush box holds at least one tape: from 1 on is accepted"
        raise WrongInput("tapes in a rush box", wanted.tapes_in_a_rush_box, accepted)


def _words(wanted: Expected) -> str:
    return (
        f"expects a failure in {wanted.hours_between_failures:g} playing hours and "
        f"{wanted.hours_to_repair:g} hours until it is mended, {wanted.rush_boxes_a_week:g} rush boxes "
        f"a week of {wanted.tapes_in_a_rush_box:g} tapes, "
        f"{100 * wanted.unplanned_closures:g} % of opening days lost"
    )
