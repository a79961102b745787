"""Everything that comes after the first paint: the records, the screens, the border of failure."""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Callable, Iterator, Mapping
from datetime import datetime
from functools import partial
from io import TextIOWrapper
from pathlib import Path

from platformdirs import user_data_path, user_log_path
from PySide6.QtCore import QObject, QUrl, Slot
from PySide6.QtGui import QDesktopServices

from core.model import private_files
from core.model.errors import NoShopYet, TapewrightError, Unreachable
from core.model.own_shop.settings_records import ShopFront, ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services import decks
from core.services.own_shop import readiness, shop_settings
from core.services.own_shop.readiness import Readiness
from core.services.records_door import Shop, as_shown
from core.services.shop_places import shop_folders
from core.wording import messages, own_words, shop_clock
from core.wording.messages import say
from gui.app.backup_care import BackupCare
from gui.app.customer_facing import CustomerFacing
from gui.app.main_window import Window
from gui.app.opening_again import OpeningAgain
from gui.app.signing_in import SigningIn
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.customer_side.customer_window import CustomerSide
from gui.first_run import practice_place
from gui.first_run.first_question import FirstQuestion
from gui.first_run.set_up_screen import SetUpScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.chapter import import_chapters
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import counter_place
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.unexpected_errors import ErrorBoundary
from gui.toolkit.workers import Work

SET_UP = "set-up"


def compose(
    window: Window,
    where: str | None,
    who: str,
    clock: Callable[[], datetime],
    papers: Path | None = None,
    practice: Path | None = None,
) -> CompositionRoot:
    """Open the shop at ``where`` (default: the user's data folder) behind ``window``.

    ``practice``: the folder of the invented shop, by default in the data folder as well.
    """
    place = practice or _data_folder() / "practice"
    return CompositionRoot(
        window, where or _usual_shop(), who, clock, papers or shop_folders.papers(where), place
    )


