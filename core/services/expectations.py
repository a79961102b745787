"""What the shop says will happen to it though nobody can say when: where counting begins."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from core.model.errors import Conflict, WrongInput
from core.model.own_shop.settings_records import Expected, ShopSettings
from core.services import decks
from core.store import current_settings, history, merged_fields
from core.store.steps import special_step
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


@special_step(again=current_settings.read)
def expect(unit: Unit, wanted: Expected, *, seen: Expected | None = None) -> ShopSettings:
    """Keeps what the shop states from now on; every date is made from that and from what was counted.

    ``seen``: the figures that ``wanted`` was typed over; what somebody else changed since stays. Conflict,
    with both, where both changed the same.

    WrongInput, with the figure by name, for one that cannot be: a deck that fails but is never mended, rush
    boxes without tapes in them, or anything beyond its bounds.
    """
    fitted = current_settings.read(unit)
    if seen is not None:
        wanted = _merged(seen, wanted, fitted.expected)
    check(wanted)
    if wanted == fitted.expected:
        return fitted
    history.append(unit, "expects", _words(wanted), before=fitted.expected, now=wanted)
    return decks.refit(unit, replace(fitted, expected=wanted))


@special_step(again=current_settings.read)
def expect_figures(unit: Unit, figures: Mapping[str, float]) -> ShopSettings:
    """`expect` for the fields of `Expected` that are given; the others stay as they are at this moment."""
    given: dict[str, Any] = dict(figures)
    return expect(unit, replace(current_settings.read(unit).expected, **given))


def check(wanted: Expected) -> None:
    """WrongInput for figures that contradict each other; their bounds are those of the settings."""
    if wanted.hours_between_failures and not wanted.hours_to_repair:
        accepted = say("decks", "repair_takes_time")
        raise WrongInput(say("decks", "hours_to_repair"), wanted.hours_to_repair, accepted)
    if wanted.rush_boxes_a_week and wanted.tapes_in_a_rush_box < 1:
        accepted = say("decks", "rush_holds_a_tape")
        raise WrongInput(say("decks", "tapes_in_rush"), wanted.tapes_in_a_rush_box, accepted)


def _merged(seen: Expected, wanted: Expected, now: Expected) -> Expected:
    merged, clashes = merged_fields.merge(seen, wanted, now)
    if clashes:
        told = [
            say("decks", "figure_clash", what=say("plans", each.field), now=each.now, yours=each.wanted)
            for each in clashes
        ]
        fields = locale_figures.listed(told, "unit")
        raise Conflict(say("decks", "expected_changed_meanwhile", fields=fields))
    return merged


def _words(wanted: Expected) -> str:
    return say(
        "decks",
        "event_expected",
        between=locale_figures.figure(wanted.hours_between_failures),
        repair=locale_figures.figure(wanted.hours_to_repair),
        rush=locale_figures.figure(wanted.rush_boxes_a_week),
        tapes=locale_figures.figure(wanted.tapes_in_a_rush_box),
        closed=locale_figures.figure(100 * wanted.unplanned_closures),
    )
