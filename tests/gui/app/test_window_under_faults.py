"""The window when answers are lost, servers are down, and others work in the same shop."""

from __future__ import annotations

import functools
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from time import monotonic

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.model.errors import TapewrightError
from core.model.typed_draft import TypedBox, TypedRow
from core.services import drafts, jobs
from core.services.records_door import Shop
from core.store import silence
from core.wording.messages import say
from gui.app import composition, link_strip, opening_again
from gui.app.composition import CompositionRoot, compose
from gui.app.main_window import Window
from gui.bench.bench_screen import BenchScreen
from gui.counter import local_draft
from gui.counter.counter_screen import CounterScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.toolkit import counter_place, theme
from tests.support.booked import MORNING, Clock, line, quoted
from tests.support.faults.lossy_link import LossyLink, lossy_link
from tests.support.screens import Place, written

BOX = TypedBox(rows=(TypedRow(count="2", format="VHS", marking="T-120"),), name="Ada Fenwick")
BOOKED = (b"INSERT INTO jobs", b"COMMIT")
Opened = Callable[[str], tuple[Window, CompositionRoot]]


@pytest.fixture
def opened(
    qtbot: QtBot, qapp: QApplication, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Opened]:
    """Opens whole windows, as the program does."""
    theme.apply(qapp)
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(composition, "_log_to_file", lambda: tmp_path / "log" / "tapewright.log")
    monkeypatch.setattr(composition, "_data_folder", lambda: tmp_path / "data")
    windows: list[Window] = []

    def start(where: str) -> tuple[Window, CompositionRoot]:
        window = Window()
        qtbot.addWidget(window)
        window.show()
        windows.append(window)
        return window, compose(
            window, where, "Kim", lambda: MORNING, tmp_path / "papers", tmp_path / "practice"
        )

    yield start
    for window in windows:
        window.close()


@pytest.fixture
def link(server_shop: str) -> Iterator[LossyLink]:
    with lossy_link(server_shop) as made:
        yield made


def _opened_shop(window: Window, root: CompositionRoot, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: window.screen_on_show() is not None)
    qtbot.waitUntil(lambda: root.desk.work.is_idle)


def test_nobody_sits_before_a_silent_window_for_five_seconds() -> None:
    assert link_strip.TOLD_AFTER_S + link_strip._LOOK_MS / 1000 < 5


