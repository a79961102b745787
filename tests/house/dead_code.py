"""What nothing in the program uses, so that only its tests keep it alive.

Names are compared as words: a name counts as used wherever the program reads, calls, imports or passes it,
in whatever module. So a dead name may go unseen beside a living one of the same spelling, but none is named
wrongly for being reached through an object. Methods of a class with bases are left out, because the bases may
call them.
"""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from tests.house.source_files import Function, SourceFile


def unused(defining: Sequence[SourceFile], using: Sequence[SourceFile]) -> list[str]:
    """Public functions, classes, constants and methods of the first files that none of the second uses."""
    used: Counter[str] = Counter()
    for file in using:
        used.update(_used(file.tree))
    return [
        f"{'.'.join(file.path.with_suffix('').parts)}.{name}"
        for file in defining
        for name, node in _public(file.tree)
        if used[name.rpartition(".")[2]] <= _own_uses(name, node)
    ]


def _public(tree: ast.Module) -> Iterator[tuple[str, ast.stmt]]:
    for node in tree.body:
        for name in _names(node):
            yield name, node
        if isinstance(node, ast.ClassDef) and not _fills_in_for_a_library(node):
            yield from ((f"{node.name}.{name}", inner) for inner in node.body for name in _method(inner))


def _names(node: ast.stmt) -> list[str]:
    names: list[str] = []
    if isinstance(node, Function | ast.ClassDef):
        names = [node.name]
    elif isinstance(node, ast.Assign):
        names = [target.id for target in node.targets if isinstance(target, ast.Name)]
    elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
        names = [node.target.id]
    return [name for name in names if not name.startswith("_")]


def _method(node: ast.stmt) -> list[str]:
    return _names(node) if isinstance(node, Function) else []


def _fills_in_for_a_library(node: ast.ClassDef) -> bool:
    """Whether methods may be called by the class's bases rather than by the program."""
    return bool(node.bases)


def _own_uses(name: str, node: ast.stmt) -> int:
    """How often a definition uses its own name: recursion keeps nothing alive."""
    return Counter(_used(node))[name.rpartition(".")[2]]


def _used(tree: ast.AST) -> Iterable[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
            yield node.id
        elif isinstance(node, ast.Attribute):
            yield node.attr
        elif isinstance(node, ast.ImportFrom):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.isidentifier():
            yield node.value  # ``getattr`` and annotations written as text
