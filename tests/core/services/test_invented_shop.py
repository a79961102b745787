"""The invented shop: a whole day across all stations, the same for the same clock, never over an old one."""

from __future__ import annotations

import hashlib
import io
import json
import os
import sys
from collections.abc import Iterator
from contextlib import redirect_stdout
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import phonenumbers
import pytest

from core.capture.file_report import StretchKind
from core.cli import entry
from core.model import resource_files
from core.model.errors import Refused
from core.model.job_records import Job
from core.model.names import Speed
from core.model.signatures import Signature
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import (
    backup,
    deck_queue,
    donors,
    event_counts,
    invented_day,
    invented_shop,
    jobs,
    pickups,
    promise_entries,
    quoting,
    recordings,
)
from core.services.checking import file_checking
from core.services.invented_shop import InventedShop
from core.services.own_shop import shop_settings
from core.services.records_door import Shop
from core.store import current_settings
from tests.support import pdf
from tests.support.demonstration import AFTERNOON, DENVER, copied
from tests.support.typed import Typist, contents


@pytest.fixture
def shop(made: InventedShop) -> Iterator[Shop]:
    with Shop.open(made.shop, clock=lambda: AFTERNOON, create=False) as shop:
        yield shop


def all_jobs(shop: Shop) -> list[Job]:
    return [shop.ask(jobs.get, paper.stem[-6:]) for paper in made_quotes(shop)]


def made_quotes(shop: Shop) -> list[Path]:
    return sorted(Path(shop.where).parent.glob("papers/quote-*.pdf"))


def all_tapes(shop: Shop) -> list[TapeRecord]:
    return [tape for job in all_jobs(shop) for tape in job.tapes]


def test_there_is_a_tape_at_every_station(shop: Shop) -> None:
    assert {tape.station for tape in all_tapes(shop)} == set(Station)


def test_it_is_a_busy_day(shop: Shop) -> None:
    assert 8 <= len(all_jobs(shop)) <= 10
    assert 65 <= len(all_tapes(shop)) <= 80


def test_ready_tapes_are_unspliced_or_marked_or_still_to_be_marked(shop: Shop) -> None:
    ready = [tape for tape in all_tapes(shop) if tape.station is Station.READY]
    kinds = {(tape.not_for_reuse, tape.marked_at is not None) for tape in ready}
    assert kinds == {(False, False), (True, True), (True, False)}


def test_the_tape_without_its_mark_cannot_leave(shop: Shop) -> None:
    job = next(job for job in all_jobs(shop) if job.customer.name == "Carmen Oduya")
    with pytest.raises(Refused, match="label"):
        shop.run(
            pickups.hand_back,
            job.number,
            codes=None,
            copies=None,
            signature=Signature("Carmen Oduya"),
        )


def test_the_bench_has_its_stories(shop: Shop) -> None:
    tapes = all_tapes(shop)
    assert any(splice.in_leader for tape in tapes for splice in tape.splices)
    assert any(tape.struck and not tape.not_for_reuse for tape in tapes)
    assert not any(tape.label_astray for tape in tapes)
    tried = [[one.succeeded for one in tape.tried] for tape in tapes if tape.tried]
    assert tried == [[False, True]]
    assert sum(donor.count for donor in shop.ask(donors.stock)) == 17  # one lid of eighteen parts was used


def test_one_deck_failed_and_came_back_with_what_was_done(shop: Shop) -> None:
    (outage,) = shop.ask(event_counts.outages)
    assert outage.deck == "VHS 2"
    assert "idler" in outage.words
    assert "cleaned" in outage.mended
    assert outage.ended_at is not None
    assert all(deck.in_service for deck in shop.ask(current_settings.read).decks)


def test_one_tape_has_its_file_on_the_delivery_list_with_its_checksum(made: InventedShop, shop: Shop) -> None:
    (path,) = made.recordings
    (tape,) = [tape for tape in all_tapes(shop) if shop.ask(recordings.of_tape, tape.code)]
    (file,) = shop.ask(recordings.of_tape, tape.code)
    assert file.report.sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    assert tape.played_minutes == pytest.approx(file.report.billable_minutes, abs=0.01)
    kinds = {stretch.kind for stretch in file.report.stretches}
    assert kinds == {StretchKind.BLUE, StretchKind.FROZEN, StretchKind.SILENT}

    (listed,) = [paper for paper in made.papers if paper.name.startswith("files-")]
    told = pdf.words(listed.read_bytes())
    assert file.report.sha256[:32] in told
    assert file.report.sha256[32:] in told
    assert path.name in told
    assert (tape.station, tape.signed_off_by) == (Station.READY, "Sam")
    assert "Checked and signed off by Sam." in told
    assert shop.ask(file_checking.check, tape.code).is_signed_off


