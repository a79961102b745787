"""Opens the copies of an order, runs what is done to each, and shows how it then stands."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from PySide6.QtCore import QObject, Signal, Slot

from core.model.errors import TapewrightError, WrongInput
from core.model.job_records import Job
from core.model.names import JobNumber
from core.model.own_shop.settings_records import ShopSettings
from core.services import decks, jobs
from core.services.copies import copy_making, downloads, own_drives
from gui.copying import copy_rows
from gui.copying.copies_form import CopiesForm
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say

if TYPE_CHECKING:
    from gui.agreement.price_calls import PriceCalls

COPIES_KEYS = "Ctrl+J"
"""Opens them from Bench and Pickup."""


class CopiesAtWork(QObject):
    """One form at a time; ``calls`` opens the card of an order over it."""

    kept = Signal(str)
    """What was kept, as a sentence."""
    failed = Signal(object)
    """A `TapewrightError`; the form was not opened."""

    def __init__(self, desk: Desk, form: CopiesForm, calls: PriceCalls) -> None:
        super().__init__(form)
        self._desk, self.form, self.calls = desk, form, calls
        self.form.wanted.connect(self._want)
        self.form.card_wanted.connect(self.calls.begin)
        self.calls.answered.connect(self._answered)
        self.calls.failed.connect(self._refused)

    def begin(self, number: JobNumber) -> None:
        """Open the copies of an order."""
        self._desk.work.ask(jobs.get, number, then=self.form.begin, otherwise=self.failed.emit)

    @Slot(str, object)
    def _want(self, what: str, item: int) -> None:
        try:
            self._steps()[what](item)
        except WrongInput as wrong:
            self.form.show_wrong(wrong.sentence)

    def _steps(self) -> dict[str, Callable[[int], None]]:
        return {
            "made": partial(self._run, copy_making.made, "made"),
            "checked": partial(self._run, copy_making.checked, "checked"),
            "drive": self._describe_drive,
            "link": self._ask_day,
            "deleted": partial(self._run, downloads.delete, "deleted"),
            "strike": self._strike,
        }

    def _describe_drive(self, item: int) -> None:
        drive = self.form.drive
        size, system = drive.typed_size(), drive.file_system()
        self._run(own_drives.describe, "drive", item, gigabytes=size, file_system=system)

    def _strike(self, item: int) -> None:
        self._run(copy_making.strike, "strike", item, because=self.form.reason.text())

    def _ask_day(self, item: int) -> None:
        """What day it is in the shop says its clock."""
        self._desk.work.ask(decks.settings, then=partial(self._give_link, item), otherwise=self._refused)

    def _give_link(self, item: int, settings: ShopSettings) -> None:
        today = self._desk.clock().astimezone(ZoneInfo(settings.front.timezone)).date()
        try:
            until = self.form.link.day(today)
        except WrongInput as wrong:
            self.form.show_wrong(wrong.sentence)
            return
        self._run(downloads.give, "link", item, self.form.link.link.text(), until)

    def _run(self, step: Callable[..., Job], what: str, item: int, *given: Any, **more: Any) -> None:
        job = self.form.job
        if job is None:
            return
        self._desk.work.run(
            step,
            job.number,
            item,
            *given,
            **more,
            then=partial(self._was_kept, what, item),
            otherwise=self._refused,
        )

    def _was_kept(self, what: str, item: int, job: Job) -> None:
        copy = next((each for each in job.copies if each.id == item), None)
        self.form.show_job(job)
        if copy is not None:
            self.kept.emit(say("copying", f"kept-{what}", copy=copy_rows.title(copy)))

    @Slot(str)
    def _answered(self, sentence: str) -> None:
        self.kept.emit(sentence)
        if self.form.job is not None:
            self._desk.work.ask(jobs.get, self.form.job.number, then=self.form.show_job)

    @Slot(object)
    def _refused(self, failure: TapewrightError) -> None:
        self.form.show_wrong(failure.sentence)
