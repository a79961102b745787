"""Settings and prices are dated versions, undone by further ones; none reaches back to what was quoted."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.model import serialization
from core.model.errors import Conflict, Refused, WrongInput
from core.model.names import CommandId
from core.model.own_shop.setup_pages import SetupPage
from core.model.stations import Station
from core.papers.booking import claim_slip, quote_paper
from core.pricing import price_book
from core.pricing.price_book_file import Way
from core.services import decks, jobs
from core.services.own_shop import price_books, readiness, settings_versions, shop_document
from core.services.own_shop.readiness import NotSetUp
from core.services.records_door import Shop
from core.store import current_prices, current_settings
from core.store.unit import Unit
from tests.support.behind import behind
from tests.support.booked import OWN_NAME, Clock, Desk, inventory, line, quoted

TODAY = date(2026, 3, 3)
VHS = "prices.capture.vhs.price"


def _set(shop: Shop, *typed: tuple[str, str | None], valid_from: date | None = None) -> None:
    shop.run(shop_document.set_texts, typed, valid_from=valid_from)


def test_a_key_is_changed_by_its_path_and_told_with_who_and_what(desk: Desk) -> None:
    _set(desk.shop, ("front.name", "The Second Reel"), ("work.people", "3"))
    assert desk.shop.ask(decks.settings).front.name == "The Second Reel"
    assert desk.shop.ask(decks.settings).people == 3
    newest = desk.shop.ask(settings_versions.versions)[0]
    assert newest.by == "Kim"
    assert newest.words == (
        f"Name of the shop: {OWN_NAME} → The Second Reel; People at the bench at one time: 2 → 3"
    )
    assert desk.shop.verify() == ()


def test_a_step_sees_what_it_has_changed_itself(file_desk: Desk) -> None:
    """Within a step settings and prices are read once, and again after it has added to them."""

    def change(unit: Unit) -> tuple[int, bool]:
        before, book = current_settings.read(unit), current_prices.in_force(unit, TODAY)
        settings_versions.change(unit, replace(before, people=before.people + 1))
        price_books.enter(unit, price_book.document(replace(book, remark="dearer")))
        changed = current_settings.read(unit).people - before.people
        return changed, current_prices.in_force(unit, TODAY).remark == "dearer"

    assert file_desk.shop.run(change) == (1, True)
    assert file_desk.shop.ask(decks.settings).people == 3


def test_a_deck_is_added_changed_and_removed(desk: Desk) -> None:
    _set(desk.shop, ("deck.Beta", '{plays = ["betamax"], tv = ["ntsc"], speeds = ["b1"]}'))
    assert "Beta" in {deck.name for deck in desk.shop.ask(decks.settings).decks}
    _set(desk.shop, ("deck.Beta.name", "Betamax"))
    _set(desk.shop, ("deck.Betamax", None))
    assert "Betamax" not in {deck.name for deck in desk.shop.ask(decks.settings).decks}


@pytest.mark.parametrize(
    ("place", "typed", "sentence"),
    [
        ("front.nam", "x", "settings, front: found 'nam'; the keys accepted here are name"),
        ("fron.name", "x", "settings: found 'fron'; accepted are front"),
        ("work.people", "none", "settings, work, people: found 'none'; a whole number from 1 to 100"),
        ("work.people", "0", "settings, work, people: found 0"),
        ("front.currency", "XYZ", "settings, front, currency: found 'XYZ'"),
        ("front.country", "usa", "settings, front, country: found 'usa'"),
        ("front.timezone", "Mars", "settings, front, timezone: found 'Mars'"),
        ("front.logo", "bm9wZQ==", "settings, front, logo: found 'bm9wZQ==…'; a PNG or JPEG"),
        ("front.name", "two\nlines", "settings, front, name: found 'two / lines'"),
        ("deck.VHS 1.plays", '["vinyl"]', "settings, deck 1, plays: found 'vinyl'"),
        ("deck.VHS 9.tv", '["pal"]', "settings.deck: found 'VHS 9'; accepted are VHS 1"),
        (VHS, "93,15", "prices, capture, vhs, price: found '93,15'; an amount in quotes"),
        ("prices.currency", "EUR", "prices, currency: found 'EUR'; the shop's currency, USD"),
        ("prices.minor_digits", "3", "prices, minor_digits: found 3; USD has 2 decimal places"),
    ],
)
def test_what_does_not_fit_is_refused_by_place_and_changes_nothing(
    file_desk: Desk, place: str, typed: str, sentence: str
) -> None:
    before = file_desk.shop.ask(shop_document.export)
    with pytest.raises(WrongInput) as refused:
        _set(file_desk.shop, ("front.greeting", "Hello"), (place, typed))
    assert sentence in refused.value.sentence
    assert file_desk.shop.ask(shop_document.export) == before


def test_two_who_change_at_once_do_not_overwrite_each_other(desk: Desk) -> None:
    seen, number = desk.shop.ask(decks.settings), desk.shop.ask(settings_versions.number)
    _set(desk.shop, ("front.phone", "(303) 555-0123"))
    with pytest.raises(Conflict, match=r"Phone: .* → \(303\) 555-0123"):
        desk.shop.run(settings_versions.change, replace(seen, people=4), based_on=number)
    assert desk.shop.ask(decks.settings).people == 2


def test_changes_are_undone_one_after_another_by_further_versions(desk: Desk) -> None:
    before = desk.shop.ask(decks.settings)
    _set(desk.shop, ("front.greeting", "One"))
    _set(desk.shop, ("front.greeting", "Two"))
    assert desk.shop.run(settings_versions.undo).front.greeting == "One"
    assert desk.shop.run(settings_versions.undo).front.greeting == before.front.greeting
    assert len(desk.shop.ask(settings_versions.versions)) == 6
    assert desk.shop.verify() == ()


def test_a_breakdown_is_not_undone_with_the_settings(desk: Desk) -> None:
    desk.shop.run(decks.broke_down, "VHS 1", "no picture")
    with pytest.raises(Refused, match="not one of the settings"):
        desk.shop.run(settings_versions.undo)
    assert not desk.shop.ask(decks.settings).decks[0].in_service


def test_versions_cannot_be_altered_or_deleted(desk: Desk) -> None:
    for act in ("UPDATE settings_versions SET words = 'x'", "DELETE FROM settings_versions"):
        with pytest.raises(Exception, match="append-only"), desk.shop.database.writing.begin() as connection:
            connection.execute(behind(act))


def test_settings_are_those_of_their_moment(desk: Desk) -> None:
    then = desk.clock()
    desk.clock.go_on(days=1)
    _set(desk.shop, ("front.name", "The Second Reel"))
    assert desk.shop.ask(current_settings.as_of, then).front.name == OWN_NAME
    assert desk.shop.ask(current_settings.as_of, desk.clock()).front.name == "The Second Reel"


# --- prices ------------------------------------------------------------------------------


def test_new_prices_hold_from_their_day_and_an_old_order_keeps_its_own(desk: Desk) -> None:
    job = desk.book(line(count=3))
    price = desk.shop.ask(jobs.reprice, job.number)
    _set(desk.shop, (VHS, "60.00"), valid_from=TODAY + timedelta(days=2))
    assert quoted(desk.shop, line(count=3)).price == job.quote.price
    desk.clock.go_on(days=3)
    assert quoted(desk.shop, line(count=3)).price.gross.likely > job.quote.price.gross.likely
    assert desk.shop.ask(jobs.reprice, job.number) == price


def test_prices_entered_later_for_an_earlier_day_do_not_reach_an_old_order(desk: Desk) -> None:
    """The teeth: without ``known_at`` in `payments.price` the old order costs the new price."""
    job = desk.book(line())
    price = desk.shop.ask(jobs.reprice, job.number)
    desk.clock.go_on(hours=1)
    _set(desk.shop, (VHS, "60.00"), valid_from=TODAY - timedelta(days=1))
    assert desk.shop.ask(jobs.reprice, job.number) == price


def test_a_price_book_is_withdrawn_by_a_further_entry(desk: Desk) -> None:
    before = desk.shop.ask(current_prices.in_force, TODAY)
    _set(desk.shop, (VHS, "60.00"))
    assert desk.shop.ask(current_prices.in_force, TODAY) != before
    desk.shop.run(price_books.withdraw)
    assert desk.shop.ask(current_prices.in_force, TODAY) == before
    assert desk.shop.verify() == ()


def test_every_price_is_raised_and_rounded(desk: Desk) -> None:
    desk.shop.run(shop_document.raise_prices, percent=Decimal(4), rounded_to=Decimal("0.50"))
    book = desk.shop.ask(current_prices.in_force, TODAY)
    # By hand: 6.00 × 1.04 = 6.24 → 6.00; 14.00 × 1.04 = 14.56 → 14.50; 18.00 × 1.04 = 18.72 → 18.50;
    # 25.00 × 1.04 = 26.00 stays.
    assert book.capture_rate(line().format).minor == 600
    assert book.capture_rate(line("vhs-c").format).minor == 1450
    assert book.repair_rate("splice").minor == 1850
    assert book.minimum_minor == 2600


@given(percent=st.decimals(-90, 200, places=2), step=st.sampled_from(["0.01", "0.05", "0.50", "1", "5"]))
def test_raised_prices_are_multiples_of_the_step_and_off_by_at_most_half(percent: Decimal, step: str) -> None:
    book = price_book.in_force(TODAY)
    after = price_book.raised(book, percent, Decimal(step))
    for name, rate in book.capture.items():
        unit = Decimal(1) if rate.way is Way.PER_UNIT else Decimal(step) * 100  # a foot costs cents
        assert after.capture[name].minor % unit == 0
        assert abs(after.capture[name].minor - rate.minor * (100 + percent) / 100) <= unit / 2


def test_the_examples_come_in_every_currency_with_its_decimals() -> None:
    for currency, digits in (("USD", 2), ("EUR", 2), ("JPY", 0), ("KWD", 3)):
        book = price_book.example(TODAY, currency)
        assert (book.currency, book.minor_digits, book.invented) == (currency, digits, True)
        assert price_book.of_document(price_book.document(book), "again") == book


# --- set-up ------------------------------------------------------------------------------


@pytest.fixture
def new(tmp_path: Path) -> Shop:
    with Shop.open(tmp_path / "new.sqlite", clock=Clock(), who="Kim") as shop:
        yield shop


def test_a_new_shop_quotes_at_once_and_books_only_when_it_is_set_up(new: Shop) -> None:
    quote = quoted(new, line())
    assert new.ask(current_prices.in_force, TODAY).invented
    pages = []
    for act in (
        [("front.name", "The Reel Thing")],
        [("opening", '[{days=["tuesday"], from="10:00", to="18:00"}]')],
        [("deck.VHS 3", '{plays=["vhs"], tv=["ntsc"], speeds=["sp"]}')],
    ):
        with pytest.raises(NotSetUp) as refused:
            new.once(CommandId("c"), jobs.book, quote)
        pages.append(refused.value.pages)
        _set(new, *act)
    assert pages == [tuple(readiness.NEEDED)[n:] for n in range(3)]
    with pytest.raises(NotSetUp, match="your own prices"):
        new.once(CommandId("c"), jobs.book, quote)
    assert new.ask(jobs.open_jobs) == ()
    new.run(shop_document.confirm, [SetupPage.PRICES])
    assert new.once(CommandId("c"), jobs.book, quoted(new, line())).answer.number == "000018"


def test_a_practice_shop_books_at_once_and_stays_one(new: Shop) -> None:
    new.run(settings_versions.make_practice, new.ask(decks.settings))
    assert new.ask(readiness.read).is_ready
    _set(new, ("front.name", "Mine"))
    assert new.ask(decks.settings).front.practice
    new.run(settings_versions.undo)
    assert new.ask(decks.settings).front.practice


def test_a_shop_with_settings_does_not_become_a_practice_shop(desk: Desk) -> None:
    with pytest.raises(Refused, match="cannot become a practice shop"):
        desk.shop.run(settings_versions.make_practice, desk.shop.ask(decks.settings))


# --- files -------------------------------------------------------------------------------


def test_what_is_exported_and_read_elsewhere_is_exported_the_same(desk: Desk, new: Shop) -> None:
    _set(desk.shop, ("holidays.closed", "[2026-12-24]"), ("front.greeting", 'Say "hi"\\'), (VHS, "6.75"))
    text_of = desk.shop.ask(shop_document.export)
    new.run(shop_document.take_over, text=text_of, where="mine.toml")
    assert new.ask(shop_document.export) == text_of
    assert new.ask(readiness.read).is_ready
    number = new.ask(settings_versions.number)
    new.run(shop_document.take_over, text=text_of, where="mine.toml")
    assert new.ask(settings_versions.number) == number


def test_a_file_of_which_one_price_does_not_fit_changes_nothing(desk: Desk) -> None:
    before = desk.shop.ask(shop_document.export)
    wrong = before.replace('name = "The Test Reel"', 'name = "Other"').replace(
        'price = "6.00"', 'price = "-6"'
    )
    assert wrong.count('"-6"') > 0
    with pytest.raises(WrongInput, match=r"mine\.toml, price_book"):
        desk.shop.run(shop_document.take_over, text=wrong, where="mine.toml")
    assert desk.shop.ask(shop_document.export) == before


CHANGES = st.lists(
    st.one_of(
        st.tuples(st.just("front.name"), st.text("abcdeÄß ", min_size=1, max_size=20).filter(str.strip)),
        st.tuples(st.just("front.closing"), st.text("xyz.! ", max_size=30)),
        st.tuples(st.just("work.people"), st.integers(1, 9).map(str)),
        st.tuples(st.just(VHS), st.integers(1, 9000).map(lambda n: f"{n / 100:.2f}")),
        st.tuples(st.just("prices.tax.percent"), st.integers(0, 25).map(str)),
        st.tuples(st.just("front.paper"), st.sampled_from(["a4", "letter"])),
        st.tuples(st.just("front.accent"), st.sampled_from(["", "teal"])),
    ),
    min_size=1,
    max_size=6,
)


@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(changes=CHANGES, undo=st.booleans())
def test_no_change_of_settings_reaches_what_was_quoted_promised_and_printed(
    file_desk: Desk, changes: list[tuple[str, str]], undo: bool
) -> None:
    job = file_desk.book(line(), line("hi8", marking="P6-120"))
    file_desk.bring_to(job.tapes[0], Station.READY)
    then = file_desk.clock()
    before = _said_of(file_desk.shop, job.number, then)
    file_desk.clock.go_on(minutes=5)
    for change in changes:
        _set(file_desk.shop, change)
    if undo and file_desk.shop.ask(settings_versions.number) > 4:
        file_desk.shop.run(settings_versions.undo)
    assert _said_of(file_desk.shop, job.number, then) == before
    assert file_desk.shop.verify() == ()


def _said_of(shop: Shop, number: str, then: object) -> tuple[str, str, bytes, bytes]:
    """The order, its price as it stands and its papers as they were printed."""
    job = shop.ask(jobs.get, number)
    front = shop.ask(current_settings.as_of, then).front
    return (
        serialization.dumps(job),
        serialization.dumps(shop.ask(jobs.reprice, number)),
        quote_paper.render(job.quote, front),
        claim_slip.render(job, front),
    )


def test_what_is_typed_wrong_two_hundred_times_is_refused_each_time(file_desk: Desk) -> None:
    """Every key of the document with values that cannot be, and the whole file with each line spoiled."""
    before = file_desk.shop.ask(shop_document.export)
    lines, tried = before.splitlines(), 0
    for number, told in enumerate(lines):
        for spoiled in (told + " !", told.replace("=", "= =", 1), told.replace('"', "", 1), f"x{told}"):
            spoilt = "\n".join([*lines[:number], spoiled, *lines[number + 1 :]])
            if spoiled == told or not told.strip() or told.lstrip().startswith(("]", '"')):
                continue
            with pytest.raises((WrongInput, Refused)):
                file_desk.shop.run(shop_document.take_over, text=spoilt, where="mine.toml")
            tried += 1
    assert tried >= 200
    assert file_desk.shop.ask(shop_document.export) == before


def test_the_box_is_booked_by_its_own_country(desk: Desk) -> None:
    _set(desk.shop, ("front.country", "GB"), ("holidays.country", "GB"))
    assert desk.shop.ask(decks.settings).country == "GB"
    assert inventory(line()).customer is not None
