"""What a step is asked for, and whether it needs an id: known without the records."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from core.store import steps


def asked_for(step: Callable[..., Any], args: tuple[Any, ...], named: Mapping[str, Any]) -> list[object]:
    """What a step is asked for, to be compared with what was asked before (see `core.store.steps`)."""
    return steps.asked_for(step, args, named)


def leaves_the_same(step: Callable[..., Any]) -> bool:
    """Whether a step carried out twice leaves what once leaves, so that it needs no id."""
    mark = steps.mark_of(step)
    return mark is not None and mark.replaces
