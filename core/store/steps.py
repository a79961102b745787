"""Steps: the functions that write into the records, each marked as one where it is defined.

Whatever a person asks for is a step sent with a command id. The mark says what of its arguments the id is
bound to, and how its answer is given again; a function without it cannot be sent.
"""

from __future__ import annotations

import hashlib
import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import partial
from typing import Any, ParamSpec, TypeVar, get_type_hints

from core.model import serialization
from core.model.names import CommandId
from core.store import secret_digests
from core.store.unit import Unit

P = ParamSpec("P")
T = TypeVar("T")

_MARK = "__step__"


@dataclass(frozen=True, slots=True)
class StepMark:
    """What is known of a step besides its code."""

    asks: Mapping[str, Callable[[Any], object]] = field(default_factory=dict)
    """By argument: the part of it that was asked for, where the rest was worked out."""
    secrets: frozenset[str] = frozenset()
    """Arguments of which only a slow hash may be kept."""
    again: Callable[[Unit], Any] | None = None
    """Reads the answer anew, where it would be too large to keep or must not be kept twice."""
    replaces: bool = False
    """Carried out twice it leaves what once leaves, so that nothing is kept of its commands."""


@dataclass(frozen=True, slots=True)
class Request:
    """A step with its arguments, and the digest of both that a command id is bound to."""

    call: Callable[[Unit], Any]
    name: str
    mark: StepMark
    kind: Any
    """The type of the answer."""
    content: str


def step(function: Callable[P, T]) -> Callable[P, T]:
    """Marks a function ``f(unit, …)`` as a step; its answer must be a frozen record or a plain value."""
    setattr(function, _MARK, StepMark())
    return function


def special_step(
    *,
    asks: Mapping[str, Callable[[Any], object]] | None = None,
    secrets: tuple[str, ...] = (),
    again: Callable[[Unit], Any] | None = None,
    replaces: bool = False,
) -> Callable[[Callable[P, T]], Callable[P, T]]:
    """`step` for one of which `StepMark` has more to say."""

    def mark(function: Callable[P, T]) -> Callable[P, T]:
        setattr(function, _MARK, StepMark(asks or {}, frozenset(secrets), again, replaces))
        return function

    return mark


def mark_of(function: Callable[..., Any]) -> StepMark | None:
    """The mark of a step, also where arguments of it are filled in; None for a function that is none."""
    function, _, _ = _unwrapped(function, (), {})
    found: StepMark | None = getattr(function, _MARK, None)
    return found


def request(
    step: Callable[..., T], args: tuple[Any, ...], named: Mapping[str, Any], command: CommandId
) -> Request:
    """What is asked for; TypeError for a function that is not marked as a step.

    How it is called does not matter: by place or by name, with a default left out or given. A secret counts
    by a slow hash that the command id salts.
    """
    function, args, named = _unwrapped(step, args, named)
    mark = _needed_mark(function)
    asked = serialization.dumps(_asked(function, args, named, command))
    return Request(
        call=lambda unit: function(unit, *args, **named),
        name=name_of(function),
        mark=mark,
        kind=answer_kind(function),
        content=hashlib.sha256(asked.encode("utf-8", "surrogatepass")).hexdigest(),
    )


def asked_for(step: Callable[..., Any], args: tuple[Any, ...], named: Mapping[str, Any]) -> list[object]:
    """What is asked for, to be compared with what was asked before; holds secrets and must not be kept.

    TypeError for a function that is not marked as a step.
    """
    function, args, named = _unwrapped(step, args, named)
    _needed_mark(function)
    return _asked(function, args, named, None)


def answer_kind(function: Callable[..., Any]) -> Any:
    """The type of a step's answer."""
    return get_type_hints(function)["return"]


def name_of(function: Callable[..., Any]) -> str:
    """``own_shop.people.set_pin``."""
    return f"{function.__module__.removeprefix('core.services.')}.{function.__qualname__}"


def _needed_mark(function: Callable[..., Any]) -> StepMark:
    mark = mark_of(function)
    if mark is None:
        raise TypeError(f"{function.__qualname__} is not marked as a step")
    return mark


def _unwrapped(
    step: Callable[..., Any], args: tuple[Any, ...], named: Mapping[str, Any]
) -> tuple[Callable[..., Any], tuple[Any, ...], dict[str, Any]]:
    named = dict(named)
    while isinstance(step, partial):
        args, named, step = (*step.args, *args), {**step.keywords, **named}, step.func
    return step, args, named


def _bound(function: Callable[..., Any], args: tuple[Any, ...], named: Mapping[str, Any]) -> dict[str, Any]:
    found = inspect.signature(function).bind(None, *args, **named)
    found.apply_defaults()
    first, *_ = found.arguments
    return {name: value for name, value in found.arguments.items() if name != first}


def _asked(
    function: Callable[..., Any], args: tuple[Any, ...], named: Mapping[str, Any], command: CommandId | None
) -> list[object]:
    """The name of a step and what of each argument was asked for; secrets as they are without a command."""
    mark = mark_of(function) or StepMark()
    bound = _bound(function, args, named)
    return [name_of(function), {name: _part(mark, name, value, command) for name, value in bound.items()}]


def _part(mark: StepMark, name: str, value: object, command: CommandId | None) -> object:
    if name in mark.secrets and isinstance(value, str) and command is not None:
        return secret_digests.digest(value, command)
    if name in mark.asks:
        return mark.asks[name](value)
    if callable(value):
        return _asked(*_unwrapped(value, (), {}), command)
    return value
