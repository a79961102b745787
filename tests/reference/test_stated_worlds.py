"""The worlds in which stated chances are judged know nothing of the program; a small share is lived.

The table itself is `python -m tests.bench worlds`.
"""

from __future__ import annotations

import subprocess
import sys
from collections import defaultdict
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from core.model.promise_records import Recalibrated
from tests.support.fed import promise_log
from tests.support.fed.fed_work import MONDAY
from tests.support.fed.promise_log import Logged
from tests.support.fed.restated import restated, stated
from tests.support.worlds.living_shop import LivingShop
from tests.support.worlds.told_worlds import WORLDS

MINUTES_LONGER = 15.0
"""Somebody stays so long to load a deck that was just unloaded."""
ROOT = Path(__file__).parents[2]
NAMED = {world.name: world for world in WORLDS}
_ASK = """
import sys
from tests.support.worlds import living_shop, one_change, told_worlds
print([name for name in sys.modules if name.partition(".")[0] in ("core", "gui")])
"""


def test_the_worlds_import_nothing_of_the_program() -> None:
    done = subprocess.run([sys.executable, "-c", _ASK], cwd=ROOT, capture_output=True, text=True, timeout=60)

    assert done.stdout.strip() == "[]", done.stderr


def test_there_are_nine_that_differ_and_one_that_is_as_planned() -> None:
    assert list(NAMED) == [
        "steady",
        "lunch",
        "efforts",
        "again",
        "alone",
        "backlog",
        "june",
        "clusters",
        "big",
        "right",
    ]


@pytest.mark.parametrize("name", ["lunch", "efforts", "alone"])
def test_nobody_does_two_things_at_a_time_or_works_while_away(name: str) -> None:
    shop = LivingShop(replace(NAMED[name], days=80), 3, lambda shop, box: None)
    shop.live()

    by_person = defaultdict(list)
    for work in shop.done_work:
        by_person[work.person].append(work)
    assert len(shop.done_work) > 300
    for person, works in by_person.items():
        spans = shop.people[person].spans
        assert all(before.ended <= after.began + 1e-6 for before, after in pairwise(works))
        assert all(any(a <= work.began <= b + MINUTES_LONGER for a, b in spans) for work in works)


def test_a_tape_that_is_played_again_is_played_after_its_check_and_every_box_ends() -> None:
    world = NAMED["again"]
    shop = LivingShop(replace(world, days=30), 3, lambda shop, box: None)

    boxes = shop.live()

    cleaned = sum(work.what == "clean" for work in shop.done_work)
    loaded = sum(work.what == "load" for work in shop.done_work)
    tapes = [tape for box in boxes if box.came < 30 * 1440 for tape in box.tapes]
    assert all(tape.station == "ready" for tape in tapes)
    assert 0.08 * len(tapes) < cleaned < 0.25 * len(tapes)
    assert loaded >= len(tapes) + cleaned - 5


@pytest.fixture(scope="module")
def weeks() -> list[Logged]:
    """Some weeks of the world with lunch breaks."""
    return promise_log.lived(replace(NAMED["lunch"], days=42), 5)


def test_a_record_tells_what_was_said_and_what_came_of_it(weeks: list[Logged]) -> None:
    assert [one.number for one in weeks] == list(range(1, len(weeks) + 1))
    assert len(weeks) > 20
    for one in weeks:
        assert one.ready is not None
        assert one.ready > one.made
        assert list(one.by) == sorted(one.by)
        assert one.by[one.days.index(one.model_day)] == pytest.approx(one.model_stated, abs=1e-4)
        assert one.model_stated >= 0.9
        assert list(one.leads) == sorted(one.leads)


def test_what_is_stated_again_with_nothing_learned_is_what_the_plan_said(weeks: list[Logged]) -> None:
    for one in weeks:
        made = stated(one, Recalibrated(one.tapes, one.rush))
        assert made.day is not None
        assert (made.day - MONDAY.date()).days == one.model_day
        assert made.stated == pytest.approx(one.model_stated)


def test_what_is_stated_again_has_learned_of_what_was_over_by_then_and_of_nothing_else(
    weeks: list[Logged],
) -> None:
    half = weeks[len(weeks) // 2].made
    changed = [replace(one, ready=one.ready + 9) if one.ready > half else one for one in weeks]  # type: ignore[operator]

    told, other = list(restated(weeks)), list(restated(changed))

    before = [one.number for one in weeks if one.made <= half]
    assert [told[n - 1].day for n in before] == [other[n - 1].day for n in before]
    assert [one.day for one in told] != [one.day for one in other]


def test_records_are_read_as_they_were_written(weeks: list[Logged], tmp_path: Path) -> None:
    promise_log.write(weeks[:10], tmp_path / "log.jsonl")
    promise_log.write(weeks[10:], tmp_path / "log.jsonl")

    assert list(promise_log.read(tmp_path / "log.jsonl")) == weeks
