"""The box on the Counter is kept for this window alone, tried again where it failed, and asked about."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QMessageBox, QPushButton
from sqlalchemy import event

from core.model.typed_draft import TypedBox
from core.services import drafts
from core.wording.messages import say
from gui.counter.counter_screen import CounterScreen
from gui.toolkit import counter_place
from tests.support.counting import clerk_at
from tests.support.screens import Place


def kept(place: Place, key: str) -> str | None:
    box = place.records.shop.ask(drafts.kept, key)
    return box.name if isinstance(box, TypedBox) else None


class Full:
    """A disk that takes nothing while it is full."""

    def __init__(self, place: Place) -> None:
        self.is_full = True
        assert place.work._shop is not None
        event.listen(place.work._shop.database.writing, "before_cursor_execute", self._refuse)

    def _refuse(self, connection: object, cursor: object, statement: str, *rest: object) -> None:
        if self.is_full and "drafts" in statement:
            raise OSError(28, "No space left on device")


def type_a_name(place: Place, name: str = "Ada Fenwick") -> CounterScreen:
    clerk = clerk_at(place)
    clerk.count(format="vhs")
    clerk.name_the_customer(name)
    return clerk.counter


def test_two_windows_never_write_over_each_other(place: Place) -> None:
    """Both worked as "counter" before, and the second wrote over the first one's box."""
    place.records.shop.run(drafts.keep, "counter other", TypedBox(name="Bo Marsh"))
    place.desk.counter = "one"
    counter = type_a_name(place)
    counter.autosave.save_now()
    place.settle()
    assert (kept(place, "counter one"), kept(place, "counter other")) == ("Ada Fenwick", "Bo Marsh")
    clerk = clerk_at(place)
    assert clerk.counter.draft.box.name == "Ada Fenwick"
    clerk.book()
    place.settle()
    assert (kept(place, "counter one"), kept(place, "counter other")) == (None, "Bo Marsh")


def test_a_draft_of_an_earlier_program_is_taken_over_once(place: Place) -> None:
    place.records.shop.run(drafts.keep, "counter Kim", TypedBox(name="Ada Fenwick"))
    for number, name in (("one", "Ada Fenwick"), ("two", "")):
        place.desk.counter = number
        counter = place.turn_to(CounterScreen)
        place.settle()
        assert counter.draft.box.name == name
    assert kept(place, "counter one") == "Ada Fenwick"


def test_a_draft_that_could_not_be_saved_is_tried_again(place: Place) -> None:
    counter = type_a_name(place)
    full = Full(place)
    counter.autosave.save_now()
    place.settle()
    assert "full" in place.told
    assert counter.has_unkept
    full.is_full = False
    assert counter.autosave._again.isActive()
    counter.autosave._again.timeout.emit()
    place.settle()
    assert not counter.has_unkept
    assert kept(place, counter.autosave.key) == "Ada Fenwick"


@pytest.mark.parametrize("answer", ["closing_stay", "closing_lose", "closing_again"])
def test_closing_asks_where_the_box_cannot_be_saved(place: Place, answer: str) -> None:
    type_a_name(place)
    full = Full(place)
    assert place.window.close() is False
    (box,) = place.window.findChildren(QMessageBox, "closing")
    assert box.text() == say("window", "closing_not_kept")
    full.is_full = answer != "closing_again"
    (button,) = [each for each in box.findChildren(QPushButton) if each.text() == say("window", answer)]
    button.click()
    QApplication.processEvents()
    assert place.window.isVisible() is (answer == "closing_stay")
    full.is_full = False
    if answer == "closing_again":
        assert kept(place, "counter 1") == "Ada Fenwick"


def test_closing_asks_nothing_where_all_is_saved(place: Place) -> None:
    type_a_name(place)
    assert place.window.close()
    assert kept(place, "counter 1") == "Ada Fenwick"


def test_every_window_of_a_computer_has_a_place_of_its_own_and_finds_it_again(tmp_path: Path) -> None:
    first, second = counter_place.take(tmp_path), counter_place.take(tmp_path)
    assert first.name != second.name
    first.release()
    again = counter_place.take(tmp_path)
    assert again.name == first.name
    assert counter_place.take(tmp_path / "elsewhere").name != first.name, "another computer"
    assert len(f"counter {first.name}") <= 80
    for each in (second, again):
        each.release()


def test_without_a_folder_a_window_still_has_a_place_of_its_own(tmp_path: Path) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("no folder", encoding="utf-8")
    assert counter_place.take(blocked).name != counter_place.take(blocked).name
