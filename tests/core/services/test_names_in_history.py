"""Every line of the history, and every row that says who, bears the name of the person who acted.

The source is walked, so that a step added later is looked at too; then a day of steps is lived, each by
somebody else.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

import core
from core.model.errors import WrongInput
from core.services import invented_shop
from core.services.records_door import Shop
from core.store import history
from core.store.tables import EventRow
from core.store.unit import Unit
from tests.support.booked import Desk, line

CORE = Path(core.__file__).parent
APPENDS = ("append", "append_of_tape")
BY_THE_PERSON = ("unit.who", "row.kept_by")  # a draft that moves to another counter stays whose it was
SIGNS_IN = "replace(unit, who=name)"
"""The one line that is written under another name: that of whoever signs in."""
BY_THE_CUSTOMER = ("signed_by", "agreed_by", "said_by")
"""What the customer did, or somebody for the customer: their name stands beside that of the person acting."""
DAY = datetime(2026, 3, 3, 14, 0, tzinfo=UTC)


def calls(*shelves: str) -> Iterator[tuple[str, ast.Call]]:
    """Every call in the files of these shelves, with the place it stands at."""
    for shelf in shelves:
        for file in sorted((CORE / shelf).rglob("*.py")):
            for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Call):
                    yield f"{file.relative_to(CORE)}:{node.lineno}", node


def test_every_step_appends_its_line_as_the_person_acting() -> None:
    units = {}
    for where, call in calls("services", "store"):
        if isinstance(call.func, ast.Attribute) and call.func.attr in APPENDS:
            owner = ast.unparse(call.func.value)
            if owner in ("history", "chain", "settings_entries"):
                units[where] = ast.unparse(call.args[0])
    assert len(units) > 30
    others = {where: unit for where, unit in units.items() if unit != "unit"}
    assert list(others.values()) == [SIGNS_IN], others


def test_every_row_that_says_who_says_the_person_acting() -> None:
    """Keywords called ``by`` or ``…_by`` of rows, but for what the customer said or signed."""
    said = {
        f"{where} {keyword.arg}": ast.unparse(keyword.value)
        for where, call in calls("services", "store")
        if ast.unparse(call.func).endswith("Row")
        for keyword in call.keywords
        if keyword.arg is not None
        and (keyword.arg == "by" or keyword.arg.endswith("_by"))
        and keyword.arg not in BY_THE_CUSTOMER
    }
    assert len(said) > 10
    assert {place: value for place, value in said.items() if value not in BY_THE_PERSON} == {}


def test_a_unit_that_writes_is_made_for_the_person_at_the_door() -> None:
    """Nobody else makes a unit: two that only read say which check they are for."""
    made = {
        where.rsplit(":", 1)[0]: ast.unparse(call.args[2])
        for where, call in calls("services", "store", "cli")
        if ast.unparse(call.func) == "Unit"
    }
    assert made == {
        "services/backup.py": "'rehearsal'",
        "services/records_door.py": "self.who",
        "services/restoring/given_numbers.py": "note.who",
        "services/restoring/shop_there.py": "'restore'",
    }


def test_a_day_of_steps_each_by_somebody_else(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The invented shop's days: no line of any step bears another name than that of its step."""
    told = 0
    kinds: set[str] = set()

    def watched(carry_out: Callable[..., Any]) -> Callable[..., Any]:
        def carried_out(self: Shop, *asked: Any, **named: Any) -> Any:
            nonlocal told
            self.who = f"Person {told}"
            first = told
            done = carry_out(self, *asked, **named)
            new = self.ask(_lines_from, first)
            told += len(new)
            kinds.update(kind for kind, _ in new)
            assert {by for _, by in new} <= {self.who}, asked
            return done

        return carried_out

    for door in ("run", "once"):
        monkeypatch.setattr(Shop, door, watched(getattr(Shop, door)))
    invented_shop.make(tmp_path / "days", DAY)
    assert told > 200
    assert len(kinds) > 15


def test_a_line_without_a_name_is_never_written(desk: Desk) -> None:
    for nobody in ("", "   "):
        desk.shop.who = nobody
        with pytest.raises(WrongInput, match="name"):
            desk.book(line())
    desk.shop.who = "Ada"
    desk.book(line())
    assert all(event.by.strip() for event in desk.shop.ask(lambda unit: list(history.lines(unit))))


def _lines_from(unit: Unit, first: int) -> list[tuple[str, str]]:
    rows = unit.session.query(EventRow).where(EventRow.seq > first).order_by(EventRow.seq)
    return [(row.kind, row.by) for row in rows]
