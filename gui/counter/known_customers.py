"""Customers the shop knows already, offered while a name or a number is typed; taken only by a key.

Two people with one phone number are two people: nothing is filled in or put together by itself.
"""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QObject, QTimer, Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from core.model.typed_draft import TypedBox
from core.services.customers import KnownCustomer
from gui.toolkit import theme
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import phone, say
from gui.widgets.layouts import give_key, words

KEYS = ("Alt+7", "Alt+8", "Alt+9")
"""The first digits answer the question that is asked of the tapes at the same time."""
MOST = len(KEYS)
ASK_AFTER_MS = 150


class KnownCustomers(QWidget):
    """One line with up to three buttons; there only while somebody known may be meant."""

    taken = Signal(str, str)
    """Name and phone of the customer chosen."""

    def __init__(self) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(theme.UNIT)
        row.addWidget(words(say("agreeing", "known"), "small", wrap=False))
        self.buttons = [QPushButton() for _ in range(MOST)]
        for place, button in enumerate(self.buttons, 1):
            button.setObjectName(f"known-{place}")
            button.setProperty("role", "caption")
            give_key(button, KEYS[place - 1])
            button.clicked.connect(partial(self._take, place - 1))
            row.addWidget(button)
        row.addStretch(1)
        self._found: tuple[KnownCustomer, ...] = ()
        self.hide()

    def offer(self, found: tuple[KnownCustomer, ...]) -> None:
        """Show who may be meant."""
        self._found = found[:MOST]
        for place, (button, one) in enumerate(zip(self.buttons, self._found, strict=False), 1):
            number = phone(one.phone) if one.phone else say("agreeing", "no_phone")
            text = say(
                "agreeing", "known_one", name=one.name, phone=number, orders=one.orders, key=KEYS[place - 1]
            )
            button.setText(text)
            button.setAccessibleName(text)
        for place, button in enumerate(self.buttons):
            button.setVisible(place < len(self._found))
        self.setVisible(bool(self._found))

    @Slot()
    def _take(self, place: int) -> None:
        if place < len(self._found):
            one = self._found[place]
            self.hide()
            self.taken.emit(one.name, one.phone or "")


class CustomerRecall(QObject):
    """Looks up who is known by what is typed as name or phone, when the keys pause."""

    def __init__(self, desk: Desk, line: KnownCustomers, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._line = line
        self._typed = ("", "")
        self._timer = QTimer(self, interval=ASK_AFTER_MS, singleShot=True)
        self._timer.timeout.connect(self._ask)

    def follow(self, box: TypedBox) -> None:
        """The box as it is typed now."""
        typed = (box.name.strip(), box.phone.strip())
        if typed == self._typed:
            return
        self._typed = typed
        if any(typed) and not box.amends:
            self._timer.start()
        else:
            self._timer.stop()
            self._line.offer(())

    @Slot()
    def _ask(self) -> None:
        from core.services import customers

        typed = self._typed
        self._desk.work.ask(customers.recalled, *typed, then=partial(self._offer, typed))

    def _offer(self, typed: tuple[str, str], found: tuple[KnownCustomer, ...]) -> None:
        if typed == self._typed:
            self._line.offer(found)
