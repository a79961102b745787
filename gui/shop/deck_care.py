"""Decks out of service and back, a day the shop stays shut, and what was counted of both."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QWidget

from core.catalogue import deck_service, hazards
from core.catalogue.deck_service import Service
from core.model.own_shop.settings_records import Deck
from core.scheduling import event_rates
from core.services import closed_days, decks
from core.services.event_counts import Breakdown
from core.services.shop_overview import ShopView
from core.wording import shop_clock
from gui.shop import counted_events
from gui.shop.chapter import Chapter
from gui.toolkit import theme
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import day, moment, say
from gui.widgets.caution_frame import caution_frame
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import PaperFrame, give_key, labelled, rule, words
from gui.widgets.tray import Tray, TrayItem

MOST_TOLD = 12


class DeckCare(PaperFrame):
    """The decks with their state; the key of the button takes the chosen one out, or puts it back."""

    out_wanted = Signal(str, str)
    """A deck, and what broke."""
    back_wanted = Signal(str, str)
    """A deck, and what was done."""
    shut_wanted = Signal(str)
    """Why the shop stays shut today."""

    def __init__(self, view: ShopView, deck: str = "") -> None:
        super().__init__("chapter-care")
        self._view = view
        self.decks = Tray("care-decks", say("shop", "care_decks"), always_lit=True)
        self.why = QLineEdit()
        self.why.setObjectName("care-why")
        self.why.setPlaceholderText(say("shop", "care_why_hint"))
        self.switch = QPushButton()
        self.switch.setObjectName("care-switch")
        self.shut = QPushButton(say("shop", "care_shut"))
        self.shut.setObjectName("care-shut")
        self._lay_out()
        self.decks.moved.connect(self._name_switch)
        self.decks.taken.connect(self._switch_taken)
        self.switch.clicked.connect(self._switch)
        self.shut.clicked.connect(self._stay_shut)
        self.decks.lay([_piece(each, view.outages) for each in view.settings.working_decks])
        self.decks.stand_on(deck) or self.decks.stand_on_first()
        self._name_switch(self.decks.current)

    @property
    def chosen(self) -> Deck | None:
        """The deck the keyboard stands on."""
        return next(
            (deck for deck in self._view.settings.working_decks if deck.name == self.decks.current), None
        )

    @Slot(str)
    def _name_switch(self, name: str) -> None:
        deck = self.chosen
        if deck is not None:
            self.switch.setText(say("shop", "care_out" if deck.in_service else "care_back", deck=name))

    @Slot(str)
    def _switch_taken(self, _: str) -> None:
        self.why.setFocus()

    @Slot()
    def _switch(self) -> None:
        deck = self.chosen
        if deck is not None:
            wanted = self.out_wanted if deck.in_service else self.back_wanted
            wanted.emit(deck.name, self.why.text().strip())

    @Slot()
    def _stay_shut(self) -> None:
        self.shut_wanted.emit(self.why.text().strip())

    def _lay_out(self) -> None:
        column = self.column
        column.addWidget(words(say("shop", "care"), "heading"))
        column.addWidget(words(say("shop", "care_lead")))
        self.decks.setFixedHeight(max(len(self._view.settings.working_decks), 2) * 6 * theme.UNIT + 4)
        column.addWidget(self.decks)
        column.addWidget(labelled(self.why, say("shop", "care_why")))
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        for button, keys in ((self.switch, "F6"), (self.shut, "F7")):
            give_key(button, keys)
            row.addWidget(button)
        row.addStretch(1)
        column.addLayout(row)
        column.addWidget(caution_frame(hazards.in_a_deck()))
        column.addWidget(rule())
        column.addWidget(_counted(self._view))


def _piece(deck: Deck, outages: tuple[Breakdown, ...]) -> TrayItem:
    """One deck; when it is out, since when and why."""
    if deck.in_service:
        return TrayItem(deck.name, deck.name, place=say("shop", "care_in"))
    now = next((each for each in reversed(outages) if each.deck == deck.name and not each.ended_at), None)
    why = ""
    if now is not None:
        since = day(shop_clock.day(now.began_at))
        why = say("shop", "care_since", day=since, why=now.words) if now.words else since
    return TrayItem(deck.name, deck.name, small=why, place=say("shop", "out_of_service"))


def _counted(view: ShopView) -> FactList:
    facts = FactList(20 * theme.UNIT)
    facts.add(say("shop", "care_failures"), [counted_events.failures(view), counted_events.repairs(view)])
    facts.add(say("plans", "service"), _service(view))
    facts.add(say("shop", "care_log"), _log(view))
    shut = [say("shop", "shut_day", day=day(each.day), why=each.words) for each in view.shut_unplanned]
    facts.add(say("shop", "care_shut_days"), shut[-MOST_TOLD:] or [say("shop", "care_no_shut")])
    return facts


def _service(view: ShopView) -> list[str]:
    """How often a deck is due at the pace of this shop; nothing while too few weeks were seen to tell."""
    hours_a_day = _hours_a_day(view)
    if not hours_a_day:
        return []
    lines = [_due(each, deck_service.years_until(each.hours, hours_a_day)) for each in deck_service.SERVICES]
    return [say("plans", "service_pace", hours=f"{hours_a_day:.1f}"), *lines]


def _due(service: Service, years: float) -> str:
    often = _often(years)
    return say("plans", service.name, hours=service.hours, often=often, source=service.source)


def _hours_a_day(view: ShopView) -> float:
    in_service = sum(deck.in_service for deck in view.settings.decks)
    if view.counted.weeks < event_rates.WEEKS_BEFORE_LEARNING or not in_service:
        return 0.0
    return view.counted.play_hours / (view.counted.weeks * 7) / in_service


def _often(years: float) -> str:
    """``2 years`` or ``5 months``: nobody plans a service to the day."""
    months = max(1, round(years * 12))
    if months == 1:
        return say("plans", "a_month")
    if months < 24:
        return say("plans", "months", count=months)
    return say("plans", "years", count=round(years))


def _log(view: ShopView) -> list[str]:
    """The newest breakdowns, each on a line."""
    zone = view.settings.front.timezone
    lines = []
    for each in reversed(view.outages[-MOST_TOLD:]):
        key = "care_broke" if each.ended_at is None else "care_mended"
        ended = moment(each.ended_at, zone) if each.ended_at else ""
        words_of = "; ".join(part for part in (each.words, each.mended) if part)
        told = say("shop", key, deck=each.deck, began=moment(each.began_at, zone), ended=ended)
        lines.append(f"{told}: {words_of}" if words_of else told)
    return lines or [say("shop", "care_no_log")]


class DeckCareChapter(Chapter):
    """Decks out of service and back, and the shop closed without a plan."""

    name = "care"
    place = 50

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._deck = ""

    def open(self, view: ShopView) -> QWidget:
        page = DeckCare(view, self._deck)
        page.decks.moved.connect(self._remember)
        page.out_wanted.connect(self._take_out)
        page.back_wanted.connect(self._put_back)
        page.shut_wanted.connect(self._close_today)
        return page

    @Slot(str)
    def _remember(self, deck: str) -> None:
        self._deck = deck

    @Slot(str, str)
    def _take_out(self, deck: str, why: str) -> None:
        self.change(decks.broke_down, deck, why)

    @Slot(str, str)
    def _put_back(self, deck: str, why: str) -> None:
        self.change(decks.back_in_service, deck, why)

    @Slot(str)
    def _close_today(self, why: str) -> None:
        self.change(closed_days.stayed_shut, shop_clock.day(self.desk.clock()), why)


CHAPTER = DeckCareChapter
