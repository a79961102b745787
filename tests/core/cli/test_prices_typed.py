"""The price book as a file for a spreadsheet: written, changed, read back."""

from __future__ import annotations

from pathlib import Path

from tests.support.inventories import changed, written
from tests.support.typed import Typist

VHS = "prices.capture.vhs.price"


def test_prices_go_out_and_come_in_from_a_day(typed: Typist, box: Path, tmp_path: Path) -> None:
    number, file = typed("book", box).document["number"], tmp_path / "prices.csv"
    before = typed("status", number).document
    assert typed("shop", "prices-out", file).document == {"file": str(file)}
    assert typed("shop", "prices-in", file).document["changed"] == []
    text = file.read_bytes().decode()
    assert "capture,vhs,VHS,per-period,6.00,30,,,,\r\n" in text
    file.write_bytes(text.replace("VHS,per-period,6.00", "VHS,per-period,6.50").encode())
    later = typed("shop", "prices-in", file, "--from", "2026-03-05").document
    assert (later["changed"], "Copying VHS, price: 6.00 → 6.50" in later["told"][0]) == ([], True)
    assert typed("shop", "show", VHS).document == {VHS: "6.00"}
    in_force = typed("shop", "show", VHS, now="2026-03-05T10:00:00-05:00").document
    assert in_force == {VHS: "6.50"}
    assert typed("status", number).document == before
    assert typed("verify").code == 0


def test_a_wrong_cell_is_named_and_nothing_is_kept(typed: Typist, box: Path, tmp_path: Path) -> None:
    typed("book", box)
    text = typed("shop", "prices-out", as_json=False).out
    file = tmp_path / "prices.csv"
    file.write_text(text.replace("VHS,per-period,6.00", "VHS,per-period,6$"), encoding="utf-8")
    refused = typed("shop", "prices-in", file)
    assert refused.code == 2
    assert "prices.csv, row 7, price: found '6$'" in refused.err
    file.write_bytes(b"\xff\xfe")
    assert typed("shop", "prices-in", file).code == 2
    assert typed("shop", "prices-in", tmp_path / "gone.csv").code == 2
    assert typed("shop", "prices-out", as_json=False).out == text


def test_fees_taxes_and_rounding_are_typed_and_stand_in_the_next_quote(
    typed: Typist, box: Path, tmp_path: Path
) -> None:
    city = '{ words = "city tax", percent = "2.5", on = ["goods"] }'
    storage = '{ price = "1.50", per = "week", after_days = 60 }'
    rules = (
        "prices.rounding.step",
        "0.05",
        "prices.inspection_fee.price",
        "10.00",
        "prices.storage_fee",
        storage,
    )
    assert typed("shop", "set", *rules, "prices.further_tax.1", city).code == 0
    quote = typed("quote", box).document
    assert [(tax["percent"], tax["text"]) for tax in quote["taxes"]] == [
        ("8.25", "sales tax 8.25%, added"),
        ("2.5", "city tax 2.5%, added"),
    ]
    for column in ("low", "likely", "high"):
        assert quote["tax_minor"][column] == sum(tax["tax_minor"][column] for tax in quote["taxes"])
        assert quote["due_minor"][column] == quote["gross_minor"][column] + quote["rounding_minor"][column]
        assert quote["due_minor"][column] % 5 == 0
    goods = [charge for charge in quote["charges"] if charge["kind"] == "goods"]
    assert (
        quote["taxes"][1]["base_minor"]["likely"] == sum(each["amount_minor"]["likely"] for each in goods) > 0
    )
    assert quote["inspection_fee"] == {"minor": 1000, "way": "per-tape"}
    assert quote["storage_fee"] == {"minor": 150, "per": "week", "after_days": 60}
    for key, text in (("prices.capture.vhs.minimum", "9.00"), ("prices.tax.on", '["copying", "goods"]')):
        assert typed("shop", "set", key, text).code == 0
        assert typed("shop", "show", key).code == 0
    assert typed("shop", "show", "prices.capture.vhs.minimum").document == {
        "prices.capture.vhs.minimum": "9.00"
    }
    assert typed("shop", "set", "prices.tax.mode", "none").code == 0
    untaxed = typed("quote", box).document
    assert (untaxed["taxes"], untaxed["tax_words"], untaxed["tax_minor"]["high"]) == ([], "", 0)
    assert untaxed["gross_minor"] == untaxed["net_minor"]


def test_an_exempt_customer_stays_exempt_and_a_nameless_reason_is_refused(
    typed: Typist, tmp_path: Path
) -> None:
    file = tmp_path / "exempt.json"
    file.write_bytes(written(changed("tax_exempt", "certificate 12-345")))
    booked = typed("book", file).document
    for quote in (booked["quote"], typed("quote", file).document):
        assert (quote["tax_exempt"], quote["tax_minor"]["high"]) == ("certificate 12-345", 0)
        assert "certificate 12-345" in quote["tax_words"]
        assert quote["due_minor"] == quote["net_minor"]
    file.write_bytes(written(changed("tax_exempt", 7)))
    refused = typed("quote", file)
    assert refused.code == 2
    assert "tax_exempt: found 7; accepted: the reason or the number" in refused.err
