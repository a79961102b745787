"""Pictures of every screen on the invented shop, for a person to look at before anything is called done.

``python -m gui.app.walkthrough --dir DIR [--scale 2] [--readme]``: needs no screen, prints the paths.
"""

from __future__ import annotations

import argparse
import os
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from core.capture.file_report import Kind, Report, Sound, Stretch
from core.model import resource_files
from core.model.names import TapeCode
from core.model.stations import Station
from core.model.typed_draft import TypedBox, TypedRow
from core.services import invented_shop, jobs, recordings
from core.services.records_door import Shop
from gui.app.composition import Furnishing, furnish
from gui.app.main_window import Window
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import theme

NOW = "2026-03-11T15:00:00-06:00"
"""A Wednesday afternoon in the invented shop."""
SIZE = (1280, 800)
README = "counter-light-1-counter"
PATIENCE_S = 60.0

_BOX = TypedBox(
    rows=(
        TypedRow("6", "VHS", "T-120", label="Birthdays"),
        TypedRow("2", "VHS", "T-160", "", "EP", "", "snapped", "Wedding, two parts"),
        TypedRow("4", "Hi8", "P6-120", label="Lake 1996"),
        TypedRow("1", "8 mm, system unknown", "", label="no label at all"),
        TypedRow("3", "MiniDV", "DVM60", label="School plays"),
        TypedRow("2", "VHS-C", "TC-30", "", "", "", "scratched", "First steps"),
        TypedRow("1", "Betamax", "L-750", "", "", "", "mould", "Grandfather"),
    ),
    name="Ottoline Marsh",
    phone="(303) 555-0147",
    tv="NTSC",
    copies="files on a stick",
)


_COLLECTED = "000075"
"""The job of the invented shop that has tapes to give back and others still at the bench."""
_CHECKED = Station.BEING_CHECKED.words.capitalize()
_FILE = Report(
    name="000042 0119 family.mp4",
    size_bytes=4_690_980_000,
    sha256="9f86d081884c7d65" * 4,
    seconds=6105.2,
    has_picture=True,
    sound=Sound.PARTLY,
    stretches=(
        Stretch(Kind.BLUE, 0.0, 312.4),
        Stretch(Kind.SILENT, 0.0, 312.4),
        Stretch(Kind.FROZEN, 2400.0, 2460.0),
        Stretch(Kind.SILENT, 3000.0, 3420.0),
        Stretch(Kind.BLACK, 5800.0, 6105.2),
    ),
    keep_from=311.4,
    keep_to=5801.0,
    billable_minutes=91.49,
)
"""What the reading of an invented file would say: no recording is made for a picture."""


def main(argv: Sequence[str] | None = None) -> int:
    """Draw everything into a folder. Returns the exit code of the program."""
    asked = _arguments(argv)
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    os.environ["QT_SCALE_FACTOR"] = f"{asked.scale:g}"
    asked.dir.mkdir(parents=True, exist_ok=True)
    walk = Walk(asked.dir, asked.scale, datetime.fromisoformat(asked.now))
    for path in walk.pictures():
        print(path, flush=True)
    if asked.readme:
        kept = resource_files.path("pictures", "counter.png")
        kept.write_bytes((asked.dir / f"{README}.png").read_bytes())
        print(kept)
    return 0