class CompositionRoot(QObject):
    """Waits for the shop to open, then hands every screen its desk; asks first where there is no shop yet."""

    def __init__(
        self,
        window: Window,
        where: str,
        who: str,
        clock: Callable[[], datetime],
        papers: Path,
        practice: Path,
    ) -> None:
        super().__init__(window)
        self._window = window
        self._who = who
        self._clock = clock
        self._own, self._own_papers = where, papers
        self._practice = practice
        self._place = counter_place.take(_data_folder())
        self._border = ErrorBoundary(window, _log_to_file())
        self._border.watch()
        self._customer_side: CustomerSide | None = None
        self._set_up: SetUpScreen | None = None
        self.signing_in: SigningIn | None = None
        self._again = OpeningAgain(window, self._try_again)
        self._connect()
        self._open(where, papers, create=False)

    def _connect(self) -> None:
        window = self._window
        window.wants_practice_afresh.connect(self._practise_afresh)
        window.wants_to_leave_practice.connect(self._leave_practice)
        window.banner.wants_page.connect(self._fill_in)
        window.closed.connect(self._close)
        window.closed.connect(self._leave_place)

    @property
    def desk(self) -> Desk:
        return self._desk

    @property
    def customer_side(self) -> CustomerSide:
        """The window for the customer; there once the shop was read."""
        assert self._customer_side is not None
        return self._customer_side

    # --- which shop ----------------------------------------------------------------------

    def _open(self, where: str, papers: Path, *, create: bool) -> None:
        """Open a shop; `_read_settings` follows, or `_was_not_opened`."""
        self._where = where

        def open_shop() -> Shop:
            return Shop.open(where, clock=self._clock, who=self._who, create=create)

        self._work = Work(open_shop, self)
        self._work.broke.connect(self._border.report)
        self._work.opened.connect(self._read_settings)
        self._work.refused.connect(self._was_not_opened)
        self._desk = Desk(self._work, self._clock, self._who, papers, show_file, self._place.name)
        self._desk.drafts = _drafts_of(where)
        self._window.link.follow(self._work)
        self._work.open()

    @Slot()
    def _try_again(self) -> None:
        self._work.open()

    @Slot(object)
    def _was_not_opened(self, failure: TapewrightError) -> None:
        if isinstance(failure, NoShopYet):
            self._ask_first()
        elif isinstance(failure, Unreachable):
            self._again.pause()
        else:
            self._window.banner.refuse(failure)

    def _ask_first(self) -> None:
        question = FirstQuestion(as_shown(self._own))
        question.wants_own_shop.connect(self._begin_own)
        question.wants_practice.connect(self._practise)
        self._window.show_alone(question)

    @Slot()
    def _begin_own(self) -> None:
        self._reopen(self._own, self._own_papers, create=True)

    @Slot()
    def _practise(self) -> None:
        made = practice_place.newest(self._practice)
        if made is None:
            self._practise_afresh()
        else:
            self._open_practice(made)

    @Slot()
    def _practise_afresh(self) -> None:
        """Make another invented shop and open it; the one before stays where it is."""
        self._window.say_waiting(say("settings", "first-making-practice"))
        self._work.compute_long(
            partial(practice_place.made, self._practice, self._clock(), messages.current().language),
            then=self._open_practice,
            otherwise=self._was_not_made,
        )

    def _was_not_made(self, failure: TapewrightError) -> None:
        self._ask_first()
        self._window.banner.refuse(failure)

    def _open_practice(self, shop: Path) -> None:
        self._reopen(str(shop), shop.parent / "papers", create=False)

    @Slot()
    def _leave_practice(self) -> None:
        """To the shop of one's own, or to the first question where there is none yet."""
        if self._where == self._own:
            self._own, self._own_papers = _usual_shop(), shop_folders.papers(None)
        self._reopen(self._own, self._own_papers, create=False)

    def _reopen(self, where: str, papers: Path, *, create: bool) -> None:
        self._window.say_waiting(say("window", "opening"))
        self._close()
        self._work.deleteLater()
        if self.signing_in is not None:
            self.signing_in.deleteLater()
            self.signing_in = None
        if self._customer_side is not None:
            self._customer_side.close()
            self._customer_side.deleteLater()
            self._customer_side = None
        self._open(where, papers, create=create)

    @Slot()
    def _close(self) -> None:
        """Nobody waits any more for what is under way; what was to be stored is stored."""
        self._again.end()
        self._window.link.end()
        self._work.abandon()

    @Slot()
    def _leave_place(self) -> None:
        """The next window may have this one's number, and finds its draft."""
        self._place.release()

    # --- moving in -----------------------------------------------------------------------

    @Slot()
    def _read_settings(self) -> None:
        self._again.end()
        self._work.ask(readiness.with_settings, then=self._move_in)

    def _move_in(self, found: tuple[ShopSettings, Readiness]) -> None:
        self._heed(found[0])
        self._set_up = None
        self._work.changed.connect(self._note_settings)
        self._work.turns.take(self._moving_in(*found))

    def _moving_in(self, settings: ShopSettings, found: Readiness) -> Iterator[None]:
        """Screen by screen, so that the window is there meanwhile; together they take over half a second."""
        front = settings.front
        counter = CounterScreen(self._desk)
        yield
        self._facing = CustomerFacing(self._window, self._desk, settings)
        self._customer_side = self._facing.side
        self._facing.follow_counter(counter)
        screens: dict[str, Screen] = {"counter": counter}
        yield from import_chapters()
        for name, make in self._makers(front).items():
            yield
            screens[name] = make()
        for screen in screens.values():
            yield
            self._window.lay(screen)
        yield
        if self._set_up is not None:
            yield from self._set_up.make_pages()
        self._connect_screens(screens, counter)
        self._work.refused.disconnect(self._was_not_opened)
        is_set_up_first = self._set_up is not None and bool(self._set_up.pages) and not found.is_ready
        first = SET_UP if is_set_up_first else "counter"
        self._window.add_screens(self._desk, front.name, screens, first=first, is_practice=front.practice)
        self._work.watch()
        self.signing_in = SigningIn(self._window, self._desk, settings)
        self._look_after_backups()

    def _makers(self, front: ShopFront) -> dict[str, Callable[[], Screen]]:
        """How each screen is made but the Counter."""
        self._set_up = None
        makers: dict[str, Callable[[], Screen]] = {
            "phone": partial(PhoneScreen, self._desk),
            "bench": partial(BenchScreen, self._desk),
            "pickup": partial(PickupScreen, self._desk),
            "shop": partial(ShopScreen, self._desk),
        }
        if not front.practice:
            makers[SET_UP] = self._make_set_up
        return makers

    def _make_set_up(self) -> SetUpScreen:
        made = self._set_up = SetUpScreen(self._desk)
        made.finished.connect(self._to_counter)
        return made

    def _connect_screens(self, screens: Mapping[str, Screen], counter: CounterScreen) -> None:
        shop, bench, phone = screens["shop"], screens["bench"], screens["phone"]
        assert isinstance(shop, ShopScreen)
        assert isinstance(bench, BenchScreen)
        assert isinstance(phone, PhoneScreen)
        pickup = screens["pickup"]
        assert isinstance(pickup, PickupScreen)
        self._facing.follow_pickup(pickup)
        shop.wants_page.connect(self._fill_in)
        shop.wants_tape.connect(self._to_bench)
        shop.wants_tape.connect(bench.take)
        phone.amend_wanted.connect(self._to_counter)
        phone.amend_wanted.connect(counter.amend)

    @Slot(object)
    def _note_settings(self, changed: frozenset[str]) -> None:
        """The shop's own sentences are said from now on."""
        if "shop" in changed:
            self._work.ask(decks.settings, then=self._heed)

    def _heed(self, settings: ShopSettings) -> None:
        _speak(settings)
        self._window.scans.watch.prefix = settings.scanner_prefix

    def _look_after_backups(self) -> None:
        care = BackupCare(self._work, self._work)
        care.refused.connect(self._window.banner.refuse)
        self._window.closed.connect(care.end)
        care.begin()

    @Slot(object)
    def _fill_in(self, page: SetupPage) -> None:
        """To the page of the set-up without which something cannot be done."""
        if self._set_up is not None:
            self._set_up.open_at(page)
            self._window.go(SET_UP)

    @Slot()
    def _to_bench(self) -> None:
        self._window.go("bench")

    @Slot()
    def _to_counter(self) -> None:
        self._window.go("counter")


