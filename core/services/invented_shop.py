"""An invented shop with a day's work in it, made only by the steps a real shop takes.

A scripted clock stands still at the moment of each act, so that the same ``now`` gives the same shop.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from core.capture import examining, invented_clip
from core.model import private_files, resource_files, signature_file
from core.model.copies import copy_standing
from core.model.deck_showing import Shown
from core.model.errors import Unavailable
from core.model.job_records import Job
from core.model.names import CommandId, DonorPart, Finding, FormatName, JobNumber, Join, Look, Speed, TvSystem
from core.model.own_shop.settings_records import ShopSettings
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import (
    decks,
    donors,
    invented_day,
    inventory_file,
    jobs,
    paper_files,
    pickups,
    promises,
    recordings,
    repair_attempts,
    repair_record,
    shop_snapshot,
    tapes,
)
from core.services.checking import file_checking, sign_offs
from core.services.copies import copy_making
from core.services.invented_day import ScriptedAct
from core.services.inventory_file import InventoryContext
from core.services.own_shop import settings_versions, shop_settings
from core.services.records_door import Shop
from core.store import row_digests
from core.wording.messages import BASE

FILE = "demo.sqlite"
_COUNTER = "Robin"
_BENCH = "Sam"
"""Two invented people."""


@dataclass(frozen=True, slots=True)
class InventedShop:
    """The files of a demonstration."""

    shop: Path
    papers: tuple[Path, ...]
    recordings: tuple[Path, ...] = ()
    """The file recorded from one of its tapes; none where PyAV is not installed."""


@dataclass(slots=True)
class _Clock:
    """Stands where the script puts it."""

    at: datetime

    def __call__(self) -> datetime:
        return self.at


def make(folder: Path, now: datetime, language: str = BASE) -> InventedShop:
    """An invented shop in ``folder``, or in the next free ``folder-2`` when there is one in it already.

    ``now`` is the moment at which the shop is seen, ``language`` that of its papers. Raises OSError when the
    folder cannot be written.
    """
    place = paper_files.prepare(_free(folder))
    fitted = shop_settings.load(resource_files.path("demo", "shop.toml"))
    fitted = replace(fitted, front=replace(fitted.front, language=language))
    script = resource_files.path("demo", "day.toml")
    on = invented_day.days(fitted, now)
    acts = invented_day.acts(script, on)
    clock = _Clock(acts[0].at.astimezone(UTC))
    with (
        row_digests.guessable_salts(),
        Shop.open(place / FILE, clock=clock, who=_COUNTER, create=True) as shop,
    ):
        fitted = shop.run(settings_versions.make_practice, fitted)
        play = _Play(shop, clock, fitted, invented_day.boxes(script), place / "papers")
        for act in acts:
            play.carry_out(act)
    return InventedShop(place / FILE, tuple(play.papers), tuple(play.recordings))


class _Play:
    """Carries out the acts of the script, each at its moment, by the steps of the shop."""

    def __init__(
        self, shop: Shop, clock: _Clock, fitted: ShopSettings, boxes: Sequence[bytes], folder: Path
    ) -> None:
        self._shop = shop
        self._clock = clock
        self._fittings = fitted
        self._boxes = boxes
        self._folder = paper_files.prepare(folder)
        self._numbers: dict[int, JobNumber] = {}
        self.papers: list[Path] = []
        self.recordings: list[Path] = []

    def carry_out(self, act: ScriptedAct) -> None:
        self._clock.at = act.at.astimezone(UTC)
        self._shop.who = _COUNTER if act.does in ("book", "hand-back", "promise") else _BENCH
        of_job = {
            "book": self._book,
            "hand-back": self._hand_back,
            "promise": self._promise,
            "record": self._record,
            "sign-off": self._sign_off,
            "copy": self._copy,
        }
        if act.does in of_job:
            of_job[act.does](act)
        elif act.does in _IN_THE_SHOP:
            _IN_THE_SHOP[act.does](self._shop, act.details)
        else:
            for tape in self._meant(act):
                _AT_THE_BENCH[act.does](self._shop, tape, act.details)

    def _book(self, act: ScriptedAct) -> None:
        here = act.at.astimezone(ZoneInfo(self._fittings.front.timezone))
        context = InventoryContext(here.date(), customer_needed=True)
        box = inventory_file.read(self._boxes[act.job], f"demo-box-{act.job + 1}", context)
        quote = self._shop.ask(shop_snapshot.read).quote(box, act.at)
        deposit = quote.price.deposit_minor
        command = CommandId(f"demo-book-{act.job + 1}")
        job = self._shop.once(command, jobs.book, quote, deposit_minor=deposit).answer
        self._numbers[act.job] = job.number
        self.papers += paper_files.of_booking(job, self._fittings.front, self._folder)

    def _hand_back(self, act: ScriptedAct) -> None:
        number = self._numbers[act.job]
        strokes = resource_files.path("demo", "signature.json")
        job = self._shop.ask(jobs.get, number)
        due = self._shop.ask(jobs.reprice, number).due.likely - job.paid_minor
        handed = self._shop.once(
            CommandId(f"demo-hand-back-{act.job + 1}"),
            pickups.hand_back,
            number,
            codes=tuple(tape.code for tape in self._meant(act)),
            copies=None,
            signature=signature_file.read(strokes.read_bytes(), strokes.name, act.details["signed_by"]),
            paid_minor=due,
        ).answer
        self.papers += paper_files.of_pickup(handed, self._fittings.front, self._folder)

    def _promise(self, act: ScriptedAct) -> None:
        """A date said again; the customer hears why."""
        details = act.details
        self._shop.run(
            promises.renew, self._numbers[act.job], details["because"], agreed_with=details["told"]
        )

    def _copy(self, act: ScriptedAct) -> None:
        """The copies that are to be made, made and checked one after the other."""
        number = self._numbers[act.job]
        for copy in copy_standing.unfinished(self._shop.ask(jobs.get, number)):
            self._shop.run(copy_making.made, number, copy.id)
            self._shop.run(copy_making.checked, number, copy.id)

    def _record(self, act: ScriptedAct) -> None:
        """The file of a tape, read and attached; left out where PyAV is missing."""
        (tape,) = self._meant(act)
        path = self._folder.with_name("recordings") / act.details["file"]
        private_files.make_folder(path.parent)
        try:
            invented_clip.write(path)
        except Unavailable:
            path.parent.rmdir()
            return
        private_files.tighten(path)
        self._shop.run(recordings.attach, tape.code, examining.examine(path))
        self.recordings.append(path)

    def _sign_off(self, act: ScriptedAct) -> None:
        """What was found in a file is accepted for one reason; the tape is ready, with the delivery list."""
        (tape,) = self._meant(act)
        found = self._shop.ask(file_checking.check, tape.code)
        if not found.files:
            return
        accept = {each.code: act.details["because"] for each in found.open}
        command = CommandId(f"demo-sign-off-{tape.code}")
        self._shop.once(command, sign_offs.sign_off, tape.code, name=act.details["by"], accept=accept)
        self._shop.run(tapes.move, tape.code, Station.READY)
        job = self._shop.ask(jobs.get, self._numbers[act.job])
        files = self._shop.ask(recordings.of_job, job.number)
        self.papers += paper_files.of_files(job, files, self._fittings.front, self._folder)

    def _meant(self, act: ScriptedAct) -> tuple[TapeRecord, ...]:
        job: Job = self._shop.ask(jobs.get, self._numbers[act.job])
        return tuple(tape for tape in job.tapes if act.means(tape))


def _move(shop: Shop, tape: TapeRecord, details: Mapping[str, Any]) -> None:
    shop.run(
        tapes.move,
        tape.code,
        Station(details["to"]),
        findings=tuple(Finding(name) for name in details.get("findings", ())),
        minutes=details.get("minutes"),
        note=details.get("note", ""),
        shown=_shown(details),
    )


def _shown(details: Mapping[str, Any]) -> Shown:
    speed, recorded_as, tv = (details.get(name) for name in invented_day.SHOWN)
    return Shown(
        Speed(speed) if speed else None,
        FormatName(recorded_as) if recorded_as else None,
        TvSystem(tv) if tv else None,
    )


def _start(shop: Shop, tape: TapeRecord, details: Mapping[str, Any]) -> None:
    shop.run(tapes.move, tape.code, Station.PLAYING, deck=details["deck"])


def _splice(shop: Shop, tape: TapeRecord, details: Mapping[str, Any]) -> None:
    shop.run(
        repair_record.splice,
        tape.code,
        at_minutes=details.get("at_minutes"),
        at_metres=details.get("at_metres"),
        cut_cm=details["cut_cm"],
        joined_with=Join(details["joined_with"]),
    )


def _mark(shop: Shop, tape: TapeRecord, details: Mapping[str, Any]) -> None:
    shop.run(repair_record.mark, tape.code)


def _strike(shop: Shop, tape: TapeRecord, details: Mapping[str, Any]) -> None:
    shop.run(repair_record.undo_splice, tape.code, because=details["because"])


def _take_label_off(shop: Shop, tape: TapeRecord, details: Mapping[str, Any]) -> None:
    shop.run(repair_record.take_label_off, tape.code)


def _repair(shop: Shop, tape: TapeRecord, details: Mapping[str, Any]) -> None:
    part = details.get("part")
    shop.run(
        repair_attempts.record,
        tape.code,
        details["repair"],
        succeeded=details["held"],
        part=DonorPart(part) if part else None,
        note=details.get("note", ""),
    )


def _look(shop: Shop, tape: TapeRecord, details: Mapping[str, Any]) -> None:
    shop.run(repair_attempts.look, tape.code, Look(details["verdict"]))


def _shelve(shop: Shop, details: Mapping[str, Any]) -> None:
    name, part = FormatName(details["format"]), DonorPart(details["part"])
    shop.run(donors.add, name, part, details["count"], came_from=details["came_from"])


def _break(shop: Shop, details: Mapping[str, Any]) -> None:
    shop.run(decks.broke_down, details["deck"], details["because"])


def _mend(shop: Shop, details: Mapping[str, Any]) -> None:
    shop.run(decks.back_in_service, details["deck"], details["because"])


_IN_THE_SHOP: Mapping[str, Callable[[Shop, Mapping[str, Any]], None]] = {
    "shelve": _shelve,
    "break": _break,
    "mend": _mend,
}
_AT_THE_BENCH: Mapping[str, Callable[[Shop, TapeRecord, Mapping[str, Any]], None]] = {
    "move": _move,
    "start": _start,
    "splice": _splice,
    "mark": _mark,
    "strike": _strike,
    "label-off": _take_label_off,
    "repair": _repair,
    "look": _look,
}


def _free(folder: Path) -> Path:
    """``folder``, or the next numbered one beside it that holds no demonstration yet."""
    for number in count(1):
        place = folder if number == 1 else folder.with_name(f"{folder.name}-{number}")
        if not (place / FILE).exists():
            return place
    raise AssertionError("counting does not end")
