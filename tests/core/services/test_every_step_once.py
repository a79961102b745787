"""Every step of the program, sent again after an answer that was lost, is stored once.

The steps are those that bear the mark: a new one fails here until it has an example.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

import core.services
from core.model.errors import Refused, Unavailable
from core.services import payments
from core.services.own_shop import settings_versions
from core.store import steps
from core.store.columns import StoredTable
from core.store.shop_files import dump
from tests.sent_again.lost_replies import LostReplies
from tests.sent_again.step_examples import EXAMPLES
from tests.support.booked import KINDS, Desk, command, line, new_desk, opened, set_up

BEFORE_ANY_OTHER = settings_versions.make_practice
"""A shop is made one to practice in when it is made, by the program itself."""


def marked() -> dict[str, Callable[..., Any]]:
    """Every function of the services that bears the mark, by its name."""
    found = {}
    for each in pkgutil.walk_packages(core.services.__path__, "core.services."):
        module = importlib.import_module(each.name)
        for one in vars(module).values():
            if getattr(one, "__module__", "") == each.name and callable(one) and steps.mark_of(one):
                found[steps.name_of(one)] = one
    return found


STEPS = marked()


@pytest.fixture(scope="module", params=KINDS)
def crowded(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """One shop for all steps, on each database; on a server it shares the tables with another shop."""
    with new_desk(request, request.param, tmp_path_factory.mktemp("steps")) as made:
        if request.param == "sqlite":
            yield made
            return
        made.book(line(count=2), name="Bea Holloway")
        before = rows(made)
        set_up(f"{made.where}?shop=north")
        with opened(f"{made.where}?shop=north", made.kind) as north:
            yield north
        assert rows(made) == before, "a step touched rows of another shop"
        assert made.shop.verify() == ()


@pytest.fixture(scope="module")
def till(crowded: Desk) -> Iterator[LostReplies]:
    """Another till of that shop, whose answers may be lost."""
    with ExitStack() as kept:
        yield LostReplies(crowded, kept)


def rows(desk: Desk) -> list[tuple[str, str]]:
    """Every row of a shop, letter by letter."""
    with desk.shop.database.reading.begin() as connection:
        return list(dump.rows(connection, desk.clock()))


def everything(desk: Desk) -> list[object]:
    """The rows of every table but those of the commands, counted; the head of the history; the drafts."""
    tables = [each.name for each in StoredTable.metadata.sorted_tables if not each.name.startswith("command")]
    own = {name: f"FROM {name} WHERE {name}.shop = '{desk.shop.database.shop}'" for name in tables}
    counted = " UNION ALL ".join(f"SELECT '{name}', count(*) {own[name]}" for name in tables)
    with desk.shop.database.reading.connect() as connection:
        counts = sorted(tuple(row) for row in connection.execute(text(counted)))
        head = connection.execute(text(f"SELECT digest {own['events']} ORDER BY seq DESC LIMIT 1")).scalar()
        drafts = connection.execute(text(f"SELECT name, inventory {own['drafts']} ORDER BY name")).all()
    return [*counts, head, *drafts]


def mark(step: Callable[..., Any]) -> steps.StepMark:
    found = steps.mark_of(step)
    assert found is not None
    return found


def test_every_step_has_an_example() -> None:
    assert STEPS.keys() - {steps.name_of(BEFORE_ANY_OTHER)} == {steps.name_of(each) for each in EXAMPLES}


@pytest.mark.parametrize("name", sorted(STEPS.keys() - {steps.name_of(BEFORE_ANY_OTHER)}))
def test_a_step_whose_answer_was_lost_is_stored_once(crowded: Desk, till: LostReplies, name: str) -> None:
    crowded.clock.go_on(minutes=1)
    step, args, named = EXAMPLES[STEPS[name]](crowded)
    before, sent = everything(crowded), command()
    with till.next_one(), pytest.raises(Unavailable):
        till.shop.once(sent, step, *args, **named)
    stored = everything(crowded)
    assert stored != before, "the step stored nothing, so this shows nothing"
    crowded.clock.go_on(minutes=1)
    again = till.shop.once(sent, step, *args, **named)
    assert (again.before is None) is mark(step).replaces
    if not mark(step).replaces:
        assert everything(crowded) == stored


def test_the_answer_is_the_first_one(crowded: Desk, till: LostReplies) -> None:
    number, sent = crowded.book().number, command()
    first = crowded.shop.once(sent, payments.take, number, 100).answer
    crowded.shop.run(payments.take, number, 200)
    assert till.shop.once(sent, payments.take, number, 100).answer == first


def test_nothing_is_sound_after_all_of_that(crowded: Desk) -> None:
    assert crowded.shop.verify() == ()


def test_without_the_id_the_fault_stores_twice(crowded: Desk, till: LostReplies) -> None:
    """So the fault is real: what goes without an id is doubled by it."""
    number = crowded.book().number
    for sent in (command(), command()):
        with till.next_one(), pytest.raises(Unavailable):
            till.shop.once(sent, payments.take, number, 100)
    with pytest.raises(Refused):
        crowded.shop.run(payments.refund, number, 201, note="more than twice")
    crowded.shop.run(payments.refund, number, 200, note="it was stored twice")


def test_the_window_and_the_command_line_send_nothing_without_an_id() -> None:
    """Whoever writes past `Work.run` or `Invocation.run` would have no id to send again."""
    root = Path(core.services.__file__).parents[2]
    found = {
        f"{path.relative_to(root)}: {line.strip()}"
        for place in ("gui", "core/cli")
        for path in (root / place).rglob("*.py")
        for line in path.read_text(encoding="utf-8").splitlines()
        if "shop.run(" in line.replace("call.run(shop", "") and "self.shop" not in line
    }
    assert found == {
        # A place of papers noted twice is noted once: it is no step anybody asks for.
        "core/cli/subcommands/paper_folder.py: shop.run(paper_places.note, number, str(place))",
        "gui/toolkit/screen_context.py: shop.run(paper_places.note, number, str(folder.absolute()))",
        "core/cli/proving.py: answer = shop.run(people.check_pin, person.name, pin)",
        "gui/toolkit/sent_steps.py: self._work.on_records("
        "lambda shop: shop.run(step, *args, **named), then, otherwise, changes)",
    }
