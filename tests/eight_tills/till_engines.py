"""The shops in which a run takes place: a file, or a server that can be killed, behind two links."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

from tests.eight_tills import till_faults
from tests.eight_tills.killable_server import KillableServer
from tests.eight_tills.till_run import Phase, SharedShop
from tests.support.booked import set_up
from tests.support.faults.lossy_link import lossy_link
from tests.support.own_postgres import programs

KINDS = ("sqlite", "postgres")


@contextmanager
def made(kind: str, folder: Path, *, is_slack: bool = False) -> Iterator[SharedShop]:
    """A new shop that is set up and empty. ``is_slack``: its server acknowledges what it has not written."""
    if kind == "sqlite":
        file = folder / "shop.sqlite"
        set_up(file)
        yield SharedShop(kind, str(file))
        return
    there = programs()
    assert there is not None, "no PostgreSQL is installed"
    with ExitStack() as kept:
        server = KillableServer(there, is_slack=is_slack)
        kept.callback(server.stop)
        set_up(server.url)
        links = [kept.enter_context(lossy_link(server.url)) for _ in range(2)]
        yield SharedShop(kind, server.url, links, server)


def phases(kind: str, steps: int, one: str = "") -> tuple[Phase, ...]:
    """The faults of an engine one after the other, then all of them, in so many steps together.

    ``one``: the name of the only one that is meant.
    """
    every = _FAULTS[kind]
    faults = {"nothing": (), **{each.name: (each,) for each in every}, "all of these": every}
    meant = {name: each for name, each in faults.items() if one in ("", name)}
    return tuple(Phase(name, each, -(-steps // len(meant))) for name, each in meant.items())


_FAULTS = {
    "sqlite": (till_faults.KILLED, till_faults.FROZEN),
    "postgres": (
        till_faults.KILLED,
        till_faults.FROZEN,
        till_faults.CUT,
        till_faults.SILENT,
        till_faults.SWALLOWED,
        till_faults.PROCESS_KILLED,
        till_faults.SERVER_KILLED,
    ),
}
