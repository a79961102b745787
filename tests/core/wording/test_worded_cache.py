"""What holds words is remembered for each language by itself, and nothing is said when a file is imported."""

from __future__ import annotations

import ast
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


@pytest.mark.parametrize("path", sorted((*ROOT.glob("core/**/*.py"), *ROOT.glob("gui/**/*.py"))), ids=str)
def test_no_words_are_worked_out_when_a_file_is_imported(path: Path) -> None:
    said = [node.lineno for node in _at_import(ast.parse(path.read_text(encoding="utf-8")))]

    assert not said, f"{path.relative_to(ROOT)} says something at import, in whatever language is spoken then"


def test_what_is_said_at_import_is_found() -> None:
    source = """
WORDS = say('a', 'b')
class A:
    x = text.say('a', 'b')
def f(a=say('a', 'b')):
    return say('c', 'd')
"""
    late = "f = lambda: say('a', 'b')\ndef g():\n    return spoken(1)\n"

    assert [node.lineno for node in _at_import(ast.parse(source))] == [2, 4, 5]
    assert not list(_at_import(ast.parse(late)))


_SAYS = frozenset({"say", "spoken", "listed", "day", "short_day", "money", "percent"})


def _at_import(node: ast.AST) -> Iterator[ast.Call]:
    """Calls that say something and run when the file is imported; the bodies of functions run later."""
    if isinstance(node, ast.Lambda):
        return
    if isinstance(node, ast.Call) and _name(node.func) in _SAYS:
        yield node
    if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
        inner: list[ast.AST] = [
            *node.decorator_list,
            *node.args.defaults,
            *filter(None, node.args.kw_defaults),
        ]
    else:
        inner = list(ast.iter_child_nodes(node))
    for each in inner:
        yield from _at_import(each)


def _name(called: ast.expr) -> str:
    if isinstance(called, ast.Attribute):
        return called.attr
    return called.id if isinstance(called, ast.Name) else ""
