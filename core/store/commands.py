"""Commands carried out once: the id is kept with what it asked for, in the transaction of its step."""

from __future__ import annotations

import base64
import zlib
from collections.abc import Callable, Collection
from dataclasses import dataclass
from datetime import datetime, timedelta
from types import NoneType
from typing import Any, Generic, TypeVar

from sqlalchemy import bindparam, delete, select

from core.model import serialization
from core.model.errors import Refused, StoredBefore, WrongInput
from core.model.names import CommandId
from core.store import current_settings, history, steps
from core.store.columns import StoredTable, UtcMoment
from core.store.command_tables import CommandAnswerRow, CommandRow
from core.store.row_digests import new_salt
from core.store.steps import Request
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

T = TypeVar("T")

LONGEST_ID = 80
ANSWERS_KEPT = timedelta(days=30)
"""How long an answer can be given again (an assumption). An id stays used for good."""

_ANSWERS = StoredTable.metadata.tables[CommandAnswerRow.__tablename__]
_OUTWORN = delete(_ANSWERS).where(_ANSWERS.c.at < bindparam("before", type_=UtcMoment()))


@dataclass(frozen=True, slots=True)
class CarriedOut(Generic[T]):
    """What a command led to."""

    answer: T
    before: datetime | None = None
    """When it had been carried out already; None: it was now."""


def carry_out(unit: Unit, request: Request) -> CarriedOut[Any]:
    """Carries a step out under ``unit.command``, or answers what it was answered the first time.

    Refused when the id was used for something else, or so long ago that nobody kept the answer; WrongInput
    for an id that is too long.
    """
    _check(unit.command)
    known = unit.session.get(CommandRow, unit.command)
    if known is not None:
        return CarriedOut(_first_answer(unit, request, known), known.at)
    answer = request.call(unit)
    if not request.mark.replaces:
        _keep(unit, request, answer)
    return CarriedOut(answer)


def carried_out(unit: Unit, ids: Collection[CommandId]) -> tuple[datetime, ...]:
    """When those of some commands were carried out that were, the earliest first."""
    found = select(CommandRow.at).where(CommandRow.command.in_(ids)).order_by(CommandRow.at)
    return tuple(unit.session.scalars(found))


def recalled(unit: Unit, command: CommandId, step: Callable[..., T]) -> T | None:
    """What a command of this step was answered, where its arguments take long to work out; else None.

    Refused when the id was used for another step, or so long ago that nobody kept the answer.
    """
    known = unit.session.get(CommandRow, command)
    if known is None:
        return None
    kept = _kept(unit, known)
    if known.step != steps.name_of(step):
        raise Refused(_told(unit, known, "command_of_other_content"))
    answer: T = _answer(kept, steps.answer_kind(step))
    return answer


def _check(command: CommandId) -> None:
    if not 0 < len(command) <= LONGEST_ID:
        raise WrongInput(
            say("records", "command"), command, say("records", "command_length", most=LONGEST_ID)
        )


def _keep(unit: Unit, request: Request, answer: object) -> None:
    session, command, salt = unit.session, unit.command, new_salt()
    content = _digest(salt, request)
    session.add(CommandRow(command=command, step=request.name, content=content, at=unit.now, by=unit.who))
    session.flush()
    told = _written(answer) if request.mark.again is None else ""
    session.add(CommandAnswerRow(command=command, answer=told, salt=salt, at=unit.now))
    session.flush()
    session.connection().execute(_OUTWORN, {"before": unit.now - ANSWERS_KEPT})


def _first_answer(unit: Unit, request: Request, known: CommandRow) -> Any:
    kept = _kept(unit, known)
    if known.content != _digest(kept.salt, request):
        is_told = known.step == request.name and request.mark.again is None
        answer = _answer(kept, request.kind) if is_told else None
        raise StoredBefore(_told(unit, known, "command_of_other_content"), answer)
    if request.mark.again is not None:
        return request.mark.again(unit)
    return _answer(kept, request.kind)


def _kept(unit: Unit, known: CommandRow) -> CommandAnswerRow:
    """Refused where what was asked for cannot be compared any more: from before, or too long ago."""
    kept = unit.session.get(CommandAnswerRow, known.command)
    if kept is None:
        key = "command_is_older" if known.content is None else "command_long_ago"
        raise Refused(_told(unit, known, key))
    return kept


def _answer(kept: CommandAnswerRow, kind: Any) -> Any:
    return None if kind is NoneType else serialization.loads(kind, _read(kept.answer))


def _digest(salt: str, request: Request) -> str:
    return history.fingerprint(salt + request.content)


def _told(unit: Unit, known: CommandRow, key: str) -> str:
    at = current_settings.local(unit, known.at)
    return say(
        "records",
        key,
        command=known.command,
        who=known.by,
        day=locale_figures.day(at.date()),
        time=locale_figures.time_of_day(at),
    )


def _written(answer: object) -> str:
    return base64.b64encode(zlib.compress(serialization.dumps(answer).encode())).decode()


def _read(kept: str) -> str:
    return zlib.decompress(base64.b64decode(kept)).decode()
