"""Erased: the name is found nowhere, the books and the chain hold."""

from __future__ import annotations

import json
import threading
from dataclasses import replace
from pathlib import Path

import psycopg
import pytest

from core.cli import entry
from core.model import serialization
from core.model.agreement_records import Consent
from core.model.errors import NotPermitted, Refused, Unavailable, WrongInput
from core.model.inventory import CustomerDraft
from core.model.own_shop.settings_records import Person
from core.model.stations import Station
from core.model.typed_draft import TypedBox
from core.services import drafts, jobs, payments
from core.services.agreement import agreements
from core.services.own_shop import settings_versions
from core.services.privacy import erasures, personal_files
from core.services.privacy.emptied_records import Emptied
from core.store import current_settings, history, row_digests, scrubbing, steps
from core.wording import record_heads
from core.wording.messages import say
from tests.support.behind import behind
from tests.support.booked import Desk, command, events, line, opened
from tests.support.named_everywhere import (
    NAME,
    PHONE,
    a_year_ago,
    erase,
    everything,
    found,
    in_copies_and_incidents,
)


def test_the_name_is_found_nowhere_and_everything_holds(desk: Desk, tmp_path: Path) -> None:
    papers = tmp_path / "papers"
    kept = desk.book(line(), name="Ada Fenwick")
    job = a_year_ago(desk, papers)
    assert {word for _, word in found(desk, tmp_path)} >= {"Zebedee", "Quillona"}
    assert len(list(papers.iterdir())) >= 4
    done = erase(desk.shop, job.number, [papers])
    assert done.orders == (job.number,)
    assert found(desk, tmp_path) == []
    assert not list(papers.iterdir())
    assert desk.shop.verify() == ()
    after = desk.shop.ask(jobs.get, job.number)
    assert after.customer.name == "(erased)"
    assert after.customer.phone is None
    assert (after.payments, after.paid_minor) == (job.payments, job.paid_minor)
    assert [each.played_minutes for each in after.tapes] == [each.played_minutes for each in job.tapes]
    assert after.quote.price == job.quote.price
    assert desk.shop.ask(jobs.get, kept.number) == kept


def test_named_in_copies_taxes_and_incidents_the_name_is_found_nowhere_either(
    desk: Desk, tmp_path: Path
) -> None:
    """Seen red before the exemption, the link and the reason of a struck copy were taken out of the quote and
    out of the receipt, which is kept whole."""
    job = in_copies_and_incidents(desk)
    hits = {word for _, word in found(desk, tmp_path)}
    assert hits >= {"Zebedee", "Quillona", "zebedee"}
    assert erase(desk.shop, job.number).photos == ("zebedee.png",)
    assert found(desk, tmp_path) == []
    assert desk.shop.verify() == ()
    after = desk.shop.ask(jobs.get, job.number)
    assert (after.tax_exempt, after.quote.price.exempt) == ("(erased)", "(erased)")
    assert after.quote.price.tax_words == say("charges", "tax-exempt", reason="(erased)")
    assert (after.quote.price.due, after.paid_minor) == (job.quote.price.due, job.paid_minor)


def test_the_head_of_before_is_still_held_and_the_history_says_who_erased(desk: Desk, tmp_path: Path) -> None:
    job = a_year_ago(desk, tmp_path / "papers")
    head, count = desk.shop.ask(history.head), desk.shop.ask(history.latest)
    erase(desk.shop, NAME)
    assert desk.shop.ask(history.holds, head) == count
    lines = desk.shop.ask(jobs.history, job.number)
    assert {each.words for each in lines} == {""}
    assert len(lines) > 10
    assert found(desk, tmp_path / "nothing") == []


def test_nobody_can_try_names_against_what_is_left(desk: Desk, tmp_path: Path) -> None:
    """A digest without a salt would tell whether a guessed name was right; the salts are gone."""
    job = a_year_ago(desk, tmp_path / "papers")
    with desk.shop.database.reading.connect() as connection:
        rows = {
            name: [dict(row) for row in connection.execute(behind(f"SELECT * FROM {name}")).mappings()]
            for name in ("customers", "jobs")
        }
        salts = [row["salt"] for name in rows for row in rows[name]]
        salts += connection.execute(behind("SELECT salt FROM events WHERE job IS NOT NULL")).scalars().all()
    said = "".join(event.payload for event in events(desk.shop, row_digests.KIND))
    for name, held in rows.items():
        for row in held:
            assert row_digests.digest(name, row, row["salt"]) in said
            assert row_digests.digest(name, row, "") not in said
    erase(desk.shop, job.number)
    left = b"".join(held for _, held in everything(desk, tmp_path))
    assert not [salt for salt in salts if salt.encode() in left]


