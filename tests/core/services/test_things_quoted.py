"""Film, pictures and discs in a quote: their price, what is not taken in, their copies, a splice of film."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.catalogue import condition, formats
from core.model.inventory import Delivery, Inventory, TapeLine
from core.model.names import Finding, FormatName, JobNumber, Join, Outcome, Speed
from core.model.own_shop.settings_records import own_format
from core.model.quote_records import Price, Quote
from core.pricing.whole_box import TOGETHER
from core.services import deck_queue, jobs, payments, repair_record, shop_snapshot
from core.services.own_shop import format_drafts, settings_versions, shop_document
from core.services.own_shop.format_drafts import FormatDraft
from core.store import current_settings, lookup
from core.store.unit import Unit
from tests.support.booked import Desk
from tests.support.shops import deck

SUPER_8, SLIDES = FormatName("super-8"), FormatName("slides")
SCANNERS = (
    deck("Scanner", "super-8", "film-16mm", speeds="16fps 18fps 24fps"),
    deck("Slides", "slides", speeds="sp"),
)


@pytest.fixture
def desk(desk: Desk) -> Desk:
    """A shop with a film scanner and a slide scanner."""
    settings = desk.shop.ask(current_settings.read)
    desk.shop.run(settings_versions.change, replace(settings, decks=(*settings.decks, *SCANNERS)))
    return desk


def quoted(desk: Desk, *lines: TapeLine, deliver: tuple[Delivery, ...] = ()) -> Quote:
    snapshot = desk.shop.ask(shop_snapshot.read)
    return snapshot.quote(Inventory(lines, deliver=deliver), snapshot.now)


def test_film_is_charged_by_the_foot_and_slides_by_the_piece(desk: Desk) -> None:
    told = quoted(desk, TapeLine(2, SUPER_8, "50 ft"), TapeLine(1, SLIDES, "80 slides"))
    book = desk.shop.ask(shop_snapshot.read).book
    film, slides = [charge for charge in told.price.charges if charge.code.startswith("capture-")]

    foot, piece = (float(book.capture[name].minor) for name in (SUPER_8, SLIDES))
    assert (film.amount.low, film.amount.high) == (100 * foot, 100 * foot)
    assert film.quantity == "100"
    assert slides.amount.likely == 80 * piece
    assert "foot" in film.because
    assert "picture" in slides.because


def test_metres_are_charged_in_feet(desk: Desk) -> None:
    told = quoted(desk, TapeLine(1, SUPER_8, "15 m"))
    book = desk.shop.ask(shop_snapshot.read).book
    (film,) = [charge for charge in told.price.charges if charge.code.startswith("capture-")]

    assert film.amount.likely == pytest.approx(15 / 0.3048 * float(book.capture[SUPER_8].minor), abs=1)


def test_what_nobody_wrote_on_is_a_range(desk: Desk) -> None:
    told = quoted(desk, TapeLine(1, SLIDES))
    (slides,) = [charge for charge in told.price.charges if charge.code.startswith("capture-")]

    assert slides.amount.low < slides.amount.high


def test_reels_are_drawn_together_by_their_feet_though_the_minutes_of_one_are_known(desk: Desk) -> None:
    """What is open is said by `drawn_box` alone. Seen red with tapes counted by open minutes before."""
    job = desk.book(TapeLine(2, SUPER_8))
    assert any(charge.code == TOGETHER for charge in job.quote.price.charges)
    once_played = desk.shop.rehearse(_price_with_one_played, job.number)
    assert any(charge.code == TOGETHER for charge in once_played.charges)


def _price_with_one_played(unit: Unit, number: JobNumber) -> Price:
    row = lookup.job_row(unit, number)
    row.tapes[0].played_minutes = 3.5
    habits = deck_queue.habits_of_order(unit, row.id)
    return payments.price_of(unit, row, row.tapes, ceiling_minor=None, habits=habits)


def test_what_has_no_price_yet_is_not_taken_in(desk: Desk) -> None:
    desk.shop.run(shop_document.set_texts, [("prices.capture.slides", None)])
    told = quoted(desk, TapeLine(1, SLIDES, "80"), TapeLine(1, SUPER_8, "50 ft"))
    slides, film = told.tapes

    assert slides.verdict.outcome is Outcome.CANNOT
    assert slides.verdict.elsewhere is not None
    assert "no price for slides yet" in slides.verdict.elsewhere.why
    assert not any(charge.code == "capture-slides" for charge in told.price.charges)
    assert film.verdict.outcome is Outcome.PLAYS


def test_what_no_machine_does_is_not_here_and_has_no_price(desk: Desk) -> None:
    told = quoted(desk, TapeLine(1, FormatName("prints"), "24"))

    assert told.tapes[0].verdict.elsewhere is not None
    assert told.price.gross.high == 0
    assert told.promise.day is None


def test_a_slow_scanner_takes_longer_and_its_copies_do_not(desk: Desk) -> None:
    slow = format_drafts.kept(
        FormatDraft("Slow film", "super-8", "reel", "feet", 72.0, 8.0, ("50",)), "slow-film"
    )
    settings = desk.shop.ask(current_settings.read)
    first, *others = settings.decks
    plays = first.plays | {FormatName("slow-film")}
    speeds = first.speeds | {"16fps", "18fps", "24fps"}
    wanted = replace(settings, formats=(slow,), decks=(replace(first, plays=plays, speeds=speeds), *others))
    desk.shop.run(settings_versions.change, wanted)
    desk.shop.run(
        shop_document.set_texts, [("prices.capture.slow-film", '{way = "per-unit", price = "1.00"}')]
    )

    known = TapeLine(4, SUPER_8, "50 ft", speed=Speed.FPS18)
    usual = quoted(desk, known, deliver=(Delivery("files", "h264", "usb"),))
    slowly = quoted(
        desk, replace(known, format=FormatName("slow-film")), deliver=(Delivery("files", "h264", "usb"),)
    )
    assert slowly.capture_hours.likely == pytest.approx(8 * usual.capture_hours.likely, rel=0.02)
    assert slowly.storage.gigabytes.likely == pytest.approx(usual.storage.gigabytes.likely, rel=0.02)


def test_a_splice_of_film_does_not_end_its_use(desk: Desk) -> None:
    job = desk.book(TapeLine(1, SUPER_8, "50 ft", findings=(Finding.TORN_PERFORATION,)))
    code = job.tapes[0].code
    desk.shop.run(repair_record.splice, code, at_minutes=1.0, cut_cm=1.0, joined_with=Join.TAPE)
    spliced = desk.shop.ask(jobs.get, job.number).tapes[0]

    assert not spliced.not_for_reuse
    assert spliced.splices[0].seconds_removed == pytest.approx(10 / (18 * 304.8 / 72), rel=0.35)


def test_only_what_can_be_found_on_a_thing_is_offered() -> None:
    formats.put_in_force((own_format("cine", {"like": "super-8", "words": {"name": "Cine"}}),))

    assert Finding.VINEGAR in condition.possible(FormatName("cine"))
    assert Finding.VINEGAR not in condition.possible(FormatName("vhs"))
    assert Finding.LID_DAMAGED not in condition.possible(SLIDES)