def _data_folder() -> Path:
    return user_data_path("Tapewright", appauthor=False)


def _speak(settings: ShopSettings) -> None:
    """Speak as the shop does; nobody has said yet which language a new one speaks."""
    front = settings.front
    shop_clock.use(front.timezone)
    if settings != shop_settings.new_shop():
        messages.use(front.language, own=own_words.of(front.language, front.words))


def _usual_shop() -> str:
    return str(_data_folder() / "shop.sqlite")


def _drafts_of(where: str) -> Path:
    """A folder for each shop; its name does not tell the address, which may hold a password."""
    return _data_folder() / "drafts" / hashlib.sha256(where.encode()).hexdigest()[:32]


class LogFile(logging.FileHandler):
    """A log whose folder, too, is made with its first line only."""

    def _open(self) -> TextIOWrapper:
        file = Path(self.baseFilename)
        private_files.tighten(private_files.make_folder(file.parent))
        private_files.make_file(file)
        return super()._open()


def _log_to_file() -> Path:
    file = user_log_path("Tapewright", appauthor=False) / "tapewright.log"
    log = logging.getLogger("tapewright")
    if not log.handlers:
        log.addHandler(LogFile(file, delay=True))
    return file


def show_file(file: Path) -> None:
    """Hand a finished PDF to the system's viewer."""
    QDesktopServices.openUrl(QUrl.fromLocalFile(str(file)))
