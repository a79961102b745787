"""Every subcommand that carries out a step takes an id for it: found in the source, not in a list by hand."""

from __future__ import annotations

import ast
import inspect
from importlib import import_module
from types import ModuleType

import pytest

from core.cli import entry
from core.cli.settings_arguments import WRITING
from core.cli.subcommands import _ROOMS


def _called(module: ModuleType) -> dict[str, set[str]]:
    """By function of a module: what it calls, ``call.run`` as ``run``."""
    found: dict[str, set[str]] = {}
    for function in ast.parse(inspect.getsource(module)).body:
        if isinstance(function, ast.FunctionDef):
            calls = [each.func for each in ast.walk(function) if isinstance(each, ast.Call)]
            found[function.name] = {each.id for each in calls if isinstance(each, ast.Name)} | {
                "run" for each in calls if isinstance(each, ast.Attribute) and ast.unparse(each) == "call.run"
            }
    return found


def _writes(calls: dict[str, set[str]], name: str) -> bool:
    return "run" in calls[name] or any(_writes(calls, each) for each in calls[name] & calls.keys() - {name})


WRITERS = sorted(
    name
    for name, (room, function) in _ROOMS.items()
    if name != "shop" and _writes(_called(import_module(room)), function)
)


def test_there_are_writers() -> None:
    assert {"book", "pickup", "refund", "move", "amend", "queue", "donors", "copy-made"} <= set(WRITERS)
    assert not {"quote", "status", "habits", "verify"} & set(WRITERS)


@pytest.mark.parametrize("name", WRITERS)
def test_a_subcommand_that_writes_takes_an_id(name: str) -> None:
    options = entry.parser()._subparsers._group_actions[0].choices[name]._option_string_actions  # type: ignore[union-attr, index]
    assert "--command" in options


def test_so_does_an_action_on_the_settings_that_writes() -> None:
    shop = entry.parser()._subparsers._group_actions[0].choices["shop"]  # type: ignore[union-attr, index]
    actions = shop._subparsers._group_actions[0].choices
    takes = {name for name, one in actions.items() if "--command" in one._option_string_actions}
    room = import_module(_ROOMS["shop"][0])
    writes = {
        name
        for name, one in room._ACTIONS.items()
        if _writes(_called(import_module(one.__module__)), one.__name__)
    }
    assert takes == writes
    assert takes == set(WRITING)
