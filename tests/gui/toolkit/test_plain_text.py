"""Markup in a name is a name: no label, tip or message lays it out, and no picture is loaded from text."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QLineEdit, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

import gui
from core.model.errors import Refused
from core.services.decks_to_load import ToLoad
from gui.app.banner import Banner
from gui.bench.load_now import LoadNow
from gui.toolkit import plain_text
from gui.toolkit.unexpected_errors import ErrorBoundary
from gui.widgets import layouts
from gui.widgets.hint import Hint
from gui.widgets.notice_sentences import paragraphs
from gui.widgets.slip_label import slip_label

EVERYWHERE = Path(gui.__file__).parent
MARKUP = "<h1>Ada</h1><img src='file:///etc/hostname'>"

LAID_OUT = {
    "bench/load_now.py",
    "help/handbook_window.py",
    "shop/about_chapter.py",
    "toolkit/before_scan.py",
    "widgets/customer_notices.py",
}
"""Where rich text is shown; what a person typed is escaped in `load_now` and `notice_sentences`;
`before_scan` only takes plain text out of an editor again; the About chapter and the handbook's window show
the program's own; the bench cards in it are escaped."""

_RICH = {"RichText", "AutoText", "MarkdownText", "setHtml", "insertHtml", "appendHtml", "setMarkdown"}
_READERS = {"QTextBrowser", "QTextDocument", "QTextEdit", "QStaticText", "QToolTip"}


def sources() -> Iterator[tuple[str, ast.Module]]:
    for file in sorted(EVERYWHERE.rglob("*.py")):
        yield file.relative_to(EVERYWHERE).as_posix(), ast.parse(file.read_text(encoding="utf-8"))


def calls(tree: ast.Module) -> Iterator[tuple[str, ast.Call]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            yield ast.unparse(node.func).rpartition(".")[2], node


def test_rich_text_is_shown_where_it_is_escaped_and_nowhere_else() -> None:
    found = {
        name
        for name, tree in sources()
        for node in ast.walk(tree)
        if (isinstance(node, ast.Attribute) and node.attr in _RICH)
        or (isinstance(node, ast.Name) and node.id in _READERS)
    }
    assert found == LAID_OUT


def test_every_label_and_message_box_says_that_its_text_is_plain() -> None:
    bare = [
        name
        for name, tree in sources()
        for called, _ in calls(tree)
        if called in ("QLabel", "QMessageBox") and name != "toolkit/plain_text.py"
    ]
    assert not bare
    for name, tree in sources():
        for node in ast.walk(tree):
            if isinstance(node, ast.ClassDef) and "QLabel" in map(ast.unparse, node.bases):
                assert "self.setTextFormat(Qt.TextFormat.PlainText)" in ast.unparse(node), name


def test_every_tip_is_escaped() -> None:
    for name, tree in sources():
        for called, call in calls(tree):
            if called == "setToolTip":
                (said,) = call.args
                assert "tip(" in ast.unparse(said) or ast.unparse(said) == "''", (name, ast.unparse(said))
        for node in ast.walk(tree):
            if isinstance(node, (ast.Return, ast.If)) and "ToolTipRole" in ast.unparse(node).split("\n")[0]:
                assert "tip(" in ast.unparse(node), (name, ast.unparse(node))


@pytest.mark.parametrize(
    "made",
    [
        lambda: plain_text.plain_label(MARKUP),
        lambda: layouts.words(MARKUP),
        lambda: layouts.labelled(QLineEdit(), MARKUP),
        Hint,
        lambda: slip_label(10, "ink"),
    ],
)
def test_a_label_shows_markup_letter_for_letter(qtbot: QtBot, made: object) -> None:
    widget = made()  # type: ignore[operator]  # each of the makers above
    qtbot.addWidget(widget)
    label = widget if isinstance(widget, QLabel) else widget.findChild(QLabel)
    label.setText(MARKUP)
    assert label.textFormat() is Qt.TextFormat.PlainText
    assert label.heightForWidth(2000) < 3 * label.fontMetrics().height()


def test_the_access_key_of_a_plain_label_still_leads_to_its_field(qtbot: QtBot) -> None:
    field = QLineEdit()
    both = layouts.labelled(field, "&Name")
    qtbot.addWidget(both)
    both.show()
    both.activateWindow()
    qtbot.waitUntil(both.isActiveWindow)
    qtbot.keyClick(both, Qt.Key.Key_N, Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(field.hasFocus)


def test_the_banner_paints_no_headline_from_a_name(qtbot: QtBot) -> None:
    banner = Banner()
    qtbot.addWidget(banner)
    banner.refuse(Refused(MARKUP))
    assert banner.sentence == MARKUP
    assert all(label.textFormat() is Qt.TextFormat.PlainText for label in banner.findChildren(QLabel))


def test_what_a_dialog_about_a_failure_says_is_plain(qtbot: QtBot, tmp_path: Path) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    box = plain_text.plain_message(window)
    assert box.textFormat() is Qt.TextFormat.PlainText
    assert isinstance(box, QMessageBox)
    assert ErrorBoundary(window, tmp_path / "log")


def test_a_tip_says_markup_and_loads_nothing() -> None:
    assert plain_text.tip("4 tapes & a box") == "4 tapes & a box"
    assert "<img" not in plain_text.tip(MARKUP)
    assert "&lt;img" in plain_text.tip(MARKUP)


@pytest.mark.parametrize(("which", "sentences"), [(MARKUP, "Sound."), ("Row 1", MARKUP)])
def test_what_is_told_of_tapes_is_escaped_on_the_counter(which: str, sentences: str) -> None:
    text = paragraphs([(which, sentences)], 4)
    assert "&lt;img" in text
    assert "<img" not in text


@pytest.mark.parametrize(("deck", "why"), [(MARKUP, "no tape"), ("VHS 1", MARKUP)])
def test_what_a_deck_loads_is_escaped_on_the_bench(qtbot: QtBot, deck: str, why: str) -> None:
    room = QWidget()
    qtbot.addWidget(room)
    now = LoadNow(room)
    now.setParent(room)
    now.tell([ToLoad(deck, None, None, why)])
    assert "&lt;img" in now.lines.text()
    assert "<img" not in now.lines.text()
