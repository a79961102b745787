"""The way through the program on the invented shop: every screen, chapter, form, dialog and list.

The pictures are taken along it, and the tests of the wording and of the layout look around at every stop.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from functools import cached_property
from pathlib import Path
from tempfile import TemporaryDirectory

from PySide6.QtWidgets import QApplication, QWidget

from core.model.stations import Station
from gui.app import walkthrough_first_run, walkthrough_records
from gui.app.composition import compose
from gui.app.main_window import Window
from gui.app.walkthrough_first_run import Stop
from gui.app.walkthrough_keys import press, wait_until
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.own_shop_page import OwnShopPage
from gui.shop.shop_screen import ShopScreen

_WHO = "Robin"
"""The invented person at the counter."""


class Route:
    """One way through the program on one shop."""

    def __init__(self, shop: Path, now: datetime, size: tuple[int, int]) -> None:
        """``size``: width and height of the window in device-independent pixels."""
        self._shop = shop
        self._now = now
        self._size = size
        self._window = Window()
        self._window.resize(*size)

    def stops(self) -> Iterator[Stop]:
        """Every stop in turn; the window closes after the last, or when the walk is given up."""
        with TemporaryDirectory() as folder:
            own = Path(folder) / "own"
            yield from walkthrough_first_run.stops(own, self._clock, _WHO, self._size, compose)
        try:
            yield from self._stops()
        finally:
            self._window.closing.ask_nothing()
            self._window.close()
            self._window.deleteLater()

    def settings_stops(self) -> Iterator[Stop]:
        """The stops of the set-up, then the chapters of Shop."""
        with TemporaryDirectory() as folder:
            own = Path(folder) / "own"
            yield from walkthrough_first_run.stops(own, self._clock, _WHO, self._size, compose)
        try:
            self._window.show()
            self._move_in()
            yield from self._chapters()
        finally:
            self._window.closing.ask_nothing()
            self._window.close()
            self._window.deleteLater()

    def _move_in(self) -> None:
        papers = self._shop.parent / "papers"
        self._composed = compose(self._window, str(self._shop), _WHO, self._clock, papers)
        wait_until(lambda: self._window.screen_on_show() is not None)
        self._settle()

    def _stops(self) -> Iterator[Stop]:
        self._window.show()
        QApplication.processEvents()
        yield Stop("0-opening", self._window)
        self._move_in()
        yield from self._counter()
        yield from self._phone()
        yield from self._bench()
        yield from self._pickup()
        yield from self._chapters()

    # --- counter -------------------------------------------------------------------------

    def _counter(self) -> Iterator[Stop]:
        counter, box = self._counter_screen, walkthrough_records.box(self._now)
        yield Stop("1-counter-empty", self._window)
        counter.draft.begin(box)
        self._settle()
        yield Stop("1-counter", self._window)
        yield from self._offers(counter)
        counter.draft.begin(replace(box, rows=box.rows[1:]))
        self._settle()
        counter.parts.table.put_cursor(0, 0)
        counter.inspections.begin_packs()
        yield from self._dialog(counter.inspections.packs, "7-packs", "31\r24.5\r")
        counter.inspections.begin_look_over()
        yield from self._dialog(counter.inspections.look_over, "7-look-over", "\r\r")
        yield from self._customer_side()
        counter.parts.telling.told.setChecked(True)
        yield from self._signing(counter)
        counter.booking.book()
        self._settle()
        yield Stop("1-counter-booked", self._window)

    def _offers(self, counter: CounterScreen) -> Iterator[Stop]:
        """What may be typed, under the cell in which it is."""
        counter.parts.table.setFocus()
        counter.parts.table.put_cursor(counter.draft.add_row(), 1)
        press("vh")
        self._settle()
        yield Stop("1-counter-offers", self._window)
        counter.parts.table.commit()

    def _signing(self, counter: CounterScreen) -> Iterator[Stop]:
        counter.booking.have_signed()
        self._settle()
        yield Stop("1-counter-signing", self._window)
        yield from self._customer_side("6-customer-side-signing")
        counter.booking.signing.end()

    def _customer_side(self, name: str = "6-customer-side") -> Iterator[Stop]:
        side = self._composed.customer_side
        side.resize(self._window.size())
        side.show()
        yield Stop(name, side)
        side.hide()
        self._window.activateWindow()

    # --- the other screens ---------------------------------------------------------------

    def _phone(self) -> Iterator[Stop]:
        job = self._counter_screen.job
        assert job is not None
        self._go("phone", job.customer.name)
        yield Stop("2-phone", self._window)
        phone = self._window.screen_named("phone")
        assert isinstance(phone, PhoneScreen)
        for button in (phone.forms.agree_button, phone.forms.new_day_button, phone.forms.correct_button):
            button.click()
            self._settle()
            yield Stop(f"2-phone-{button.objectName()}", self._window)
            button.click()

    def _bench(self) -> Iterator[Stop]:
        job = self._counter_screen.job
        assert job is not None
        self._go("bench", job.tapes[0].code)
        yield Stop("3-bench", self._window)
        bench = self._window.screen_named("bench")
        assert isinstance(bench, BenchScreen)
        for code in [
            *walkthrough_records.one_of_each_station(bench.list.pieces),
            *walkthrough_records.recorded(self._shop),
        ]:
            station = self._take(bench, code)
            yield Stop(f"3-bench-{station.value}", self._window)
            if station is Station.AT_THE_BENCH:
                yield from self._bench_forms(bench)
        self._go("bench", walkthrough_records.NO_CODE)
        yield Stop("3-bench-refused", self._window)

    def _take(self, bench: BenchScreen, code: str) -> Station:
        bench.take(code)
        self._settle()
        assert bench.tape is not None
        return bench.tape.station

    def _bench_forms(self, bench: BenchScreen) -> Iterator[Stop]:
        side = bench.side
        for button in (side.find_button, side.splice_button, side.repair_button, side.back_button):
            button.click()
            yield Stop(f"3-bench-{button.objectName()}", self._window)
            side.rest()
        side.begin_file()
        side.file.show_report(walkthrough_records.FILE)
        yield Stop("3-bench-file", self._window)
        side.rest()
        side.show_check(walkthrough_records.check(), "Sam")
        yield Stop("3-bench-check", self._window)
        side.rest()
        side.repair.shelf.click()
        self._settle()
        yield Stop("7-donor-shelf", bench.repairing.shelf)
        bench.repairing.shelf.close()

    def _pickup(self) -> Iterator[Stop]:
        self._go("pickup", walkthrough_records.COLLECTED)
        yield Stop("4-pickup", self._window)
        pickup = self._window.screen_named("pickup")
        assert isinstance(pickup, PickupScreen)
        pickup.parts.payments.button.click()
        yield Stop("4-pickup-money", self._window)
        pickup.parts.payments.close_form()
        pickup.parts.copies_button.click()
        self._settle()
        yield Stop("7-copies", pickup.copies.form)
        pickup.copies.form.close()

    def _chapters(self) -> Iterator[Stop]:
        self._go("shop", "")
        shop = self._window.screen_named("shop")
        assert isinstance(shop, ShopScreen)
        for place, piece in enumerate(shop.chapters.pieces):
            shop.chapters.stand_on(piece.key)
            self._settle()
            name = f"5-shop-{place:02d}-{piece.key}"
            yield Stop(name, self._window)
            for page in shop.page.findChildren(OwnShopPage):
                yield from self._pages(name, page)

    def _pages(self, name: str, owned: OwnShopPage) -> Iterator[Stop]:
        """The further pages behind their titles in one chapter."""
        for place, page in enumerate(owned.pages):
            if place:
                owned.tabs[place].click()
                self._settle()
                yield Stop(f"{name}-{page.page.value}", self._window)

    # --- on the way ----------------------------------------------------------------------

    def _dialog(self, dialog: QWidget, name: str, keys: str) -> Iterator[Stop]:
        """A window over the screen, as it opens and a few keys later."""
        QApplication.processEvents()
        yield Stop(name, dialog)
        press(keys)
        yield Stop(f"{name}-2", dialog)
        dialog.close()

    def _go(self, name: str, text: str) -> None:
        """To a screen, where ``text`` is looked for."""
        self._window.activateWindow()
        self._window.go(name)
        self._window.banner.clear()
        self._settle()
        if text:
            press(f"{text}\r")
            self._settle()

    @cached_property
    def _counter_screen(self) -> CounterScreen:
        counter = self._window.screen_named("counter")
        assert isinstance(counter, CounterScreen)
        return counter

    def _settle(self) -> None:
        """Until nothing is under way any more, three times: an answer may ask again."""
        for _ in range(3):
            wait_until(lambda: self._composed.desk.work.is_idle and self._counter_screen.has_its_day)
            QApplication.processEvents()

    def _clock(self) -> datetime:
        return self._now
