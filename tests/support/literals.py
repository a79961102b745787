"""Finds English left in code: string constants that read as words a person is meant to read."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
ROOMS = ("core", "gui")
_UNTOLD = ("core/wording/", "core/migrations/", "core/store/migrations/", "gui/toolkit/style_sheet.py")
"""No sentences: the wording system itself, the statements of the migrations, the style sheet."""

_TWO_WORDS = re.compile(r"[A-Za-z][a-z’']*[,;:.!?]? +[(“]?[A-Za-z][a-z’']+")
_NO_SENTENCE = re.compile(
    r"^\s*(SELECT|INSERT|UPDATE|DELETE|CREATE|DROP|ALTER|PRAGMA|BEGIN|VACUUM|SAVEPOINT|ROLLBACK|WITH|SET|ANALYZE|LOCK)\b"
    r"|[{}].*[:;].*[{}]|\\[bdsw]|\(\?",
)
_UNREAD_CALLS = frozenset(
    {"setObjectName", "setProperty", "compile", "getLogger", "text", "execute", "Index", "CheckConstraint"}
    | {"TypeVar", "NewType", "TypeError", "AssertionError", "NotImplementedError", "debug", "info", "warning"}
)
"""Calls whose strings are names, patterns, statements, the log, or faults of the program."""


def literals(file: Path) -> list[tuple[int, str]]:
    """Line and text of every string of two words or more that is no docstring, pattern, statement or name."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    unread = {id(node) for skipped in _unread(tree) for node in ast.walk(skipped)}
    told = (
        (node.lineno, text) for node in ast.walk(tree) if id(node) not in unread and (text := _text(node))
    )
    found = (each for each in told if _TWO_WORDS.search(each[1]) and not _NO_SENTENCE.search(each[1]))
    return sorted(found)


def counts() -> dict[str, int]:
    """How many such strings each file holds, files without any left out."""
    counted = {name: len(literals(ROOT / name)) for name in files()}
    return {name: count for name, count in counted.items() if count}


def files() -> list[str]:
    """The files that must hold no sentences."""
    found = (path.relative_to(ROOT).as_posix() for room in ROOMS for path in (ROOT / room).rglob("*.py"))
    return sorted(name for name in found if not name.startswith(_UNTOLD))


def _text(node: ast.AST) -> str:
    """A string as written; one with places to fill in is one string."""
    if isinstance(node, ast.JoinedStr):
        return "".join(str(part.value) if isinstance(part, ast.Constant) else "…" for part in node.values)
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else ""


def _unread(tree: ast.AST) -> Iterator[ast.AST]:
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            yield from (part for part in node.values if isinstance(part, ast.Constant))
        elif isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            yield node  # a docstring, or the comment of an attribute
        elif isinstance(node, ast.Assert):
            if node.msg is not None:
                yield node.msg
        elif isinstance(node, ast.Call) and _name(node.func) in _UNREAD_CALLS:
            yield node
        elif isinstance(node, ast.AnnAssign):
            yield node.annotation


def _name(called: ast.expr) -> str:
    if isinstance(called, ast.Attribute):
        return called.attr
    return called.id if isinstance(called, ast.Name) else ""
