"""Every version of an agreement in words, the newest first; read only, scrolled by keyboard."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPlainTextEdit, QWidget

from core.model.agreement_records import AgreementVersion
from core.papers import agreement_words
from core.pricing.agreement_differences import AgreementDifference
from gui.toolkit import theme
from gui.toolkit.text import moment, money, say
from gui.widgets.fitted_dialog import FittedDialog, dialog_button
from gui.widgets.layouts import give_key, words

Versions = Sequence[tuple[AgreementVersion, tuple[AgreementDifference, ...]]]


class VersionList(FittedDialog):
    """Opens with the keyboard in the text, so that the arrows scroll; Esc closes it."""

    print_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("agreeing", "versions"))
        self.text = QPlainTextEdit()
        self.text.setObjectName("agreement-versions")
        self.text.setAccessibleName(say("agreeing", "versions"))
        self.text.setReadOnly(True)
        self.text.setMinimumSize(90 * theme.UNIT, 50 * theme.UNIT)
        column = self.column()
        column.addWidget(self.text, 1)
        self.print_button = dialog_button("agreement-print", say("agreeing", "print_newest"))
        give_key(self.print_button, "Alt+P")
        self.print_button.clicked.connect(self.print_wanted)
        below = QHBoxLayout()
        below.addWidget(words(say("agreeing", "close"), "small"), 1)
        below.addWidget(self.print_button)
        column.addLayout(below)

    def begin(self, versions: Versions, timezone: str) -> None:
        """Write the versions and open."""
        newest_first = list(versions)[::-1]
        self.text.setPlainText("\n\n".join("\n".join(_lines(*one, timezone)) for one in newest_first))
        self.open()
        self.text.setFocus()


def _lines(
    version: AgreementVersion, differences: tuple[AgreementDifference, ...], timezone: str
) -> Iterator[str]:
    currency = version.quote.price.currency
    yield agreement_words.kind_words(version)
    yield agreement_words.agreed_words(version, moment(version.at, timezone))
    if version.reason:
        yield f"“{version.reason}”"
    yield say(
        "agreeing",
        "holds",
        ceiling=money(version.ceiling_minor, currency),
        price=money(version.quote.price.due.likely, currency),
    )
    for each in differences:
        yield f"  {agreement_words.told(each, currency).sentence}"
