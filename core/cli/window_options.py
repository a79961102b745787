"""What the command line tells the window that it opens.

A room of its own because the window starts through here: it needs nothing else of `core.cli.invocation`.
"""

from __future__ import annotations

from argparse import Namespace


def window_options(asked: Namespace, where: str | None) -> tuple[str, ...]:
    """The options of a window that opens on the shop at ``where``, or on the usual one for None."""
    options = ["--who", asked.who]
    if where is not None:
        options += ["--shop", where]
    if asked.now is not None:
        options += ["--now", asked.now.isoformat()]
    if asked.quit_after_first_paint:
        options.append("--quit-after-first-paint")
    return tuple(options)