def test_erased_at_the_command_line_the_papers_beside_the_shop_go_as_well(
    file_desk: Desk, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = a_year_ago(file_desk, tmp_path / "papers")
    copy = file_desk.shop.backup(tmp_path / "copies")
    words = ["erase", PHONE, "--shop", file_desk.where, "--json", "--command", "E1"]
    code = entry.run(words)
    told = json.loads(capsys.readouterr().out)
    assert (code, told["erased"]) == (0, [job.number])
    assert entry.run(words) == 0
    assert json.loads(capsys.readouterr().out)["erased"] == [job.number]
    assert entry.run([*words[:1], "Ada Fenwick", *words[2:]]) == 3
    assert len(told["removed"]) >= 4
    copy.unlink()
    assert found(file_desk, tmp_path) == []
    assert (
        entry.run(["verify", "--shop", file_desk.where, "--head", record_heads.in_name(copy.name) or ""]) == 0
    )


def test_an_erasure_whose_answer_was_lost_is_answered_again_though_the_name_is_gone(
    desk: Desk, tmp_path: Path
) -> None:
    job, sent = a_year_ago(desk, tmp_path / "papers"), command()
    kept = desk.book(line(), name="Ada Fenwick")
    first = desk.shop.once(sent, erasures.erase_rows, NAME)
    again = desk.shop.once(sent, erasures.erase_rows, NAME)
    assert (first.before, again.before) == (None, desk.clock())
    assert again.answer == first.answer == Emptied((job.number,))
    with pytest.raises(Refused, match="used"):
        desk.shop.once(sent, erasures.erase_rows, "Ada Fenwick")
    erasures.clean_up(desk.shop, again.answer, [tmp_path / "papers"])
    assert found(desk, tmp_path) == []
    assert desk.shop.ask(jobs.get, kept.number).customer.name == "Ada Fenwick"


def test_of_the_name_that_was_typed_only_a_slow_hash_is_kept(desk: Desk, tmp_path: Path) -> None:
    """Argon2id, salted by the command; `test_commands` holds what becomes of such an argument."""
    a_year_ago(desk, tmp_path / "papers")
    sent = command()
    desk.shop.once(sent, erasures.erase_rows, NAME)
    fast = steps.asked_for(erasures.erase_rows, (NAME,), {})
    with desk.shop.database.reading.connect() as connection:
        salt = connection.execute(behind("SELECT salt FROM command_answers")).scalar_one()
        content = connection.execute(
            behind("SELECT content FROM commands WHERE command = :id"), {"id": sent}
        ).scalar_one()
    guessed = history.fingerprint(salt + history.fingerprint(serialization.dumps(fast)))
    assert content != guessed


def test_somebody_is_erased_once_everything_is_home_and_paid(desk: Desk) -> None:
    job = desk.book(line(), name=NAME)
    with pytest.raises(Refused, match="still open"):
        erase(desk.shop, job.number)
    desk.bring_to(job.tapes[0], Station.READY)
    desk.hand_back(job)
    with pytest.raises(Refused, match="still owed"):
        erase(desk.shop, job.number)
    assert desk.shop.ask(jobs.get, job.number).customer.name == NAME


def test_exactly_one_customer_is_meant(desk: Desk) -> None:
    desk.book(line(), name="Ada Fenwick", phone="(303) 555-0111")
    desk.book(line(), name="Ada Fenwick", phone="(303) 555-0122")
    with pytest.raises(WrongInput, match="2 customers match"):
        erase(desk.shop, "Ada Fenwick")
    with pytest.raises(WrongInput, match="somebody who was here"):
        erase(desk.shop, "Nobody Atall")


def test_records_that_do_not_agree_with_their_history_are_not_erased(file_desk: Desk, tmp_path: Path) -> None:
    job = a_year_ago(file_desk, tmp_path / "papers")
    with file_desk.shop.database.writing.begin() as connection:
        connection.exec_driver_sql("UPDATE copies SET words = 'another'")
    with pytest.raises(Refused, match="don't agree with their history"):
        erase(file_desk.shop, job.number)


def test_nobody_erases_without_the_right(desk: Desk) -> None:
    staff = (Person("Ada", may=frozenset({"settings", "erase"})), Person("Kit"))
    settings = desk.shop.ask(current_settings.read)
    desk.shop.run(settings_versions.change, replace(settings, staff=staff), needs=None)
    desk.shop.who = "Kit"
    with pytest.raises(NotPermitted):
        erase(desk.shop, NAME)


def test_papers_of_others_stay_and_half_written_ones_go(file_desk: Desk, tmp_path: Path) -> None:
    """A moment in a name is no order; a dot before the name is what a power cut leaves."""
    theirs = ["receipt-000018-20260303-140000.pdf", "incident-0000180014.pdf", "quote-000018-2.pdf"]
    theirs += [".labels-000018.pdf-x7.growing", "preview-000018.pdf"]
    others = ["receipt-000026-00001820-140000.pdf", "data-kept-2026-03-03.pdf", "quote-0000181.pdf"]
    for name in (*theirs, *others):
        (tmp_path / name).write_bytes(b"%PDF")
    gone = personal_files.remove(
        file_desk.where, Emptied(("000018",)), [tmp_path, tmp_path / "nowhere"]
    ).files
    assert sorted(path.name for path in gone) == sorted(theirs)
    assert {path.name for path in tmp_path.iterdir()} >= set(others)


@pytest.mark.postgres
def test_what_a_server_keeps_to_plan_by_forgets_the_name(server_shop: str, tmp_path: Path) -> None:
    """PostgreSQL keeps values that are frequent in a column (https://www.postgresql.org/docs/current/
    view-pg-stats.html); seen red without each of the lines on it in
    `scrubbing`."""
    with opened(server_shop, "postgres") as desk:
        job = a_year_ago(desk)
        for counter in ("counter", "counter 2", "counter 3"):  # what is there once is not frequent
            desk.shop.run(drafts.keep, counter, TypedBox(name=NAME))
        with desk.shop.database.writing.execution_options(isolation_level="AUTOCOMMIT").connect() as whole:
            whole.execute(behind("ANALYZE"))
        assert "pg_statistic" in {name for name, _ in found(desk, tmp_path)}
        erase(desk.shop, job.number)
        assert found(desk, tmp_path) == []


@pytest.mark.postgres
def test_what_a_server_keeps_for_an_older_reader_is_waited_for(
    server_shop: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A removed row is kept while a view is older than its removal
    (https://www.postgresql.org/docs/current/routine-vacuuming.html); seen red without the waiting."""
    with opened(server_shop, "postgres") as desk, psycopg.connect(server_shop) as reader:
        job = a_year_ago(desk)
        reader.execute("SET TRANSACTION ISOLATION LEVEL REPEATABLE READ")
        reader.execute("SELECT 1")
        monkeypatch.setattr(scrubbing, "HELD_SECONDS", 0.2)
        with pytest.raises(Unavailable, match="erase once more"):
            erase(desk.shop, job.number)
        assert found(desk, tmp_path) != []
        monkeypatch.setattr(scrubbing, "HELD_SECONDS", 30.0)
        ends = threading.Timer(0.5, reader.rollback)
        ends.start()
        erase(desk.shop, job.number)
        ends.join()
        assert found(desk, tmp_path) == []


def test_nothing_is_entered_for_an_erased_order_any_more(desk: Desk, tmp_path: Path) -> None:
    """A name would be back with an agreement, a correction or a note. Seen red without the check."""
    kept = desk.book(line(), name="Ada Fenwick")
    job = a_year_ago(desk)
    erase(desk.shop, job.number)
    for step, args, named in (
        (agreements.agree, (job.number, "more", Consent(NAME)), {"ceiling_minor": 90_000}),
        (jobs.correct_customer, (job.number, CustomerDraft(NAME)), {}),
        (payments.refund, (job.number, 100), {"note": NAME}),
    ):
        with pytest.raises(Refused, match="erased"):
            desk.shop.run(step, *args, **named)
    assert found(desk, tmp_path) == []
    assert desk.shop.verify() == ()
    desk.shop.run(jobs.correct_customer, kept.number, CustomerDraft("Bo Fenwick"))
