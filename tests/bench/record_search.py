"""One-box search in a shop as full as its job numbers allow, against reading a column with LIKE '%…%'."""

from __future__ import annotations

import random
import tempfile
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from difflib import get_close_matches
from functools import cache
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, bindparam, select, text

from core.model import folding, numbers
from core.model.names import CommandId, JobNumber
from core.services import jobs
from core.services.records_door import Shop
from core.store import search, search_statements
from core.store.sqlite_library import sqlite_module
from core.store.tables import JobRow
from core.store.unit import Unit
from tests.bench.ratio import Ratio, median, own_time, p95, timed
from tests.support import booked

CUSTOMERS = 99_000
"""One job each; a shop file holds 99,999 jobs."""
TAPES_EACH = 10
CALLS = 200
SCANS = 40
SEED = 7
NOW = datetime(2026, 3, 3, 14, 0, tzinfo=UTC)
SCANNED = {
    "job number": ("jobs", "number"),
    "tape code": ("tapes", "code"),
    "phone fragment": ("customers", "digits"),
    "piece of a name": ("customers", "folded"),
}
"""Where each kind of question would be looked for without an index."""
AT_MOST = {
    "job number": 1 / 1000,
    "tape code": 1 / 1000,
    "phone fragment": 1 / 50,
    "piece of a name": 1 / 50,
}
"""p95 of the search over the p95 of reading that one column with LIKE '%…%'."""
AT_MOST_MISSPELT = 1 / 50
"""Against the standard library's way of finding a similar name."""
AT_MOST_UNFOUND = 0.02
"""Misspelt names whose owner is not among the first five."""
AT_MOST_RAW = 3
"""p95 of a look-up through the door, against the same statement on a bare connection."""
_BY_NUMBER = select(JobRow.__table__.c.id).where(JobRow.__table__.c.number == bindparam("number"))


def measure() -> Iterator[Ratio]:
    """Each kind of question, asked for customers picked at random with a fixed seed."""
    dice = random.Random(SEED)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "shop.sqlite"
        booked.set_up(path)
        with Shop.open(path, clock=lambda: NOW) as shop:
            names = _fill(shop, dice)
            questions = _questions(names, dice)
            yield from _exact(shop, questions)
            yield from _misspelt(shop, names, dice)
        yield _through_the_door(path, questions["job number"])


def _exact(shop: Shop, questions: dict[str, Callable[[], str]]) -> Iterator[Ratio]:
    for kind in AT_MOST:
        yield _one_kind(shop, kind, questions[kind])


def _one_kind(shop: Shop, kind: str, ask: Callable[[], str]) -> Ratio:
    ours = p95(timed(lambda: shop.ask(search.jobs, ask()), CALLS, own_time))
    scan = p95(timed(lambda: shop.ask(_scan, *SCANNED[kind], ask()), SCANS, own_time))
    return Ratio(f"p95 by {kind}", ours, "LIKE scan, p95", scan, "ms", AT_MOST[kind])


def _misspelt(shop: Shop, names: Sequence[str], dice: random.Random) -> Iterator[Ratio]:
    asked = [dice.choice(names) for _ in range(CALLS)]
    spelt = iter([_with_one_slip(name, dice) for name in asked] * 2)
    ours = median(timed(lambda: shop.ask(search.jobs, next(spelt)), CALLS - 1, own_time))
    distinct = list(dict.fromkeys(names))

    def the_usual_way() -> object:
        return get_close_matches(_with_one_slip(dice.choice(names), dice), distinct)

    difflib = median(timed(the_usual_way, 3, own_time))
    yield Ratio("by misspelt name", ours, "difflib", difflib, "ms", AT_MOST_MISSPELT)
    unfound = sum(name not in _first_five(shop, names, next(spelt)) for name in asked)
    yield Ratio("misspelt and not in the first five", unfound, "all", CALLS, "names", AT_MOST_UNFOUND)


def _first_five(shop: Shop, names: Sequence[str], text: str) -> list[str]:
    return [names[job - 2] for job, _ in shop.ask(search.jobs, text)[:5]]


def _through_the_door(path: Path, ask: Callable[[], str]) -> Ratio:
    """The session, the transaction and the statement builder beside a bare connection."""
    bare = sqlite_module().connect(path)
    one = "SELECT id FROM jobs WHERE number = ?"
    floor = p95(timed(lambda: bare.execute(one, (ask(),)).fetchall(), CALLS, own_time))
    bare.close()
    with Shop.open(path, clock=lambda: NOW) as shop:
        ours = p95(timed(lambda: shop.ask(_by_number, ask()), CALLS, own_time))
    return Ratio("one look-up through the door", ours, "bare SQLite", floor, "ms", AT_MOST_RAW)


def _by_number(unit: Unit, number: str) -> object:
    return unit.session.connection().execute(_BY_NUMBER, {"number": number}).all()


def _questions(names: Sequence[str], dice: random.Random) -> dict[str, Callable[[], str]]:
    """What callers say."""

    def anyone() -> int:
        return dice.randrange(CUSTOMERS)

    def piece() -> str:
        surname = names[anyone()].split()[1]
        return surname[1:5].casefold()

    return {
        "job number": lambda: str(_number(2 + anyone())),
        "tape code": lambda: str(numbers.tape_code(_number(2 + anyone()), dice.randint(1, TAPES_EACH))),
        "phone fragment": lambda: _phone(anyone())[-dice.choice((4, 7)) :],
        "piece of a name": piece,
    }