@pytest.mark.postgres
def test_an_answer_that_never_comes_is_told_and_the_window_can_be_closed(
    opened: Opened, link: LossyLink, server_shop: str, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(link_strip, "TOLD_AFTER_S", 0.5)
    monkeypatch.setattr(silence, "CLOSING_SECONDS", 1.0)
    window, root = opened(link.url)
    _opened_shop(window, root, qtbot)
    work = root.desk.work
    with Shop.open(server_shop, clock=Clock(), who="Kim", create=False) as there:
        quote = quoted(there)
        link.swallows_after = BOOKED
        work.run(jobs.book, quote)
        qtbot.waitUntil(lambda: window.link.sentence != "")
        assert window.link.sentence in (say("window", "still_waiting"), say("window", "cut_off"))
        assert not work.is_idle
        begun = monotonic()
        window.close()
        assert monotonic() - begun < 10  # and not for ever; most of a second where nothing else is at work
        assert len(there.ask(jobs.open_jobs)) == 1


@pytest.mark.postgres
def test_a_box_booked_again_after_a_lost_answer_is_stored_once(
    opened: Opened, link: LossyLink, server_shop: str, qtbot: QtBot
) -> None:
    window, root = opened(link.url)
    _opened_shop(window, root, qtbot)
    shop = root.desk.work._shop
    assert shop is not None
    shop.database.patience.seconds = 0.5
    counter = window.screen_on_show()
    assert isinstance(counter, CounterScreen)
    counter.draft.begin(BOX)
    assert replace(counter.draft.box, command="") == BOX
    qtbot.waitUntil(lambda: counter.quote is not None and counter.has_its_day)
    link.swallows_after = BOOKED
    counter.booking.book()
    qtbot.waitUntil(lambda: window.banner.sentence != "")
    assert counter.job is None
    link.heal()
    shop.database.patience.seconds = silence.SILENT_SECONDS

    def is_booked() -> bool:
        """Whoever sees that it was not booked presses the key again."""
        if counter.job is None and root.desk.work.is_idle:
            counter.booking.book()
        return counter.job is not None

    qtbot.waitUntil(is_booked)
    with Shop.open(server_shop, clock=Clock(), who="Kim", create=False) as there:
        assert [job.number for job in there.ask(jobs.open_jobs)] == ["000018"]


@pytest.mark.postgres
def test_a_server_that_is_down_at_the_start_is_tried_again(
    opened: Opened, link: LossyLink, qtbot: QtBot
) -> None:
    link.cut()
    window, root = opened(link.url)
    first = say("window", "opening_again", seconds=opening_again.PAUSES_S[0])
    qtbot.waitUntil(lambda: first in written(window))
    second = say("window", "opening_again", seconds=opening_again.PAUSES_S[1])
    qtbot.waitUntil(lambda: second in written(window))
    link.heal()
    _opened_shop(window, root, qtbot)
    assert first not in written(window)


def test_a_window_that_waits_for_its_server_can_be_closed(opened: Opened, qtbot: QtBot) -> None:
    window, _ = opened("postgresql://nobody@127.0.0.1:9/nowhere")
    qtbot.waitUntil(lambda: say("window", "opening_again", seconds=1) in written(window))
    begun = monotonic()
    window.close()
    assert monotonic() - begun < 5


@pytest.mark.parametrize("kind", ["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def test_the_bench_of_another_window_learns_of_a_new_box(
    opened: Opened, kind: str, request: pytest.FixtureRequest, qtbot: QtBot
) -> None:
    where = (
        request.getfixturevalue("file_desk").where
        if kind == "sqlite"
        else request.getfixturevalue("server_shop")
    )
    window, root = opened(where)
    _opened_shop(window, root, qtbot)
    window.go("bench")
    qtbot.waitUntil(lambda: root.desk.work.is_idle)
    bench = window.screen_on_show()
    assert isinstance(bench, BenchScreen)
    assert not bench.list.pieces
    with Shop.open(where, clock=Clock(), who="Lee", create=False) as other:
        job = other.run(jobs.book, quoted(other, line(count=2)))
    codes = {tape.code for tape in job.tapes}
    qtbot.waitUntil(lambda: codes <= {piece.key for piece in bench.list.pieces})


@pytest.mark.postgres
def test_a_window_that_was_cut_off_says_so_and_is_right_again_afterwards(
    opened: Opened, link: LossyLink, server_shop: str, qtbot: QtBot
) -> None:
    window, root = opened(link.url)
    _opened_shop(window, root, qtbot)
    window.go("bench")
    qtbot.waitUntil(lambda: root.desk.work.is_idle)
    link.cut()
    qtbot.waitUntil(lambda: window.link.sentence == say("window", "cut_off"))
    with Shop.open(server_shop, clock=Clock(), who="Lee", create=False) as other:
        job = other.run(jobs.book, quoted(other))
    link.heal()
    bench = window.screen_on_show()
    assert isinstance(bench, BenchScreen)
    codes = {tape.code for tape in job.tapes}
    qtbot.waitUntil(lambda: codes <= {piece.key for piece in bench.list.pieces})
    qtbot.waitUntil(lambda: window.link.sentence == "")


def test_one_bug_in_a_hand_back_does_not_keep_the_next_from_being_done(
    place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    from core.services import pickups
    from gui.pickup.checklist import Checklist

    job = place.records.book()
    back = place.turn_to(PickupScreen)._hand_back
    failed: list[TapewrightError] = []
    back.failed.connect(failed.append)

    @functools.wraps(pickups.hand_back)
    def break_off(*_: object, **__: object) -> None:
        raise ZeroDivisionError

    with monkeypatch.context() as broken:
        broken.setattr(pickups, "hand_back", break_off)
        back.run(Checklist(job), place.records.signature, 0, "")
        place.qtbot.waitUntil(lambda: bool(place.bugs))
    place.bugs.clear()
    assert not back.is_under_way


def test_a_screen_that_fails_over_an_answer_keeps_nothing_from_the_others(place: Place, qtbot: QtBot) -> None:
    told: list[frozenset[str]] = []
    place.work.changed.connect(told.append)

    def fail(_: object) -> None:
        raise ZeroDivisionError

    with qtbot.captureExceptions() as caught:
        place.work.run(drafts.keep, "another counter", BOX, then=fail)
        qtbot.waitUntil(lambda: bool(told))
    assert [kind for kind, *_ in caught] == [ZeroDivisionError]
    assert place.work.is_idle


@pytest.mark.postgres
def test_a_counter_that_is_cut_off_goes_on_quoting_and_keeps_its_draft_on_this_computer(
    opened: Opened, link: LossyLink, server_shop: str, qtbot: QtBot, tmp_path: Path
) -> None:
    def kept_here() -> list[Path]:
        return list((tmp_path / "data" / "drafts").rglob("*.json"))

    window, root = opened(link.url)
    _opened_shop(window, root, qtbot)
    counter = window.screen_on_show()
    assert isinstance(counter, CounterScreen)
    link.cut()
    qtbot.waitUntil(lambda: window.link.sentence == say("window", "cut_off"))
    counter.draft.begin(BOX)
    assert replace(counter.draft.box, command="") == BOX
    qtbot.waitUntil(lambda: counter.quote is not None and counter.has_its_day)
    assert counter.quote is not None
    assert counter.quote.price.gross.likely > 0
    counter.autosave.save_soon()
    qtbot.waitUntil(lambda: bool(kept_here()))
    link.heal()
    with Shop.open(server_shop, clock=Clock(), who="Lee", create=False) as other:
        qtbot.waitUntil(lambda: other.ask(drafts.kept, counter.autosave.key) == counter.draft.box)
    qtbot.waitUntil(lambda: not kept_here())
    assert window.banner.sentence == ""


@pytest.mark.postgres
def test_a_draft_kept_on_this_computer_comes_back_after_a_power_cut(
    opened: Opened, server_shop: str, qtbot: QtBot, tmp_path: Path
) -> None:
    """It is newer than what the records hold."""
    place = counter_place.take(tmp_path / "data")
    place.release()
    local_draft.LocalDraft(composition._drafts_of(server_shop), f"counter {place.name}").keep(BOX)
    window, root = opened(server_shop)
    _opened_shop(window, root, qtbot)
    counter = window.screen_on_show()
    assert isinstance(counter, CounterScreen)
    qtbot.waitUntil(lambda: replace(counter.draft.box, command="") == BOX)
    qtbot.waitUntil(lambda: not list((tmp_path / "data").rglob("*.json")))
