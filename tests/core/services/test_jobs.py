"""A box is booked once, its quote is kept word for word, and more money needs somebody's yes."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from core.model.agreement_records import Consent
from core.model.errors import Refused, WrongInput
from core.model.inventory import CustomerDraft
from core.model.job_records import Customer, Job
from core.model.names import Finding, JobNumber, TvSystem
from core.model.stations import Station
from core.services import calls, jobs, payments, tapes
from core.services.agreement import agreements
from core.store import history
from tests.support.booked import Desk, command, line, quoted


def test_a_box_becomes_a_job_with_its_tapes(desk: Desk) -> None:
    job = desk.book(line(count=2), line("minidv", marking="DVM60"), name="  Łucja Núñez ")
    assert job.number == "000018"
    assert [tape.code for tape in job.tapes] == ["0000180014", "0000180022", "0000180039"]
    assert [(tape.line, tape.n) for tape in job.tapes] == [(1, 1), (1, 2), (2, 1)]
    assert {tape.station for tape in job.tapes} == {Station.BOOKED_IN}
    assert (job.customer.name, job.customer.phone) == ("Łucja Núñez", "+13035550142")
    assert (job.booked_at, job.booked_by) == (desk.clock(), "Kim")
    assert desk.shop.ask(jobs.get, job.number) == job


def test_the_quote_is_kept_word_for_word(desk: Desk) -> None:
    quote = quoted(desk.shop, line(count=3, findings=[Finding.SNAPPED]))
    job = desk.shop.run(jobs.book, quote)
    assert desk.shop.ask(jobs.get, job.number).quote == quote


def test_a_tape_knows_the_tv_system_of_its_box(desk: Desk) -> None:
    assert desk.book().tapes[0].draft.tv is TvSystem.NTSC


def test_the_copies_to_hand_over_are_listed_piece_by_piece(desk: Desk) -> None:
    job = desk.book()
    assert [copy.code for copy in job.copies] == [copy.code for copy in job.quote.storage.copies]
    assert all(copy.handed_back_at is None for copy in job.copies)


def test_numbers_have_no_gaps_even_when_a_booking_fails(desk: Desk) -> None:
    first = desk.book()
    nobody = replace(quoted(desk.shop), inventory=replace(first.quote.inventory, customer=None))
    with pytest.raises(WrongInput, match="customer"):
        desk.shop.run(jobs.book, nobody)
    assert [first.number, desk.book().number] == ["000018", "000026"]


def test_the_same_command_twice_books_once(desk: Desk) -> None:
    quote, sent = quoted(desk.shop), command()
    first = desk.shop.once(sent, jobs.book, quote, deposit_minor=500).answer
    desk.clock.go_on(minutes=1)
    assert desk.shop.once(sent, jobs.book, quote, deposit_minor=500).answer == first
    assert desk.shop.ask(jobs.open_jobs) == (first,)


def test_a_deposit_is_entered_as_paid(desk: Desk) -> None:
    job = desk.shop.run(jobs.book, quoted(desk.shop), deposit_minor=1500)
    assert [(each.kind, each.minor, each.by) for each in job.payments] == [("deposit", 1500, "Kim")]
    assert job.paid_minor == 1500


@pytest.mark.parametrize("deposit", [-1, 10_000_000])
def test_a_deposit_that_cannot_be_is_refused(desk: Desk, deposit: int) -> None:
    with pytest.raises(WrongInput, match="deposit"):
        desk.shop.run(jobs.book, quoted(desk.shop), deposit_minor=deposit)


def test_a_quote_holds_until_the_end_of_its_last_day(desk: Desk) -> None:
    quote = quoted(desk.shop)
    desk.clock.now = quote.made_at + (quote.valid_until - quote.made_at.date())
    desk.shop.run(jobs.book, quote)
    desk.clock.now += timedelta(days=1)
    with pytest.raises(Refused, match="was good until"):
        desk.shop.run(jobs.book, quote)


@pytest.mark.parametrize("name", ["", "  ", "Ada\x00", "Ada\nFenwick", "A" * 201, "\ud800"])
def test_a_name_that_no_paper_could_show_is_refused(desk: Desk, name: str) -> None:
    quote = quoted(desk.shop)
    quote = replace(quote, inventory=replace(quote.inventory, customer=CustomerDraft(name)))
    with pytest.raises(WrongInput, match="customer name"):
        desk.shop.run(jobs.book, quote)
    assert desk.shop.ask(jobs.open_jobs) == ()


@pytest.mark.parametrize(
    ("given", "kept"),
    [
        ("303-555-0142", "+13035550142"),
        ("+48 601 123 456", "+48601123456"),
        ("ask next door", "ask next door"),
        ("12", "12"),
        ("", None),
        (None, None),
    ],
)
def test_a_phone_number_is_kept_so_that_it_can_be_called(
    desk: Desk, given: str | None, kept: str | None
) -> None:
    assert desk.book(phone=given).customer.phone == kept


def test_a_slip_in_name_or_phone_is_put_right(desk: Desk) -> None:
    job = desk.book(name="Aad Fenwick")
    right = CustomerDraft("Ada Fenwick", "303 555 0177", "ada@example.org")
    corrected = desk.shop.run(jobs.correct_customer, job.number, right)
    assert corrected.customer == Customer("Ada Fenwick", "+13035550177", "ada@example.org")
    for said in ("fenw", "0177"):
        assert [each.job.number for each in desk.shop.ask(calls.status, said)] == [job.number]
    assert desk.shop.ask(calls.status, "0142") == ()
    assert desk.shop.ask(jobs.history, job.number)[-1].words == (
        "name corrected: Aad Fenwick → Ada Fenwick; phone corrected: +13035550142 → +13035550177; "
        "e-mail corrected: none → ada@example.org"
    )
    lines = desk.shop.ask(history.latest)
    desk.shop.run(jobs.correct_customer, job.number, right)
    assert desk.shop.ask(history.latest) == lines, "nothing was changed, so nothing is told"
    with pytest.raises(WrongInput, match="needs the name"):
        desk.shop.run(jobs.correct_customer, job.number, CustomerDraft(" "))
    assert desk.shop.ask(jobs.get, job.number) == corrected
    assert desk.shop.verify() == ()


def test_a_job_that_is_not_there_is_named(desk: Desk) -> None:
    with pytest.raises(WrongInput, match="this shop has no order with that number"):
        desk.shop.ask(jobs.get, JobNumber("000018"))


def test_a_job_is_open_until_its_last_tape_is_gone(desk: Desk) -> None:
    one, other = desk.book(line(count=2)), desk.book()
    desk.hand_back(one, [desk.bring_to(one.tapes[0], Station.READY).code])
    assert [job.number for job in desk.shop.ask(jobs.open_jobs)] == [one.number, other.number]
    desk.hand_back(one, [desk.bring_to(one.tapes[1], Station.READY).code])
    assert [job.number for job in desk.shop.ask(jobs.open_jobs)] == [other.number]


# --- the price now -----------------------------------------------------------------------


def test_the_price_follows_the_minutes_that_were_played(desk: Desk) -> None:
    job = desk.book(line(), line())
    before = desk.shop.ask(jobs.reprice, job.number)
    assert before.gross.is_one_figure
    for tape in job.tapes:
        desk.bring_to(tape, Station.READY, minutes=10)
    after = desk.shop.ask(jobs.reprice, job.number)
    assert after.gross.likely < before.gross.likely


def _played_long(desk: Desk, job: Job) -> None:
    """Every tape plays six hours before anybody is asked: the others had been on a deck already."""
    for tape in job.tapes:
        desk.bring_to(tape, Station.PLAYING)
    for tape in job.tapes:
        desk.shop.run(tapes.move, tape.code, Station.BEING_CHECKED, minutes=370)


def test_the_price_never_passes_what_was_agreed(desk: Desk) -> None:
    job = desk.book(line(count=6))
    _played_long(desk, job)
    gross = desk.shop.ask(jobs.reprice, job.number).gross.likely
    # 19,861 cents before tax are 21,499.5 with it (× 1.0825), rounded up: just what may be charged.
    assert (gross, job.ceiling_minor) == (21500, 21500)


def test_more_may_be_charged_once_somebody_agreed(desk: Desk) -> None:
    job = desk.book(line(count=6))
    _played_long(desk, job)
    desk.clock.go_on(hours=3)
    agreed = desk.shop.run(
        agreements.agree,
        job.number,
        "by phone: all tapes in full",
        Consent("Ada Fenwick"),
        ceiling_minor=job.ceiling_minor + 10_000,
    )
    assert agreed.ceiling_minor == job.ceiling_minor + 10_000
    assert agreed.quote == job.quote
    assert [(each.who_agreed, each.by, each.at) for each in agreed.agreements] == [
        ("Ada Fenwick", "Kim", desk.clock())
    ]
    price = desk.shop.ask(jobs.reprice, job.number)
    assert job.ceiling_minor < price.gross.likely <= agreed.ceiling_minor
    assert any("agreed: by phone" in each.words for each in desk.shop.ask(jobs.history, job.number))


def test_an_agreement_names_what_and_who(desk: Desk) -> None:
    number = desk.book().number
    for words, who in (("", "Ada"), ("yes", " ")):
        with pytest.raises(WrongInput, match="agreement"):
            desk.shop.run(agreements.agree, number, words, Consent(who))
    with pytest.raises(WrongInput, match="most we may charge"):
        desk.shop.run(agreements.agree, number, "yes", Consent("Ada"), ceiling_minor=-1)


def test_a_new_date_may_be_agreed(desk: Desk) -> None:
    job = desk.book()
    later = replace(job.promise, day=job.quote.valid_until)
    said = Consent("Ada Fenwick")
    agreed = desk.shop.run(agreements.agree, job.number, "a week later is fine", said, promise=later)
    assert (agreed.promise, agreed.quote.promise) == (later, job.promise)


def test_a_tape_that_cannot_be_played_costs_nothing_to_capture(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.bring_to(job.tapes[0], Station.READY, minutes=60)
    both = desk.shop.ask(jobs.reprice, job.number)
    desk.shop.run(tapes.move, job.tapes[1].code, Station.CANNOT_BE_PLAYED)
    one = desk.shop.ask(jobs.reprice, job.number)
    assert one.gross.likely < both.gross.likely
    desk.hand_back(job)
    assert desk.shop.ask(jobs.reprice, job.number) == one


# --- money that changed hands ------------------------------------------------------------


def test_payments_and_refunds_are_lines_of_their_own(desk: Desk) -> None:
    number = desk.book().number
    desk.shop.run(payments.take, number, 2000, kind="deposit")
    desk.shop.run(payments.take, number, 300)
    job = desk.shop.run(payments.refund, number, 500, note="counted twice")
    assert [(each.kind, each.minor) for each in job.payments] == [
        ("deposit", 2000),
        ("balance", 300),
        ("refund", -500),
    ]
    assert job.paid_minor == 1800
    assert desk.shop.ask(jobs.history, number)[-1].words == "refund of $5.00: counted twice"


def test_no_more_is_given_back_than_was_paid(desk: Desk) -> None:
    number = desk.book().number
    desk.shop.run(payments.take, number, 300)
    with pytest.raises(Refused, match=r"Only \$3\.00 was paid"):
        desk.shop.run(payments.refund, number, 301, note="")
    with pytest.raises(WrongInput, match="say why the money is given back"):
        desk.shop.run(payments.refund, number, 300, note=" ")
    assert desk.shop.ask(jobs.get, number).paid_minor == 300


@pytest.mark.parametrize("minor", [0, -5, payments.MOST_MINOR + 1])
def test_an_amount_that_cannot_be_is_refused(desk: Desk, minor: int) -> None:
    with pytest.raises(WrongInput, match="amount"):
        desk.shop.run(payments.take, desk.book().number, minor)
    with pytest.raises(WrongInput, match="payment"):
        desk.shop.run(payments.take, desk.book().number, 5, kind="gift")
