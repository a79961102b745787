"""What a person asked of the records and was not answered yet, each with the command id it goes by."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from core.model.errors import TapewrightError, Unavailable
from core.model.names import CommandId


@dataclass(slots=True, eq=False)
class Intent:
    """One thing somebody wants stored. Its id and what was asked for stay together."""

    command: CommandId
    asked: list[object]
    is_under_way: bool = True
    is_looked_up: bool = False
    """Whether the shop was asked what became of it."""


class Intents:
    """Gives every wish an id of its own; a wish nobody answered keeps it.

    The same pressed twice is one wish while the first is under way and nothing else was asked for since.
    After an answer, or a refusal, the same is another wish. Where nobody knows whether it was stored, the
    same again is the same wish.
    """

    def __init__(self) -> None:
        self._open: list[Intent] = []

    def begin(
        self, step: Callable[..., Any], args: tuple[Any, ...], named: Mapping[str, Any], under: str = ""
    ) -> Intent | None:
        """The intent of this wish, or None when it is under way already.

        What has an id of its own, ``under``, is one wish whatever is asked for by it: the shop compares.
        TypeError for a function that is not marked as a step.
        """
        from uuid import uuid4

        from core.services.sending import step_requests  # neither of them before the first paint

        asked = step_requests.asked_for(step, args, named)
        under_way = [each for each in self._open if each.is_under_way]
        if under_way and under_way[-1].asked == asked:
            return None
        for each in self._open:
            if each.command == under if under else not each.is_under_way and each.asked == asked:
                return self._again(each, asked)
        made = Intent(CommandId(under or uuid4().hex), asked)
        self._open.append(made)
        return made

    def _again(self, intent: Intent, asked: list[object]) -> Intent | None:
        if intent.is_under_way:
            return None
        intent.asked, intent.is_under_way, intent.is_looked_up = asked, True, False
        return intent

    def end(self, intent: Intent, failure: BaseException | None) -> None:
        """Whoever wanted it was answered with this; after a bug nobody knows either."""
        is_unknown = failure is not None and (
            isinstance(failure, Unavailable) or not isinstance(failure, TapewrightError)
        )
        intent.is_under_way = False
        if not is_unknown:
            self._open.remove(intent)

    def to_look_up(self) -> tuple[CommandId, ...]:
        """The ids of which nobody knows whether they were carried out; each is given once."""
        found = [each for each in self._open if not each.is_under_way and not each.is_looked_up]
        for each in found:
            each.is_looked_up = True
        return tuple(each.command for each in found)
