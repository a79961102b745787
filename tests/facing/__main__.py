"""Pictures of the Customer side, for a person to look at: ``python -m tests.facing --dir DIR``.

Every page on every size of screen, with boxes from one tape to 120, in the three looks.
What is cut or left out is told.
"""

from __future__ import annotations

import argparse
import os
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path


def main(argv: Sequence[str] | None = None) -> int:
    """Draw them into a folder and print the paths."""
    parser = argparse.ArgumentParser(prog="tests.facing", description=__doc__)
    parser.add_argument("--dir", type=Path, required=True)
    parser.add_argument("--only", default="", help="a part of the names of the pictures to be drawn")
    parser.add_argument("--practice", action="store_true", help="as a practice shop has it")
    asked = parser.parse_args(argv)
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    asked.dir.mkdir(parents=True, exist_ok=True)
    for path in _draw(asked.dir, asked.only, asked.practice):
        print(path, flush=True)
    return 0


def _draw(folder: Path, only: str, is_practice: bool) -> list[Path]:
    from PySide6.QtWidgets import QApplication

    from gui.customer_side.customer_window import CustomerSide
    from gui.toolkit import theme
    from tests.facing import facing_samples
    from tests.facing.facing_faults import faults

    app = QApplication.instance() or QApplication(["tapewright"])
    assert isinstance(app, QApplication)
    drawn = []
    front = replace(facing_samples.FRONT, practice=is_practice)
    for look, tokens in theme.LOOKS.items():
        theme.apply(app, tokens)
        for name, show in facing_samples.scenes(front).items():
            for size in facing_samples.SIZES:
                for count in facing_samples.COUNTS:
                    path = folder / f"{name}-{count:03d}-{size[0]}x{size[1]}-{look.split()[0]}.png"
                    if only not in path.name or (name == "greeting" and count > 1):
                        continue
                    side = CustomerSide()
                    side.resize(*size)
                    side.show()
                    show(side, count)
                    app.processEvents()
                    for fault in faults(side):
                        print(f"{path.name}: {fault}", flush=True)
                    side.grab().save(str(path))
                    side.close()
                    side.deleteLater()
                    drawn.append(path)
    return drawn


if __name__ == "__main__":
    raise SystemExit(main())
