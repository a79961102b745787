"""Hebrew and Arabic are drawn in their own direction (examples worked out by hand from UAX 9)."""

from __future__ import annotations

import pytest

from core.papers.typesetting.lettering import drawn


@pytest.mark.parametrize(
    ("written", "seen"),
    [
        ("Anna 12", "Anna 12"),
        ("שלום", "םולש"),
        ("אב 12 גד", "דג 12 בא"),
        ("שלום (Tel Aviv) 12", "12 (Tel Aviv) םולש"),
        ("Cohen (שלום)", "Cohen (םולש)"),
        # Rule W2: after an Arabic letter a European number is an Arabic one, so it stands in the Arabic run.
        ("Amal \u062a\u0645 12", "Amal 12 \ufee2\ufe97"),
        # Rule L3: a point stays behind its letter.
        ("\u05e9\u05b8\u05dc", "\u05dc\u05e9\u05b8"),
    ],
)
def test_the_order_on_paper_is_the_order_of_reading(written: str, seen: str) -> None:
    assert drawn(written) == seen


def test_arabic_letters_join() -> None:
    # BEH ALEF BEH: initial beh, final alef (which does not join onwards), isolated beh; drawn from the right.
    assert drawn("\u0628\u0627\u0628") == "\ufe8f\ufe8e\ufe91"
