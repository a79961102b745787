"""Whatever the clerk does, the person in front sees only the order on the counter at the present moment."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.model.job_records import Job
from core.model.stations import Station
from core.store import current_settings
from gui.app.customer_facing import CustomerFacing
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.customer_side.customer_window import CustomerSide
from gui.customer_side.shown_order import COUNTER, PICKUP, Facing, ShownOrder
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.toolkit.screen import Screen
from gui.toolkit.text import say
from gui.widgets.signature_pad import SignaturePad
from tests.facing import facing_samples
from tests.support.booked import line
from tests.support.counting import CONTROL, Clerk
from tests.support.screens import Place, press, press_text

QUOTE, SHEET, PICKED = facing_samples.quote(3), facing_samples.sheet(3), facing_samples.pickup(3)
MOMENTS = (COUNTER, "phone", "bench", PICKUP, "shop", "set-up")


@given(
    st.builds(
        ShownOrder,
        moment=st.sampled_from(MOMENTS),
        quote=st.sampled_from((None, QUOTE)),
        job=st.sampled_from((None, facing_samples.job(3))),
        is_choosing=st.booleans(),
        sheet=st.sampled_from((None, SHEET)),
        pickup=st.sampled_from((None, PICKED)),
    )
)
def test_the_page_follows_from_the_moment(order: ShownOrder) -> None:
    facing = order.facing
    if order.moment == PICKUP:
        assert facing is (Facing.PICKUP if order.pickup else Facing.GREETING)
    else:
        assert facing is not Facing.PICKUP
    if facing is Facing.BOOKED:
        assert order.moment == COUNTER
        assert order.job is not None
    if facing in (Facing.QUOTE, Facing.WAYS):
        assert order.quote is not None
        assert order.job is None
    if facing is Facing.SIGNING:
        assert order.sheet is not None


def test_quote_then_ways_then_sign() -> None:
    order = ShownOrder()
    assert order.facing is Facing.GREETING
    order = replace(order, quote=QUOTE)
    assert order.facing is Facing.QUOTE
    order = replace(order, is_choosing=True)
    assert order.facing is Facing.WAYS
    order = replace(order, sheet=SHEET)
    assert order.facing is Facing.SIGNING
    assert replace(order, sheet=None, job=facing_samples.job(3)).facing is Facing.BOOKED


# --- the real screens --------------------------------------------------------------------

OTHERS = (
    ("Zelda Quince", "betamax", "attic box"),
    ("Bo Marsh", "hi8", "the lake"),
    ("Ira Vane", "minidv", "recital"),
)
"""Orders in the records: whose they are, what they hold and what is written on the tapes."""


@dataclass
class Shop:
    """A window with its screens and the Customer side, and whose order may be seen now."""

    place: Place
    clerk: Clerk
    facing: CustomerFacing
    jobs: tuple[Job, ...]
    open_at_pickup: Job | None = None
    moment: str = COUNTER

    @property
    def counter(self) -> CounterScreen:
        return self.clerk.counter

    def go(self, name: str) -> None:
        self.place.window.go(name)
        self.moment = name
        self.place.settle()

    def find(self, name: str, job: Job) -> None:
        """Look for somebody else's order, on the phone, at the bench or at Pickup."""
        self.go(name)
        self.place.window.activateWindow()
        self.place.window.screen_named(name).take_focus()
        press_text(job.tapes[0].code if name == "bench" else job.customer.name)
        press(Qt.Key.Key_Return)
        self.place.settle()
        if name == PICKUP:
            self.open_at_pickup = job

    def leave(self) -> None:
        press(Qt.Key.Key_Escape)
        self.place.settle()
        if self.moment == PICKUP:
            self.open_at_pickup = None

    def count(self) -> None:
        self.go(COUNTER)
        self.counter.take_focus()
        press_text("2")
        press(Qt.Key.Key_Return)
        press_text("vhs")
        press(Qt.Key.Key_Return)
        self.place.settle()

    def amend(self, job: Job) -> None:
        """A caller's order is opened again at the Counter."""
        self.find("phone", job)
        self.go(COUNTER)
        self.counter.amend(job.number)
        self.place.settle()

    def begin_another(self) -> None:
        self.go(COUNTER)
        press(Qt.Key.Key_N, CONTROL)
        self.place.settle()


def steps(shop: Shop) -> list[Callable[[], None]]:
    found: list[Callable[[], None]] = [shop.count, shop.begin_another, shop.leave]
    found += [partial(shop.go, name) for name in ("counter", "phone", "bench", "pickup")]
    for name in ("phone", "bench", PICKUP, PICKUP):
        found += [partial(shop.find, name, job) for job in shop.jobs]
    found += [partial(shop.amend, job) for job in shop.jobs]
    return found


def traces(job: Job) -> tuple[str, ...]:
    """What would tell this order from others."""
    return (job.customer.name, str(job.number), *(tape.label for tape in job.tapes))


@pytest.fixture
def shop(place: Place, monkeypatch: pytest.MonkeyPatch) -> Shop:
    """The Customer side on a screen of its own, as far as Esc is concerned."""
    jobs = tuple(
        place.records.book(replace(line(kind, count=2, marking=None, speed=None), label=label), name=name)
        for name, kind, label in OTHERS
    )
    screens: dict[str, Screen] = {
        "counter": CounterScreen(place.desk),
        "phone": PhoneScreen(place.desk),
        "bench": BenchScreen(place.desk),
        "pickup": PickupScreen(place.desk),
    }
    counter, pickup = screens["counter"], screens["pickup"]
    assert isinstance(counter, CounterScreen)
    assert isinstance(pickup, PickupScreen)
    settings = place.records.shop.ask(current_settings.read)
    facing = CustomerFacing(place.window, place.desk, settings)
    facing.follow_counter(counter)
    facing.follow_pickup(pickup)
    place.window.add_screens(place.desk, "The Tape Table", screens)
    place.window.show()
    place.window.activateWindow()
    place.qtbot.waitExposed(place.window)
    monkeypatch.setattr(facing.side._screens, "now", QApplication.primaryScreen)
    facing.side.show()
    place.window.activateWindow()
    place.settle()
    return Shop(place, Clerk(place, counter), facing, jobs)


