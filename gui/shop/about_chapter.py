"""The chapter on the program itself: its version, what changed in it, its licenses."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from core.model import resource_files
from core.model.program_version import version
from core.services.shop_overview import ShopView
from gui.shop.chapter import Chapter
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import rule, slip, words

_CHANGELOG = ("handbook", "changelog.md")
_HEADS = theme.Length(20)


class AboutChapter(Chapter):
    """Nothing here changes while the program runs."""

    name = "about"
    place = 130
    kinds = frozenset()

    def open(self, view: ShopView) -> QWidget:
        paper, column = slip("chapter-about")
        column.addWidget(words(say("shop", "about"), "heading"))
        column.addWidget(words(say("shop", "about_version", version=version()), "lead"))
        column.addWidget(_licenses())
        changes = changelog()
        if changes:
            column.addWidget(rule())
            column.addWidget(_changes(changes))
        return paper


def changelog() -> str:
    """The changelog as Markdown; empty where this copy of the program has none."""
    file = resource_files.path(*_CHANGELOG)
    return file.read_text(encoding="utf-8") if file.is_file() else ""


def _licenses() -> FactList:
    facts = FactList(_HEADS.px)
    facts.add(say("shop", "about_program"), [say("shop", "about_program_license")])
    facts.add(say("shop", "about_libraries"), [say("shop", "about_libraries_license")])
    facts.add(say("shop", "about_typeface"), [say("shop", "about_typeface_license")])
    return facts


def _changes(changes: str) -> QLabel:
    label = words(changes)
    label.setObjectName("changelog")
    label.setTextFormat(Qt.TextFormat.MarkdownText)
    label.setAccessibleName(say("shop", "about_changes"))
    return label


CHAPTER = AboutChapter
