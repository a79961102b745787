"""The sheet on privacy: what is kept and for how long, and one customer's data given out or erased."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QLineEdit, QVBoxLayout

from core.model.own_shop.kept_entry import KeptEntry
from core.services.privacy.erasures import Meant
from core.wording.locale_figures import listed
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow, key_button
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import PaperFrame, empty, labelled, rule, words


class PrivacySheet(PaperFrame):
    """Erasing takes two presses: the first says who would be erased, the second does it."""

    print_wanted = Signal()
    file_wanted = Signal(str)
    erase_asked = Signal(str)
    erase_wanted = Signal(str)
    renewal_wanted = Signal()

    def __init__(self, shop: str) -> None:
        super().__init__("chapter-privacy")
        self.print = key_button("privacy-print", "F6", say("privacy", "print"))
        self.file = key_button("privacy-file", "F7", say("privacy", "file"))
        self.ask = key_button("privacy-ask", "F8", say("privacy", "ask"))
        self.erase = key_button("privacy-erase", "Shift+F8", say("privacy", "erase-now"), "action")
        self.renew = key_button("privacy-renew", "F10", say("privacy", "renew"))
        self._kept = QVBoxLayout()
        self.who = QLineEdit()
        self.who.setObjectName("privacy-who")
        self.sure = words("", "lead")
        self.sure.setObjectName("privacy-sure")
        self._meant = ""
        self._lay_out(shop)
        self._connect()
        self.forget()

    def show_kept(self, entries: tuple[KeptEntry, ...]) -> None:
        """What is kept, and for how long."""
        facts = FactList(20 * theme.UNIT)
        for each in entries:
            facts.add(each.what, [f"{each.why} {each.how_long}"])
        empty(self._kept)
        self._kept.addWidget(facts)

    def offer_renewal(self, can: bool) -> None:
        """The backups can be made anew, or are being made."""
        self.renew.setEnabled(can)
        self.renew.setText(say("privacy", "renew" if can else "renewing"))

    def show_meant(self, meant: Meant) -> None:
        """Who would be erased, and with which orders; the second press is there now."""
        self._meant = meant.orders[0]
        orders = listed(list(meant.orders))
        self.sure.setText(say("privacy", "sure", name=meant.name, orders=orders, n=len(meant.orders)))
        self.sure.show()
        self.erase.show()

    @Slot()
    def forget(self) -> None:
        """Nobody is about to be erased."""
        self._meant = ""
        self.sure.hide()
        self.erase.hide()

    @Slot()
    def _ask(self) -> None:
        self.erase_asked.emit(self.who.text().strip())

    @Slot()
    def _file(self) -> None:
        self.file_wanted.emit(self.who.text().strip())

    @Slot()
    def _erase(self) -> None:
        if self._meant:
            self.erase_wanted.emit(self._meant)

    def _connect(self) -> None:
        self.print.clicked.connect(self.print_wanted)
        self.file.clicked.connect(self._file)
        self.ask.clicked.connect(self._ask)
        self.renew.clicked.connect(self.renewal_wanted)
        self.erase.clicked.connect(self._erase)
        self.who.textEdited.connect(self.forget)

    def _lay_out(self, shop: str) -> None:
        self.column.addWidget(words(say("shop", "privacy"), "heading"))
        self.column.addWidget(labelled(self.who, say("privacy", "who")))
        self.column.addWidget(ButtonRow([self.file, self.ask]))
        self.column.addWidget(self.sure)
        self.column.addWidget(ButtonRow([self.erase]))
        self.column.addWidget(rule())
        self.column.addWidget(words(say("privacy", "renew-why")))
        self.column.addWidget(ButtonRow([self.renew]))
        self.column.addWidget(rule())
        self.column.addWidget(words(say("privacy", "about", name=shop)))
        self.column.addLayout(self._kept)
        self.column.addWidget(words(say("privacy", "rights"), "small"))
        self.column.addWidget(ButtonRow([self.print]))
