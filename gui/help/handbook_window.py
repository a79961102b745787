"""The handbook: one page a screen and the bench cards, with a search over all of it."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QSize, Qt, QUrl, Slot
from PySide6.QtGui import QKeyEvent, QTextDocument
from PySide6.QtWidgets import QLineEdit, QTextBrowser, QWidget

from core.wording.messages import say
from gui.help import handbook_pages
from gui.toolkit import theme
from gui.widgets.fitted_dialog import FittedDialog
from gui.widgets.layouts import Columns, hinted, stacked
from gui.widgets.tray import Tray, TrayItem

_PAGES = {int(Qt.Key.Key_PageUp): -1, int(Qt.Key.Key_PageDown): 1}


class HandbookWindow(FittedDialog):
    """Stands beside the window, which goes on working."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self.setObjectName("handbook")
        self.setWindowTitle(say("commands", "handbook"))
        self.pages = handbook_pages.every()
        self.field = QLineEdit()
        self.field.setObjectName("handbook-sought")
        self.field.setAccessibleName(say("commands", "handbook-search"))
        hinted(self.field, say("commands", "handbook-search"))
        self.list = Tray("handbook-pages", say("commands", "handbook-pages"), always_lit=True)
        self.text = QTextBrowser()
        self.text.setObjectName("handbook-text")
        self.text.setOpenLinks(False)
        self.text.document().setDocumentMargin(2 * theme.UNIT)
        self._lay_out()
        self.field.textChanged.connect(self._seek)
        self.field.installEventFilter(self)
        self.list.moved.connect(self._turn)
        self.text.anchorClicked.connect(self._follow)

    def open_at(self, name: str) -> None:
        """Show the page of a screen, or the first."""
        self.field.clear()
        self._seek("")
        if not self.list.stand_on(name):
            self.list.stand_on_first()
        self.show()
        self.raise_()
        self.activateWindow()
        self.field.setFocus()

    def sizeHint(self) -> QSize:
        return QSize(120 * theme.UNIT, 84 * theme.UNIT)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is not self.field:
            return False
        way = _PAGES.get(event.key(), 0) if isinstance(event, QKeyEvent) else 0
        if way and event.type() is QEvent.Type.KeyPress:
            bar = self.text.verticalScrollBar()
            bar.setValue(bar.value() + way * bar.pageStep())
            return True
        return self.list.steered_by(event)

    @Slot(str)
    def _seek(self, wanted: str) -> None:
        """The pages, or the passages that answer what is typed."""
        if not wanted.strip():
            self.list.lay([TrayItem(page.name, page.title) for page in self.pages])
            return
        found = handbook_pages.found(self.pages, wanted)
        laid = [TrayItem(f"{each.page}#{each.heading}", each.heading, small=each.title) for each in found]
        self.list.lay(laid or [TrayItem("", say("commands", "handbook-nothing"))])
        self.list.stand_on_first()

    @Slot(str)
    def _turn(self, key: str) -> None:
        name, _, heading = key.partition("#")
        page = next((page for page in self.pages if page.name == name), None)
        if page is None:
            return
        if self.text.property("page") != name:
            self.text.setProperty("page", name)
            self.text.setAccessibleName(page.title)
            self.text.document().setMarkdown(page.text, QTextDocument.MarkdownFeature.MarkdownDialectGitHub)
        self.text.moveCursor(self.text.textCursor().MoveOperation.Start)
        if heading and heading != page.title:
            self._scroll_to(heading)

    @Slot(QUrl)
    def _follow(self, link: QUrl) -> None:
        self.field.clear()
        self.list.stand_on(link.path().removesuffix(".md"))

    def _scroll_to(self, heading: str) -> None:
        block = self.text.document().begin()
        while block.isValid():
            if block.blockFormat().headingLevel() and block.text() == heading:
                layout = self.text.document().documentLayout()
                self.text.verticalScrollBar().setValue(int(layout.blockBoundingRect(block).top()))
                return
            block = block.next()

    def _lay_out(self) -> None:
        side = QWidget()
        column = stacked(side)
        column.addWidget(self.field)
        column.addWidget(self.list, 1)
        columns = Columns(fold_below=60 * theme.UNIT)
        columns.add(side, 4)
        columns.add(self.text, 9)
        self.column().addWidget(columns)
