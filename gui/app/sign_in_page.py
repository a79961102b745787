"""Who is at the counter: pick a name, type the PIN if there is one. It stands before locked screens."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from core.model.own_shop.settings_records import Person
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.hint import Hint
from gui.widgets.layouts import PaperFrame, labelled, words
from gui.widgets.tray import Tray, TrayItem

_WIDE = theme.Length(60)
_IN_SIGHT = 6


class SignInPage(QWidget):
    """Names in a tray; Return on one signs in, or goes on to the PIN."""

    chosen = Signal(str, str)
    """A name, and the PIN typed for it."""
    left = Signal()
    """Nobody else wants to sign in after all."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("sign-in")
        self._staff: dict[str, Person] = {}
        self._is_locked = False
        self.names = Tray("sign-in-names", say("window", "sign-in-names"), always_lit=True)
        self.pin = QLineEdit()
        self.pin.setObjectName("sign-in-pin")
        self.pin.setEchoMode(QLineEdit.EchoMode.Password)
        self.pin.setMaxLength(12)
        self.pin.setInputMethodHints(Qt.InputMethodHint.ImhDigitsOnly | Qt.InputMethodHint.ImhSensitiveData)
        self.enter = QPushButton(say("window", "sign-in-enter"))
        self.enter.setProperty("role", "main")
        self.back = QPushButton(say("window", "sign-in-back"))
        self._told = Hint()
        self._told.setProperty("role", "attention")
        self._lay_out()
        self._connect()

    def show_staff(self, staff: Sequence[Person], current: str, *, is_locked: bool) -> None:
        """The people to pick from; while the screens are locked there is no way back without one of them."""
        self._is_locked = is_locked
        self._staff = {person.name: person for person in staff}
        self.names.lay([TrayItem(person.name, person.name) for person in staff])
        self.names.setFixedHeight(max(2, min(len(staff), _IN_SIGHT)) * 6 * theme.UNIT + 4)
        self.names.stand_on(current) or self.names.stand_on_first()
        self.back.setVisible(not is_locked)
        self._lead.setText(say("window", "sign-in-locked" if is_locked else "sign-in-lead"))
        self.tell("")
        self._follow(self.names.current)

    def tell(self, sentence: str) -> None:
        """Say why the PIN was not taken; it is typed anew."""
        self.pin.clear()
        self._told.say(sentence)
        self._told.setVisible(bool(sentence))

    def take_focus(self) -> None:
        """The keyboard goes to the names, or to the PIN where there is nobody to choose."""
        alone = len(self._staff) == 1 and self._has_pin(self.names.current)
        (self.pin if alone else self.names).setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and not self._is_locked:
            self.left.emit()
            return
        super().keyPressEvent(event)

    # --- inside --------------------------------------------------------------------------

    def _has_pin(self, name: str) -> bool:
        return name in self._staff and bool(self._staff[name].pin)

    @Slot(str)
    def _follow(self, name: str) -> None:
        has_pin = self._has_pin(name)
        self.pin.setEnabled(has_pin)
        hint = "" if has_pin else say("window", "sign-in-no-pin", name=name)
        self.pin.setPlaceholderText(hint)

    @Slot(str)
    def _taken(self, name: str) -> None:
        if self._has_pin(name):
            self.pin.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self._enter()

    @Slot()
    def _enter(self) -> None:
        if self.names.current:
            self.chosen.emit(self.names.current, self.pin.text())

    def _connect(self) -> None:
        self.names.moved.connect(self._follow)
        self.names.taken.connect(self._taken)
        self.pin.returnPressed.connect(self._enter)
        self.enter.clicked.connect(self._enter)
        self.back.clicked.connect(self.left)

    def _lay_out(self) -> None:
        paper = PaperFrame("sign-in-paper")
        paper.setMaximumWidth(_WIDE.px)
        paper.column.addWidget(words(say("window", "sign-in-heading"), "heading"))
        self._lead = words()
        paper.column.addWidget(self._lead)
        paper.column.addWidget(labelled(self.names, say("window", "sign-in-names")))
        paper.column.addWidget(labelled(self.pin, say("window", "sign-in-pin")))
        paper.column.addWidget(self._told)
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        for button, name in ((self.enter, "sign-in-enter"), (self.back, "sign-in-back")):
            button.setObjectName(name)
            row.addWidget(button)
        row.addStretch(1)
        paper.column.addLayout(row)
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        across = QHBoxLayout()
        across.addStretch(1)
        across.addWidget(paper, 8)
        across.addStretch(1)
        outer.addStretch(1)
        outer.addLayout(across)
        outer.addStretch(2)
