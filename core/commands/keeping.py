"""The shop itself: copied, put back, checked, and the invented one."""

from __future__ import annotations

from pathlib import Path

from core.commands.call import Call, Reply, default_demo


def make_demo(call: Call) -> Reply:
    from core import demo

    folder = default_demo() if call.asked.dir is None else Path(call.asked.dir)
    made = demo.make(folder.expanduser().absolute(), call.clock())
    files = [str(path) for path in (made.shop, *made.papers)]
    opens = None if call.asked.no_window else str(made.shop)
    return Reply({"shop": str(made.shop), "files": files}, "\n".join(files), opens)
