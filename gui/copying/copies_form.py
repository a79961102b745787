"""The copies of one order, made and checked by key; the drive, the link and the reason in fields below."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from core.model.copies.copy_records import CopyRecord, CopyState
from core.model.job_records import Job
from core.pricing import copy_fit
from gui.agreement.price_line import CARD_KEYS
from gui.copying import copy_rows
from gui.copying.copy_fields import DriveFields, LinkFields
from gui.settings.form_fields import TextField
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.fitted_dialog import FittedDialog, dialog_button
from gui.widgets.layouts import give_key, labelled, rule, scrolled, stacked, words
from gui.widgets.tray import Tray

_KEYS = {
    "made": "Alt+M",
    "checked": "Alt+K",
    "drive": "Alt+D",
    "link": "Alt+L",
    "deleted": "Alt+X",
    "strike": "Alt+T",
}


_MOST_ROWS = 6
"""Copies that are seen at once."""


class CopiesForm(FittedDialog):
    """A tray of the copies above, below it what can be done to the one in it; who opens it runs the step."""

    wanted = Signal(str, object)
    """What is to be done (a key of `_KEYS`) to which copy."""
    card_wanted = Signal(object)
    """The `JobNumber` of an order whose copies no longer fit."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("copying", "window"))
        self.job: Job | None = None
        self._head = words("", "field")
        self.tray = Tray("copies-of-order", say("copying", "list"))
        self._wrong = words("", "attention")
        self.drive, self.link = DriveFields(), LinkFields()
        self.reason = TextField("copy-reason")
        self._why = labelled(self.reason, say("copying", "reason"))
        self.buttons = {name: self._button(name, keys) for name, keys in _KEYS.items()}
        self.card = dialog_button("copy-card", say("agreeing", "copy_button", keys=CARD_KEYS), "action")
        self._lay_out()
        self._connect()

    @property
    def copy(self) -> CopyRecord | None:
        """The copy the keyboard is on."""
        copies = self.job.copies if self.job else ()
        return next((each for each in copies if str(each.id) == self.tray.current), None)

    @property
    def told(self) -> str:
        """What does not fit, and what was not kept."""
        shown = (label for label in (self._misfit, self._wrong) if not label.isHidden())
        return " ".join(label.text() for label in shown)

    def begin(self, job: Job) -> None:
        """Open it for one order, on the first copy that is not done."""
        self.show_job(job)
        self.open()
        self.tray.setFocus()

    def show_job(self, job: Job) -> None:
        """The same order as it is now."""
        self.job = job
        name = job.customer.name
        self._head.setText(say("copying", "head", number=str(job.number), name=name, n=len(job.copies)))
        self.tray.lay(copy_rows.rows(job))
        self._wrong.hide()
        self.reason.clear()
        self._show_copy()
        self.tray.setFocus()

    def show_wrong(self, sentence: str) -> None:
        """Say in the form why something was not kept."""
        self._wrong.setText(sentence)
        self._wrong.show()

    @Slot()
    def _show_copy(self) -> None:
        """Offer what can be done to the copy the keyboard is on."""
        copy, job = self.copy, self.job
        offered = set() if copy is None else _offered(copy)
        for name, button in self.buttons.items():
            button.setVisible(name in offered)
        self.drive.setVisible("drive" in offered)
        self.link.setVisible("link" in offered)
        self._why.setVisible("strike" in offered)
        if copy is not None:
            self.drive.show_copy(copy)
        misfits = copy_fit.misfits(job) if job else ()
        self.card.setVisible(bool(misfits))
        told = next((each for each in misfits if copy is not None and each.item == copy.id), None)
        self._misfit.setText(copy_fit.sentence(told) if told else "")
        self._misfit.setVisible(told is not None)

    def sizeHint(self) -> QSize:
        """Wide enough for a row, and as high as the fields need."""
        rows = min(max(2, len(self.job.copies) if self.job else 0), _MOST_ROWS)
        return QSize(100 * theme.UNIT, (48 + 6 * rows) * theme.UNIT)

    def _button(self, name: str, keys: str) -> QPushButton:
        button = dialog_button(f"copy-{name}", say("copying", f"button-{name}", keys=keys), "action")
        give_key(button, keys)
        return button

    def _connect(self) -> None:
        self.tray.moved.connect(self._show_copy)
        self.tray.taken.connect(self._do_next)
        for button in self.buttons.values():
            button.clicked.connect(self._want)
        give_key(self.card, CARD_KEYS)
        self.card.clicked.connect(self._want_card)

    @Slot()
    def _want(self) -> None:
        pressed = next(name for name, button in self.buttons.items() if button is self.sender())
        if (copy := self.copy) is not None:
            self.wanted.emit(pressed, copy.id)

    @Slot(str)
    def _do_next(self, key: str) -> None:
        """Return makes a copy, then checks it."""
        copy = self.copy
        step = _next(copy) if copy is not None and str(copy.id) == key else None
        if copy is not None and step is not None:
            self.wanted.emit(step, copy.id)

    @Slot()
    def _want_card(self) -> None:
        if self.job is not None:
            self.card_wanted.emit(self.job.number)

    def _lay_out(self) -> None:
        inside = QWidget()
        column = stacked(inside)
        self._misfit = words("", "attention")
        column.addWidget(self._head)
        column.addWidget(self.tray, 1)
        for widget in (self._misfit, self._wrong, self.card, rule(), self.drive, self.link, self._why):
            column.addWidget(widget)
        column.addWidget(ButtonRow(list(self.buttons.values())))
        column.addWidget(words(say("copying", "esc"), "small"))
        self.tray.setMinimumHeight(16 * theme.UNIT)
        self.column().addWidget(scrolled(inside, "copies-form"))
        self.tray.setFocusPolicy(Qt.FocusPolicy.StrongFocus)


def _next(copy: CopyRecord) -> str | None:
    return {CopyState.TO_MAKE: "made", CopyState.MADE: "checked"}.get(copy.state)


def _offered(copy: CopyRecord) -> set[str]:
    """What can be done to a copy now."""
    if copy.deleted is not None:
        return set()
    if copy.handed_back_at is not None:
        return {"link", "deleted", "strike"} if copy.is_download else set()
    found = {"made"} | ({"drive"} if copy.is_own_drive else set())
    if copy.state is CopyState.MADE:
        found.add("checked")
    if copy.state is CopyState.CHECKED and copy.is_download:
        found.add("link")
    return found | ({"strike"} if copy.made is not None else set())