def _told(step: Callable[[], None]) -> str:
    """The step in a word or two, for whoever reads how it failed."""
    if isinstance(step, partial):
        return " ".join(
            [step.func.__name__, *(each if isinstance(each, str) else each.number for each in step.args)]
        )
    return step.__name__


@pytest.mark.parametrize("seed", range(2))
def test_no_other_order_shows_whatever_the_clerk_does(shop: Shop, seed: int) -> None:
    """Two dozen steps drawn by lot: counting, calls, the bench, pickups, changes to booked orders."""
    lot, seen = random.Random(seed), set()
    done: list[str] = []
    for _ in range(24):
        step = lot.choice(steps(shop))
        step()
        done.append(_told(step))
        assert shop.facing.side.isVisible()
        words = shop.facing.side.words
        seen.add(shop.facing.side.page.objectName())
        mine = shop.open_at_pickup if shop.moment == PICKUP else None
        for job in shop.jobs:
            if job is not mine:
                assert not any(trace in words for trace in traces(job)), (done, words)
        if shop.moment == PICKUP and mine is None:
            assert on_show(shop.facing.side) == "customer-greeting", done
        assert QApplication.activeWindow() is not shop.facing.side
    assert len(seen) > 1, done


def test_pickup_shows_what_is_collected_owed_and_signed_and_no_word_for_the_clerk(shop: Shop) -> None:
    """The same ink on both pads, from the hand of either."""
    job, side = shop.jobs[0], shop.facing.side
    for tape in job.tapes:
        shop.place.records.bring_to(tape, Station.READY)
    shop.find(PICKUP, job)
    assert on_show(side) == "customer-pickup"
    assert not side.pickup.box.isVisible(), "nothing is checked off yet"
    pickup = shop.place.window.screen_named(PICKUP)
    assert isinstance(pickup, PickupScreen)
    pickup.scan(job.tapes[0].code)
    shop.place.settle()
    for words in (job.customer.name, job.tapes[0].label, say("customer", "pickup_counted")):
        assert words in side.words
    assert say("paper", "receipt-told_plain") in side.words
    assert side.pickup.owed.words.splitlines()[-1].startswith("$")
    for key in ("tell", "ask_scan", "start", "ask_scan_hint"):
        assert say("pickup", key) not in side.words
    draw(side.pickup.box.pad)
    assert pickup.parts.slip.signing.pad.strokes() == side.pickup.box.pad.strokes() != ()
    pickup.parts.slip.signing.pad.clear()
    assert side.pickup.box.pad.is_empty
    draw(pickup.parts.slip.signing.pad)
    assert not side.pickup.box.pad.is_empty
    pickup._open_job(shop.jobs[1])
    assert side.pickup.box.pad.strokes() == (), "nobody signs with another's ink"


def on_show(side: CustomerSide) -> str:
    return side.page.objectName()


def draw(pad: SignaturePad) -> None:
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    QTest.mousePress(pad, left, none, QPoint(40, 60))
    QTest.mouseMove(pad, QPoint(200, 90))
    QTest.mouseRelease(pad, left, none, QPoint(200, 90))


def test_an_order_that_a_caller_changes_is_not_shown(shop: Shop) -> None:
    shop.amend(shop.jobs[0])
    assert shop.counter.amending.is_open
    assert on_show(shop.facing.side) == "customer-greeting"


def test_whoever_booked_has_left_when_the_clerk_comes_back(shop: Shop) -> None:
    side = shop.facing.side
    side.show_job(shop.jobs[1])
    assert str(shop.jobs[1].number) in side.words
    shop.go("bench")
    assert on_show(side) == "customer-greeting"
    shop.go(COUNTER)
    assert on_show(side) == "customer-greeting"


def test_a_call_in_between_leaves_the_box_on_the_counter_in_sight(shop: Shop) -> None:
    shop.count()
    side = shop.facing.side
    assert on_show(side) == "customer-quote"
    shop.find("phone", shop.jobs[0])
    assert on_show(side) == "customer-quote"
    shop.go(PICKUP)
    assert on_show(side) == "customer-greeting", "somebody else stands there"
    shop.go(COUNTER)
    assert on_show(side) == "customer-quote"


def test_the_ways_are_shown_while_they_are_at_hand_and_a_touch_chooses(shop: Shop) -> None:
    shop.count()
    side = shop.facing.side
    press(Qt.Key.Key_A, Qt.KeyboardModifier.AltModifier)
    shop.place.settle()
    assert on_show(side) == "customer-ways"
    offered = [way for way, card in side.ways.cards.items() if card.isVisible()]
    assert len(offered) > 1
    other = next(way for way in offered if not side.ways.cards[way].isChecked())
    side.ways.cards[other].click()
    shop.place.settle()
    assert shop.counter.draft.box.way is other
    assert side.ways.cards[other].isChecked()
    assert QApplication.activeWindow() is shop.place.window
    shop.counter.take_focus()
    assert on_show(side) == "customer-quote"
