"""Few keys: a caller is answered with six at most from any screen, a tape is added with two and its label."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from tests.support import klm
from tests.support.booked import line
from tests.support.counting import ALT, Clerk, clerk_at
from tests.support.screens import Place, press, press_text

SCREENS = (CounterScreen, PhoneScreen, BenchScreen, PickupScreen, ShopScreen)
MOST_KEYS = 6


@pytest.fixture
def window(place: Place) -> Place:
    """The window with all its screens, and a job of two tapes in the shop."""
    place.records.book(line(count=2))
    screens = {kind.name.lower(): kind(place.desk) for kind in SCREENS}
    place.window.add_screens(place.desk, "The Tape Table", screens)
    place.window.show()
    place.window.activateWindow()
    place.qtbot.waitExposed(place.window)
    place.settle()
    return place


@pytest.mark.parametrize("said", ["18", "0142"], ids=["job number", "last digits of the phone"])
@pytest.mark.parametrize("name", [kind.name.lower() for kind in SCREENS])
def test_a_caller_is_answered_with_six_keys_at_most_from_any_screen(
    window: Place, name: str, said: str
) -> None:
    window.window.go(name)
    window.settle()
    effort = klm.answer_a_caller(said)
    phone = window.window.screen_named("phone")
    assert isinstance(phone, PhoneScreen)
    window.qtbot.waitUntil(lambda: phone.answer.spoken.startswith("Ada's two tapes"))
    assert effort.keys <= MOST_KEYS
    assert effort.seconds <= 0.6 * effort.by_mouse_s


def test_the_longest_number_among_ten_thousand_jobs_takes_six_keys_too(window: Place) -> None:
    """Leading zeros are left out, so that a number has five digits until the ten-thousandth job."""
    assert klm.answer_a_caller("99996").keys == MOST_KEYS


def test_a_row_takes_its_label_and_two_keys(place: Place) -> None:
    clerk = clerk_at(place)
    clerk.count(format="vhs", marking="t120")
    clerk.counter.parts.table.put_cursor(0, clerk.counter.parts.rows.column_named("label"))
    efforts = [klm.add_a_row(), klm.add_a_row()]
    clerk.counter.parts.table.commit()
    assert [row[1:3] + row[7:] for row in clerk.cell_texts[1:3]] == [["VHS", "T-120", klm.LABEL]] * 2
    assert [effort.keys for effort in efforts] == [len(klm.LABEL) + 2] * 2
    assert efforts[0].seconds <= 0.6 * efforts[0].by_mouse_s


def test_a_key_is_counted_once_and_one_held_down_counts_too(place: Place) -> None:
    clerk: Clerk = clerk_at(place)
    assert clerk.counter.isVisible()

    def keys() -> None:
        press_text("vh")
        press(Qt.Key.Key_Escape)
        press(Qt.Key.Key_N, ALT)

    assert klm.counted(keys) == 2 + 1 + 2
