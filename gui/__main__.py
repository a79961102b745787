"""``tapewright``: the window, or one subcommand without it."""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence

from core.cli import entry
from core.model.errors import Unavailable
from core.wording.messages import say


def main() -> int:
    """Open the window when no subcommand is named; subcommands work without Qt."""
    return entry.run(sys.argv[1:], open_window=_open_window)


def _open_window(options: Sequence[str]) -> int:
    """Nothing that importing makes is ever thrown away: it is not looked through before the first paint."""
    gc.disable()
    try:
        from gui.app import startup
    except ImportError as error:
        raise Unavailable(say("window", "no_window", why=str(error))) from error
    return startup.main(options)


if __name__ == "__main__":
    sys.exit(main())
