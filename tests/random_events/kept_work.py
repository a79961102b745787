"""What no slip may lose: the draft of the Counter, ticks and ink at Pickup, ink under what is agreed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from PySide6.QtWidgets import QApplication, QDialog

from core.model.typed_draft import TypedBox
from core.services.records_door import Shop
from core.store.command_tables import CommandRow
from core.store.unit import Unit
from gui.counter.draft_history import Draft, _Step
from tests.random_events.event_playing import pads
from tests.random_events.event_records import Does, Event
from tests.random_events.played_window import PlayedWindow

_MEANT_TO_CLEAR = "pad-clear"
_BY_HAND = (Does.KEY, Does.CLICK, Does.DOUBLE, Does.POINT, Does.TYPE, Does.SCAN)


@dataclass(frozen=True)
class Held:
    """What is there before an event."""

    box: TypedBox
    shown: TypedBox
    order: str
    """The order of the open pickup."""
    ticks: frozenset[str]
    ink: tuple[int, ...]
    """Strokes of each pad."""
    was_asked: bool
    """Whether a question was open: whoever answers it may mean it."""


def held(place: PlayedWindow) -> Held:
    counter, pickup = place.counter, place.pickup
    draft = counter.draft if counter is not None else None
    checklist = pickup.checklist if pickup is not None else None
    return Held(
        box=draft.box if draft else TypedBox(),
        shown=counter._typed() if counter is not None else TypedBox(),
        order=checklist.job.number if checklist else "",
        ticks=checklist.keys if checklist else frozenset(),
        ink=tuple(len(pad.strokes()) for pad in pads(place)),
        was_asked=isinstance(QApplication.activeModalWidget(), QDialog),
    )


def lost(place: PlayedWindow, before: Held, event: Event, hit: str) -> Iterator[str]:
    """Sentences on what this event lost, which went to the widget called ``hit``."""
    now = held(place)
    counter = place.counter
    if counter is not None and before.box not in (now.box, TypedBox()):
        yield from _lost_draft(place, counter.draft, before.box)
    if before.was_asked:
        return
    yield from _lost_ticks(place, before, now, event)
    if hit == _MEANT_TO_CLEAR:
        return
    if sum(now.ink) < sum(before.ink) - 1 and now.order == before.order and now.box == before.box:
        yield f"ink was lost: {before.ink} strokes, now {now.ink}"


def _lost_draft(place: PlayedWindow, draft: Draft, box: TypedBox) -> Iterator[str]:
    if not box.is_empty and not _can_be_undone(draft, box) and not is_stored(place, box):
        yield f"the draft cannot be brought back: {box}"


def _lost_ticks(place: PlayedWindow, before: Held, now: Held, event: Event) -> Iterator[str]:
    gone = before.ticks - (now.ticks if now.order == before.order else frozenset())
    if not gone or (len(gone) == 1 and now.order == before.order and event.does in _BY_HAND):
        return
    if not gone & still_open(place, before.order):
        return
    yield f"ticks were lost: {sorted(gone)} of order {before.order}"


def still_open(place: PlayedWindow, order: str) -> frozenset[str]:
    """What of an order could still be handed back, as its records stand."""
    from core.model.names import JobNumber
    from core.services import jobs
    from gui.pickup.checklist import Checklist

    job: Any = place.ask(jobs.get, JobNumber(order))
    return frozenset(Checklist(job).open_keys)


def restored(place: PlayedWindow, before: Held) -> Iterator[str]:
    """Sentences on what a window that was closed and opened again does not have any more."""
    counter = place.counter
    if counter is None or before.shown.is_empty:
        return
    now = counter._typed()
    if _as_typed(now) != _as_typed(before.shown) and not is_stored(place, before.shown):
        yield f"the draft was not kept over closing:\n  {before.shown}\n  {now}"


def _as_typed(box: TypedBox) -> TypedBox:
    """A box without the id it goes by, which one that was empty before gets anew."""
    return replace(box, command="")


def _can_be_undone(draft: Draft, box: TypedBox) -> bool:
    """Whether undo or redo leads to a box, or it is a part of a word that went on."""
    steps = [draft.undo.command(n) for n in range(draft.undo.count())]
    known = [step for step in steps if isinstance(step, _Step)]
    if any(box in (step._before, step.after) for step in known):
        return True
    return any(step.run and _differs_in(step.after, box, step.run) for step in known)


def _differs_in(one: TypedBox, other: TypedBox, field: str) -> bool:
    changed: dict[str, Any] = {field: getattr(one, field), "command": one.command}
    return replace(other, **changed) == one


def is_stored(place: PlayedWindow, box: TypedBox) -> bool:
    """Whether a box was booked, or the order changed that it is laid out to change."""
    place.settle()

    def find(unit: Unit) -> bool:
        return unit.session.get(CommandRow, box.command) is not None

    with Shop.open(place.root._where, clock=place.clock, who="Kim", create=False) as shop:
        return bool(box.amends) or bool(shop.ask(find))
