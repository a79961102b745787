"""One module of the program with every change that is tried on it."""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from types import CodeType

from tests.mutants.mutations import changes

ROOT = Path(__file__).parents[2]
MODULE = "<module>"
"""The function of what is worked out when a module is imported."""
_MOST_WORDS = 110


@dataclass(frozen=True, slots=True)
class Mutant:
    """One change of one place."""

    file: str
    """From the root of the house, with slashes."""
    function: str
    """Its qualified name, the outermost where functions lie in each other."""
    line: int
    text: str
    """The line as it stands, without what goes before it."""
    change: str
    apply: Callable[[], None]

    @property
    def key(self) -> tuple[str, str, str, str]:
        """What names it, wherever its lines come to lie."""
        return self.file, self.function, self.text, self.change


class Module:
    """A file of the program, parsed; a change is made in this very tree."""

    def __init__(self, path: Path, root: Path = ROOT) -> None:
        self.path = path
        self.file = path.relative_to(root).as_posix()
        self.name = self.file.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
        self._lines = path.read_text(encoding="utf-8").splitlines()
        self.tree = ast.parse("\n".join(self._lines))

    def mutants(self) -> list[Mutant]:
        """Every change, in the order of the lines; a repeated one is numbered."""
        found: list[Mutant] = []
        seen: dict[tuple[str, str, str], int] = {}
        for function, node in sorted(_places(self.tree), key=lambda pair: _place(pair[1])):
            for words, apply in changes(node):
                line = getattr(node, "lineno", None) or _line_of(node)
                text, short = self._lines[line - 1].strip(), _short(words)
                seen[function, text, short] = times = seen.get((function, text, short), 0) + 1
                named = short if times == 1 else f"{short} #{times}"
                found.append(Mutant(self.file, function, line, text, named, apply))
        return found

    def compiled(self) -> CodeType:
        """The code of the tree as it is now."""
        return compile(ast.fix_missing_locations(self.tree), str(self.path), "exec", dont_inherit=True)


def _short(words: str) -> str:
    words = " ".join(words.split())
    return words if len(words) <= _MOST_WORDS else f"{words[: _MOST_WORDS // 2]}…{words[-_MOST_WORDS // 2 :]}"


def _place(node: ast.AST) -> tuple[int, int]:
    return getattr(node, "lineno", None) or _line_of(node), getattr(node, "col_offset", 0)


def _line_of(node: ast.AST) -> int:
    """Of a node that has none itself: that of what it holds."""
    return min((child.lineno for child in ast.walk(node) if hasattr(child, "lineno")), default=1)


def _places(tree: ast.Module) -> Iterator[tuple[str, ast.AST]]:
    for statement in tree.body:
        yield from _of_statement(statement, "")


def _of_statement(statement: ast.stmt, within: str) -> Iterator[tuple[str, ast.AST]]:
    """(function, node) of what may be changed in a statement of a module or a class."""
    if isinstance(statement, ast.ClassDef):
        for inner in statement.body:
            yield from _of_statement(inner, f"{within}{statement.name}.")
    elif isinstance(statement, ast.FunctionDef):
        yield from ((MODULE, node) for value in _defaults(statement) for node in _walked(value))
        name = f"{within}{statement.name}"
        yield from ((name, node) for inner in statement.body for node in _walked(inner))
    elif not _is_for_types_only(statement):
        yield from ((MODULE, node) for node in _walked(statement))


def _defaults(function: ast.FunctionDef) -> list[ast.expr]:
    named = [value for value in function.args.kw_defaults if value is not None]
    return [*function.args.defaults, *named]


def _is_for_types_only(statement: ast.stmt) -> bool:
    return isinstance(statement, ast.If) and ast.unparse(statement.test) == "TYPE_CHECKING"


def _walked(node: ast.AST) -> Iterator[ast.AST]:
    """The node and all that lies in it, without annotations, decorators and ``strict=``."""
    if isinstance(node, ast.arguments | ast.Import | ast.ImportFrom):
        return
    if isinstance(node, ast.keyword) and node.arg in ("strict", "maxsize"):
        return
    yield node
    left_out = {"annotation", "decorator_list", "returns"}
    for field, value in ast.iter_fields(node):
        if field not in left_out:
            for each in value if isinstance(value, list) else [value]:
                if isinstance(each, ast.AST):
                    yield from _walked(each)
