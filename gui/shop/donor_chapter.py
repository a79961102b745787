"""The chapter on donor parts: reads the shelf, corrects a count, puts more parts there."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.catalogue.formats import catalogue
from core.model.repair_records import Donor
from core.model.spoken_names import spoken
from core.services import donors
from core.services.donors import DonorStock
from core.services.shop_overview import ShopView
from gui.shop.chapter import Chapter
from gui.shop.donor_stock_page import Correction, DonorStockPage
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.donor_stock_dialog import DonorDelivery


class DonorChapter(Chapter):
    """Reads its own part of the records; no date and no price depends on it."""

    name = "donors"
    place = 60

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._page: DonorStockPage | None = None

    def open(self, view: ShopView) -> QWidget:
        page = self._page = DonorStockPage(view)
        page.corrected.connect(self._correct)
        page.delivered.connect(self._add)
        page.refused.connect(self.refused)
        self.desk.work.ask(donors.shelf, then=self._show)
        return page

    def close(self) -> None:
        self._page = None

    def _show(self, stock: DonorStock) -> None:
        if self._page is not None:
            self._page.know(stock)

    @Slot(object)
    def _correct(self, right: Correction) -> None:
        step = partial(donors.correct, came_from=right.came_from, because=right.because)
        self._change_stock(step, right.format, right.part, right.count)

    @Slot(object)
    def _add(self, more: DonorDelivery) -> None:
        step = partial(donors.add, came_from=more.came_from)
        self._change_stock(step, more.format, more.part, more.count)

    def _change_stock(self, step: Callable[..., Donor], *args: object) -> None:
        self.desk.work.run(
            step, *args, then=self._was_counted, otherwise=self.show_failure, changes=frozenset()
        )

    def _was_counted(self, now: Donor) -> None:
        form = catalogue().format(now.format).words
        self.said.emit(say("donors", "is_right", count=now.count, format=form, part=spoken(now.part)))
        self.outdated.emit()


CHAPTER = DonorChapter
