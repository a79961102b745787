"""Every subcommand says which right it takes, or why it takes none; without it the command line refuses."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from core.cli import entry
from core.cli.subcommands import SUBCOMMANDS
from core.model.own_shop.settings_records import ASKED, Permission
from core.services import payments, recordings, repair_attempts, repair_record, tape_dispositions
from core.services.checking import sign_offs
from core.services.copies import copy_making
from core.services.own_shop import shop_document
from core.services.privacy import erasures
from core.wording.messages import say
from tests.sent_again.step_examples import EXAMPLES
from tests.support.booked import MORNING, Desk, line, opened

TELLS = "it tells and stores nothing"
WORK = "the everyday work of counter and bench (see `test_every_right`)"
KEEPS = "whoever stands there may make a copy or look whether all is well: the program does so by itself"
NO_SHOP = "it touches no shop"

Words = tuple[str, ...]
WITHOUT = {
    **dict.fromkeys(("demo", "playtime", "cut", "pack", "completion", "desktop-entry"), NO_SHOP),
    **dict.fromkeys(
        (
            *("quote", "status", "incidents", "history", "files", "file-check", "to-tell", "copies"),
            *("downloads", "promises", "customers", "load-now", "habits", "agreement", "to-call"),
            *(
                "invoices",
                "takings",
                "journal",
                "job-sheet",
                "reminder",
                "not-saved",
                "refund-slip",
                "receipt",
            ),
            *("claim-slip", "labels"),
            *("data-kept", "shop show", "shop export", "shop prices-out", "shop history", "shop missing"),
            "shop who",
        ),
        TELLS,
    ),
    **dict.fromkeys(
        (
            *("book", "move", "settle", "incident", "splice", "mark", "label-off", "repair", "looked"),
            *("donors", "clear", "capture", "sign-off", "told", "wish", "called", "copy-made"),
            *("copy-checked", "own-drive", "copy-choice", "download", "download-deleted", "pickup"),
            *("deck", "shut", "close", "reopen", "outage", "queue", "correct", "amend", "agree"),
            *("cancel", "found", "pay", "drawer", "invoice"),
        ),
        WORK,
    ),
    **dict.fromkeys(("backup", "rehearse-restore", "verify"), KEEPS),
}
"""By subcommand that takes no right: why not."""

RIGHTS: dict[str, tuple[Permission, Words]] = {
    "refund": (Permission.REFUND, ("{paid}", "--minor", "100", "--because", "blank")),
    "promise-again": (Permission.OVERRIDE, ("{far}", "--reason", "they leave", "--day", "2026-03-03")),
    "erase": (Permission.ERASE, ("{home}",)),
    "export-customer": (Permission.ERASE, ("{home}", "-")),
    "renew-backups": (Permission.ERASE, ()),
    "restore": (Permission.RESTORE, ("{copy}", "--replace")),
    "move-shop": (Permission.RESTORE, ("{shop}", "{elsewhere}")),
    "backup-key": (Permission.SETTINGS, ()),
    "kept": (Permission.REPORTS, ()),
    "expect": (Permission.SETTINGS, ("--rush-boxes-a-week", "9")),
    "unsettle": (Permission.OVERRIDE, ("{lost}", "--because", "found")),
    "undo-splice": (Permission.OVERRIDE, ("{spliced}", "--because", "another tape")),
    "undo-repair": (Permission.OVERRIDE, ("{repaired}", "--because", "another tape")),
    "undo-capture": (Permission.OVERRIDE, ("{recorded}", "--because", "another tape")),
    "undo-sign-off": (Permission.OVERRIDE, ("{signed}", "--because", "the sound is off")),
    "undo-copy": (Permission.OVERRIDE, ("{copied}", "{item}", "--because", "another stick")),
    "shop set": (Permission.SETTINGS, ("work.people", "5")),
    "shop remove": (Permission.SETTINGS, ("deck.VHS 1",)),
    "shop import": (Permission.SETTINGS, ("{toml}",)),
    "shop confirm": (Permission.SETTINGS, ("papers",)),
    "shop raise-prices": (Permission.PRICES, ("4",)),
    "shop prices-in": (Permission.PRICES, ("{csv}",)),
    "shop undo": (Permission.SETTINGS, ()),
    "shop pin": (Permission.SETTINGS, ("Kim",)),
    "shop token": (Permission.SETTINGS, ("Kim", "mine")),
    "shop revoke": (Permission.SETTINGS, ("Kim", "backup")),
    "shop system-user": (Permission.SETTINGS, ("Kim",)),
}
"""By subcommand: the right it takes, and what to type in the shop below."""


def actions() -> set[str]:
    shop = entry.parser()._subparsers._group_actions[0].choices["shop"]  # type: ignore[union-attr, index]
    return {f"shop {each}" for each in shop._subparsers._group_actions[0].choices}


def test_every_subcommand_is_in_one_of_the_two_lists() -> None:
    assert RIGHTS.keys() | WITHOUT.keys() == (set(SUBCOMMANDS) - {"shop"}) | actions()
    assert not RIGHTS.keys() & WITHOUT.keys()


def test_every_right_is_taken_by_some_subcommand() -> None:
    assert {right for right, _ in RIGHTS.values()} == set(ASKED)


def args(desk: Desk, step: object) -> tuple[str, ...]:
    _, found, _ = EXAMPLES[step](desk)  # type: ignore[index]
    return tuple(map(str, found))


@pytest.fixture(scope="module")
def blanks(empty_file: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """A shop of Kim, who may do everything and did everything, and Pat, who may nothing; what is in it."""
    folder = tmp_path_factory.mktemp("rights")
    where = Path(shutil.copy(empty_file, folder / "shop.sqlite"))
    with opened(str(where), "sqlite") as desk:
        may = ", ".join(f'"{each.value}"' for each in Permission)
        desk.shop.run(shop_document.set_texts, [("person.Kim", f"{{may = [{may}]}}"), ("person.Pat", "{}")])
        number, item = args(desk, copy_making.strike)
        found = {
            "paid": args(desk, payments.refund)[0],
            "far": desk.book(line(count=60)).number,
            "home": args(desk, erasures.erase_rows)[0],
            "lost": args(desk, tape_dispositions.reopen)[0],
            "spliced": args(desk, repair_record.undo_splice)[0],
            "repaired": args(desk, repair_attempts.strike)[0],
            "recorded": args(desk, recordings.strike)[0],
            "signed": args(desk, sign_offs.withdraw)[0],
            "copied": number,
            "item": item,
        }
        toml, csv = folder / "shop.toml", folder / "prices.csv"
        toml.write_text(desk.shop.ask(shop_document.export).replace("people = 2", "people = 5"), "utf-8")
        csv.write_text(desk.shop.ask(shop_document.export_prices).replace("22.00", "23.00"), "utf-8")
        copy = desk.shop.backup(folder / "copies")
    places = {"toml": toml, "csv": csv, "copy": copy, "shop": where, "elsewhere": folder / "there.sqlite"}
    return found | {name: str(path) for name, path in places.items()}


@pytest.mark.parametrize("name", RIGHTS)
def test_without_the_right_the_command_line_refuses_and_nothing_changes(
    blanks: dict[str, str], name: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TAPEWRIGHT_NEW_PIN", "2468")
    right, words = RIGHTS[name]
    before = Path(blanks["shop"]).read_bytes()
    typed = [*name.split(), *(each.format(**blanks) for each in words)]
    code = entry.run([*typed, "--shop", blanks["shop"], "--now", MORNING.isoformat(), "--who", "Pat"])
    printed = capsys.readouterr()
    assert (code, printed.out) == (3, ""), printed.err
    what = say("settings", f"people-to-{right.value}")
    assert f"Pat may not {what}. Kim can; sign in as Kim." in printed.err
    assert Path(blanks["shop"]).read_bytes() == before
    assert not Path(blanks["elsewhere"]).exists()