def test_without_pyav_the_shop_is_made_all_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "av", None)
    made = invented_shop.make(tmp_path, AFTERNOON)
    assert made.recordings == ()
    assert not any(paper.name.startswith("files-") for paper in made.papers)
    assert not (tmp_path / "recordings").exists()


def test_what_the_decks_showed_is_evidence(shop: Shop) -> None:
    sentences = " ".join(each.sentence for each in shop.ask(deck_queue.evidence))
    assert "of your last 15 VHS (NTSC) were SP" in sentences
    assert {tape.speed for tape in shop.ask(deck_queue.played)} >= {Speed.SP, Speed.EP}


def test_the_last_box_was_quoted_by_what_the_shop_had_learned(shop: Shop) -> None:
    job = next(job for job in all_jobs(shop) if job.customer.name == "Jonas Teague")
    box, learned = job.quote.inventory, shop.ask(deck_queue.habits)
    assert job.quote.tapes == quoting.quoted_tapes(box, learned)
    assert job.quote.tapes != quoting.quoted_tapes(box)


def test_one_date_was_said_again_with_a_reason(shop: Shop) -> None:
    job = next(job for job in all_jobs(shop) if job.customer.name == "Dorrit Halvorsen")
    first, again = shop.ask(promise_entries.said, job.number)
    assert (first.reason, again.agreed_with) == ("", "Dorrit Halvorsen")
    assert again.reason
    assert again.promise == job.promise


def test_one_job_was_handed_back_with_a_signature_and_paid(shop: Shop) -> None:
    job = next(job for job in all_jobs(shop) if not job.is_open)
    pickup = shop.ask(pickups.latest, job.number)
    assert pickup is not None
    assert pickup.signature.strokes
    assert pickup.due_minor == 0
    assert any(tape.splices and tape.marked_at for tape in pickup.handed_back)


def test_every_deck_that_plays_holds_one_tape(shop: Shop) -> None:
    playing = [tape for tape in all_tapes(shop) if tape.station is Station.PLAYING]
    assert len(playing) == 3
    assert all(tape.since < AFTERNOON for tape in playing)


def test_everything_lies_behind_the_clock_and_in_opening_hours(shop: Shop) -> None:
    fitted = shop.ask(current_settings.read)
    happened = [
        one.at.astimezone(DENVER) for job in all_jobs(shop) for one in shop.ask(jobs.history, job.number)
    ]
    assert max(happened) <= AFTERNOON
    for at in happened:
        spans = [(one.start, one.end) for one in fitted.openings if one.weekday == at.weekday()]
        assert any(start <= at.hour * 60 + at.minute <= end for start, end in spans), at


def test_the_chain_of_history_holds(shop: Shop) -> None:
    assert backup.verify(shop.database, AFTERNOON) == ()


def test_every_promise_was_given(shop: Shop) -> None:
    assert all(job.promise.day is not None for job in all_jobs(shop))


def test_all_papers_are_there(made: InventedShop) -> None:
    kinds = sorted(paper.name.rsplit("-", 1)[0] for paper in made.papers if "receipt" not in paper.name)
    assert kinds == ["agreement"] * 10 + ["claim-slip"] * 10 + ["files"] + ["labels"] * 10 + ["quote"] * 10
    assert [paper.name for paper in made.papers if "receipt" in paper.name] == [
        "receipt-000018-20260310-160500.pdf"
    ]
    assert all(paper.read_bytes()[:5] == b"%PDF-" for paper in made.papers)


def test_nobody_in_it_can_be_called(shop: Shop) -> None:
    for phone in [
        shop.ask(current_settings.read).front.phone,
        *(job.customer.phone for job in all_jobs(shop)),
    ]:
        assert phone is not None
        number = str(phonenumbers.parse(phone, "US").national_number)
        assert number[3:8] == "55501"  # 555-0100 to 555-0199 are kept free for stories


