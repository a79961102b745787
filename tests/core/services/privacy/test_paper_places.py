"""Papers written apart from the shop's folder are remembered by order, and found when somebody is erased."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from core.model.names import JobNumber
from core.services.privacy import customer_export, kept_entries, paper_places, personal_files
from core.services.privacy.emptied_records import Emptied
from core.services.privacy.paper_places import PaperPlace
from core.services.proving import system_users
from core.services.shop_places import shop_folders
from core.wording.messages import say
from tests.support import beginnings
from tests.support.booked import Desk, events
from tests.support.inventories import GOOD, written
from tests.support.named_everywhere import a_year_ago, erase, found
from tests.support.typed import Typist

NUMBER = JobNumber("000018")
HERE = system_users.machine()


def _begin(desk: Desk) -> None:
    a_year_ago(desk)


begun_file, begun_server = beginnings.begun_file(_begin), beginnings.begun_server(_begin)


def paper(folder: Path, number: str = NUMBER) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"quote-{number}.pdf"
    path.write_bytes(b"%PDF Zebedee")
    return path


def test_a_folder_is_noted_once_an_order_and_names_nobody(desk: Desk, tmp_path: Path) -> None:
    for folder in ("a", "b", "a"):
        desk.shop.run(paper_places.note, NUMBER, str(tmp_path / folder))
    wanted = tuple(PaperPlace(str(tmp_path / folder), HERE) for folder in "ab")
    assert desk.shop.ask(paper_places.of_orders, [NUMBER]) == wanted
    lines = events(desk.shop, paper_places.KIND)
    assert [each.job for each in lines] == [NUMBER, NUMBER]
    assert not any("Zebedee" in each.words + each.payload for each in lines)
    assert desk.shop.verify() == ()


def test_they_are_removed_with_the_person_and_the_folder_is_forgotten(desk: Desk, tmp_path: Path) -> None:
    """Seen red before the folder was remembered: the paper stayed, and nobody said so."""
    theirs, others = paper(tmp_path / "desk"), paper(tmp_path / "desk", "000026")
    looked_at = paper(tmp_path / "desk" / shop_folders.PREVIEW)
    desk.shop.run(paper_places.note, NUMBER, str(tmp_path / "desk"))
    done = erase(desk.shop, NUMBER)
    assert {theirs, looked_at} <= set(done.files)
    assert not theirs.exists()
    assert not looked_at.exists()
    assert others.exists()
    assert done.elsewhere == ()
    others.unlink()
    assert desk.shop.ask(paper_places.of_orders, [NUMBER]) == ()
    assert found(desk, tmp_path) == []
    assert desk.shop.verify() == ()


def test_what_is_gone_or_on_another_computer_is_named(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A paper in a folder of that name here may be another shop's: it is left alone."""
    stick, empty = tmp_path / "stick", tmp_path / "empty"
    paper(stick)
    desk.shop.run(paper_places.note, NUMBER, str(stick))
    desk.shop.run(paper_places.note, NUMBER, str(empty))
    monkeypatch.setattr(system_users, "machine", lambda: "till-2")
    not_ours = paper(tmp_path / "same name")
    desk.shop.run(paper_places.note, NUMBER, str(not_ours.parent))
    monkeypatch.setattr(system_users, "machine", lambda: HERE)
    shutil.rmtree(stick)
    empty.mkdir()
    done = erase(desk.shop, NUMBER)
    wanted = (
        PaperPlace(str(stick), HERE),
        PaperPlace(str(empty), HERE),
        PaperPlace(str(not_ours.parent), "till-2"),
    )
    assert done.elsewhere == wanted
    assert not_ours.exists()
    told = " ".join(done.sentences)
    for each in wanted:
        assert say("privacy", "paper-place", folder=each.folder, machine=each.machine) in told


def test_a_paper_that_stays_is_named(
    file_desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    stays = paper(tmp_path / "desk")

    def refuse(path: Path) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "unlink", refuse)
    with pytest.raises(Exception, match=str(stays)):
        personal_files.remove(
            file_desk.where, Emptied((NUMBER,), elsewhere=(PaperPlace(str(stays.parent), HERE),)), []
        )


def test_it_stands_in_the_customers_export_and_on_the_page(file_desk: Desk, tmp_path: Path) -> None:
    file_desk.shop.run(paper_places.note, NUMBER, str(tmp_path / "desk"))
    held = file_desk.shop.ask(customer_export.export, NUMBER)
    (told,) = [each["details"] for each in held["history"] if str(tmp_path / "desk") in json.dumps(each)]
    assert (told["folder"], told["machine"]) == (str(tmp_path / "desk"), HERE)
    names = [each.name for each in file_desk.shop.ask(kept_entries.entries)]
    assert "paper-places" in names


def test_the_folder_beside_the_shop_needs_no_note(tmp_path: Path) -> None:
    shop = tmp_path / "shop.sqlite"
    assert paper_places.are_known(shop, tmp_path / "papers")
    assert not paper_places.are_known(shop, tmp_path / "elsewhere")
    server = "postgresql://till@db.example.org/chain"
    assert not paper_places.are_known(server, shop_folders.papers(server)), "it lies on one computer only"


# --- typed -------------------------------------------------------------------------------


def test_every_subcommand_with_papers_of_an_order_has_them_remembered(
    typed: Typist, begun_file: Path, tmp_path: Path
) -> None:
    Path(typed.shop).write_bytes(begun_file.read_bytes())
    box = tmp_path / "box.json"
    box.write_bytes(written(GOOD))
    kinds = {
        "agreement": ("agreement", NUMBER),
        "files": ("files", NUMBER),
        "book": ("book", box),
    }
    for name, words in kinds.items():
        assert typed(*words, "--paper", tmp_path / name).code == 0
    done = typed("erase", NUMBER).document
    assert done["papers_elsewhere"] == []
    assert [path for path in tmp_path.rglob("*.pdf") if NUMBER in path.name] == []
    assert len(list((tmp_path / "book").glob("*.pdf"))) > 2
    assert {Path(each).parent.name for each in done["removed"]} >= {"agreement", "files"}


def test_beside_the_shop_nothing_is_noted(typed: Typist, begun_file: Path, file_desk: Desk) -> None:
    Path(typed.shop).write_bytes(begun_file.read_bytes())
    assert typed("files", NUMBER, "--paper", Path(typed.shop).parent / "papers").code == 0
    assert '"papers-elsewhere"' not in json.dumps(typed("export-customer", NUMBER, "-").document)


def test_where_it_cannot_be_noted_no_paper_is_written_and_it_is_said(
    typed: Typist, begun_file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from core.model.errors import Unavailable

    def refuse(*_: object) -> None:
        raise Unavailable("The disk is full.")

    Path(typed.shop).write_bytes(begun_file.read_bytes())
    monkeypatch.setattr(paper_places, "note", refuse)
    told = typed("files", NUMBER, "--paper", tmp_path / "full")
    assert (told.code, told.document["papers"]) == (0, [])
    assert "The disk is full" in told.err
    assert list((tmp_path / "full").glob("*")) == []
