"""Ways to spoil what a JSON or TOML file says while it stays JSON or TOML."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from datetime import date, datetime, time
from random import Random
from typing import Any

import tomli_w

from tests.fuzzed_readers import hostile_texts

Place = tuple[Any, Any]
"""A container and the key or number in it."""
_VALUES = (
    *(None, True, False, 0, 1, -1, 2, 7, 500, 501, 10**9, 2**31, 2**63, 2**64, -(2**63), 10**17, 10**30),
    *(0.0, -0.0, 0.5, 1.0, 1.5, -1.5, 1e-9, 1e16, 1e300, float("nan"), float("inf"), float("-inf")),
    *([], {}, [[]], [None], {"": 0}, {"a": {"a": {"a": {}}}}, [0] * 600, "", " "),
)
_OF_TOML = (date(2026, 3, 2), date(1, 1, 1), date(9999, 12, 31), time(10), datetime(2026, 3, 2, 10))


def spoiled(document: Any, dice: Random) -> Any:
    """A copy of ``document`` with one to three faults."""
    made = {"": copy.deepcopy(document)}
    for _ in range(dice.choice((1, 1, 1, 2, 3))):
        _spoil(made, dice)
    return made.get("")


def as_json(document: Any, dice: Random) -> bytes:
    """JSON as Python writes it, NaN and all; now and then with a key twice, or nested too deep."""
    text = json.dumps(document, ensure_ascii=dice.random() < 0.5, indent=dice.choice((None, None, 2)))
    if dice.random() < 0.03 and "{" in text:
        key = json.dumps(next(iter(document), "a") if isinstance(document, dict) else "a")
        text = text.replace("{", f"{{{key}: 0, ", 1)
    if dice.random() < 0.02:
        depth = dice.choice((15, 17, 900, 20_000))
        text = "[" * depth + text + "]" * depth
    return text.encode("utf-8", "surrogatepass")


def as_toml(document: Any) -> bytes | None:
    """TOML, or None for what it cannot hold."""
    if not isinstance(document, dict):
        return None
    try:
        return tomli_w.dumps(document).encode("utf-8", "surrogatepass")
    except (TypeError, ValueError, AttributeError):
        return None


def for_toml(document: Any) -> Any:
    """``document`` without the values TOML has no word for."""
    if isinstance(document, dict):
        return {str(key): for_toml(each) for key, each in document.items() if each is not None}
    return (
        [for_toml(each) for each in document if each is not None] if isinstance(document, list) else document
    )


def _spoil(root: dict[str, Any], dice: Random) -> None:
    inside, key = dice.choice(list(_places(root)))
    value = inside[key]
    way = dice.random()
    if way < 0.45:
        inside[key] = _another(value, dice)
    elif way < 0.6 and inside is not root:
        del inside[key]
    elif way < 0.7 and isinstance(inside, dict):
        inside[_another_name(key, dice)] = inside.pop(key)
    elif way < 0.8 and isinstance(inside, dict):
        inside[_another_name(key, dice)] = copy.deepcopy(value)
    elif way < 0.9 and isinstance(inside, list):
        inside.extend(copy.deepcopy(value) for _ in range(dice.choice((1, 2, 40))))
    else:
        inside[key] = dice.choice(([value], {"value": value}, [value, value], str(value)))


def _another(value: Any, dice: Random) -> Any:
    if isinstance(value, str) and dice.random() < 0.7:
        return hostile_texts.mutated(value, dice)
    if type(value) in (int, float) and dice.random() < 0.6:
        return dice.choice((value + 1, -value, value * 1000, value / 3, float(value), str(value), value - 1))
    if dice.random() < 0.25:
        return hostile_texts.any_text(dice)
    return copy.deepcopy(dice.choice((*_VALUES, *_OF_TOML) if isinstance(value, date) else _VALUES))


def _another_name(key: Any, dice: Random) -> str:
    return hostile_texts.mutated(str(key), dice)


def _places(node: Any) -> Iterator[Place]:
    pairs = node.items() if isinstance(node, dict) else enumerate(node)
    for key, inner in list(pairs):
        yield node, key
        if isinstance(inner, (dict, list)):
            yield from _places(inner)
