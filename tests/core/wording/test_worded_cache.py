"""What holds words is remembered for each language by itself, and nothing is said when a file is imported."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.catalogue import bench_cards, condition, inspection
from core.catalogue.formats import catalogue
from core.model.inventory import TapeLine
from core.model.names import Finding, FormatName, Join
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.playtime import tape_minutes
from core.wording import messages
from core.wording.messages import say, worded_cache
from gui.counter import accepted_words
from gui.widgets import wishes

ROOT = Path(__file__).parents[3]
VHS = FormatName("vhs")
WORDED = {
    "verdict": lambda: condition.verdict((Finding.SNAPPED,), VHS).repairs[0].words,
    "findings": lambda: condition.choices()[0][1],
    "look-over": lambda: inspection.steps(VHS)[0].title,
    "bench card": lambda: bench_cards.card(VHS).general[0],
    "format": lambda: catalogue().format(VHS).words,
    "minutes": lambda: tape_minutes.belief(TapeLine(1, VHS), None).sources[0],
    "offered formats": lambda: accepted_words.formats_offered()[0].note,
    "offered findings": lambda: accepted_words.findings_offered()[0].words,
    "offered copies": lambda: wishes.copies_offered()[0].words,
    "finding": lambda: spoken(Finding.MOULD),
    "station": lambda: spoken(Station.PLAYING),
    "join": lambda: spoken(Join.TAPE),
}
"""Answers with words in them, most of them remembered."""


@pytest.fixture
def foreign() -> Iterator[None]:
    """The process speaks the pseudo-language during a test, after everything was asked in English."""
    for ask in WORDED.values():
        ask()
    before = messages.current()
    messages.use("xx")
    yield
    messages.use(before.language, before.locale)


@pytest.mark.parametrize("name", WORDED)
@pytest.mark.usefixtures("foreign")
def test_another_language_is_spoken_at_once(name: str) -> None:
    assert "⟦" in WORDED[name]()


def test_every_finding_station_and_join_has_its_words() -> None:
    for name in (*Finding, *Station, *Join):
        assert spoken(name)


def test_the_names_are_american_and_british_where_the_shop_is() -> None:
    assert spoken(Finding.MOULD) == "mold"
    assert spoken(Finding.MOULD, "en-GB") == "mould"


def test_an_answer_is_made_once_a_language() -> None:
    asked: list[int] = []

    @worded_cache(maxsize=4)
    def answer(n: int) -> str:
        asked.append(n)
        return say("figures", "minutes", n=n)

    assert (answer(3), answer(3), asked) == ("3 min", "3 min", [3])
    assert (answer.cache_info().hits, answer.cache_info().misses) == (1, 1)
    answer.cache_clear()
    answer(3)
    assert asked == [3, 3]


def test_nothing_is_said_when_the_program_is_imported() -> None:
    assert said_at_import("core", "gui") == []


def test_what_is_said_at_import_is_found(tmp_path: Path) -> None:
    room = tmp_path / "planted"
    room.mkdir()
    (room / "__init__.py").write_text("")
    (room / "column.py").write_text(
        "from core.wording.messages import say\nNAME = (lambda: say('names', 'finding-mould'))()\n"
    )

    assert said_at_import("planted", path=tmp_path) == ["planted.column: names, finding-mould"]


_LISTEN = """
import importlib, pkgutil, sys
from core.wording import messages

say, said, importing = messages.say, [], ""

def heard(room, key, /, *rest, **fill):
    said.append(f"{importing}: {room}, {key}")
    return say(room, key, *rest, **fill)

messages.say = heard
for package in map(importlib.import_module, sys.argv[1:]):
    for module in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
        importing = module.name
        if not importing.endswith("__main__") and ".migrations." not in importing:
            importlib.import_module(importing)
print("\\n".join(said))
"""
"""Imports every module of the packages named and prints each sentence that was said meanwhile."""


def said_at_import(*packages: str, path: Path = ROOT) -> list[str]:
    """What the modules of these packages say when they are imported, in a process of their own."""
    paths = os.pathsep.join(map(str, (ROOT, path)))
    environment = {**os.environ, "PYTHONPATH": paths, "QT_QPA_PLATFORM": "offscreen"}
    run = [sys.executable, "-c", _LISTEN, *packages]
    told = subprocess.run(run, env=environment, capture_output=True, text=True, check=True)
    return told.stdout.split("\n")[:-1] if told.stdout.strip() else []
