"""A shop of the version before: its chain is worked out anew, and hides nothing that did not fit."""

from __future__ import annotations

from pathlib import Path

import pytest
from sqlalchemy import text

from core.services import jobs
from core.services.records_door import Shop
from core.store import engines, history, row_digests
from core.store.audits import row_audit
from core.wording.messages import say
from tests.core.filled_shop import fill
from tests.support.booked import Desk, events
from tests.support.older import as_kept_before

BEFORE = "0015"


def kept_before(desk: Desk, path: Path, *alterations: str) -> Path:
    """A filled shop in the tables of the version before, altered behind the program's back."""
    fill(desk)
    as_kept_before(desk, str(path), BEFORE)
    old = engines.open_database(path)
    with old.writing.begin() as connection:
        connection.execute(text("DROP TRIGGER events_no_update"))
        for each in alterations:
            connection.execute(text(each))
        connection.execute(
            text(
                "CREATE TRIGGER events_no_update BEFORE UPDATE ON events "
                "BEGIN SELECT RAISE(ABORT, 'events is append-only'); END"
            )
        )
    old.close()
    return path


def test_an_older_chain_holds_and_every_row_is_told(file_desk: Desk, tmp_path: Path) -> None:
    with Shop.open(kept_before(file_desk, tmp_path / "old.sqlite")) as shop:
        assert shop.ask(history.verify) == ()
        assert shop.ask(lambda unit: list(row_audit.differences(unit))) == []
        assert events(shop, row_digests.KIND)
        said = [each.words for each in shop.ask(jobs.history, "000018")]
        assert said == [each.words for each in file_desk.shop.ask(jobs.history, "000018")]


@pytest.mark.parametrize(
    ("alteration", "key"),
    [
        ("UPDATE events SET words = 'nothing happened' WHERE seq = 9", "history_line_altered"),
        ("UPDATE events SET previous = digest WHERE seq = 9", "history_line_unlinked"),
    ],
)
def test_what_did_not_fit_before_does_not_fit_afterwards(
    file_desk: Desk, tmp_path: Path, alteration: str, key: str
) -> None:
    with Shop.open(kept_before(file_desk, tmp_path / "old.sqlite", alteration)) as shop:
        (kind,) = shop.ask(
            lambda unit: unit.session.execute(text("SELECT kind FROM events WHERE seq = 9")).scalars().all()
        )
        assert say("records", key, seq=9, kind=kind) in shop.verify()