class Walk:
    """One walk through the program, a picture at every stop."""

    def __init__(self, folder: Path, scale: float, now: datetime) -> None:
        self._folder = folder
        self._scale = scale
        self._now = now
        self._app = _application()
        self._recorded: TapeCode | None = None
        """The tape of which the invented shop has a file."""

    def pictures(self) -> Iterator[Path]:
        """Every picture, as it is taken: each look on a shop of its own, then the papers."""
        for look, tokens in theme.LOOKS.items():
            with tempfile.TemporaryDirectory() as place:
                made = invented_shop.make(Path(place) / "demo", self._now)
                theme.dress(self._app, tokens)
                self._recorded = _with_file(made.shop)
                yield from self._look(look.replace(" ", "-"), made.shop)
                if tokens is theme.LIGHT:
                    yield from _papers(self._folder, sorted(made.shop.parent.rglob("*.pdf")))

    # --- stops ---------------------------------------------------------------------------

    def _look(self, look: str, shop: Path) -> Iterator[Path]:
        window = Window()
        window.resize(*(round(side / self._scale) for side in SIZE))
        window.show()
        QApplication.processEvents()
        yield self._take(window, f"{look}-0-opening")
        furnished = furnish(window, str(shop), "Robin", self._clock, shop.parent / "papers")
        _until(lambda: window.screen_on_show() is not None)
        _settle(furnished)
        yield from self._counter(window, furnished, look)
        yield from self._others(window, furnished, look)
        window.close()

    def _counter(self, window: Window, furnished: Furnishing, look: str) -> Iterator[Path]:
        counter = _counter_of(window)
        yield self._take(window, f"{look}-1-counter-empty")
        counter.draft.begin(_BOX)
        _settle(furnished)
        yield self._take(window, f"{look}-1-counter")
        counter.parts.table.setFocus()
        counter.parts.table.put_cursor(counter.draft.add_row(), 1)
        _type("vh")
        yield self._take(window, f"{look}-1-counter-offers")
        counter.draft.begin(replace(_BOX, rows=_BOX.rows[1:]))
        _settle(furnished)
        counter.parts.table.put_cursor(0, 0)
        counter.measure_packs()
        yield from self._dialog(counter.looks.packs, f"{look}-7-packs", "31\r24.5\r")
        counter.look_over()
        yield from self._dialog(counter.looks.look_over, f"{look}-7-look-over", "\r\r")
        yield from self._customer_side(window, furnished, look)
        counter.parts.telling.told.setChecked(True)
        counter.book()
        _settle(furnished)
        yield self._take(window, f"{look}-1-counter-booked")

    def _customer_side(self, window: Window, furnished: Furnishing, look: str) -> Iterator[Path]:
        side = furnished.customer_side
        side.resize(window.size())
        side.show()
        yield self._take(side, f"{look}-6-customer-side")
        side.hide()
        window.activateWindow()

    def _others(self, window: Window, furnished: Furnishing, look: str) -> Iterator[Path]:
        job = _counter_of(window).job
        assert job is not None
        asked = {"phone": job.customer.name, "bench": job.tapes[0].code, "pickup": _COLLECTED, "shop": ""}
        for number, (name, text) in enumerate(asked.items(), 2):
            window.go(name)
            window.banner.clear()
            _settle(furnished)
            _type(f"{text}\r" if text else "")
            _settle(furnished)
            yield self._take(window, f"{look}-{number}-{name}")
            if name == "bench":
                yield from self._recorded_file(window, furnished, look)
            if name == "shop":
                yield from self._chapters(window, furnished, look)

    def _dialog(self, dialog: QWidget, name: str, keys: str) -> Iterator[Path]:
        """A window over the screen, as it opens and a few keys later."""
        QApplication.processEvents()
        yield self._take(dialog, name)
        _type(keys)
        yield self._take(dialog, f"{name}-2")
        dialog.close()

    def _recorded_file(self, window: Window, furnished: Furnishing, look: str) -> Iterator[Path]:
        bench = window.screen_named("bench")
        assert isinstance(bench, BenchScreen)
        heading = next(n for n, piece in enumerate(bench.list.pieces) if piece.title == _CHECKED)
        bench.take(bench.list.pieces[heading + 1].key)
        _settle(furnished)
        bench.side.begin_file()
        bench.side.file.show_report(_FILE)
        yield self._take(window, f"{look}-3-bench-file")
        bench.side.rest()
        if self._recorded is not None:
            bench.take(self._recorded)
            _settle(furnished)
            yield self._take(window, f"{look}-3-bench-recorded")

    def _chapters(self, window: Window, furnished: Furnishing, look: str) -> Iterator[Path]:
        shop = window.screen_named("shop")
        assert isinstance(shop, ShopScreen)
        for place, piece in enumerate(shop.chapters.pieces[1:], 1):
            shop.chapters.stand_on(piece.key)
            _settle(furnished)
            yield self._take(window, f"{look}-5-shop-{place}-{piece.key}")

    def _take(self, widget: QWidget, name: str) -> Path:
        path = self._folder / f"{name}{'' if self._scale == 1 else f'@{self._scale:g}x'}.png"
        QApplication.processEvents()
        widget.grab().save(str(path))
        return path

    def _clock(self) -> datetime:
        return self._now


def _with_file(shop: Path) -> TapeCode | None:
    """A tape with a file; None where none was made up."""
    with Shop.open(shop, create=False) as records:
        files = (
            file for job in records.ask(jobs.open_jobs) for file in records.ask(recordings.of_job, job.number)
        )
        return next((file.tape for file in files), None)


def _counter_of(window: Window) -> CounterScreen:
    counter = window.screen_named("counter")
    assert isinstance(counter, CounterScreen)
    return counter


def _type(text: str) -> None:
    """Keys, wherever the keyboard is."""
    for letter in text:
        field = QApplication.focusWidget()
        if field is None:
            continue
        if letter == "\r":
            QTest.keyClick(field, Qt.Key.Key_Return)
        else:
            QTest.keyClicks(field, letter)


def _settle(furnished: Furnishing) -> None:
    """Until nothing is under way any more, twice: an answer may ask again."""
    window = furnished.parent()
    assert isinstance(window, Window)
    for _ in range(3):
        _until(lambda: furnished.desk.work.is_idle and _counter_of(window).has_its_day)
        QApplication.processEvents()


def _until(is_so: Callable[[], bool]) -> None:
    deadline = time.monotonic() + PATIENCE_S
    while not is_so():
        if time.monotonic() > deadline:
            raise TimeoutError("the window was not ready in time")
        QApplication.processEvents()
        time.sleep(0.005)


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


def _arguments(argv: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m gui.app.walkthrough", description=__doc__)
    parser.add_argument("--dir", type=Path, required=True, help="where the pictures go")
    parser.add_argument("--scale", type=float, default=1.0, help="2 for a screen set to 200 %%")
    parser.add_argument("--now", default=NOW, help="the clock of the shop, ISO 8601 with offset")
    parser.add_argument("--readme", action="store_true", help="keep the Counter for the README")
    return parser.parse_args(argv)


if __name__ == "__main__":
    raise SystemExit(main())