@dataclass(frozen=True)
class Again:
    """The command, told to make its shop where one lies already, at the same moment."""

    old: InventedShop
    before: object
    """What the old one held until then."""
    files: list[Path]
    """What the command said it made, the shop first."""


@pytest.fixture(scope="module")
def again(demonstration: Path, tmp_path_factory: pytest.TempPathFactory) -> Again:
    old = copied(demonstration, tmp_path_factory.mktemp("again") / "demo")
    before = contents(old.shop)
    told = io.StringIO()
    with redirect_stdout(told):
        code = entry.run(
            ["demo", "--dir", str(old.shop.parent), "--no-window", "--now", AFTERNOON.isoformat(), "--json"]
        )
    assert code == 0
    return Again(old, before, [Path(file) for file in json.loads(told.getvalue())["files"]])


def test_the_same_clock_makes_the_same_shop(again: Again) -> None:
    assert contents(again.files[0]) == contents(again.old.shop)
    papers = {paper.name: paper.read_bytes() for paper in again.files if paper.suffix == ".pdf"}
    assert papers == {paper.name: paper.read_bytes() for paper in again.old.papers}


def test_an_old_demonstration_is_never_touched(again: Again) -> None:
    old = again.old.shop.parent
    assert again.files[0] == old.with_name(f"{old.name}-2") / "demo.sqlite"
    assert contents(again.old.shop) == again.before


def test_the_command_prints_the_files_it_made(again: Again) -> None:
    assert all(file.is_file() for file in again.files)
    assert len(again.files) == 1 + 42


@pytest.mark.parametrize(
    "now",
    [
        datetime(2026, 3, 12, 3, 0, tzinfo=DENVER),
        datetime(2026, 3, 12, 9, 10, tzinfo=DENVER),
        datetime(2026, 3, 12, 9, 31, tzinfo=DENVER),
        datetime(2026, 3, 12, 23, 59, tzinfo=DENVER),
        datetime(2026, 3, 15, 12, 0, tzinfo=DENVER),
        datetime(2026, 1, 1, 12, 0, tzinfo=DENVER),
        datetime(2026, 3, 8, 3, 30, tzinfo=DENVER),
    ],
    ids=["at night", "just opened", "early", "late", "Sunday", "holiday", "clocks go forward"],
)
def test_at_any_hour_everything_lies_behind_the_clock(now: datetime) -> None:
    on = invented_day.days(shop_settings.load(resource_files.path("demo", "shop.toml")), now)
    acts = invented_day.acts(resource_files.path("demo", "day.toml"), on)
    assert acts[-1].at <= now
    assert [act.does for act in acts].count("book") == 10
    booked = [act.job for act in acts if act.does == "book"]
    first = {number: next(act.does for act in acts if act.job == number) for number in booked}
    assert set(first.values()) == {"book"}


@pytest.mark.parametrize("hour", [9, 20])
def test_it_can_be_made_early_and_late(tmp_path: Path, hour: int) -> None:
    made = invented_shop.make(tmp_path, AFTERNOON.replace(hour=hour, minute=45))
    with Shop.open(made.shop, clock=lambda: AFTERNOON) as shop:
        assert {tape.station for tape in all_tapes(shop)} == set(Station)


def test_a_window_is_opened_only_where_it_can_be_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr("sys.platform", "linux")
    assert not entry.has_screen()
    monkeypatch.setitem(os.environ, "DISPLAY", ":0")
    assert entry.has_screen()
    monkeypatch.setitem(os.environ, "QT_QPA_PLATFORM", "offscreen")
    assert not entry.has_screen()


READINGS = (
    "promises",
    "kept",
    "load-now",
    "habits",
    "donors",
    "queue",
    "expect",
    "verify",
    "status Marsh",
    "history 0000750014",
    "files 000059",
)


@pytest.mark.parametrize("words", READINGS)
def test_every_question_typed_at_it_is_answered(
    made: InventedShop, capsys: pytest.CaptureFixture[str], words: str
) -> None:
    answer = Typist(made.shop, capsys)(*words.split(), now=AFTERNOON.isoformat())
    assert (answer.code, answer.err) == (0, "")
