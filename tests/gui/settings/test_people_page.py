"""The page of the people by keys: entered, permitted, given a PIN, and gone again."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from core.model.errors import Refused
from core.model.own_shop.settings_records import ASKED, Permission
from core.services.own_shop import people
from core.services.proving import access_tokens, system_users
from gui.app.signing_in import SigningIn
from gui.settings.people_page import PeoplePage
from gui.shop.page_sheet import PageSheet
from gui.shop.shop_screen import ShopScreen
from tests.gui.settings.opened_sheets import kept, opened, save
from tests.support import pdf
from tests.support.booked import events, line
from tests.support.screens import Place, press, press_text, type_in, written


@pytest.fixture
def sheet(place: Place) -> PageSheet:
    return opened(place, place.turn_to(ShopScreen), "people_chapter")


def page(sheet: PageSheet) -> PeoplePage:
    assert isinstance(sheet.page, PeoplePage)
    return sheet.page


def add(sheet: PageSheet, *names: str) -> None:
    for name in names:
        page(sheet).new_name.setFocus()
        type_in(page(sheet).new_name, name, enter=True)


def test_the_first_one_entered_may_do_everything_and_the_next_nothing_yet(
    place: Place, sheet: PageSheet
) -> None:
    add(sheet, "Ada", "Robin")
    save(place, page(sheet).new_name)
    ada, robin = kept(place).staff
    assert (ada.name, ada.may) == ("Ada", {each.value for each in Permission})
    assert (robin.name, robin.may, robin.pin) == ("Robin", frozenset(), "")
    assert robin.does == {"counter", "bench"}


def test_every_right_that_is_asked_for_is_offered(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Ada")
    form = page(sheet).form
    assert set(form.may.boxes) == {each.value for each in ASKED}
    form.may.boxes["reports"].click()
    save(place, page(sheet).new_name)
    assert kept(place).staff[0].may == {each.value for each in Permission} - {"reports"}


def test_permissions_and_places_of_work_are_checked_by_keys(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Ada", "Robin")
    form = page(sheet).form
    for box in (form.may.boxes["refund"], form.does.boxes["bench"]):
        box.setFocus()
        press(Qt.Key.Key_Space)
    save(place, page(sheet).new_name)
    robin = kept(place).staff[1]
    assert (robin.may, robin.does) == ({"refund"}, {"counter"})


def test_own_hours_begin_with_those_of_the_shop_and_are_typed_day_by_day(
    place: Place, sheet: PageSheet
) -> None:
    add(sheet, "Ada", "Robin")
    hours = page(sheet).form.hours
    assert not hours.week.isVisible()
    hours.own.setFocus()
    press(Qt.Key.Key_Space)
    assert hours.week.fields[1].isVisible()
    for field, typed in zip(hours.week.fields, ("", "9-12:30", "", "", "10-12, 13-15", "", ""), strict=True):
        field.selectAll()
        type_in(field, typed) if typed else field.clear()
        field.textEdited.emit(typed)
    save(place, page(sheet).new_name)
    ada, robin = kept(place).staff
    assert ada.hours == ()
    assert [(each.weekday, each.start, each.end) for each in robin.hours] == [
        (1, 540, 750),
        (4, 600, 720),
        (4, 780, 900),
    ]
    again = next(iter(place.window.findChildren(PageSheet)))
    page(again).tray.stand_on(page(again).tray.pieces[1].key)
    place.desk.act_as("Ada")
    assert page(again).form.hours.own.isChecked()
    page(again).form.hours.own.click()
    save(place, again)
    assert kept(place).staff[1].hours == ()


def test_hours_that_are_none_are_told_at_their_field(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Ada", "Robin")
    week = page(sheet).form.hours.week
    for typed in ("half days", ""):
        page(sheet).tray.stand_on(page(sheet).tray.pieces[1].key)
        if not page(sheet).form.hours.own.isChecked():
            page(sheet).form.hours.own.click()
        for number, field in enumerate(week.fields):
            field.setText(typed if number == 0 else "")
            field.textEdited.emit(field.text())
        page(sheet).tray.stand_on_first()
        save(place, page(sheet).new_name)
        assert "Monday" in place.told
        assert page(sheet).form.name.text() == "Robin"
        assert week.fields[0].hasFocus()
        assert week.fields[0].text() == typed
        assert kept(place).staff == ()


def test_what_somebody_can_do_is_checked_by_keys(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Ada")
    form = page(sheet).form
    form.can.boxes["splice"].setFocus()
    press(Qt.Key.Key_Space)
    save(place, page(sheet).new_name)
    assert kept(place).staff[0].can == {"load", "check"}


def test_who_is_not_at_the_bench_can_do_nothing_there(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Ada")
    page(sheet).form.does.boxes["bench"].click()
    assert not page(sheet).form.can.isEnabled()


def test_the_page_shows_the_promises_that_own_hours_would_move(place: Place, sheet: PageSheet) -> None:
    """Nobody who loads decks would be left: the order that is here has no day any more."""
    job = place.records.book(line(count=8))
    page(sheet).at_once.setText("1")
    add(sheet, "Ada")
    page(sheet).form.can.boxes["load"].click()
    sheet.compare()
    place.qtbot.waitUntil(lambda: f"Order {job.number}" in sheet.effects.text())
    assert "nobody could do the work on 8 of its tapes" in sheet.effects.text()


def test_a_pin_is_given_and_taken_away_and_never_shown(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Kim")
    page(sheet).form.pin.setFocus()
    type_in(page(sheet).form.pin, "271828")
    assert page(sheet).form.pin.displayText() != "271828"
    assert page(sheet).tray.pieces[0].place == "has a PIN"
    sheet.compare()
    assert "271828" not in sheet.touched.text()
    assert "argon2" not in sheet.touched.text()
    save(place, page(sheet).new_name)
    assert place.records.shop.run(people.check_pin, "Kim", "271828").is_right
    assert not place.records.shop.run(people.check_pin, "Kim", "271829").is_right
    again = next(iter(place.window.findChildren(PageSheet)))
    assert page(again).form.pin.text() == ""
    page(again).form.no_pin.click()
    save(place, again)
    assert not place.records.shop.ask(people.has_pin, "Kim")


def test_a_token_is_shown_once_good_once_saved_and_revoked(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Kim")
    tokens = page(sheet).form.tokens
    type_in(tokens.name, "nightly backup", enter=True)
    shown = tokens.shown.text().split()[0]
    tokens.copy.click()
    assert QGuiApplication.clipboard().text() == shown
    with pytest.raises(Refused):
        place.records.shop.ask(access_tokens.holder, shown)
    sheet.compare()
    assert "Token “nightly backup” issued to Kim, good through" in sheet.touched.text()
    assert "sha256" not in sheet.touched.text()
    save(place, page(sheet).new_name)
    assert place.records.shop.ask(access_tokens.holder, shown).name == "Kim"
    again = next(iter(place.window.findChildren(PageSheet)))
    assert shown not in written(again)
    assert "nightly backup, good through Monday, June 1, 2026" in written(again)
    again.findChild(QPushButton, "person-token-revoke").click()
    save(place, again)
    with pytest.raises(Refused):
        place.records.shop.ask(access_tokens.holder, shown)


def test_a_token_is_printed_while_it_is_shown_and_its_paper_goes_with_it(
    place: Place, sheet: PageSheet
) -> None:
    """The paper lies apart from the shop's papers, and is deleted once the token is shown no more."""
    add(sheet, "Kim")
    tokens = page(sheet).form.tokens
    assert tokens.print.isHidden()
    type_in(tokens.name, "nightly backup", enter=True)
    shown = tokens.shown.text().split()[0]
    tokens.print.click()
    place.settle()
    (paper,) = place.shown_files
    told = "".join(pdf.words(paper.read_bytes()).split())
    assert shown in told
    assert "Kim" in told
    assert not paper.is_relative_to(place.desk.papers)
    save(place, page(sheet).new_name)
    assert not paper.exists()


