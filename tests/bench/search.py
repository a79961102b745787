"""One-box search among fifty thousand customers, against reading every name with LIKE '%…%'."""

from __future__ import annotations

import random
import tempfile
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, text

from core import folding, jobs, numbers, search
from core.names import CommandId, JobNumber
from core.shop import Shop
from core.unit import Unit
from tests.bench.ratio import Ratio, median, p95, timed
from tests.support import booked

CUSTOMERS = 50_000
CALLS = 60
PIECES = (
    (
        "Bar",
        "Cel",
        "Dor",
        "Fen",
        "Gal",
        "Hol",
        "Jor",
        "Kes",
        "Lun",
        "Mar",
        "Nor",
        "Oth",
        "Per",
        "Quin",
        "Ros",
    ),
    ("a", "e", "i", "o", "u", "an", "er", "il", "on", "ur", "ath", "eld", "isk", "orm", "und"),
    (
        "ac",
        "bert",
        "dale",
        "ford",
        "grin",
        "ham",
        "kins",
        "low",
        "mond",
        "ner",
        "pole",
        "rick",
        "sen",
        "wick",
    ),
)
"""Of which names are put together."""
SEED = 7
NOW = datetime(2026, 3, 3, 14, 0, tzinfo=UTC)
AT_MOST = {"job number": 1 / 10, "tape code": 1 / 10, "phone fragment": 1 / 5, "piece of a name": 1 / 5}
"""p95 of the search over p95 of the scan. The scan grows with the shop, the search must not."""
AT_MOST_MISSPELT = 1 / 50
"""Against the standard library's way of finding a similar name."""


def measure() -> Iterator[Ratio]:
    """Each kind of question, asked for customers picked at random with a fixed seed."""
    dice = random.Random(SEED)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "shop.sqlite"
        with Shop.open(path, clock=lambda: NOW) as shop:
            names = _fill(shop, dice)
            yield from _ratios(shop, names, dice)


def _ratios(shop: Shop, names: Sequence[str], dice: random.Random) -> Iterator[Ratio]:
    def one_box(ask: Callable[[], str]) -> float:
        return p95(timed(lambda: shop.ask(search.jobs, ask()), CALLS))

    scan = p95(timed(lambda: shop.ask(_scan, dice.choice(names)[1:5]), CALLS))
    questions = _questions(names, dice)
    for kind, at_most in AT_MOST.items():
        yield Ratio(f"p95 by {kind}", one_box(questions[kind]), "LIKE scan, p95", scan, "ms", at_most)
    misspelt = questions["misspelt name"]
    difflib = median(timed(lambda: get_close_matches(misspelt(), names), 3))
    yield Ratio("p95 by misspelt name", one_box(misspelt), "difflib", difflib, "ms", AT_MOST_MISSPELT)


def _questions(names: Sequence[str], dice: random.Random) -> dict[str, Callable[[], str]]:
    """What callers say. A misspelt name has two letters of its middle swapped."""

    def anyone() -> int:
        return dice.randrange(CUSTOMERS)

    def misspelt() -> str:
        name = names[anyone()]
        return name[:3] + name[4] + name[3] + name[5:]

    return {
        "job number": lambda: str(numbers.job_number(2 + anyone())),
        "tape code": lambda: str(numbers.tape_code(numbers.job_number(2 + anyone()), 1)),
        "phone fragment": lambda: _phone(anyone())[-7:],
        "piece of a name": lambda: names[anyone()][2:8].strip(),
        "misspelt name": misspelt,
    }


def _scan(unit: Unit, piece: str) -> object:
    query = text("SELECT id FROM customers WHERE name LIKE :piece")
    return unit.session.execute(query, {"piece": f"%{piece}%"}).all()


# --- a shop with many years behind it ----------------------------------------------------


def _fill(shop: Shop, dice: random.Random) -> list[str]:
    """Books one real job, then copies its rows under other customers; gives their names."""
    shop.run(jobs.book, booked.quoted(shop, booked.line()), command=CommandId("first"))
    names = [_name(dice) for _ in range(CUSTOMERS)]
    shop.run(_copy_rows, names)
    return names


def _copy_rows(unit: Unit, names: Sequence[str]) -> None:
    connection = unit.session.connection()
    made = list(enumerate(names))
    customers = [
        {
            "id": 2 + n,
            "name": name,
            "folded": folding.folded(name),
            "phone": _phone(n),
            "digits": _phone(n)[1:],
        }
        for n, name in made
    ]
    own = [{"id": 2 + n, "number": numbers.job_number(2 + n), "customer_id": 2 + n} for n, _ in made]
    _multiply(connection, "customers", customers)
    _multiply(connection, "jobs", [row | {"command": f"copy {row['id']}"} for row in own])
    _multiply(connection, "tapes", [_tape(row) for row in own])


def _tape(job: dict[str, Any]) -> dict[str, Any]:
    code = numbers.tape_code(JobNumber(job["number"]), 1)
    return {"id": job["id"], "job_id": job["id"], "code": code}


def _multiply(connection: Connection, table: str, changes: list[dict[str, Any]]) -> None:
    """The first row of a table once more for each of ``changes``, with those columns changed."""
    found = connection.execute(text(f"SELECT * FROM {table} WHERE id = 1")).one()._mapping
    kept = [name for name in found if name not in changes[0]]
    columns = [*kept, *changes[0]]
    values = [*kept, *(f":{name}" for name in changes[0])]
    statement = (
        f"INSERT INTO {table} ({', '.join(columns)}) SELECT {', '.join(values)} FROM {table} WHERE id = 1"
    )
    connection.execute(text(statement), changes)


def _name(dice: random.Random) -> str:
    """An invented name of two words, 5 to 13 letters each."""
    return " ".join("".join(dice.choice(pieces) for pieces in PIECES) for _ in range(2))


def _phone(n: int) -> str:
    return f"+1202{5_000_000 + 37 * n:07d}"
