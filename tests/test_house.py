"""The figures of the house keep their bounds, and every measure tells a bad house from a good one."""

from __future__ import annotations

import ast
from pathlib import Path

import numpy as np
import pytest

from tests.house import dead_code, import_graph, ratchet
from tests.house.figures import Figure, longest, spread
from tests.house.source_files import SourceFile, files
from tests.house.survey import figures

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def house() -> list[Figure]:
    return figures(ROOT)


def test_no_figure_of_the_house_gets_worse(house: list[Figure]) -> None:
    reached = ratchet.reached()

    worse = [
        f"{figure.line()}\n(held to {most:g})"
        for figure in house
        if (most := ratchet.held_to(figure, reached)) is not None and figure.value > most
    ]

    assert not worse, "\n".join(worse)


def test_the_ratchet_names_only_figures_of_the_house(house: list[Figure]) -> None:
    assert set(ratchet.reached()) <= {figure.key for figure in house}


def test_a_figure_is_held_to_its_bound_unless_the_ratchet_stands_beyond_it() -> None:
    figure = Figure("floors", "floors", value=20, bound=15)

    assert ratchet.held_to(figure, {}) == 15
    assert ratchet.held_to(figure, {"floors": 22}) == 22
    assert ratchet.held_to(figure, {"floors": 3}) == 15


def test_a_figure_without_a_bound_is_held_to_what_was_reached() -> None:
    told = Figure("floors", "floors", value=20)

    assert ratchet.held_to(told, {}) is None
    assert ratchet.held_to(told, {"floors": 22}) == 22


def test_a_figure_over_its_bound_is_marked() -> None:
    assert Figure("floors", "floors", value=16, bound=15).line().startswith("✗")
    assert not Figure("floors", "floors", value=15, bound=15).line().startswith("✗")


def test_the_longest_chain_runs_from_the_top_to_the_ground() -> None:
    house = {"app": {"ends", "rules"}, "rules": {"nouns"}, "nouns": {"ends"}, "ends": set(), "alone": set()}

    assert import_graph.longest_chain(house) == ("app", "rules", "nouns", "ends")


def test_the_chain_of_one_package_leaves_out_the_other() -> None:
    house = {
        "gui.app": {"gui.rows", "core.rules"},
        "gui.rows": set(),
        "core.rules": {"core.nouns"},
        "core.nouns": set(),
    }

    assert import_graph.longest_chain(import_graph.within(house, "gui")) == ("gui.app", "gui.rows")
    assert import_graph.longest_chain(import_graph.within(house, "core")) == ("core.rules", "core.nouns")


def test_a_ring_is_found_and_stands_as_one_floor() -> None:
    house = {"app": {"one"}, "one": {"two"}, "two": {"three"}, "three": {"one", "ground"}, "ground": set()}

    assert import_graph.cycles(house) == [("one", "three", "two")]
    assert import_graph.longest_chain(house) == ("app", "one", "ground")


def test_a_module_that_imports_itself_is_a_ring() -> None:
    assert import_graph.cycles({"one": {"one"}, "two": set()}) == [("one",)]


def test_packages_may_form_a_ring_where_modules_do_not() -> None:
    house = {
        "core.a.one": {"core.b.one"},
        "core.b.one": set(),
        "core.b.two": {"core.a.two"},
        "core.a.two": set(),
    }

    assert import_graph.cycles(house) == []
    assert import_graph.cycles(import_graph.between_packages(house)) == [("core.a", "core.b")]


def test_imports_in_functions_count_and_those_for_the_type_checker_do_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    room = tmp_path / "planted_house"
    room.mkdir()
    (room / "__init__.py").write_text("")
    (room / "late.py").write_text("def run():\n    from planted_house import noun\n    return noun\n")
    (room / "typed.py").write_text(
        "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    from planted_house import noun\n"
    )
    (room / "noun.py").write_text("")
    monkeypatch.syspath_prepend(tmp_path)

    found = import_graph.imports("planted_house")

    assert found["planted_house.late"] == {"planted_house.noun"}
    assert found["planted_house.typed"] == set()


def test_what_only_its_own_definition_names_is_dead() -> None:
    rooms = _source(
        "core/rooms.py",
        """
def used(): return _own()
def unused(): return unused()
def _own(): return LEAST
LEAST = 3
MOST = 4
class Kept:
    def asked(self): return 1
    def never_asked(self): return self.never_asked()
""",
    )
    caller = _source("gui/caller.py", "from core.rooms import Kept, used\nKept().asked()\nused()\n")

    assert dead_code.unused([rooms], [rooms, caller]) == [
        "core.rooms.unused",
        "core.rooms.MOST",
        "core.rooms.Kept.never_asked",
    ]


@pytest.mark.parametrize("lengths", [[7], [1, 2], [3, 1, 2, 9, 4], list(range(1, 11)), [5] * 8 + [60, 2, 2]])
def test_median_and_percentile_are_those_of_numpy(lengths: list[int]) -> None:
    """NumPy's ``inverted_cdf`` is the nearest rank (Hyndman and Fan 1996, definition 1)."""
    median, p90 = spread(lengths)

    assert median == np.median(lengths)
    assert p90 == np.percentile(lengths, 90, method="inverted_cdf")


def test_the_longest_are_named_longest_first() -> None:
    assert longest([(3, "c"), (12, "a"), (3, "b")], most=2) == ("  12  a", "   3  b")


def test_a_silenced_type_checker_is_counted_in_comments_only() -> None:
    silenced = _source("core/one.py", 'x = 1  # type: ignore[misc]\ny = "# type: ignore"\n')

    assert silenced.type_ignores == 1


def test_what_python_compiled_is_no_file_of_the_house(tmp_path: Path) -> None:
    (tmp_path / "core" / "__pycache__").mkdir(parents=True)
    (tmp_path / "core" / "__pycache__" / "one.pyc").write_bytes(b"")
    (tmp_path / "core" / "one.py").write_text("")

    assert files(tmp_path, ["core"]) == [Path("core/one.py")]


def _source(path: str, text: str) -> SourceFile:
    return SourceFile(Path(path), text, ast.parse(text))
