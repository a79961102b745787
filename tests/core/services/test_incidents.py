"""Tapes lost or damaged in the shop: every line kept for good, photos checked by what is in them."""

from __future__ import annotations

import io
from datetime import timedelta
from pathlib import Path

import pytest
from PIL import Image

from core.model.dispositions import Disposition
from core.model.errors import Refused, WrongInput
from core.model.incident_records import IncidentKind, IncidentStep
from core.model.stations import Station
from core.services import incident_photos, incidents, jobs, tape_dispositions, tapes
from tests.support import beginnings
from tests.support.behind import behind
from tests.support.booked import Desk, line

LOST, DAMAGED = Disposition.LOST, Disposition.DAMAGED


def picture(path: Path, kind: str = "JPEG", size: int = 40) -> Path:
    held = io.BytesIO()
    Image.new("RGB", (size, size), "teal").save(held, kind)
    path.write_bytes(held.getvalue())
    return path


def _begin(desk: Desk) -> None:
    job = desk.book(line(count=2))
    desk.bring_to(job.tapes[1], Station.READY, minutes=30)
    desk.shop.run(tape_dispositions.settle, job.tapes[0].code, LOST, note="not on its shelf")


begun_file, begun_server = beginnings.begun_file(_begin), beginnings.begun_server(_begin)


@pytest.fixture
def lost(desk: Desk) -> str:
    return desk.shop.ask(jobs.open_jobs)[0].tapes[0].code


def test_each_line_says_what_and_when_and_by_whom(desk: Desk, lost: str) -> None:
    happened = desk.clock() - timedelta(days=1)
    desk.clock.go_on(hours=2)
    desk.shop.who = "Robin"
    desk.shop.run(incidents.add, lost, IncidentKind.ADDED, "was seen on Monday", moment=happened)
    desk.shop.run(incidents.add, lost, IncidentKind.TOLD, "by phone, to Ada herself", moment=desk.clock())
    found = desk.shop.run(incidents.add, lost, IncidentKind.SETTLED, "60.00 and the fee waived")
    assert [(each.kind, each.by) for each in found.lines] == [
        (IncidentKind.LOST, "Kim"),
        (IncidentKind.ADDED, "Robin"),
        (IncidentKind.TOLD, "Robin"),
        (IncidentKind.SETTLED, "Robin"),
    ]
    assert found.lines[1].moment == happened
    assert found.told is not None
    assert not found.is_open
    told = [each.words for each in desk.shop.ask(tapes.history, lost)]
    assert "lost: not on its shelf" in told
    assert "settled with the owner: 60.00 and the fee waived" in told
    assert desk.shop.verify() == ()


def test_what_is_open_is_listed_with_what_is_next(desk: Desk, lost: str) -> None:
    """Whom nobody has told comes first; settled with the owner, or found again, it is off the list."""
    job = desk.book(line(count=2), name="Bo Example")
    first, second = (tape.code for tape in job.tapes)
    desk.clock.go_on(hours=1)
    desk.shop.run(tape_dispositions.settle, first, DAMAGED, note="chewed by deck 2")
    desk.shop.run(tape_dispositions.settle, second, LOST, note="not in the box")
    desk.shop.run(incidents.add, lost, IncidentKind.TOLD, "by phone")

    def listed() -> list[tuple[str, str, IncidentStep]]:
        found = desk.shop.ask(incidents.open_ones)
        return [(each.incident.tape, each.customer, each.next) for each in found]

    tell, settle = IncidentStep.TELL, IncidentStep.SETTLE
    assert listed() == [
        (first, "Bo Example", tell),
        (second, "Bo Example", tell),
        (lost, "Ada Fenwick", settle),
    ]
    assert desk.shop.ask(incidents.open_ones)[0].tape.label == job.tapes[0].label
    desk.shop.run(incidents.add, lost, IncidentKind.SETTLED, "sixty dollars")
    desk.shop.run(tape_dispositions.reopen, second, because="lay in the deck")
    assert listed() == [(first, "Bo Example", tell)]
    desk.shop.run(tape_dispositions.settle, second, LOST, note="gone again")
    assert listed()[-1] == (second, "Bo Example", tell)


