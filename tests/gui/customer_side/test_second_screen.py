"""The customer's screen is unplugged and plugged in again: nothing breaks, nothing is lost, it comes back."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QGuiApplication, QScreen
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from gui.customer_side.customer_window import CustomerSide
from gui.customer_side.second_screen import second_screen
from gui.toolkit import theme
from tests.facing import facing_samples


class Plugs:
    """A second screen that can be pulled out: there is but one here, so that it stands for both."""

    def __init__(self, side: CustomerSide, monkeypatch: pytest.MonkeyPatch) -> None:
        self.is_in = True
        app = QGuiApplication.instance()
        assert isinstance(app, QGuiApplication)
        self._app = app
        monkeypatch.setattr(side._screens, "now", self._now)

    def _now(self) -> QScreen | None:
        return QApplication.primaryScreen() if self.is_in else None

    def pull_out(self) -> None:
        self.is_in = False
        self._app.screenRemoved.emit(QApplication.primaryScreen())

    def put_in(self) -> None:
        self.is_in = True
        self._app.screenAdded.emit(QApplication.primaryScreen())


@pytest.fixture
def side(qapp: QApplication) -> Iterator[CustomerSide]:
    theme.apply(qapp)
    window = QWidget()
    shown = CustomerSide(window)
    yield shown
    shown.close()
    window.deleteLater()


def sign(side: CustomerSide) -> None:
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    QTest.mousePress(side.signing.pad, left, none, QPoint(40, 60))
    QTest.mouseMove(side.signing.pad, QPoint(200, 90))
    QTest.mouseRelease(side.signing.pad, left, none, QPoint(200, 90))


def test_it_goes_with_its_screen_and_comes_back_with_it(
    side: CustomerSide, monkeypatch: pytest.MonkeyPatch
) -> None:
    plugs = Plugs(side, monkeypatch)
    facing_samples.scenes()["signing"](side, 8)
    assert side.isVisible()
    sign(side)
    signed = side.signing.pad.strokes()
    assert signed
    plugs.pull_out()
    assert not side.isVisible(), "it never covers the clerk's own screen by itself"
    plugs.put_in()
    assert side.isVisible()
    assert side.page is side.signing
    assert side.signing.pad.strokes() == signed


def test_what_happens_meanwhile_is_there_when_it_comes_back(
    side: CustomerSide, monkeypatch: pytest.MonkeyPatch
) -> None:
    plugs = Plugs(side, monkeypatch)
    side.turn()
    plugs.pull_out()
    facing_samples.scenes()["quote"](side, 8)
    plugs.put_in()
    assert side.page is side.quoting
    assert "Your 8 tapes" in side.words


def test_turned_away_it_stays_away(side: CustomerSide, monkeypatch: pytest.MonkeyPatch) -> None:
    plugs = Plugs(side, monkeypatch)
    side.turn()
    side.turn()
    plugs.pull_out()
    plugs.put_in()
    assert not side.isVisible()
    side.turn()
    plugs.pull_out()
    side.turn()
    side.turn()
    plugs.put_in()
    assert not side.isVisible(), "the clerk turned it and turned it back meanwhile"


def test_ink_grows_and_shrinks_with_the_screen(side: CustomerSide) -> None:
    side.resize(1280, 720)
    side.show()
    facing_samples.scenes()["signing"](side, 8)
    QApplication.processEvents()
    sign(side)
    small, signed = side.signing.pad.width(), side.signing.pad.strokes()
    side.resize(3840, 2160)
    QApplication.processEvents()
    assert side.signing.pad.width() > 2 * small
    for one, other in zip(side.signing.pad.strokes()[0], signed[0], strict=True):
        assert one == pytest.approx(other, abs=2e-4)


def test_a_second_screen_is_the_one_our_window_is_not_on(qapp: QApplication) -> None:
    only = qapp.primaryScreen()
    other = object()
    assert second_screen([only], only) is None
    assert second_screen([only, other], only) is other  # type: ignore[list-item]
