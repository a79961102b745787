"""Which orders were those of customers who were erased: a list that lies beside the backups and names nobody.

A backup from before an erasure still holds the person, so whoever restores it has to erase them again. The
records that know of the erasure may be lost by then; the list is in every place a backup goes to. Of an order
it holds the SHA-256 of number and moment of booking, which only records that hold the order can compare.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Collection, Iterator
from contextlib import closing, suppress
from datetime import datetime
from pathlib import Path

import platformdirs
from sqlalchemy import Connection, column, inspect, select, table
from sqlalchemy.exc import SQLAlchemyError

from core.model import private_files, regular_files
from core.store.columns import UtcMoment, written
from core.store.sharing.shop_scope import narrowed
from core.store.shop_files import durable_files
from core.store.sqlite_library import sqlite_module
from core.wording.messages import say

NAME = "tapewright-erased-orders.txt"

_JOBS = table("jobs", column("number"), column("booked_at", UtcMoment), column("customer_id"), column("shop"))
_ERASURES = table("erasures", column("customer_id"), column("shop"))


def mark(number: str, booked_at: datetime | str) -> str:
    """What stands for an order: a number is never given twice, and if it were, not at the same moment."""
    at = booked_at if isinstance(booked_at, str) else written(booked_at)
    return hashlib.sha256(f"{number} {at}".encode()).hexdigest()


def of_records(connection: Connection) -> frozenset[str]:
    """The orders of everybody these records say was erased; none in tables that know no erasures."""
    if not inspect(connection).has_table(_ERASURES.name):
        return frozenset()
    gone = narrowed(connection, select(_ERASURES.c.customer_id), _ERASURES)
    theirs = select(_JOBS.c.number, _JOBS.c.booked_at).where(_JOBS.c.customer_id.in_(gone))
    return frozenset(mark(*row) for row in connection.execute(narrowed(connection, theirs, _JOBS)))


def beside(where: str | Path) -> Path:
    """The folder of a shop's own list: that of its file; of one on a server, this user's data folder."""
    if "://" in str(where):
        return Path(platformdirs.user_data_dir(private_files.PROGRAM, appauthor=False))
    return regular_files.expanded(where).absolute().parent


def listed(folder: Path) -> frozenset[str]:
    """The orders on the list of a folder; none where there is no list. A line that was torn is no order."""
    path = folder / NAME
    if not path.is_file():
        return frozenset()
    try:
        lines = path.read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return frozenset()
    return frozenset(line for line in lines if len(line) == 64 and not set(line) - set("0123456789abcdef"))


def add(folder: Path, orders: Collection[str]) -> None:
    """Adds what is missing to the list of a folder and flushes it; OSError where that cannot be done."""
    path = folder / NAME
    missing = sorted(set(orders) - listed(folder))
    if not missing:
        return
    durable_files.make_folders(folder)
    head = "" if path.exists() else say("privacy", "erased-list") + "\n"
    durable_files.append(path, "".join([head, "\n", *(f"{each}\n" for each in missing)]).encode())


def held_in(file: Path, orders: Collection[str]) -> bool:
    """Whether an unlocked copy of a shop, a file or a dump, still holds the customer of one of these orders.

    A file that cannot be read holds nobody that anybody could read.
    """
    with suppress(OSError, ValueError, LookupError, TypeError, SQLAlchemyError, sqlite_module().Error):
        return any(order in orders for order in _standing(file))
    return False


def _standing(file: Path) -> Iterator[str]:
    """The orders of a copy whose customers were not erased there."""
    jobs, erased = _of_dump(file) if file.suffix == ".jsonl" else _of_file(file)
    return (mark(number, at) for number, at, customer in jobs if customer not in erased)


def _of_file(file: Path) -> tuple[list[tuple[str, str, int]], set[int]]:
    shop = sqlite_module().connect(f"{file.absolute().as_uri()}?mode=ro", uri=True)
    with closing(shop):
        jobs = shop.execute("SELECT number, booked_at, customer_id FROM jobs").fetchall()
        known = shop.execute("SELECT count(*) FROM sqlite_master WHERE name = 'erasures'").fetchone()[0]
        gone = shop.execute("SELECT customer_id FROM erasures").fetchall() if known else []
    return jobs, {row[0] for row in gone}


def _of_dump(file: Path) -> tuple[list[tuple[str, str, int]], set[int]]:
    jobs, gone = [], set()
    with file.open(encoding="utf-8") as lines:
        for each in map(json.loads, lines):
            if each.get("table") == "jobs":
                row = each["row"]
                jobs.append((row["number"], row["booked_at"], row["customer_id"]))
            elif each.get("table") == "erasures":
                gone.add(each["row"]["customer_id"])
    return jobs, gone
