"""What proves one person on the command line: users of computers who are them, tokens for programs."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QWidget

from core.model.errors import WrongInput
from core.model.own_shop.access_records import AccessToken
from core.services.proving import access_tokens, system_users
from core.services.proving.access_tokens import NewToken
from core.wording import locale_figures
from gui.settings.form_fields import LinesField
from gui.toolkit import theme
from gui.toolkit.plain_text import plain_label
from gui.toolkit.text import say
from gui.widgets.hint import Hint
from gui.widgets.layouts import empty, hinted, labelled, stacked, words

_LINES = 2
_LONGEST_NAME = 60


class SystemUserLines(QWidget):
    """One user of a computer on each line; a button writes the one who runs this window."""

    edited = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.typed = LinesField("person-system_users", _LINES)
        self.typed.setAccessibleName(say("access", "system-users"))
        self.this = QPushButton(say("access", "this-user", user=system_users.current().login))
        self.this.setObjectName("person-this-user")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(theme.UNIT)
        row.addWidget(self.typed, 1)
        row.addWidget(self.this, 0, Qt.AlignmentFlag.AlignTop)
        self.typed.textChanged.connect(self.edited)
        self.this.clicked.connect(self._add_this)

    @property
    def users(self) -> tuple[str, ...]:
        """What stands here, whether it can be read or not."""
        return self.typed.lines

    def show_users(self, users: Sequence[str]) -> None:
        if self.users != tuple(users):
            self.typed.blockSignals(True)
            self.typed.setPlainText("\n".join(users))
            self.typed.blockSignals(False)

    @Slot()
    def _add_this(self) -> None:
        user = system_users.current()
        if not user.is_one_of(self.users):
            self.typed.setPlainText("\n".join((*self.users, user.text)))


class TokenFields(QWidget):
    """The tokens of a person. A new one is shown until the page is saved or left, and is good once saved."""

    edited = Signal(object)
    """The tokens as they are to be."""
    print_wanted = Signal(object)
    """The `NewToken` that is shown."""
    gone = Signal()
    """No token is shown any more."""

    def __init__(self) -> None:
        super().__init__()
        self._tokens: tuple[AccessToken, ...] = ()
        self._today = date.min
        self.rows = QWidget()
        self._list = stacked(self.rows)
        self.name = QLineEdit()
        self.name.setObjectName("person-token-name")
        self.name.setMaxLength(_LONGEST_NAME)
        hinted(self.name, say("access", "token-name-hint"))
        self.make = QPushButton(say("access", "token-new"))
        self.make.setObjectName("person-token-new")
        self.shown = plain_label()
        self.copy = QPushButton(say("access", "token-copy"))
        self.copy.setObjectName("person-token-copy")
        self.print = QPushButton(say("access", "token-print"))
        self.print.setObjectName("person-token-print")
        self._told = Hint()
        self._made: NewToken | None = None
        self._lay_out()
        self.make.clicked.connect(self._make)
        self.name.returnPressed.connect(self._make)
        self.copy.clicked.connect(self._copy)
        self.print.clicked.connect(self._print)

    def know_today(self, today: date) -> None:
        """The day from which a new token is good."""
        self._today = today

    def show_tokens(self, tokens: Sequence[AccessToken]) -> None:
        """These; a token that is on show stays there while it is one of them."""
        if self._made and not any(access_tokens.fits(each, self._made.token) for each in tokens):
            self._show_new(None)
        self._tokens = tuple(tokens)
        empty(self._list)
        for each in self._tokens:
            self._list.addWidget(self._row(each))
        self.rows.setVisible(bool(tokens))

    @Slot()
    def _make(self) -> None:
        name = self.name.text().strip()
        if not name or any(each.name == name for each in self._tokens):
            self.name.setFocus()
            return
        try:
            made = access_tokens.new(name, self._today)
        except WrongInput as wrong:
            self._told.say(wrong.sentence)
            return
        self.name.clear()
        self._show_new(made)
        self.edited.emit((*self._tokens, made.kept))
        self.copy.setFocus()

    def _revoke(self, token: AccessToken) -> None:
        self.edited.emit(tuple(each for each in self._tokens if each != token))
        self.name.setFocus()

    def _show_new(self, made: NewToken | None) -> None:
        self._made = made
        self.shown.setText("" if made is None else say("access", "token-shown", token=made.token))
        for widget in (self.shown, self.copy, self.print):
            widget.setVisible(made is not None)
        self._told.say("")
        if made is None:
            self.gone.emit()

    @Slot()
    def _copy(self) -> None:
        if self._made is not None:
            QGuiApplication.clipboard().setText(self._made.token)
            self._told.say(say("access", "token-copied"))

    @Slot()
    def _print(self) -> None:
        if self._made is not None:
            self.print_wanted.emit(self._made)

    # --- building ------------------------------------------------------------------------

    def _row(self, token: AccessToken) -> QWidget:
        row = QWidget()
        line = QHBoxLayout(row)
        line.setContentsMargins(0, 0, 0, 0)
        key = "token-ended" if token.until < self._today else "token-line"
        day = locale_figures.full_day(token.until)
        line.addWidget(words(say("access", key, name=token.name, day=day)), 1)
        revoke = QPushButton(say("access", "token-revoke"))
        revoke.setObjectName("person-token-revoke")
        revoke.setAccessibleName(say("access", "token-revoke-named", name=token.name))
        revoke.clicked.connect(partial(self._revoke, token))
        line.addWidget(revoke)
        return row

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(self.rows)
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        row.addWidget(labelled(self.name, say("access", "token-name")), 1)
        row.addWidget(self.make, 0, Qt.AlignmentFlag.AlignBottom)
        column.addLayout(row)
        self.shown.setWordWrap(True)
        self.shown.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self.shown.setAccessibleName(say("access", "token-new"))
        column.addWidget(self.shown)
        both = QHBoxLayout()
        both.setSpacing(theme.UNIT)
        both.addWidget(self.copy)
        both.addWidget(self.print)
        both.addStretch(1)
        column.addLayout(both)
        column.addWidget(self._told)
        self._show_new(None)
