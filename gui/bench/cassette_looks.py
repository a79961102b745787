"""Between the Bench and the two looks at a cassette: guided, and of the packs.

Both windows are built when they are first wanted: nobody waits for them at the start.
"""

from __future__ import annotations

from functools import cached_property, partial

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.model.errors import TapewrightError
from core.model.spoken_names import spoken
from core.model.tape_records import TapeRecord
from core.services import looks
from gui.bench.as_measured import AsMeasured
from gui.inspection.guided_look import LookOver
from gui.inspection.look_progress import LookResult, LookSubject
from gui.inspection.pack_tool import PackRadii, PackTool
from gui.toolkit.text import say
from gui.toolkit.workers import Work
from gui.widgets import tray_rows


class BenchLooks(QObject):
    """Looks at the tape in hand; what is seen goes into its history."""

    kept = Signal(object, str)
    """The `TapeRecord` after it, and what was kept in one sentence."""
    failed = Signal(object)
    """A `TapewrightError` the person at the bench must see."""

    def __init__(self, work: Work, screen: QWidget) -> None:
        super().__init__(screen)
        self._work = work
        self._screen = screen
        self._measured = AsMeasured(work, screen)
        self._tape: TapeRecord | None = None

    @cached_property
    def look_over(self) -> LookOver:
        """The whole look-over."""
        made = LookOver(self._screen, short=False)
        made.kept.connect(self._keep_seen)
        return made

    @cached_property
    def packs(self) -> PackTool:
        """The packs, for the history."""
        made = PackTool(self._screen, takes_fill=False)
        made.kept.connect(self._keep_packs)
        return made

    def hold(self, tape: TapeRecord) -> None:
        """This tape is in hand now."""
        self._tape = tape

    @Slot()
    def begin_look_over(self) -> None:
        """Look the tape in hand over."""
        if self._tape is not None:
            tape = self._tape
            self.look_over.begin(LookSubject(tape.code, tray_rows.tape_title(tape), tape.format))

    @Slot()
    def begin_packs(self) -> None:
        """Read the packs of the tape in hand."""
        if self._tape is not None:
            tape = self._tape
            self.packs.begin(tape.code, tray_rows.tape_title(tape), tape.draft, tape.draft.tv)

    @Slot(object)
    def _keep_seen(self, seen: LookResult) -> None:
        assert self._tape is not None
        self._work.run(
            looks.look_over,
            self._tape.code,
            seen.findings,
            looked=seen.looked,
            of=seen.of,
            note=seen.note,
            then=partial(self._seen_kept, seen),
            otherwise=self._refused,
        )

    def _seen_kept(self, seen: LookResult, tape: TapeRecord) -> None:
        found = ", ".join(spoken(finding) for finding in seen.findings) or say("inspection", "kept_nothing")
        self.kept.emit(tape, say("inspection", "kept", title=tray_rows.tape_title(tape), found=found))

    @Slot(object)
    def _keep_packs(self, radii: PackRadii) -> None:
        assert self._tape is not None
        self._measured.run(
            looks.pack_read,
            self._tape.code,
            to_come_mm=radii.to_come_mm,
            run_mm=radii.run_mm,
            marking=radii.marking,
            then=self._packs_kept,
            otherwise=self._refused,
        )

    def _packs_kept(self, tape: TapeRecord) -> None:
        self.kept.emit(tape, say("packs", "kept", title=tray_rows.tape_title(tape)))

    def _refused(self, failure: TapewrightError) -> None:
        self.failed.emit(failure)
