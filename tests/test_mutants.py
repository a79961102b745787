"""Mutation testing itself: what it changes, where it puts the change in, and who owns a constant."""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.mutants import argued_survivors, forked, mutation_run, owned_constants
from tests.mutants.forked import Outcome
from tests.mutants.mutated_source import MODULE, Module, Mutant
from tests.mutants.owned_constants import Constant, Watch

ROOT = Path(__file__).parents[1]
NOT_YET = 63
"""Constants whose test is still owed: may only become fewer."""
forks = pytest.mark.skipif(not hasattr(os, "fork"), reason="children are forks of this process")
SOURCE = '''"""A room."""
LEAST = 0.2
"""Of all (an assumption)."""
MOST = 6


def fits(sizes: list[int], room: int = 3) -> bool:
    """Whether they fit."""
    return sum(sizes) <= room * MOST and not any(size < 0 for size in sizes)
'''


@pytest.fixture
def room(tmp_path: Path) -> Module:
    file = tmp_path / "room.py"
    file.write_text(SOURCE, encoding="utf-8")
    return Module(file, tmp_path)


@pytest.fixture(scope="module")
def modules() -> list[Module]:
    return [Module(path) for path in mutation_run.files(owned_constants.SHELVES)]


@pytest.fixture(scope="module")
def constants(modules: list[Module]) -> list[Constant]:
    return [constant for module in modules for constant in owned_constants.constants(module)]


def test_numbers_comparisons_arithmetic_and_truth_are_changed_one_at_a_time(room: Module) -> None:
    changes = {(mutant.function, mutant.change) for mutant in room.mutants()}

    assert (MODULE, "6 → 5") in changes
    assert (MODULE, "3 → 4") in changes, "a default is worked out when the module is imported"
    assert ("fits", "room * MOST → room / MOST") in changes
    assert ("fits", "sum(sizes) <= room * MOST → sum(sizes) < room * MOST") in changes
    assert ("fits", "size < 0 → size <= 0") in changes
    assert ("fits", "any((size < 0 for size in sizes)): any → all") in changes
    assert not any("assumption" in change for _, change in changes)


def test_a_change_is_in_the_compiled_tree_and_in_nothing_else(room: Module) -> None:
    (boundary,) = (mutant for mutant in room.mutants() if mutant.change.endswith("sum(sizes) < room * MOST"))
    before = ast.unparse(room.tree)

    boundary.apply()

    assert ast.unparse(room.tree) == before.replace("<= room * MOST", "< room * MOST")


@forks
def test_what_a_child_changes_is_gone_with_it() -> None:
    kept: list[int] = []

    assert forked.tried(lambda pipe: kept.append(pipe), 60.0) == (Outcome.PASSED, "")
    assert not kept


@forks
def test_a_trial_that_breaks_by_itself_is_no_failing_test() -> None:
    outcome, told = forked.tried(lambda pipe: {}[pipe], 60.0)

    assert outcome is Outcome.BROKEN
    assert told.startswith("KeyError")


@forks
def test_a_change_that_never_ends_is_noticed() -> None:
    def endless(pipe: int) -> None:
        while pipe:
            pass

    assert forked.tried(endless, 0.2)[0] is Outcome.ENDLESS


def test_every_argument_has_a_reason_and_a_place_that_is_still_there(modules: list[Module]) -> None:
    argued = argued_survivors.read()
    files = {key[0] for key in argued}
    meant = [module for module in modules if module.file in files]
    there: list[Mutant] = [mutant for module in meant for mutant in module.mutants()]

    assert {module.file for module in meant} == files
    assert argued_survivors.stale(argued, there, files) == []


def test_an_argument_without_a_reason_or_told_twice_is_refused(tmp_path: Path) -> None:
    entry = '[[argued]]\nfile = "a.py"\nfunction = "f"\ntext = "x"\nchanges = ["1 → 2"]\nreason = "{}"\n'
    file = tmp_path / "argued.toml"
    for text in (entry.format(" "), 2 * entry.format("so")):
        file.write_text(text, encoding="utf-8")
        with pytest.raises(ValueError, match=r"argued\.toml"):
            argued_survivors.read(file)


def test_every_constant_of_the_pure_shelves_has_an_owner_and_somebody_who_notices(
    constants: list[Constant],
) -> None:
    known = owned_constants.watches()

    faults = [
        fault
        for constant in constants
        for fault in owned_constants.faults(constant, known.get(constant.key, Watch((), "")))
    ]

    assert not faults, "\n".join(faults)
    assert set(known) == {constant.key for constant in constants}


def test_tests_that_are_owed_become_fewer() -> None:
    owed = [key for key, watch in owned_constants.watches().items() if watch.why.startswith("not yet")]

    assert len(owed) <= NOT_YET, "\n".join(owed)


def test_a_constant_without_words_without_a_test_or_with_one_that_is_gone_is_told(room: Module) -> None:
    least, most = owned_constants.constants(room)
    gone = Watch(("tests/test_mutants.py::test_that_is_not_there",), "")

    assert owned_constants.faults(least, Watch((), "nothing depends on it")) == []
    assert len(owned_constants.faults(least, gone)) == 1
    assert len(owned_constants.faults(most, Watch((), ""))) == 2


@forks
def test_the_named_tests_notice_a_fifth_more_and_a_fifth_less() -> None:
    """A sample; ``python -m tests.mutants --constants`` tries them all."""
    command = [sys.executable, "-m", "tests.mutants", "--constants", "core/pricing/savings.py"]

    found = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)

    assert found.returncode == 0, found.stdout + found.stderr
    assert found.stdout.count("noticed by") == 4