def test_an_altered_line_shows(desk: Desk, lost: str) -> None:
    guard = "DROP TRIGGER incidents_no_update" if desk.kind == "sqlite" else ""
    guard = guard or "DROP TRIGGER incidents_append_only ON incidents"
    with desk.shop.database.writing.begin() as connection:
        connection.execute(behind(guard))
        connection.execute(behind("UPDATE incidents SET words = 'it never came in'"))
    assert any("not what the history tells" in each for each in desk.shop.verify())


def test_a_lost_tape_waits_until_it_is_settled_and_a_damaged_one_until_its_owner_knows(
    desk: Desk, lost: str
) -> None:
    job = desk.book(line())
    damaged = desk.shop.run(
        tape_dispositions.settle, job.tapes[0].code, DAMAGED, note="chewed by deck 2"
    ).code
    for code in (lost, damaged):
        desk.shop.run(incidents.add, code, IncidentKind.TOLD, "by phone")
    here = [desk.shop.ask(tapes.get, code).station for code in (lost, damaged)]
    assert here == [Station.ASKING_THE_CUSTOMER, Station.READY]
    desk.shop.run(incidents.add, lost, IncidentKind.SETTLED, "sixty dollars")
    assert desk.shop.ask(tapes.get, lost).station.may_go_home
    assert desk.hand_back(job).handed_back[0].disposition is DAMAGED
    assert desk.shop.verify() == ()


def test_a_lost_tape_is_signed_for_as_not_returned(desk: Desk, lost: str) -> None:
    desk.shop.run(incidents.add, lost, IncidentKind.SETTLED, "sixty dollars")
    handed = desk.hand_back(desk.shop.ask(jobs.get, lost[:6]))
    assert [each.code for each in handed.not_returned] == [lost]
    assert [each.disposition for each in handed.returned] == [Disposition.COPIED]
    assert not desk.shop.ask(jobs.get, lost[:6]).is_open


def test_a_line_needs_an_incident_words_and_a_past(desk: Desk, lost: str) -> None:
    other = desk.book().tapes[0].code
    with pytest.raises(Refused, match="neither lost nor damaged"):
        desk.shop.run(incidents.add, other, IncidentKind.TOLD, "by phone")
    with pytest.raises(WrongInput, match="few words"):
        desk.shop.run(incidents.add, lost, IncidentKind.TOLD, "  ")
    soon = desk.clock() + timedelta(minutes=1)
    with pytest.raises(WrongInput, match="has passed"):
        desk.shop.run(incidents.add, lost, IncidentKind.TOLD, "by phone", moment=soon)
    with pytest.raises(WrongInput):
        desk.shop.run(incidents.add, lost, IncidentKind.LOST, "again")


# --- photos ------------------------------------------------------------------------------


@pytest.mark.parametrize(("kind", "ending"), [("JPEG", "jpg"), ("PNG", "png")])
def test_a_photo_is_copied_and_known_by_its_fingerprint(
    desk: Desk, lost: str, tmp_path: Path, kind: str, ending: str
) -> None:
    folder = tmp_path / "photos"
    photo = incident_photos.keep(picture(tmp_path / "shelf.dat", kind), folder)
    assert photo.name == f"{photo.sha256[:16]}.{ending}"
    found = desk.shop.run(incidents.attach, lost, photo, "the empty place")
    assert (found.lines[-1].photo, found.lines[-1].sha256) == (photo.name, photo.sha256)
    assert incident_photos.is_whole(found.lines[-1], folder)
    (folder / photo.name).write_bytes(b"other")
    assert not incident_photos.is_whole(found.lines[-1], folder)


def test_what_is_no_photo_is_refused_whatever_it_is_called(tmp_path: Path) -> None:
    fake, cut, gif = tmp_path / "a.jpg", tmp_path / "b.png", tmp_path / "c.png"
    fake.write_bytes(b"\xff\xd8\xff but no picture")
    cut.write_bytes(picture(tmp_path / "whole.png", "PNG", 400).read_bytes()[:300])
    picture(gif, "GIF")
    for path in (fake, cut, gif, tmp_path / "missing.png"):
        with pytest.raises(WrongInput, match="photo"):
            incident_photos.keep(path, tmp_path / "photos")
    assert not (tmp_path / "photos").exists()


def test_a_photo_has_a_largest_size(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = picture(tmp_path / "a.png", "PNG")
    monkeypatch.setattr(incident_photos, "MOST_BYTES", path.stat().st_size - 1)
    with pytest.raises(WrongInput, match="PNG or JPEG"):
        incident_photos.keep(path, tmp_path / "photos")
