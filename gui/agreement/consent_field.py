"""Who agreed, and how: two short fields that stand in every form in which somebody says yes."""

from __future__ import annotations

from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QWidget

from core.model.agreement_records import AgreedHow, Consent
from core.model.errors import WrongInput
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import labelled


class ConsentField(QWidget):
    """A name, and by word of mouth unless something else is chosen."""

    def __init__(self, name: str, *, signs: bool = False) -> None:
        super().__init__()
        self.who = QLineEdit()
        self.who.setObjectName(f"{name}-who")
        self.how = QComboBox()
        self.how.setObjectName(f"{name}-how")
        for each in AgreedHow:
            if signs or each is not AgreedHow.SIGNATURE:
                self.how.addItem(say("agreeing", f"how-{each.value}"), each)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(labelled(self.who, say("agreeing", "who")), 3)
        row.addWidget(labelled(self.how, say("agreeing", "how")), 2)

    def begin(self, who: str) -> None:
        """Offer a name, by word of mouth."""
        self.who.setText(who)
        self.how.setCurrentIndex(self.how.findData(AgreedHow.SPOKEN))

    def consent(self) -> Consent:
        """What is said; WrongInput, with the keyboard in the field, without a name."""
        who = self.who.text().strip()
        if not who:
            self.who.setFocus()
            raise WrongInput(self.who.accessibleName(), who, say("bench", "few_words"))
        return Consent(who, self.how.currentData())