def test_the_user_of_this_computer_is_connected_by_a_button(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Kim", "Robin")
    page(sheet).form.system_users.this.click()
    save(place, page(sheet).new_name)
    assert kept(place).staff[1].system_users == (system_users.current().text,)
    again = next(iter(place.window.findChildren(PageSheet)))
    page(again).form.system_users.this.click()
    save(place, again)
    assert "can be one person only, and this one is Kim" in place.told
    assert page(again).form.system_users.typed.hasFocus()


def test_a_right_that_waits_for_a_pin_is_told_in_the_list(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Kim", "Robin")
    page(sheet).form.may.boxes["refund"].click()
    assert page(sheet).tray.pieces[1].place == "no PIN"
    page(sheet).tray.stand_on_first()
    type_in(page(sheet).form.pin, "271828")
    assert [each.place for each in page(sheet).tray.pieces] == ["has a PIN", "no PIN: rights do not count"]


def test_what_is_no_pin_is_told_at_its_field_and_keeps_nothing(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Ada", "Robin")
    type_in(page(sheet).form.pin, "12a")
    page(sheet).tray.stand_on_first()
    save(place, page(sheet).new_name)
    assert "4 to 12 digits are accepted" in place.told
    assert "12a" not in place.told
    assert page(sheet).form.pin.hasFocus()
    assert page(sheet).form.name.text() == "Robin"
    assert kept(place).staff == ()


def test_somebody_must_be_able_to_change_the_settings(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Ada")
    page(sheet).form.may.boxes["settings"].click()
    save(place, page(sheet).new_name)
    assert "at least one person must be allowed to change the settings" in place.told
    assert kept(place).staff == ()


def test_figures_are_kept_and_what_is_none_is_told_at_its_field(place: Place, sheet: PageSheet) -> None:
    at = page(sheet)
    at.at_once.setText("3")
    at.lock.setText("15")
    at.file_needed.click()
    at.proof_to_read.click()
    save(place, page(sheet).new_name)
    found = kept(place)
    assert (found.people, found.lock_minutes, found.file_for_ready, found.proof_to_read) == (
        3,
        15,
        True,
        True,
    )
    at = page(next(iter(place.window.findChildren(PageSheet))))
    for field, typed in ((at.at_once, "0"), (at.lock, "2000"), (at.lock, "1.5"), (at.at_once, "few")):
        again = next(iter(place.window.findChildren(PageSheet)))
        at.show_draft(kept(place))
        field.setText(typed)
        save(place, again)
        assert field.hasFocus(), typed
        assert (kept(place).people, kept(place).lock_minutes) == (3, 15)


def test_whoever_may_not_is_told_who_can_and_the_page_keeps_what_was_typed(
    place: Place, sheet: PageSheet
) -> None:
    add(sheet, "Ada")
    save(place, page(sheet).new_name)
    again = next(iter(place.window.findChildren(PageSheet)))
    add(again, "Robin")
    save(place, again)
    assert "Kim may not change the settings. Ada can; sign in as Ada." in place.told
    assert [row.title for row in page(again).tray.pieces] == ["Ada", "Robin"]
    assert len(kept(place).staff) == 1


def test_who_may_signs_in_before_the_page_and_saves_what_was_typed(place: Place, sheet: PageSheet) -> None:
    """By keys: refused, Ctrl+G, the PIN of the one who may, and saved; nothing is typed twice."""
    add(sheet, "Ada", "Kim")
    page(sheet).tray.stand_on_first()
    type_in(page(sheet).form.pin, "271828")
    save(place, page(sheet).new_name)
    signing = SigningIn(place.window, place.desk, kept(place))
    again = next(iter(place.window.findChildren(PageSheet)))
    page(again).at_once.setText("4")
    add(again, "Robin")
    save(place, again)
    assert kept(place).people != 4
    assert "Kim may not change the settings. Ada can; sign in as Ada." in place.told
    press(Qt.Key.Key_G, Qt.KeyboardModifier.ControlModifier)
    assert place.window.is_covered
    assert signing.page.names.current == "Ada"
    QTest.keyClick(signing.page.names, Qt.Key.Key_Return)
    press_text("271828")
    press(Qt.Key.Key_Return)
    place.settle()
    assert not place.window.is_covered
    assert page(again).at_once.text() == "4"
    assert [row.title for row in page(again).tray.pieces] == ["Ada", "Kim", "Robin"]
    save(place, again)
    assert (kept(place).people, len(kept(place).staff)) == (4, 3)
    assert events(place.records.shop, "settings")[-1].by == "Ada"


def test_the_retired_are_no_longer_here_and_the_mistaken_are_gone(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Ada", "Robin", "Rbin")
    page(sheet).form.remove.click()
    assert page(sheet).form.name.text() == "Robin"
    page(sheet).form.retired.click()
    save(place, page(sheet).new_name)
    assert [(each.name, each.retired) for each in kept(place).staff] == [("Ada", False), ("Robin", True)]
    assert [each.name for each in kept(place).working_staff] == ["Ada"]
