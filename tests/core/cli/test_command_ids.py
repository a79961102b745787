"""Every subcommand that writes takes ``--command``, so that it can be sent again after a lost answer."""

from __future__ import annotations

from core.cli import entry
from core.cli.subcommands import SUBCOMMANDS
from tests.core.cli.test_rights_typed import KEEPS, NO_SHOP, RIGHTS, TELLS, WITHOUT, actions

WITHOUT_ID = {
    "restore": "the records that would keep the id are those that it replaces",
    "move-shop": "the same call again finds the copy whole and goes on (`shop_move.move`)",
    "kept": "it only tells",
    "shop history": "it only tells",
}
"""By subcommand that takes a right, or is everyday work, and has no id: why not."""


def has_id(name: str) -> bool:
    parser = entry.parser()
    for word in name.split():
        parser = parser._subparsers._group_actions[0].choices[word]  # type: ignore[union-attr, index, assignment]
    return any("--command" in action.option_strings for action in parser._actions)


def test_every_subcommand_that_writes_takes_an_id_or_says_why_not() -> None:
    """Seen red for `renew-backups`."""
    reads = {name for name, why in WITHOUT.items() if why in (TELLS, KEEPS, NO_SHOP)}
    every = (set(SUBCOMMANDS) - {"shop"}) | actions()
    assert every == RIGHTS.keys() | WITHOUT.keys()
    assert {name for name in every - reads if not has_id(name)} == WITHOUT_ID.keys() - reads
