"""What lies on the counter outlives a power cut."""

from __future__ import annotations

import pytest

from core.model.errors import WrongInput
from core.model.names import Origin
from core.model.typed_draft import TypedBox, TypedRow
from core.services import drafts
from core.services.records_door import Shop
from tests.support.booked import Desk, inventory, line


def test_a_draft_is_kept_to_the_letter_over_a_restart(desk: Desk) -> None:
    nonsense = TypedRow("a few", "reel", "?", "x", "y", "z", "hums", "  Łódź", 0.25, Origin.BROADCAST)
    box = TypedBox(rows=(nonsense, TypedRow(), TypedRow("2")), phone="call after six")
    desk.shop.run(drafts.keep, "counter 1", TypedBox(name="Ada"))
    desk.shop.run(drafts.keep, "counter 1", box)
    with Shop.open(desk.where) as again:
        assert again.ask(drafts.kept, "counter 1") == box
        assert again.ask(drafts.kept, "counter 2") is None


def test_a_draft_out_of_older_books_is_still_read(desk: Desk) -> None:
    box = inventory(line(count=3), name="Łucja")
    desk.shop.run(drafts.keep, "counter", box)
    assert desk.shop.ask(drafts.kept, "counter") == box


def test_a_draft_is_thrown_away_when_it_is_booked(desk: Desk) -> None:
    desk.shop.run(drafts.keep, "counter", inventory())
    desk.shop.run(drafts.keep, "counter", None)
    desk.shop.run(drafts.keep, "counter", None)
    assert desk.shop.ask(drafts.kept, "counter") is None


@pytest.mark.parametrize("key", ["", "x" * 81])
def test_a_counter_has_a_name(desk: Desk, key: str) -> None:
    with pytest.raises(WrongInput, match="draft"):
        desk.shop.run(drafts.keep, key, inventory())
