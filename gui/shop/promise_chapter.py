"""The promises under review: whom to call first and why, and what would help, on a key."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt, Signal, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from core.promise.what_ifs import Relief
from core.services import what_would_help
from core.services.shop_overview import ShopView
from core.services.what_would_help import AboutQueue
from gui.shop import promise_lines
from gui.shop.chapter import Chapter
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say, sentence_case
from gui.widgets.improvement_lines import ImprovementLines
from gui.widgets.layouts import give_key, stacked, words


class Promises(QWidget):
    """Every open promise under the way out."""

    help_wanted = Signal()
    wants_moment = Signal(str, str)

    def __init__(self, view: ShopView) -> None:
        super().__init__()
        self.ask = QPushButton(say("shop", "help_button"))
        self.ask.setObjectName("shop-help")
        give_key(self.ask, "F6")
        self.ask.clicked.connect(self._ask)
        self.help = ImprovementLines("shop-help-lines")
        column = stacked(self)
        if view.backlog is not None:
            backlog = sentence_case(view.backlog.sentence)
            told = words(say("shop", "backlog", backlog=backlog), "attention")
            told.setObjectName("shop-backlog")
            column.addWidget(told)
        column.addWidget(self.ask, 0, Qt.AlignmentFlag.AlignLeft)
        self.ask.setVisible(bool(view.promises))  # only now: without a place it would open as a window
        column.addWidget(self.help)
        column.addWidget(promise_lines.promises(view, wants_moment=self.wants_moment))

    @Slot()
    def _ask(self) -> None:
        self.help.wait()
        self.help_wanted.emit()


class PromiseChapter(Chapter):
    """The open promises, and what would help to keep them."""

    name = "promises"
    place = 20

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._page: Promises | None = None

    def note(self, view: ShopView) -> str:
        at_risk = sum(kept.is_at_risk for kept in view.promises)
        if at_risk or view.backlog is None:
            return say("shop", "at_risk", count=at_risk) if at_risk else ""
        return say("shop", "line_grows")

    def open(self, view: ShopView) -> QWidget:
        self._page = Promises(view)
        self._page.help_wanted.connect(self._ask)
        self._page.wants_moment.connect(self.wants_moment)
        return self._page

    def close(self) -> None:
        self._page = None

    @Slot()
    def _ask(self) -> None:
        self.desk.work.ask(what_would_help.about_queue, then=self._think, otherwise=self.show_failure)

    def _think(self, question: AboutQueue) -> None:
        self.desk.work.compute_long(question.answer, then=self._tell, otherwise=self.show_failure)

    def _tell(self, found: tuple[Relief, ...]) -> None:
        if self._page is not None:
            self._page.help.tell([each.sentence for each in found])


CHAPTER = PromiseChapter
