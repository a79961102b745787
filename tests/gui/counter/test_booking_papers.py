"""Which papers of an order are made and shown, by the settings of the shop."""

from __future__ import annotations

import pytest

from core.services.own_shop import shop_document
from gui.counter.booking_papers import BookingPapers
from tests.support.booked import line
from tests.support.screens import Place


@pytest.mark.parametrize(("when", "written", "shown"), [("ask", 4, 0), ("yes", 4, 4), ("no", 0, 0)])
def test_papers_are_made_and_shown_as_the_shop_says(
    place: Place, when: str, written: int, shown: int
) -> None:
    keys = [(f"papers.{kind}", when) for kind in ("quote", "claim_slip", "labels")]
    place.records.shop.run(shop_document.set_texts, keys)
    job = place.records.book(line(count=1))
    papers = BookingPapers(place.desk, place.window)
    papers.write(job)
    place.settle()
    assert len(list(place.desk.papers.glob("*.pdf"))) == written
    assert len(place.shown_files) == shown


def test_a_paper_that_is_not_usually_made_is_made_when_asked_for(place: Place) -> None:
    place.records.shop.run(shop_document.set_texts, [("papers.claim_slip", "no")])
    papers = BookingPapers(place.desk, place.window)
    papers.write(place.records.book(line(count=1)))
    place.settle()
    papers.show_claim_slip()
    place.settle()
    assert [path.name[:10] for path in place.shown_files] == ["claim-slip"]
