"""The program with one change in it, in a child process.

A changed function gets new code where it stands. A constant that only functions read is given its new value
where it stands and where it was imported to. For whatever else is worked out at import (defaults, tables,
what comes of other constants) the program is forgotten and imported anew with the changed module.
"""

from __future__ import annotations

import ast
import importlib.abc
import importlib.machinery
import importlib.util
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from types import CodeType, FunctionType, ModuleType

import pytest
from _pytest.assertion.rewrite import AssertionRewritingHook

from tests.mutants import code_swap, constant_swap, forked
from tests.mutants.mutated_source import MODULE, ROOT, Module, Mutant

ARGUMENTS = (
    *("-q", "-p", "no:cacheprovider", "-p", "no:randomly", "-p", "no:xdist", "--rootdir", str(ROOT)),
    *("-W", "ignore::pytest.PytestAssertRewriteWarning"),  # some plugins are imported already
)
_OURS = ("core", "gui", "resources", "tests")


def trial(
    mutant: Mutant,
    module: Module,
    known: Mapping[tuple[str, str], list[FunctionType]],
    session: pytest.Session,
    places: Sequence[int],
) -> forked.Trial:
    """Makes the change and runs the tests at these places of the session."""

    def changed(pipe: int) -> None:
        if is_put_in(mutant, module, known):
            forked.run(session, places, pipe)
        else:
            _import_anew(module, [session.items[place].nodeid for place in places], pipe)

    return changed


def is_put_in(mutant: Mutant, module: Module, known: Mapping[tuple[str, str], list[FunctionType]]) -> bool:
    """Make the change in the program as it stands; False where the module has to be imported anew."""
    mutant.apply()
    try:
        module.compiled()
    except (SyntaxError, ValueError) as error:
        raise forked.NotMade from error
    if mutant.function != MODULE:
        return code_swap.put_in(mutant.function, module, known)
    statement = _of_module(mutant, module)
    if not constant_swap.is_read_late(constant_swap.names(statement)):
        return False
    constant_swap.put_in(statement, module)
    return True


def _of_module(mutant: Mutant, module: Module) -> ast.stmt:
    return next(
        node for node in module.tree.body if node.lineno <= mutant.line <= (node.end_lineno or node.lineno)
    )


def _import_anew(module: Module, tests: Sequence[str], pipe: int) -> None:
    """Forget the program, put the changed module in its place and run the tests in a pytest of their own."""
    for name in [name for name in sys.modules if name.split(".")[0] in _OURS]:
        if not name.startswith("tests.mutants"):
            del sys.modules[name]
    sys.meta_path[:] = [finder for finder in sys.meta_path if not isinstance(finder, AssertionRewritingHook)]
    sys.meta_path.insert(0, _Changed(module.name, module.path, module.compiled()))
    if pytest.main([*ARGUMENTS, *tests], plugins=[forked.Failures(pipe)]) not in (0, 1):
        raise forked.NotMade


class _Changed(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Finds one module only, and runs its changed code."""

    def __init__(self, name: str, path: Path, code: CodeType) -> None:
        self._name, self._path, self._code = name, path, code

    def find_spec(
        self, fullname: str, path: object = None, target: object = None
    ) -> importlib.machinery.ModuleSpec | None:
        if fullname != self._name:
            return None
        return importlib.util.spec_from_file_location(fullname, self._path, loader=self)

    def create_module(self, spec: importlib.machinery.ModuleSpec) -> ModuleType | None:
        return None

    def exec_module(self, module: ModuleType) -> None:
        exec(self._code, module.__dict__)
