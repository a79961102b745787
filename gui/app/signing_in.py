"""Signing in and locking: who acts from now on, and screens that are covered when nobody is at the keys."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QEvent, QObject, QTimer, Slot
from PySide6.QtWidgets import QApplication, QDialog

from core.model.own_shop.access_records import NOBODY, SystemUser
from core.model.own_shop.settings_records import Person, ShopSettings
from core.services import decks
from core.services.own_shop import people
from core.services.own_shop.people import PinAnswer
from core.services.proving import system_users
from gui.app.main_window import Window
from gui.app.sign_in_page import SignInPage
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say

_TOUCHES = (
    QEvent.Type.KeyPress,
    QEvent.Type.MouseButtonPress,
    QEvent.Type.MouseMove,
    QEvent.Type.Wheel,
    QEvent.Type.TouchBegin,
)
_MINUTE_MS = 60_000


class SigningIn(QObject):
    """Knows the people of the shop, shows them when somebody signs in, and locks after the owner's minutes.

    While people are entered, nobody works under a name that is not one of them, nor under one with a PIN
    that was not typed here. Where nobody is entered, whoever is here works under the name given at the start.
    """

    def __init__(self, window: Window, desk: Desk, settings: ShopSettings) -> None:
        super().__init__(window)
        self._window = window
        self._desk = desk
        self._staff: tuple[Person, ...] = ()
        self._asks_proof = False
        self._is_start = True
        """Whether nobody was asked for a name here yet."""
        self._proven: set[str] = set()
        """Names under which somebody signed in here and was not locked out since."""
        self.is_locked = False
        """Whether the screens are covered and only somebody's name and PIN uncover them."""
        self._is_watching = False
        self.page = SignInPage()
        self._put_away: list[QDialog] = []
        self._idle = QTimer(self, singleShot=True)
        self._idle.timeout.connect(self.lock)
        self.page.chosen.connect(self._try)
        self.page.left.connect(self._leave)
        window.add_cover(self.page)
        window.wants_sign_in.connect(self._offer)
        window.banner.wants_sign_in.connect(self._offer_to)
        desk.work.changed.connect(self._look_again)
        self._know(settings)

    @Slot()
    def lock(self) -> None:
        """Cover the screens until somebody signs in; open dialogs are put away until then."""
        if not self._staff or self.is_locked:
            return
        self._proven.clear()
        self._cover(is_locked=True)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Whatever is done by hand begins the wait anew."""
        if event.type() in _TOUCHES:
            self._idle.start()
        return False

    # --- what the shop says --------------------------------------------------------------

    @Slot(object)
    def _look_again(self, changed: frozenset[str]) -> None:
        if "shop" in changed:
            self._desk.work.ask(decks.settings, then=self._know)

    def _know(self, settings: ShopSettings) -> None:
        self._staff, self._asks_proof = settings.working_staff, settings.asks_proof
        self._watch(settings.lock_minutes if self._staff else 0)
        if self._staff and not self._is_known():
            self._cover(is_locked=True)
            self._try_system_user()
        elif not self._staff and self._window.is_covered:
            self._uncover()

    def _is_known(self) -> bool:
        """Whether the name acting is one of the people, proven where they can be."""
        who = self._desk.who
        return any(each.name == who and (who in self._proven or self._is_free(each)) for each in self._staff)

    def _is_free(self, person: Person) -> bool:
        """Whether the name is enough: no PIN, and nothing else that proves them where proof is asked for."""
        return not person.pin and not (self._asks_proof and person.can_be_proven)

    def _try_system_user(self) -> None:
        """At the start: whoever runs the window is signed in where that is one of the people."""
        user, is_start = system_users.current(), self._is_start
        self._is_start = False
        theirs = [each.name for each in self._staff if user.is_one_of(each.system_users)]
        if is_start and theirs and self._desk.who in (theirs[0], NOBODY):
            self._sign_in(theirs[0], "", user)

    def _watch(self, minutes: int) -> None:
        app = QApplication.instance()
        assert app is not None
        if bool(minutes) is not self._is_watching:
            self._is_watching = bool(minutes)
            (app.installEventFilter if minutes else app.removeEventFilter)(self)
        self._idle.setInterval(minutes * _MINUTE_MS)
        (self._idle.start if minutes else self._idle.stop)()

    # --- the page ------------------------------------------------------------------------

    @Slot()
    def _offer(self) -> None:
        if not self._staff:
            self._window.banner.say(say("window", "sign-in-nobody"))
        elif not self._window.is_covered:
            self._cover(is_locked=False)

    @Slot(str)
    def _offer_to(self, name: str) -> None:
        """Somebody who may do what was refused signs in before the screen, which keeps what it shows."""
        if self._staff and not self._window.is_covered:
            self._cover(is_locked=False, at=name)

    def _cover(self, *, is_locked: bool, at: str = "") -> None:
        self.is_locked = is_locked
        self._put_dialogs_away()
        self.page.show_staff(self._staff, at or self._desk.who, is_locked=is_locked)
        self._window.cover(self.page)
        self.page.take_focus()

    @Slot()
    def _leave(self) -> None:
        if not self.is_locked:
            self._uncover()

    @Slot(str, str)
    def _try(self, name: str, pin: str) -> None:
        """With the user of this computer where no PIN can be typed: then nothing else keeps them apart."""
        has_pin = any(each.name == name and each.pin for each in self._staff)
        self._sign_in(name, pin, None if has_pin else system_users.current())

    def _sign_in(self, name: str, pin: str, user: SystemUser | None) -> None:
        self._desk.work.run(
            people.sign_in,
            name,
            pin,
            system_user=user,
            then=partial(self._answered, name),
            otherwise=self._window.banner.refuse,
            changes=frozenset(),
        )

    def _answered(self, name: str, answer: PinAnswer) -> None:
        if not answer.is_right:
            self.page.tell(answer.sentence)
            self.page.pin.setFocus()
            return
        self._proven.add(name)
        self._desk.act_as(name)
        self._window.show_who()
        self._uncover()
        self._desk.work.changed.emit(frozenset({"who"}))

    def _uncover(self) -> None:
        self.is_locked = False
        self._window.uncover()
        for dialog in self._put_away:
            dialog.show()
        self._put_away.clear()

    def _put_dialogs_away(self) -> None:
        """Nothing stays in front: dialogs come back later, lists and menus that hang open are closed."""
        while (hanging := QApplication.activePopupWidget()) is not None:
            hanging.close()
        for widget in QApplication.topLevelWidgets():
            if isinstance(widget, QDialog) and widget.isVisible():
                widget.hide()
                self._put_away.append(widget)
