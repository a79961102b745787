"""A customer in notes of the shop about itself: taken out with the customer, the notes stay."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from core.model.names import DonorPart, Finding, FormatName
from core.services import closed_days, decks, donors, jobs, repair_attempts
from core.services.privacy.shop_notes import NamedPerson
from tests.support.booked import Desk, line
from tests.support.named_everywhere import NAME, a_year_ago, erase, found

VHS = FormatName("vhs")
OF = NamedPerson.of("Quillona Zebedee", "13035550187")


@pytest.mark.parametrize(
    ("note", "left"),
    [
        ("from Quillona Zebedee's broken tape", "from X's broken tape"),
        ("ZEBEDEE, Quillóna: two shells", "X: two shells"),
        ("call (303) 555-0187 first", "call X first"),
        ("call +1 303 555 0187", "call X"),
        ("call 555 0187 or 555 0188", "call X or 555 0188"),
        ("Quillona's sister", "Quillona's sister"),
        ("belt 0187, head 55501", "belt 0187, head 55501"),
    ],
)
def test_a_whole_name_or_number_is_taken_out_of_a_note(note: str, left: str) -> None:
    assert OF.taken_out(note, "X") == left


def test_a_name_of_one_word_may_be_a_month_and_stays() -> None:
    assert NamedPerson.of("May", "").taken_out("closed in May", "X") == "closed in May"


def test_notes_about_decks_days_and_donors_forget_the_name(desk: Desk, tmp_path: Path) -> None:
    """Rows, their lines of history, the tape that got the part; seen red without `shop_notes.take_out`."""
    other = desk.book(line(findings=[Finding.SHELL_BROKEN]), name="Ada Fenwick")
    job = a_year_ago(desk)
    shop = desk.shop
    shop.run(donors.add, VHS, DonorPart.SHELL, 2, came_from=f"{NAME}, snapped twice")
    shop.run(repair_attempts.record, other.tapes[0].code, "shell-swap", succeeded=True, part=DonorPart.SHELL)
    shop.run(decks.broke_down, "VHS 1", f"chewed the tape of {NAME}")
    shop.run(decks.back_in_service, "VHS 1", "mended")
    shop.run(closed_days.plan, date(2026, 12, 24), date(2026, 12, 24), f"wedding of {NAME}")
    erase(shop, job.number)
    assert found(desk, tmp_path) == []
    assert shop.verify() == ()
    (place,) = shop.ask(donors.stock)
    assert (place.came_from, place.count) == ("(erased), snapped twice", 1)
    assert shop.ask(jobs.get, other.number).customer.name == "Ada Fenwick"
