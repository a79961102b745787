"""Every number that a module of the pure shelves names has an owner: where it comes from, and who notices.

Where it comes from stands in the sentence below it (or the comment above): a source, how it was derived,
*from memory*, *common practice*, that it is an assumption or our choice, learned, or exact by definition.
`constants.toml` says which test fails when it is a fifth more or less (one, of whole numbers below ten), or
why none can, and names the owner where the sentence leaves it open.
"""

from __future__ import annotations

import ast
import os
import re
import sys
import tomllib
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.mutants import changed_program, constant_swap, forked, mutation_run
from tests.mutants.forked import Outcome
from tests.mutants.mutated_source import MODULE, ROOT, Module, Mutant

FILE = Path(__file__).with_name("constants.toml")
SHELVES = ("pricing", "scheduling", "playtime", "promise")
OWNERS = re.compile(
    r"source|published|derived|measured|from memory|common practice|assumption|our choice|own line|learned"
    r"|exact|by definition",
    re.IGNORECASE,
)
_NAME = re.compile(r"_?[A-Z][A-Z0-9_]*")
_MOST_SECONDS = 120.0


@dataclass(frozen=True, slots=True)
class Constant:
    """One statement of a module that names a number, or several."""

    file: str
    names: tuple[str, ...]
    line: int
    last_line: int
    words: str
    """The sentence below it or the comment above it; empty where there is none."""

    @property
    def key(self) -> str:
        """``core/pricing/savings.py LEAST_SHARE``."""
        return f"{self.file} {', '.join(self.names)}"

    @property
    def has_source(self) -> bool:
        """Whether its words say where it comes from."""
        return OWNERS.search(" ".join(self.words.split())) is not None


@dataclass(frozen=True, slots=True)
class Watch:
    """Who notices a change of a constant, or why nobody can."""

    tests: tuple[str, ...]
    why: str
    owner: str = ""
    """Where it comes from, where the words below it do not say so."""


def constants(module: Module) -> Iterator[Constant]:
    """Those of one module, in their order."""
    body, lines = module.tree.body, module.path.read_text(encoding="utf-8").splitlines()
    for place, statement in enumerate(body):
        names = constant_swap.names(statement)
        if names and all(map(_NAME.fullmatch, names)) and _holds_number(statement):
            above = lines[statement.lineno - 2].strip()
            words = _sentence(body[place + 1 : place + 2]) or (above if above.startswith("#") else "")
            last = statement.end_lineno or statement.lineno
            yield Constant(module.file, tuple(names), statement.lineno, last, words)


def _holds_number(statement: ast.stmt) -> bool:
    value = getattr(statement, "value", None)
    return value is not None and any(
        isinstance(node, ast.Constant) and type(node.value) in (int, float) for node in ast.walk(value)
    )


def _sentence(following: Sequence[ast.stmt]) -> str:
    """The string that stands under a constant."""
    for statement in following:
        if isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant):
            return str(statement.value.value)
    return ""


def watches(file: Path = FILE) -> dict[str, Watch]:
    """Who notices, by the key of the constant."""
    told = tomllib.loads(file.read_text(encoding="utf-8"))
    return {
        key: Watch(tuple(entry.get("tests", ())), entry.get("why", ""), entry.get("owner", ""))
        for key, entry in told.items()
    }


def missing_tests(watch: Watch, root: Path = ROOT) -> list[str]:
    """Tests that are named and not there."""
    found = []
    for test in watch.tests:
        file, _, name = test.partition("::")
        path = root / file
        text = path.read_text(encoding="utf-8") if path.is_file() else ""
        if not re.search(rf"^def {re.escape(name)}\(", text, re.MULTILINE):
            found.append(test)
    return found


# --- trying them -------------------------------------------------------------------------------


@dataclass(slots=True)
class ConstantTrials:
    """A plugin of pytest that tries constants, each against its own tests."""

    wanted: list[tuple[Constant, Module, Watch]]
    tell: Callable[[str], object]
    left: int = 0

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """The tests with nothing changed, then every number with its own."""
        outcome, test = forked.tried(
            lambda pipe: forked.run(session, range(len(session.items)), pipe), _MOST_SECONDS
        )
        if outcome is not Outcome.PASSED:
            self.tell(f"{test} fails with nothing changed\n")
            self.left += 1
            return True
        for constant, module, watch in self.wanted:
            for mutant in _numbers_of(constant, module):
                self._try(mutant, constant, module, watch, session)
        return True

    def _try(
        self, mutant: Mutant, constant: Constant, module: Module, watch: Watch, session: pytest.Session
    ) -> None:
        places = [
            place
            for place, item in enumerate(session.items)
            if any(item.nodeid == test or item.nodeid.startswith(f"{test}[") for test in watch.tests)
        ]
        trial = changed_program.trial(mutant, module, {}, session, places)
        outcome, test = forked.tried(trial, _MOST_SECONDS) if places else (Outcome.PASSED, "")
        is_noticed = outcome in (Outcome.FAILED, Outcome.ENDLESS)
        self.left += not is_noticed
        by = f"noticed by {test}" if is_noticed else f"LEFT ({outcome.value} {test})"
        self.tell(f"{constant.key}: {mutant.change}: {by}\n")


def _numbers_of(constant: Constant, module: Module) -> list[Mutant]:
    return [
        mutant
        for mutant in module.mutants()
        if mutant.function == MODULE
        and constant.line <= mutant.line <= constant.last_line
        and re.fullmatch(r"[-\d.e+]+ → [-\d.e+]+( #\d+)?", mutant.change)
    ]


def report(names: Sequence[str]) -> int:
    """Try the constants of shelves or files; 1 where one is left, has no owner or no test."""
    known, wanted, told = watches(), [], []
    for module in map(Module, mutation_run.files(names)):
        for constant in constants(module):
            watch = known.get(constant.key, Watch((), ""))
            told += faults(constant, watch)
            if watch.tests:
                wanted.append((constant, module, watch))
    out = os.fdopen(os.dup(sys.stdout.fileno()), "w", buffering=1, encoding="utf-8")
    trials = ConstantTrials(wanted, out.write)
    tests = sorted({test.split("::")[0] for _, _, watch in wanted for test in watch.tests})
    ended = mutation_run.run_in_pytest(tests, trials) if wanted else 0
    out.write("".join(f"{line}\n" for line in told))
    return 1 if told or trials.left or ended else 0


def faults(constant: Constant, watch: Watch) -> list[str]:
    """What is missing of its owner, in words."""
    found = (
        []
        if constant.has_source or watch.owner
        else [f"{constant.key}: its words do not say where it comes from"]
    )
    if not watch.tests and not watch.why:
        found.append(f"{constant.key}: no test is named in {FILE.name}, and no reason")
    return [*found, *(f"{constant.key}: there is no {test}" for test in missing_tests(watch))]
