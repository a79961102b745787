"""The shell: five moments along the top, a banner with the way out, and no question on closing."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QTabBar
from pytestqt.qtbot import QtBot

from core.model.errors import Refused, Unavailable, WrongInput
from core.services import drafts
from core.wording.messages import say
from gui.app import startup
from gui.app.composition import CompositionRoot, compose
from gui.app.main_window import Window
from gui.counter.counter_screen import CounterScreen
from gui.toolkit import actions, theme
from tests.support.counting import clerk_at
from tests.support.screens import Place, press

NOW = datetime(2026, 3, 3, 14, 0, tzinfo=UTC)


@pytest.fixture
def shell(qtbot: QtBot, qapp: QApplication) -> Window:
    theme.apply(qapp)
    window = Window()
    qtbot.addWidget(window)
    window.show()
    window.activateWindow()
    qtbot.waitExposed(window)
    return window


@pytest.fixture
def composed(
    shell: Window, qtbot: QtBot, tmp_path: Path, empty_file: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[CompositionRoot]:
    """The whole window on a shop that is set up, as the program opens it."""
    import sys

    hook = sys.excepthook
    monkeypatch.setattr("gui.app.composition.user_log_path", lambda *names, **more: tmp_path)
    shop = shutil.copy(empty_file, tmp_path / "shop.sqlite")
    made = compose(shell, str(shop), "Kim", lambda: NOW, tmp_path / "papers")
    qtbot.waitUntil(lambda: shell.screen_on_show() is not None)
    qtbot.waitUntil(lambda: made.desk.work.is_idle)
    yield made
    shell.close()
    sys.excepthook = hook


def test_it_is_painted_before_any_shop_is_open(shell: Window, qtbot: QtBot) -> None:
    assert shell.screen_on_show() is None
    assert shell.windowTitle() == "Tapewright"


def test_every_moment_has_a_word_and_a_key_and_is_high_enough_to_hit(shell: Window) -> None:
    tabs = shell.findChild(QTabBar, "moments")
    shown = [place for place in range(tabs.count()) if tabs.isTabVisible(place)]
    assert [tabs.tabText(place) for place in shown] == [key.words_with_keys for key in actions.MOMENTS]
    assert all(tabs.tabRect(place).height() >= 24 for place in shown)


def test_the_moments_are_tabs_to_a_screen_reader(composed: CompositionRoot, shell: Window) -> None:
    heard = QAccessible.queryAccessibleInterface(shell.findChild(QTabBar, "moments"))
    assert heard.role() == QAccessible.Role.PageTabList
    tabs = [heard.child(n) for n in range(heard.childCount())]
    tabs = [tab for tab in tabs if tab.role() == QAccessible.Role.PageTab]
    named = {tab.text(QAccessible.Text.Name): tab.state().selected for tab in tabs}
    assert not named.pop(say("window", "set-up"))  # has no place of its own along the top
    assert named == {key.words_with_keys: key.name == "counter" for key in actions.MOMENTS}


def test_while_no_moment_is_on_show_no_tab_is_marked(shell: Window) -> None:
    tabs = shell.findChild(QTabBar, "moments")
    assert not tabs.isTabVisible(tabs.currentIndex())


def test_no_two_actions_share_a_key() -> None:
    keys = [key.keys for key in vars(actions).values() if isinstance(key, actions.Key)]
    keys += [key.keys for key in actions.MOMENTS]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize(
    ("failure", "word"),
    [
        (WrongInput("Count", "many", "a whole number"), "Please check"),
        (Refused("The tape is not marked yet."), "Not possible"),
        (Unavailable("The shop's records cannot be reached."), "Not reachable"),
    ],
)
def test_a_failure_is_told_by_a_word_first_and_goes_away_with_escape(
    shell: Window, failure: WrongInput, word: str
) -> None:
    shell.banner.refuse(failure)
    assert shell.banner.accessibleName() == f"{word}: {failure.sentence}"
    QTest.keyClick(shell, Qt.Key.Key_Escape)
    assert shell.banner.sentence == ""


def test_the_function_keys_turn_to_the_moments(composed: CompositionRoot, shell: Window) -> None:
    keys = (Qt.Key.Key_F2, Qt.Key.Key_F3, Qt.Key.Key_F4, Qt.Key.Key_F5)
    assert [_screen_by(shell, key) for key in keys] == ["Phone", "Bench", "Pickup", "Shop"]


def test_control_and_a_digit_turn_to_the_moments(composed: CompositionRoot, shell: Window) -> None:
    keys = (Qt.Key.Key_2, Qt.Key.Key_3, Qt.Key.Key_4, Qt.Key.Key_5, Qt.Key.Key_1)
    been = [_screen_by(shell, key, Qt.KeyboardModifier.ControlModifier) for key in keys]
    assert been == ["Phone", "Bench", "Pickup", "Shop", "Counter"]


def _screen_by(
    shell: Window, key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier
) -> str:
    """The screen to which a key leads."""
    QTest.keyClick(QApplication.focusWidget() or shell, key, modifier)
    screen = shell.screen_on_show()
    assert screen is not None
    return screen.name


def test_the_title_says_shop_moment_and_person(composed: CompositionRoot, shell: Window) -> None:
    parts = shell.windowTitle().split(" — ")
    assert parts[1:] == ["Counter", "Kim"]


def test_the_light_changes_with_a_key_and_comes_round(
    composed: CompositionRoot, shell: Window, qapp: QApplication
) -> None:
    worn = []
    for _ in theme.LOOKS:
        QTest.keyClick(shell, Qt.Key.Key_F11)
        worn.append(theme.current_tokens(qapp))
    assert worn == [theme.DIM_BENCH, theme.HIGH_CONTRAST, theme.LIGHT]


def test_closing_writes_the_draft_down(place: Place) -> None:
    clerk = clerk_at(place)
    clerk.count(format="vh")
    place.window.close()
    assert place.records.shop.ask(drafts.kept, "counter 1") is not None


def test_a_shop_that_cannot_be_opened_is_said_in_the_banner(
    shell: Window, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import sys

    hook = sys.excepthook
    monkeypatch.setattr("gui.app.composition.user_log_path", lambda *names, **more: tmp_path)
    broken = tmp_path / "shop.sqlite"
    broken.write_bytes(b"this is no shop" * 400)
    made = compose(shell, str(broken), "Kim", lambda: NOW, tmp_path / "papers")
    qtbot.waitUntil(lambda: shell.banner.sentence != "")
    assert "shop" in shell.banner.sentence
    made.desk.work.close()
    sys.excepthook = hook


def test_the_clock_may_start_at_another_time() -> None:
    clock = startup.clock_from("2026-03-02T10:00:00-05:00")
    assert (clock() - datetime.fromisoformat("2026-03-02T10:00:00-05:00")).total_seconds() < 5
    assert startup.clock_from(None)().tzinfo is UTC


def test_the_counter_is_the_first_moment(composed: CompositionRoot, shell: Window) -> None:
    assert isinstance(shell.screen_on_show(), CounterScreen)
    assert QApplication.focusWidget() is not None
    press(Qt.Key.Key_F2)
    assert not isinstance(shell.screen_on_show(), CounterScreen)
