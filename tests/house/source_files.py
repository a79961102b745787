"""The program text of a folder, read and parsed once."""

from __future__ import annotations

import ast
import io
import tokenize
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True, slots=True)
class SourceFile:
    """One Python file; ``path`` is relative to the root of the house."""

    path: Path
    text: str
    tree: ast.Module

    @property
    def length(self) -> int:
        """Lines, blank ones and comments included."""
        return len(self.text.splitlines())

    @property
    def type_ignores(self) -> int:
        """Comments that silence the type checker."""
        return sum("type: ignore" in comment for comment in _comments(self.text))

    def functions(self) -> Iterator[Function]:
        """Every function and method, also those inside others."""
        return (node for node in ast.walk(self.tree) if isinstance(node, Function))

    def classes(self) -> Iterator[ast.ClassDef]:
        """Every class, also those inside others."""
        return (node for node in ast.walk(self.tree) if isinstance(node, ast.ClassDef))


def read(root: Path, folders: Sequence[str]) -> list[SourceFile]:
    """All Python files beneath the folders of the root, by path."""
    paths = sorted(path for folder in folders for path in (root / folder).rglob("*.py"))
    return [_read(root, path) for path in paths]


def files(root: Path, folders: Sequence[str]) -> list[Path]:
    """All files beneath the folders of the root, relative to it; what Python compiled is left out."""
    found = (path for folder in folders for path in (root / folder).rglob("*") if path.is_file())
    return sorted(path.relative_to(root) for path in found if not _is_made_by_a_tool(path))


def length(node: ast.stmt) -> int:
    """Lines from ``def`` or ``class`` to the last line of the body, docstring included, decorators not."""
    return (node.end_lineno or node.lineno) - node.lineno + 1


def _read(root: Path, path: Path) -> SourceFile:
    text = path.read_text(encoding="utf-8")
    return SourceFile(path.relative_to(root), text, ast.parse(text, str(path)))


def _comments(text: str) -> Iterator[str]:
    tokens = tokenize.generate_tokens(io.StringIO(text).readline)
    return (token.string for token in tokens if token.type == tokenize.COMMENT)


def _is_made_by_a_tool(path: Path) -> bool:
    return any(part == "__pycache__" or part.startswith(".") for part in path.parts)
