"""Pictures of every screen on the invented shop, for a person to look at before anything is called done.

``python -m gui.app.walkthrough --dir DIR [--size 1366x768] [--scale 2] [--settings] [--language xx]
[--readme]`` or ``--dir DIR --matrix [--only '1-counter*']``: needs no screen, prints the paths.
"""

from __future__ import annotations

import argparse
import os
import re
import tempfile
from collections.abc import Iterator, Sequence
from datetime import datetime
from pathlib import Path

from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

from core.model import resource_files
from core.services import invented_shop
from core.wording import messages
from core.wording.messages import say
from gui.app.walkthrough_first_run import Stop
from gui.app.walkthrough_matrix import Matrix
from gui.app.walkthrough_route import Route
from gui.toolkit import theme

NOW = "2026-03-11T15:00:00-06:00"
"""A Wednesday afternoon in the invented shop."""
SIZE = (1280, 800)
_ROUNDS = 3
"""What was laid out may ask to be laid out again."""
README = "counter-light-1-counter"


def main(argv: Sequence[str] | None = None) -> int:
    """Draw everything into a folder. Returns the exit code of the program."""
    asked = _arguments(argv)
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    os.environ["QT_SCALE_FACTOR"] = f"{asked.scale:g}"
    asked.dir.mkdir(parents=True, exist_ok=True)
    messages.use(asked.language)
    now = datetime.fromisoformat(asked.now)
    walk = Walk(asked.dir, asked.scale, now, asked.language, asked.size)
    if asked.matrix:
        taken = Matrix(_stops, asked.dir, now, asked.language, asked.only).pictures()
    else:
        taken = walk.settings_pictures() if asked.settings else walk.pictures()
    for path in taken:
        print(path, flush=True)
    if asked.readme:
        kept = resource_files.path("pictures", "counter.png")
        kept.write_bytes((asked.dir / f"{README}.png").read_bytes())
        print(kept)
    return 0


class Walk:
    """One walk through the program, a picture at every stop."""

    def __init__(
        self, folder: Path, scale: float, now: datetime, language: str, size: tuple[int, int] = SIZE
    ) -> None:
        """``size``: width and height of the window in pixels of the screen, whatever its scale."""
        self._folder = folder
        self._scale = scale
        self._now = now
        self._language = language
        self._size = round(size[0] / scale), round(size[1] / scale)
        self._app = _application()

    def pictures(self) -> Iterator[Path]:
        """Every picture, as it is taken: each look on a shop of its own, then the papers."""
        for look, tokens in theme.LOOKS.items():
            with tempfile.TemporaryDirectory() as place:
                made = invented_shop.make(Path(place) / "demo", self._now, self._language)
                theme.apply(self._app, tokens)
                yield from self._look(look.replace(" ", "-"), made.shop)
                if tokens is theme.LIGHT:
                    yield from _papers(self._folder, sorted(made.shop.parent.rglob("*.pdf")))

    def settings_pictures(self) -> Iterator[Path]:
        """The pages of the set-up and the chapters of Shop; what scrolls also in its whole height."""
        with tempfile.TemporaryDirectory() as place:
            made = invented_shop.make(Path(place) / "demo", self._now, self._language)
            theme.apply(self._app)
            for stop in Route(made.shop, self._now, self._size).settings_stops():
                yield self._take(stop.widget, stop.name)
                inside = _scrolled(stop)
                if inside is not None:
                    yield self._take(inside, f"{stop.name}-whole")

    def _look(self, look: str, shop: Path) -> Iterator[Path]:
        for stop in Route(shop, self._now, self._size).stops():
            yield self._take(stop.widget, f"{look}-{stop.name}")

    def _take(self, widget: QWidget, name: str) -> Path:
        path = self._folder / f"{name}{'' if self._scale == 1 else f'@{self._scale:g}x'}.png"
        for _ in range(_ROUNDS):
            QApplication.processEvents()
        widget.grab().save(str(path))
        return path


def _stops(shop: Path, now: datetime, size: tuple[int, int]) -> Iterator[Stop]:
    return Route(shop, now, size).stops()


def _scrolled(stop: Stop) -> QWidget | None:
    """The inside of the area that has most left to scroll; None where everything is in sight."""
    areas = [each for each in stop.widget.findChildren(QScrollArea) if each.isVisible()]
    furthest = max(areas, key=lambda each: each.verticalScrollBar().maximum(), default=None)
    if furthest is None or furthest.verticalScrollBar().maximum() == 0:
        return None
    return furthest.widget()


def _papers(folder: Path, papers: Sequence[Path]) -> Iterator[Path]:
    """The first page of one paper of each kind, at 100 dots an inch."""
    import pypdfium2

    kinds: set[str] = set()
    for paper in papers:
        kind = paper.stem.rstrip("0123456789-")
        if kind in kinds:
            continue
        kinds.add(kind)
        path = folder / f"paper-{kind}.png"
        document = pypdfium2.PdfDocument(paper.read_bytes())
        document[0].render(scale=100 / 72).to_pil().save(path)
        document.close()
        yield path


def _application() -> QApplication:
    app = QApplication.instance() or QApplication(["tapewright"])
    assert isinstance(app, QApplication)
    return app


def _size(text: str) -> tuple[int, int]:
    """Width and height of ``1366x768``; ValueError for what is no size."""
    found = re.fullmatch(r"(\d{3,4})[x×](\d{3,4})", text)
    if found is None:
        raise ValueError(text)
    return int(found[1]), int(found[2])


def _arguments(argv: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="gui.app.walkthrough", description=__doc__)
    parser.add_argument("--dir", type=Path, required=True, help=say("window", "walk_dir"))
    parser.add_argument("--size", type=_size, default=SIZE, help=say("window", "walk_size"))
    parser.add_argument("--settings", action="store_true", help=say("window", "walk_settings"))
    parser.add_argument("--scale", type=float, default=1.0, help=say("window", "walk_scale"))
    parser.add_argument("--language", default=messages.BASE, help=say("window", "walk_language"))
    parser.add_argument("--now", default=NOW, help=say("window", "option_now"))
    parser.add_argument("--matrix", action="store_true", help=say("window", "walk_matrix"))
    parser.add_argument("--only", default="*", help=say("window", "walk_only"))
    parser.add_argument("--readme", action="store_true", help=say("window", "walk_readme"))
    return parser.parse_args(argv)


if __name__ == "__main__":
    raise SystemExit(main())
