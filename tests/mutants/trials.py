"""Every mutant against the tests that run its line, in one warm process: children of it try."""

from __future__ import annotations

import ast
import importlib
from collections import Counter
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from types import FunctionType

import pytest

from core.catalogue import formats
from core.wording import message_files, messages
from tests.mutants import changed_program, code_swap, forked, line_map
from tests.mutants.forked import Outcome
from tests.mutants.line_map import LineMap
from tests.mutants.mutated_source import MODULE, ROOT, Module, Mutant

Tell = Callable[[Mutant, Outcome | None, str], None]
"""Called with each mutant, how its trial ended (None: no test runs its line), and which test ended it."""

_TIMES_LONGER, _MORE_SECONDS = 5.0, 30.0
"""A change is endless when its tests take so much longer than with nothing changed."""


@dataclass(slots=True)
class Trials:
    """A plugin of pytest that tries mutants in place of running the tests."""

    modules: Sequence[Module]
    wanted: Callable[[Mutant], bool]
    tell: Tell
    most_seconds: float
    """Tests of one mutant may take so long together, as they took with nothing changed."""
    map: LineMap = field(default_factory=LineMap)
    _killers: Counter[tuple[str, int]] = field(default_factory=Counter)
    _known: dict[tuple[str, str], list[FunctionType]] = field(default_factory=dict)

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Make the map, then try every mutant."""
        _warm_up()
        names = [module.name for module in self.modules]
        for name in names:
            importlib.import_module(name)
        self.map = line_map.made(session, [module.path for module in self.modules], names, ROOT)
        self._known = code_swap.functions(iter(names))
        for module in self.modules:
            for mutant in filter(self.wanted, module.mutants()):
                self._try(mutant, module, session)
        return True

    def _try(self, mutant: Mutant, module: Module, session: pytest.Session) -> None:
        places = self._places(mutant, module, session)
        if not places:
            self.tell(mutant, None, "")
            return
        most = _MORE_SECONDS + _TIMES_LONGER * sum(self.map.seconds[place] for place in places)
        trial = changed_program.trial(mutant, module, self._known, session, places)
        outcome, test = forked.tried(trial, most)
        for place in places:
            if session.items[place].nodeid == test:
                self._killers[mutant.file, place] += 1
        self.tell(mutant, outcome, test)

    def _places(self, mutant: Mutant, module: Module, session: pytest.Session) -> list[int]:
        """The tests to ask, likely killers first, then file by file, as many as there is time for."""
        if mutant.function == MODULE:
            found = self.map.ran(mutant.file)
        else:
            found = self.map.tests(mutant.file, *_lines(mutant, module))
        told = [place for place in found if session.items[place].nodeid not in self.map.failed]
        spent = Counter[str]()
        for place in told:
            spent[_file(session, place)] += self.map.seconds[place]  # type: ignore[assignment]
        likely = {place for place in told if self._killers[mutant.file, place]}

        def order(place: int) -> tuple[int, float, str, int]:
            if place in likely:
                return -self._killers[mutant.file, place], 0.0, "", place
            return 0, spent[_file(session, place)], _file(session, place), place

        return self._in_time(sorted(told, key=order))

    def _in_time(self, places: Sequence[int]) -> list[int]:
        kept, spent = [], 0.0
        for place in places:
            spent += self.map.seconds[place]
            if not kept or spent <= self.most_seconds:
                kept.append(place)
        return kept


def _warm_up() -> None:
    """Read what no change touches: else every child would, the catalogue and all sentences."""
    formats.catalogue()
    for file in message_files.FOLDER.rglob("*.ftl"):
        with suppress(messages.MissingWording):
            messages._room(messages.current(), file.stem)


def _file(session: pytest.Session, place: int) -> str:
    return session.items[place].nodeid.split("::")[0]


def _lines(mutant: Mutant, module: Module) -> tuple[int, int]:
    """The lines of the innermost statement that holds the change, of a block those of its head."""
    holding = [
        node
        for node in ast.walk(module.tree)
        if isinstance(node, ast.stmt) and node.lineno <= mutant.line <= (node.end_lineno or node.lineno)
    ]
    innermost = max(holding, key=lambda node: node.lineno)
    body = getattr(innermost, "body", None)
    last = body[0].lineno - 1 if body else innermost.end_lineno or innermost.lineno
    return innermost.lineno, max(last, innermost.lineno)
