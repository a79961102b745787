"""Steps on their way to the records: each goes by a command id, and what nobody answered is looked up."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from core.model.errors import TapewrightError
from gui.toolkit.intents import Intents

if TYPE_CHECKING:
    from gui.toolkit.workers import Work

EVERYTHING = frozenset({"jobs", "tapes", "shop", "drafts"})


class SentSteps(QObject):
    """Sends the steps of one window."""

    repeated = Signal(object)
    """The moment at which what was just asked for had been stored already; it was not stored again."""
    stored_after_all = Signal(object)
    """The moments at which what nobody had answered was stored."""

    def __init__(self, work: Work) -> None:
        super().__init__(work)
        self._work = work
        self._intents = Intents()

    def send(
        self,
        step: Callable[..., Any],
        args: tuple[Any, ...],
        named: Mapping[str, Any],
        then: Callable[[Any], None] | None,
        otherwise: Callable[[TapewrightError], None] | None,
        changes: frozenset[str],
        under: str = "",
    ) -> None:
        """Carry a step out under the id of its intent; pressed twice nobody hears the second time."""
        from core.services.sending import step_requests  # not before the first paint

        if step_requests.leaves_the_same(step):
            self._work.on_records(lambda shop: shop.run(step, *args, **named), then, otherwise, changes)
            return
        intent = self._intents.begin(step, args, named, under)
        if intent is not None:
            self._work.on_records(
                lambda shop: shop.once(intent.command, step, *args, **named),
                partial(self._was_done, then),
                otherwise,
                changes,
                ended=partial(self._intents.end, intent),
            )

    def look_up(self) -> None:
        """The records can be reached: ask what became of that which nobody answered."""
        ids = self._intents.to_look_up()
        if ids and not self._work.is_closing:
            self._work.on_records(lambda shop: shop.carried_out(ids), self._was_looked_up, _unheard)

    def _was_done(self, then: Callable[[Any], None] | None, done: Any) -> None:
        if then is not None:
            then(done.answer)
        if done.before is not None:
            self.repeated.emit(done.before)

    def _was_looked_up(self, stored: tuple[datetime, ...]) -> None:
        if stored:
            self._work.changed.emit(EVERYTHING)
            self.stored_after_all.emit(stored)


def _unheard(_: TapewrightError) -> None:
    """Whoever asked next hears of it."""
