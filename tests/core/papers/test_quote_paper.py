"""The quote on paper: price and day first, every charge with its reason, nothing that was not said."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from core.catalogue import formats
from core.model import resource_files
from core.model.money import flat
from core.model.names import FormatName
from core.model.quote_records import Quote
from core.papers.booking import quote_paper
from core.papers.voice import voice
from tests.support import invented_format, pdf
from tests.support import invented_job as records


@pytest.fixture(scope="module")
def quote() -> Quote:
    return records.quote()


@pytest.fixture(scope="module")
def said(quote: Quote) -> str:
    return pdf.words(quote_paper.render(quote, records.FRONT, detail=True))


def test_price_and_day_come_before_everything_else(said: str) -> None:
    assert said.index("$376.71") < said.index("Thursday, March 12") < said.index("Your tapes")
    assert "19 chances in 20" in said
    assert "$328.00 to $464.39" in said


def test_each_line_is_named_with_its_play_time_and_what_is_expected(said: str) -> None:
    assert "5 VHS T-120 · Christmas mornings 1989 to 1995 62–240 Plays as it is." in said
    assert "Hi8 P6-120, recorded as Digital8" in said
    assert "Łódź, summer 1994" in said
    assert said.count("NOT FOR REUSE") == 2


def test_each_charge_stands_with_its_reason_and_the_columns_add_up(said: str, quote: Quote) -> None:
    for charge in quote.price.charges:
        assert charge.text in said
        assert charge.because[1:] in said
    assert "Before tax $303.00 $348.00 $429.00" in said
    assert "Sales tax 8.25%, added $25.00 $28.71 $35.39" in said
    assert "Total $328.00 $376.71 $464.39" in said
    assert "−$11.00" in said


def test_a_price_that_is_known_is_one_column(quote: Quote) -> None:
    price = quote.price
    charges = tuple(replace(charge, amount=flat(charge.amount.likely)) for charge in price.charges)
    known = replace(price, charges=charges, net=flat(34800), tax=flat(2871), gross=flat(37671))
    said = pdf.words(quote_paper.render(replace(quote, price=known), records.FRONT, detail=True))
    assert "What Quantity Amount" in said
    assert "It could be" not in said


def test_what_must_be_known_before_money_is_taken_is_said_once_for_the_tapes_it_is_about(
    said: str, quote: Quote
) -> None:
    sentence = quote.tapes[8].verdict.told[0]
    assert said.count(sentence) == 1
    assert f"Hi8 P6-120, recorded as Digital8 · VHS T-160 {sentence}" in said
    assert quote.warnings[0] in said


def test_a_warning_that_repeats_what_was_told_is_printed_once(quote: Quote) -> None:
    note = "one file may be over 4.29 GB"
    repeated = (f"1 × Hi8: {quote.tapes[8].verdict.told[0]}", note, "the queue is long")
    storage = replace(quote.storage, notes=(note,))
    said = pdf.words(quote_paper.render(replace(quote, warnings=repeated, storage=storage), records.FRONT))
    assert said.count("This tape snapped") == 1
    assert said.count("ne file may be over 4.29 GB.") == 1
    assert "The queue is long." in said


def test_hazards_of_the_bench_are_not_printed_for_the_customer(said: str) -> None:
    assert "Blades" not in said


def test_the_terms_are_on_the_paper(said: str) -> None:
    assert "Deposit today: $100.00." in said
    assert "We won't charge more than $520.00 without asking you first." in said
    assert "This quote is good until Saturday, March 28, 2026." in said
    assert "Your rights under local consumer law come first" in said


def test_without_a_day_the_paper_says_what_holds_it(quote: Quote) -> None:
    undated = replace(quote, promise=replace(quote.promise, day=None))
    said = pdf.words(quote_paper.render(undated, records.FRONT))
    assert "No day yet" in said
    assert "waiting for the Hi8 deck" in said


def test_without_a_customer_it_is_just_a_quote(quote: Quote) -> None:
    walk_in = replace(quote, inventory=replace(quote.inventory, customer=None))
    assert "Quote 12 tapes, seen on" in pdf.words(quote_paper.render(walk_in, records.FRONT))


def test_every_format_of_the_catalogue_is_called_on_paper_as_in_the_catalogue() -> None:
    catalogue = formats.catalogue()
    named = {name: voice(records.FRONT).format(name) for name in catalogue.names}
    assert named == {name: catalogue.format(name).words for name in catalogue.names}


def test_a_format_whose_own_file_names_it_is_called_so_on_paper(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / f"{invented_format.NAME}.toml").write_text(invented_format.FILE, encoding="utf-8")
    added = formats.Catalogue(formats.load(tmp_path, resource_files.path("catalogue", "formats")))
    monkeypatch.setattr("core.papers.voice.catalogue", lambda: added)
    name = FormatName(invented_format.NAME)

    assert voice(records.FRONT).format(name) == added.format(name).words != name
    assert voice(records.FRONT).format(FormatName("unheard-of")) == "unheard-of"
