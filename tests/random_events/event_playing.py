"""One event after the other into whatever is in front, as a hand that sees nothing would send them."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent, QGuiApplication, QInputMethodEvent, QKeySequence, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLineEdit,
    QPlainTextEdit,
    QWidget,
)

from gui.first_run.set_up_screen import SetUpScreen
from gui.shop.shop_screen import ShopScreen
from gui.widgets.scanner import ScanWatch
from gui.widgets.signature_pad import SignaturePad
from tests.random_events.event_records import Does, Event
from tests.random_events.played_window import PlayedWindow

_REACHED = (
    *(
        QAbstractButton,
        QLineEdit,
        QAbstractItemView,
        QComboBox,
        QPlainTextEdit,
        QAbstractSpinBox,
        SignaturePad,
    ),
)
_OF_NOBODY = ("0000990011", "1234567890", "000004", "000005")


class Player:
    """Plays events about one screen; keys of a scanner come at once on its own clock."""

    def __init__(self, place: PlayedWindow, about: str) -> None:
        self.place = place
        self.about = about
        self._key_time = 0.0
        self.hit = ""
        """The name of what the last event went to."""
        self._does: dict[Does, Callable[[Event], None]] = {
            Does.KEY: lambda event: press(place.in_front(), event.text),
            Does.TYPE: self._type,
            Does.CLICK: self._click,
            Does.DOUBLE: self._click,
            Does.MENU: self._click,
            Does.POINT: self._point,
            Does.WHEEL: self._wheel,
            Does.INK: self._ink,
            Does.SCAN: self._scan,
            Does.PASTE: self._paste,
            Does.WAIT: lambda event: QTest.qWait(int(event.text)),
            Does.GO: self._go,
            Does.SCREEN: lambda _: place.plug(),
            Does.ELSEWHERE: lambda event: place.elsewhere(event.at),
        }

    def play(self, event: Event) -> None:
        """One event, and what it leads to at once."""
        self._key_time += 1.0
        keyboard = QApplication.focusWidget()
        self.hit = keyboard.objectName() if keyboard is not None else ""
        self._does[event.does](event)
        self.place.look()

    # --- keys ----------------------------------------------------------------------------

    def _type(self, event: Event) -> None:
        for sign in event.text:
            write(_keyboard(self.place.in_front()), sign)

    def _scan(self, event: Event) -> None:
        for watch in self.place.window.findChildren(ScanWatch):
            watch._clock = lambda: self._key_time
        codes = (*self.place.begun.codes, *_OF_NOBODY)
        for sign in codes[int(event.at * len(codes))]:
            QTest.keyClicks(_keyboard(self.place.in_front()), sign)
        press(self.place.in_front(), "Return")

    def _paste(self, event: Event) -> None:
        QGuiApplication.clipboard().setText(event.text)
        press(self.place.in_front(), "Ctrl+V")

    # --- mouse ---------------------------------------------------------------------------

    def _click(self, event: Event) -> None:
        found = _reached(self.place.in_front())
        if not found:
            return
        widget = found[int(event.at * len(found))]
        self.hit = widget.objectName()
        inside = widget.viewport() if isinstance(widget, QAbstractItemView | QPlainTextEdit) else widget
        here = inside.visibleRegion().boundingRect()
        at = QPoint(here.left() + int(event.to * here.width()), here.center().y())
        if isinstance(widget, QAbstractItemView):
            at.setY(here.top() + int(event.to * 7919 % 1 * here.height()))
        _clicked(inside, at, event.does)

    def _point(self, event: Event) -> None:
        front = self.place.in_front()
        at = QPoint(int(event.at * front.width()), int(event.to * front.height()))
        under = front.childAt(at) or front
        self.hit = under.objectName()
        _clicked(under, under.mapFrom(front, at), event.does)

    def _wheel(self, event: Event) -> None:
        front = self.place.in_front()
        at = QPoint(int(event.at * front.width()), int(event.to * front.height()))
        under = front.childAt(at) or front
        turned = QPoint(0, 120 if event.to < 0.5 else -120)
        here, there = QPointF(under.mapFrom(front, at)), QPointF(front.mapToGlobal(at))
        none, still = Qt.MouseButton.NoButton, Qt.ScrollPhase.NoScrollPhase
        sent = QWheelEvent(here, there, QPoint(), turned, none, Qt.KeyboardModifier.NoModifier, still, False)
        QApplication.sendEvent(under, sent)

    def _ink(self, event: Event) -> None:
        pad = next((each for each in pads(self.place) if each.isVisible()), None)
        if pad is None:
            return
        begin = QPoint(int(event.at * pad.width()), pad.height() // 3)
        end = QPoint(int(event.to * pad.width()), 2 * pad.height() // 3)
        QTest.mousePress(pad, Qt.MouseButton.LeftButton, pos=begin)
        QTest.mouseMove(pad, end)
        QTest.mouseRelease(pad, Qt.MouseButton.LeftButton, pos=end)

    # --- where ---------------------------------------------------------------------------

    def _go(self, event: Event) -> None:
        """Back to the screen this is about; there to one of its pages."""
        self.place.window.go("set-up" if self.about == "first-run" else self.about)
        screen = self.place.screen()
        if isinstance(screen, ShopScreen) and screen.chapters.pieces:
            pieces = screen.chapters.pieces
            screen.chapters.stand_on(pieces[int(event.at * len(pieces))].key)
        elif isinstance(screen, SetUpScreen) and screen.parts.list.pieces:
            pieces = screen.parts.list.pieces
            screen.parts.list.stand_on(pieces[int(event.at * len(pieces))].key)


def pads(place: PlayedWindow) -> list[SignaturePad]:
    """Every pad there is, on the Customer side too."""
    return place.window.findChildren(SignaturePad)


def write(target: QWidget, sign: str) -> None:
    """One letter; one beyond ASCII as an input method hands it on, because QTest knows no key for it."""
    if sign.isascii():
        QTest.keyClicks(target, sign)
    else:
        handed = QInputMethodEvent()
        handed.setCommitString(sign)
        QApplication.sendEvent(target, handed)


def press(front: QWidget, keys: str) -> None:
    """One key with those held, to whoever has the keyboard in what is in front."""
    combination = QKeySequence(keys)[0]
    QTest.keyClick(_keyboard(front), combination.key(), combination.keyboardModifiers())


def _keyboard(front: QWidget) -> QWidget:
    focus = QApplication.focusWidget()
    is_here = focus is not None and (front is focus or front.isAncestorOf(focus) or not front.isWindow())
    return focus if is_here and focus is not None else front.focusWidget() or front


def _reached(front: QWidget) -> list[QWidget]:
    """What can be clicked and is in sight."""
    return [
        each
        for each in front.findChildren(QWidget)
        if isinstance(each, _REACHED)
        and each.isVisible()
        and each.isEnabled()
        and not each.visibleRegion().isEmpty()
    ]


def _clicked(widget: QWidget, at: QPoint, does: Does) -> None:
    if does is Does.MENU:
        asked = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, at, widget.mapToGlobal(at))
        QApplication.sendEvent(widget, asked)
    elif does is Does.DOUBLE:
        QTest.mouseDClick(widget, Qt.MouseButton.LeftButton, pos=at)
    else:
        QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=at)
