"""Type-ahead: what is meant by the letters typed so far."""

from __future__ import annotations

import pytest

from core.model.errors import WrongInput
from gui.counter import accepted_words
from gui.tables import choices
from gui.tables.choices import CellChoice
from gui.widgets import wishes


def first(offered: tuple[CellChoice, ...], typed: str) -> str:
    return choices.matching(offered, typed)[0].words


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("vh", "VHS"),
        ("vhs-", "VHS"),
        ("vhsc", "VHS-C"),
        ("s", "S-VHS"),
        ("hi", "Hi8"),
        ("di", "Digital8"),
        ("mini", "MiniDV"),
        ("u", "U-matic"),
    ],
)
def test_the_first_letters_of_a_shell_are_enough(typed: str, meant: str) -> None:
    assert first(accepted_words.formats_offered(), typed) == meant


def test_a_name_written_out_wins_over_one_that_begins_so() -> None:
    assert first((CellChoice("VHS-C"), CellChoice("VHS")), "vhs") == "VHS"


def test_sn_means_snapped() -> None:
    assert first(accepted_words.findings_offered(), "sn") == "snapped"


def test_case_dashes_and_spaces_do_not_count() -> None:
    assert first(accepted_words.markings_offered("VHS"), "t 120") == "T-120"
    assert choices.meant(accepted_words.markings_offered("VHS"), "t120") is not None


def test_letters_of_no_word_offer_nothing() -> None:
    assert choices.matching(accepted_words.formats_offered(), "xyz") == ()


def test_no_letters_offer_everything() -> None:
    assert choices.matching(accepted_words.formats_offered(), " ") == accepted_words.formats_offered()


def test_a_list_is_completed_at_its_end() -> None:
    assert choices.last_part("snapped, mo") == "mo"
    assert choices.with_last_part("snapped, mo", "mould") == "snapped, mould"
    assert choices.with_last_part("mo", "mould") == "mould"


def test_every_order_that_is_offered_is_read_back() -> None:
    for offered in wishes.copies_offered():
        orders = wishes.deliveries(offered.words)
        assert len(orders) == 1
        assert wishes.copies_words(orders) == offered.words


def test_no_two_orders_share_their_words() -> None:
    names = [offered.words for offered in wishes.copies_offered()]
    assert len(names) == len(set(names))


def test_several_sets_are_typed_as_one_and_read_back() -> None:
    orders = wishes.deliveries("files on a stick, 3 x dvd")
    assert [each.kind for each in orders] == ["files", "dvd", "dvd", "dvd"]
    assert wishes.copies_words(orders) == "files on a stick, 3 × DVDs for a player"
    assert wishes.deliveries(wishes.copies_words(orders)) == orders
    assert wishes.deliveries("dvd, dvd") == wishes.deliveries("dvd")
    for wrong in ("21 x dvd", "0 x dvd"):
        with pytest.raises(WrongInput):
            wishes.deliveries(wrong)