def _with_one_slip(name: str, dice: random.Random) -> str:
    """One letter of the last name is left out, doubled, another, or changes places with the next."""
    first, last = name.split()
    at = dice.randrange(1, len(last) - 1)
    before, letter, after = last[:at], last[at], last[at + 1 :]
    wrong = dice.choice("aeiourstlnmbdk")
    slip = dice.choice((after, letter * 2 + after, wrong + after, after[:1] + letter + after[1:]))
    return f"{first} {before}{slip}"


def _scan(unit: Unit, table: str, name: str, piece: str) -> object:
    query = text(f"SELECT id FROM {table} WHERE {name} LIKE :piece LIMIT {search_statements.MOST}")
    return unit.session.execute(query, {"piece": f"%{piece}%"}).all()


# --- a shop with many years behind it ----------------------------------------------------

BEGINS = (
    "b",
    "br",
    "c",
    "ch",
    "d",
    "f",
    "fl",
    "g",
    "gr",
    "h",
    "j",
    "k",
    "kl",
    "l",
    "m",
    "n",
    "p",
    "pr",
    "qu",
    "r",
    "s",
    "sch",
    "st",
    "t",
    "tr",
    "v",
    "w",
    "z",
)
VOWELS = ("a", "e", "i", "o", "u", "ai", "ea", "ie", "ou", "ö", "ü")
MIDDLES = (
    "b",
    "ck",
    "d",
    "ff",
    "g",
    "l",
    "ll",
    "m",
    "mm",
    "n",
    "nd",
    "nn",
    "r",
    "rr",
    "s",
    "ss",
    "st",
    "t",
    "tt",
    "v",
)
ENDS = (
    "a",
    "ac",
    "berg",
    "bert",
    "by",
    "dale",
    "ez",
    "feld",
    "ford",
    "grin",
    "ham",
    "in",
    "ini",
    "kins",
    "ley",
    "low",
    "man",
    "mond",
    "ner",
    "o",
    "poulos",
    "rick",
    "sen",
    "ski",
    "ton",
    "wick",
)
"""Of which names are put together, some of them far more often than others."""


def _fill(shop: Shop, dice: random.Random) -> list[str]:
    """Books one real job, then copies its rows under other customers; gives their names."""
    shop.once(CommandId("first"), jobs.book, booked.quoted(shop, booked.line()))
    first, last = [_word(dice) for _ in range(600)], [_word(dice) for _ in range(30_000)]
    names = [f"{_often(first, dice)} {_often(last, dice)}" for _ in range(CUSTOMERS)]
    shop.run(_copy_rows, names)
    return names


def _word(dice: random.Random) -> str:
    middle = "".join(dice.choice(VOWELS) + dice.choice(MIDDLES) for _ in range(dice.randint(1, 2)))
    return (dice.choice(BEGINS) + middle + dice.choice(ENDS)).capitalize()


def _often(words: Sequence[str], dice: random.Random) -> str:
    """The first words of the list much oftener than the last, as names are in a town (an assumption)."""
    return words[int(len(words) * dice.random() ** 3)]


def _copy_rows(unit: Unit, names: Sequence[str]) -> None:
    connection = unit.session.connection()
    made = [(2 + n, name, _phone(n)) for n, name in enumerate(names)]
    _multiply(
        connection,
        "customers",
        [
            {"id": id, "name": name, "folded": folding.folded(name), "phone": phone, "digits": phone[1:]}
            for id, name, phone in made
        ],
    )
    own = [
        {"id": id, "number": _number(id), "customer_id": id, "command": f"copy {id}", "quote": "{}"}
        for id, _, _ in made
    ]
    _multiply(connection, "jobs", own)
    _multiply(connection, "tapes", [tape for id, _, _ in made for tape in _tapes(id)])


def _tapes(job: int) -> list[dict[str, Any]]:
    """Most boxes went home long ago."""
    station = "handed-back" if job % 100 else "booked-in"
    return [
        {
            "id": job * TAPES_EACH + place,
            "job_id": job,
            "place": place,
            "code": numbers.tape_code(_number(job), place),
            "station": station,
            "draft": "{}",
            "verdict": "{}",
        }
        for place in range(1, TAPES_EACH + 1)
    ]


def _multiply(connection: Connection, table: str, changes: list[dict[str, Any]]) -> None:
    """The first row of a table once more for each of ``changes``, with those columns changed.

    Long texts that no search reads are left out: that makes the scan quicker, not the search.
    """
    found = connection.execute(text(f"SELECT * FROM {table} WHERE id = 1")).one()._asdict()
    columns = list(found)
    names = ", ".join(f'"{name}"' for name in columns)
    holes = ", ".join("?" for _ in columns)
    rows = [tuple(row.get(name, found[name]) for name in columns) for row in changes]
    connection.exec_driver_sql(f"INSERT INTO {table} ({names}) VALUES ({holes})", rows)


@cache
def _number(job: int) -> JobNumber:
    return numbers.job_number(job)


def _phone(n: int) -> str:
    """Spread over the numbers of a region: neighbours in the table are none in the book."""
    return f"+1202{2_000_000 + 48_271 * n % 7_999_993:07d}"
