"""Options of the subcommands about what is kept of customers."""

from __future__ import annotations

from core.cli.argument_parser import Subcommands, private
from core.wording.messages import say


def add_privacy(add: Subcommands) -> None:
    one = add("data-kept", say("cli", "data_kept"))
    one.add_argument("--paper", metavar="DIR", help=say("cli", "data_kept_paper"))
    one = add("export-customer", say("cli", "export_customer"), writes=True)
    one.add_argument("customer", metavar="CUSTOMER", type=private, help=say("cli", "customer_named"))
    one.add_argument("file", metavar="FILE", help=say("cli", "export_customer_file"))
    one = add("erase", say("cli", "erase"), writes=True)
    one.add_argument("customer", metavar="CUSTOMER", type=private, help=say("cli", "customer_named"))
    one.add_argument("--paper", metavar="DIR", help=say("cli", "erase_papers"))
    one.add_argument("--renew-backups", action="store_true", help=say("cli", "erase_renew"))
    add("renew-backups", say("cli", "renew_backups"), writes=True)
