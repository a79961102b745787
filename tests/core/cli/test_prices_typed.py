"""The price book as a file for a spreadsheet: written, changed, read back."""

from __future__ import annotations

from pathlib import Path

from tests.support.typed import Typist

VHS = "prices.capture.vhs.price"


def test_prices_go_out_and_come_in_from_a_day(typed: Typist, box: Path, tmp_path: Path) -> None:
    number, file = typed("book", box).document["number"], tmp_path / "prices.csv"
    before = typed("status", number).document
    assert typed("shop", "prices-out", file).document == {"file": str(file)}
    assert typed("shop", "prices-in", file).document["changed"] == []
    text = file.read_bytes().decode()
    assert "capture,vhs,VHS,per-period,6.00,30,,\r\n" in text
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
