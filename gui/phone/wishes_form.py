"""What a customer wishes for the handover: who may collect, how to be told, a pass-phrase."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton

from core.model.errors import WrongInput
from core.model.handover_records import NO_WISHES, HandoverWishes, ToldHow
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.keyed_form import Form
from gui.widgets.layouts import hinted, labelled, words


@dataclass(frozen=True, slots=True)
class TypedWishes:
    """What the form holds; None leaves a wish as it is."""

    collector: str | None
    how: ToldHow | None
    pass_phrase: str | None


class WishesForm(Form):
    """Three fields; the way is typed by its word or its first letters."""

    submitted = Signal(object)
    """A `TypedWishes`."""

    def __init__(self) -> None:
        super().__init__("wishes-form")
        self.collector, self.how, self.phrase = (
            _field(name) for name in ("wish-collector", "wish-how", "wish-phrase")
        )
        self._seen = NO_WISHES
        hinted(self.collector, say("phone", "wish_collector_hint"))
        hinted(self.how, say("phone", "wish_how_hint"))
        self.phrase.setEchoMode(QLineEdit.EchoMode.Password)
        self._kept = words("", "small")
        self._save = QPushButton(say("phone", "wish_save"))
        self._save.setObjectName("wish-save")
        self._save.setProperty("role", "main")
        self._lay_out()
        self._go_with_return((self.collector, self.how, self.phrase), self._save)

    def begin(self, wishes: HandoverWishes) -> None:
        """Show what holds; a pass-phrase is never shown."""
        self._seen = wishes
        self.collector.setText(_collector_of(wishes))
        self.how.setText(_words_of(wishes.how) if wishes.how else "")
        self.phrase.clear()
        self._kept.setText(say("phone", "wish_phrase_kept" if wishes.pass_phrase else "wish_phrase_none"))
        self.collector.setFocus()

    def _keep(self) -> None:
        try:
            how = self._how()
        except WrongInput as wrong:
            self.how.setFocus()
            self.refused.emit(wrong)
            return
        collector = self.collector.text().strip()
        self.submitted.emit(
            TypedWishes(
                None if collector == _collector_of(self._seen) else collector,
                None if how is self._seen.how else how,
                self.phrase.text() or None,
            )
        )

    def _how(self) -> ToldHow | None:
        typed = self.how.text().strip().casefold()
        if not typed:
            return None
        found = [each for each in ToldHow if _words_of(each).casefold().startswith(typed)]
        if len(found) == 1:
            return found[0]
        raise WrongInput(self.how.accessibleName(), self.how.text(), say("phone", "wish_how_hint"))

    def _lay_out(self) -> None:
        self.column.addWidget(labelled(self.collector, say("phone", "wish_collector")))
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(labelled(self.how, say("phone", "wish_how")), 1)
        row.addWidget(labelled(self.phrase, say("phone", "wish_phrase")), 1)
        self.column.addLayout(row)
        self.column.addWidget(self._kept)
        self.column.addWidget(self._save)


def _collector_of(wishes: HandoverWishes) -> str:
    return wishes.collector.words if wishes.collector else ""


def _words_of(how: ToldHow) -> str:
    return say("phone", f"way_{how.value}")


def _field(name: str) -> QLineEdit:
    field = QLineEdit()
    field.setObjectName(name)
    return field
