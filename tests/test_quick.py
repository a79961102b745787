"""What the quick run leaves out is decided by measuring, in one place."""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path

import pytest

from tests.support import quick

TESTS = Path(__file__).parent
BY_HAND = "mark." + "slow"


def test_no_test_is_marked_slow_by_hand() -> None:
    marked = [file.name for file in TESTS.rglob("*.py") if BY_HAND in file.read_text(encoding="utf-8")]
    assert marked == ["quick.py"]


def test_measuring_some_modules_keeps_what_is_known_of_the_others(tmp_path: Path) -> None:
    known = tmp_path / "seconds.tsv"
    known.write_text("a/test_one.py\t4.0\na/test_two.py\t0.5\na/test_gone.py\t9.0\n", encoding="utf-8")
    (tmp_path / "a").mkdir()
    for name in ("test_one.py", "test_two.py", "test_new.py"):
        (tmp_path / "a" / name).touch()

    quick.keep({"a/test_two.py": 1.25, "a/test_new.py": 7.0}, known, tmp_path)

    assert quick.measured(known) == {"a/test_one.py": 4.0, "a/test_two.py": 1.2, "a/test_new.py": 7.0}


def test_the_cheapest_modules_are_quick_as_many_as_fit() -> None:
    seconds = {"d.py": 40.0, "a.py": 1.0, "c.py": 6.0, "b.py": 2.0}

    assert quick.slow_modules(seconds, most=9) == {"d.py"}
    assert quick.slow_modules(seconds, most=8.9) == {"c.py", "d.py"}
    assert quick.slow_modules({}, most=9) == frozenset()


def test_a_module_is_measured_by_the_processor_and_not_by_the_clock() -> None:
    seconds = iter([1.0, 1.25, 4.25])
    spent: dict[str, float] = defaultdict(float)
    watch = quick._Stopwatch(spent, lambda: next(seconds))
    watch.pytest_runtest_logstart()
    for when in ("setup", "call"):
        report = pytest.TestReport(
            "a/test_one.py::test_it", ("", 0, ""), {}, "passed", None, when, duration=60
        )
        measured = watch.pytest_runtest_makereport()
        next(measured)
        with pytest.raises(StopIteration):
            measured.send(report)
        watch.pytest_runtest_logreport(report)

    assert spent == {"a/test_one.py": 3.25}
