"""What the shop plans and reckons with, typed: days off, outages, expectations, the order of boxes."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from core.cli.invocation import Invocation, Reply
from core.model.own_shop.settings_records import Expected, Outage, ShopSettings
from core.services import box_order, closed_days, decks, event_counts, expectations, promises
from core.services.box_order import CompletionChange, Proposal
from core.services.event_counts import TimeOff
from core.wording.messages import say

FIGURES = (
    "hours_between_failures",
    "hours_to_repair",
    "rush_boxes_a_week",
    "tapes_in_a_rush_box",
    "unplanned_closures",
)


def close_days(call: Invocation) -> Reply:
    """Closes the shop from one day to another, and tells all days off."""
    asked = call.asked
    with call.open() as shop:
        fitted = call.run(shop, closed_days.plan, asked.first, asked.last or asked.first, asked.because)
        return _planned(fitted, shop.ask(event_counts.days_off))


def reopen_days(call: Invocation) -> Reply:
    """Takes back the closed days of a span; refused when it holds none."""
    asked = call.asked
    last: date = asked.last or asked.first
    with call.open() as shop:
        fitted = call.run(shop, closed_days.open_span, asked.first, last, asked.because or "")
        return _planned(fitted, shop.ask(event_counts.days_off))


def plan_outage(call: Invocation) -> Reply:
    """Plans a deck out of service for a span, or takes that back."""
    asked = call.asked
    step = decks.cancel_outage if asked.take_back else decks.plan_outage
    outage = Outage(asked.name, asked.first, asked.last or asked.first)
    with call.open() as shop:
        fitted = call.run(shop, step, outage, asked.because or "")
        return _planned(fitted, shop.ask(event_counts.days_off))


def expect(call: Invocation) -> Reply:
    """Sets what is given, and tells what is stated and what is reckoned with."""
    typed = {name: getattr(call.asked, name) for name in FIGURES}
    given = {name: value for name, value in typed.items() if value is not None}
    with call.open() as shop:
        if given:
            call.run(shop, expectations.expect_figures, given)
        stated: Expected = shop.ask(decks.settings).expected
        reckoned = shop.ask(promises.reckoned).expected
    document = {"stated": _figures(stated), "reckoned": _figures(reckoned)}
    lines = (
        say(
            "cli",
            "stated_reckoned",
            name=name,
            figures=f"{_figures(stated)[name]:g}",
            figures_2=f"{_figures(reckoned)[name]:g}",
        )
        for name in FIGURES
    )
    return Reply(document, "\n".join(lines))


def order_boxes(call: Invocation) -> Reply:
    """Looks for a better order and keeps it if asked to; or takes the last one back."""
    with call.open() as shop:
        if call.asked.take_back:
            order = call.run(shop, box_order.put_back)
            return Reply({"kept": True, "order": list(order), "changes": []}, _stands(order))
        kept = call.recalled(shop, box_order.put) if call.asked.keep else None
        if kept is not None:
            return Reply({"kept": True, "order": list(kept), "changes": []}, _stands(kept))
        found = shop.ask(box_order.question).answer()
        if found is None:
            return Reply(
                {"kept": False, "order": None, "changes": []}, say("cli", "better_order_harms_promise")
            )
        if call.asked.keep:
            call.run(shop, box_order.put, found.order, found.seen)
    return _proposed(found, kept=call.asked.keep)


def _proposed(found: Proposal, *, kept: bool) -> Reply:
    document = {
        "kept": kept,
        "order": list(found.order),
        "days_sooner": round(found.days, 3),
        "changes": [_change(each) for each in found.changes],
    }
    lines = [f"{each.number} {each.customer}: {_moved(each.days)}" for each in found.changes]
    head = "Kept." if kept else say("cli", "found_keep_puts_boxes")
    return Reply(document, "\n".join((head, *lines)))


def _moved(days: float) -> str:
    if round(days, 1) == 0:
        return say("cli", "now")
    return f"{abs(days):.1f} days {'sooner' if days > 0 else 'later'}"


def _change(change: CompletionChange) -> dict[str, object]:
    return {
        "number": change.number,
        "days_sooner": round(change.days, 3),
        "promised": None if change.promised is None else change.promised.isoformat(),
        "was": None if change.was is None else round(change.was, 4),
        "will": None if change.will is None else round(change.will, 4),
    }


def _stands(order: Iterable[str]) -> str:
    if not order:
        return say("cli", "queue_as_they_came")
    return say("cli", "order_before_holds_again", order=", ".join(order))


def _figures(expected: Expected) -> dict[str, float]:
    return {name: round(getattr(expected, name), 4) for name in FIGURES}


def _planned(fitted: ShopSettings, off: Iterable[TimeOff]) -> Reply:
    shut = [
        {"first": each.days[0].isoformat(), "last": each.days[-1].isoformat(), "because": each.words}
        | {"planned": each.is_planned}
        for each in off
    ]
    outages = [
        {"deck": each.deck, "first": each.begins.isoformat(), "last": each.ends.isoformat()}
        for each in fitted.outages
    ]
    lines = [f"Closed {each['first']} to {each['last']}: {each['because']}" for each in shut]
    lines += [f"{each['deck']} out {each['first']} to {each['last']}" for each in outages]
    return Reply({"closed": shut, "outages": outages}, "\n".join(lines) or say("cli", "nothing_planned"))
