"""Puts another value in the place of a constant, in its module and wherever it was imported to."""

from __future__ import annotations

import ast
import importlib
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from types import ModuleType

from tests.mutants.mutated_source import Module

_OURS = ("core", "gui", "tests")


def names(statement: ast.AST) -> list[str]:
    """What a statement of a module gives a value to."""
    targets: list[ast.expr] = []
    if isinstance(statement, ast.Assign):
        targets = statement.targets
    elif isinstance(statement, ast.AnnAssign):
        targets = [statement.target]
    return [node.id for target in targets for node in ast.walk(target) if isinstance(node, ast.Name)]


def is_read_late(found: list[str]) -> bool:
    """Whether only functions read these names: nothing was worked out from them at import."""
    return bool(found) and not any(name in _read_at_import(path) for path in _files() for name in found)


def put_in(statement: ast.stmt, module: Module) -> None:
    """Give the names of the changed statement their new values everywhere."""
    home = importlib.import_module(module.name)
    scratch = dict(vars(home))
    tree = ast.fix_missing_locations(ast.Module([statement], []))
    exec(compile(tree, str(module.path), "exec", dont_inherit=True), scratch)
    for name in names(statement):
        for place, alias in _holders(name, module.name):
            setattr(place, alias, scratch[name])
        setattr(home, name, scratch[name])


def _holders(name: str, module: str) -> Iterator[tuple[ModuleType, str]]:
    """Modules that imported the name from the module, with what they call it."""
    for other in _loaded():
        text = Path(str(other.__file__)).read_text(encoding="utf-8")
        if name in text:
            for node in ast.walk(ast.parse(text)):
                if isinstance(node, ast.ImportFrom) and node.module == module:
                    yield from ((other, each.asname or name) for each in node.names if each.name == name)


def _loaded() -> list[ModuleType]:
    return [
        module
        for name, module in list(sys.modules.items())
        if name.split(".")[0] in _OURS and getattr(module, "__file__", None)
    ]


def _files() -> list[Path]:
    return [Path(str(module.__file__)) for module in _loaded()]


@cache
def _read_at_import(path: Path) -> frozenset[str]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return frozenset(_loads(tree))


def _loads(node: ast.AST) -> Iterator[str]:
    """Names read outside the bodies of functions; annotations are not read."""
    if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
        yield node.id
    elif isinstance(node, ast.Attribute):
        yield node.attr
    left_out = {"annotation", "returns"} | (
        {"body"} if isinstance(node, ast.FunctionDef | ast.Lambda) else set()
    )
    for field, value in ast.iter_fields(node):
        if field not in left_out:
            for each in value if isinstance(value, list) else [value]:
                if isinstance(each, ast.AST):
                    yield from _loads(each)
