"""The chapter on sources: every value of the catalog with where it comes from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QWidget

from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.catalogue.markings import Marking, Sourced
from core.services import figure_sources
from core.services.figure_sources import SourcedFigure
from core.services.shop_overview import ShopView
from gui.shop.chapter import Chapter
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import slip, words

_HEADS = theme.Length(20)


class SourcesChapter(Chapter):
    """Where each figure comes from. The catalog never changes while the program runs."""

    name = "grounds"
    place = 120
    kinds = frozenset(set[str]())

    def open(self, view: ShopView) -> QWidget:
        return _sources()


CHAPTER = SourcesChapter


def _sources() -> QWidget:
    """Every value of the catalogue with its source and what kind of source it is."""
    paper, column = slip("chapter-grounds")
    for form in catalogue().formats:
        column.addWidget(words(form.words, "heading"))
        column.addWidget(_grounds_of(form))
    others = FactList(_HEADS.px)
    for head, found in (
        ("packs", figure_sources.of_packs()),
        ("copies_of", figure_sources.of_media()),
        ("bench_times", figure_sources.of_repairs()),
    ):
        others.add(say("shop", head), _facts(found), "small")
    column.addWidget(words(say("shop", "other_grounds"), "heading"))
    column.addWidget(others)
    return paper


def _grounds_of(form: Format) -> FactList:
    facts = FactList(_HEADS.px)
    width, depth, height = form.shell.value
    source = sourced(form.shell)
    facts.add(
        say("shop", "shell"),
        [say("shop", "shell_words", width=width, depth=depth, height=height, source=source)],
    )
    if (tape := form.tape_width_mm) is not None:
        wide = say("shop", "tape_width_words", width=tape.value, source=sourced(tape))
        facts.add(say("shop", "tape_width"), [wide])
    if not form.is_counted:
        facts.add(say("shop", "speeds"), _speeds(form))
        facts.add("", [_marking(marking) for marking in form.markings], "small")
    facts.add(say("shop", "reels"), _facts(figure_sources.of_format(form)), "small")
    return facts


def _facts(found: Iterable[SourcedFigure]) -> list[str]:
    return [f"{each.what}: {each.figure} — {sourced(each.source)}" for each in found]


def sourced(value: Sourced[Any]) -> str:
    """Where a value comes from; a value without a source says so."""
    return value.words if str(value.source).strip() else replace(value, source=say("shop", "no_source")).words


def _speeds(form: Format) -> Sequence[str]:
    return [
        say(
            "shop",
            "speed_words",
            speed=one.speed.words,
            tv=f" {one.tv.value.upper()}" if one.tv else "",
            mm_s=f"{one.mm_s.value:g}",
            source=sourced(one.mm_s),
        )
        for one in form.tape_speeds
    ]


def _marking(marking: Marking) -> str:
    told = say(
        "shop",
        "marking_words",
        name=marking.name,
        minutes=f"{marking.minutes:g}",
        metres=f"{marking.metres.value:g}",
        source=sourced(marking.metres),
    )
    longest = marking.longest_m
    if longest is None:
        return told
    return say("shop", "longest_words", told=told, metres=f"{longest.value:g}", source=sourced(longest))
