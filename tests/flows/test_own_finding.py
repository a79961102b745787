"""An owner adds a finding with a repair of their own and its price, by keys; it is booked, told, charged."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox

from core.model.names import FindingKey, TapeCode
from core.model.stations import Station
from core.services.own_shop import shop_document
from core.store import current_settings
from gui.settings.findings_page import FindingsPage
from gui.settings.price_page import PricePage
from gui.shop.chapter import EVERY_KIND
from tests.flows.test_counter_to_receipt import (
    ALT,
    Clerk,
    check_off_copies,
    clerk,
    find_at_pickup,
    hand_back,
    log_folder,
    say_what_must_be_told,
    type_box,
)
from tests.flows.test_own_format import open_chapter
from tests.support.pdf import words as words_of_paper
from tests.support.screens import press, press_text

__all__ = ["clerk", "log_folder"]

FINDING, REPAIR, PRICE = "smells of smoke", "Air out the cassette", "7.50"
TOLD = "It smells of smoke, so we air it out for a day."


def choose(box: QComboBox, words: str) -> None:
    """Down the offers to this one."""
    press(Qt.Key.Key_Home)
    for _ in range(box.count()):
        if box.currentText() != words:
            press(Qt.Key.Key_Down)
    assert box.currentText() == words


def add(page: FindingsPage, kind: str, words: str) -> None:
    """Kind, the button behind it, and then the keyboard is in the first field."""
    page.kind.setFocus()
    choose(page.kind, kind)
    press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Space)
    press_text(words)


def add_finding(clerk: Clerk) -> None:
    screen = open_chapter(clerk, "findings")
    (page,) = screen.page.findChildren(FindingsPage)
    add(page, "repair", REPAIR)
    add(page, "finding", FINDING)
    press(Qt.Key.Key_Tab)
    press_text(TOLD)
    press(Qt.Key.Key_Tab)
    choose(page.form.outcome, "it plays after a repair")
    next(box for box in page.form.repairs.boxes.values() if box.text() == REPAIR).setFocus()
    press(Qt.Key.Key_Space)
    press(Qt.Key.Key_F6)
    clerk.settle()
    clerk.settle()


def print_on_booking(clerk: Clerk) -> None:
    papers = [("papers.quote", "yes"), ("papers.claim_slip", "yes")]
    clerk.shop.desk.work.run(shop_document.set_texts, papers, changes=EVERY_KIND)
    clerk.settle()


def price_it(clerk: Clerk) -> None:
    """Its row stands in the table without a price until one is typed there."""
    screen = open_chapter(clerk, "prices")
    (page,) = screen.page.findChildren(PricePage)
    place = next(n for n, line in enumerate(page.table.lines) if line.row.words == REPAIR)
    page.table.stand_on(place, "price")
    press_text(PRICE)
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_F6)
    clerk.settle()
    clerk.settle()


def book_it(clerk: Clerk) -> TapeCode:
    clerk.to_counter()
    counter = type_box(clerk, ("1", "vhs", "T-120", "", "SP", "", "smells", "Wedding"))
    say_what_must_be_told(clerk, counter)
    clerk.move_on()
    assert not clerk.told.startswith("Not possible"), clerk.told
    (tape,) = clerk.job().tapes
    return tape.code


def work_through(clerk: Clerk, code: TapeCode) -> None:
    """Looked over, aired out at the bench, played, ready."""
    clerk.go(Qt.Key.Key_F3)
    clerk.scan(code)
    clerk.move_on()
    clerk.scan(code)
    clerk.move_on()
    assert clerk.station(code) is Station.AT_THE_BENCH
    for _ in range(6):
        if clerk.station(code) is Station.READY:
            break
        clerk.scan(code)
        if clerk.station(code) is Station.PLAYING:
            press_text("118")
        clerk.move_on()
    assert clerk.station(code) is Station.READY


def test_the_quote_and_the_receipt_tell_it_and_charge(clerk: Clerk) -> None:
    add_finding(clerk)
    (own,) = clerk.books.ask(current_settings.read).additions.findings
    assert (own.key, own.repairs) == (FindingKey("smells-of-smoke"), ("air-out-the-cassette",))
    price_it(clerk)
    print_on_booking(clerk)

    code = book_it(clerk)
    job = clerk.job()
    assert job.tapes[0].findings == (own.key,)
    assert TOLD in job.tapes[0].verdict.told
    (charge,) = [each for each in job.quote.price.charges if each.code == "repair-air-out-the-cassette"]
    assert charge.amount.likely == 750
    papers = {path.name.split("-")[0]: words_of_paper(path.read_bytes()) for path in clerk.opened}
    assert all(words in papers["quote"] for words in (TOLD, FINDING[1:], REPAIR)), papers

    work_through(clerk, code)
    screen = find_at_pickup(clerk)
    clerk.scan(code)
    press(Qt.Key.Key_S, ALT)
    check_off_copies(clerk, screen)
    hand_back(clerk)
    assert not clerk.told.startswith("Not possible"), clerk.told
    assert clerk.station(code) is Station.HANDED_BACK
    receipt = next(path for path in clerk.opened if path.name.startswith("receipt"))
    told = words_of_paper(receipt.read_bytes())
    assert all(words in told for words in (FINDING.capitalize(), REPAIR, PRICE)), told
