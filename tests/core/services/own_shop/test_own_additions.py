"""Findings, repairs and media of the shop's own: in the settings file, on a tape, on the bill, retired."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from core.catalogue import condition
from core.model.errors import Refused, WrongInput
from core.model.inventory import Delivery
from core.model.names import Finding, FindingKey, JobNumber, Outcome
from core.model.quote_records import Price
from core.model.ranges import Range
from core.model.stations import Station
from core.papers.voice import voice
from core.services import jobs, payments, repair_attempts, repair_record, tapes
from core.services.own_shop import (
    addition_drafts,
    settings_changes,
    settings_versions,
    shop_document,
    shop_settings,
)
from core.services.own_shop.addition_drafts import AdditionDraft
from core.store import current_settings, lookup
from core.store.unit import Unit
from tests.support import booked
from tests.support.booked import Desk, quoted

TOLD = "It smells of smoke: we air it out for a day before we play it."
SMOKE: dict[str, Any] = {
    "name": "smells-of-smoke",
    "words": "smells of smoke",
    "told": TOLD,
    "outcome": "repair",
    "repairs": ["air-out"],
    "caution": "Open it by the window.",
}
STUCK: dict[str, Any] = {
    "name": "label-stuck",
    "words": "label stuck over the door",
    "told": "The label comes off.",
}
AIR: dict[str, Any] = {"name": "air-out", "words": "air out the cassette", "minutes": [5, 10, 20]}
STICK: dict[str, Any] = {"name": "gift-stick", "words": "gift box stick", "gigabytes": 32}
SIDES: dict[str, Any] = {"name": "long-disc", "words": "archive disc", "minutes": 60}
ADDED: dict[str, Any] = {"finding": [SMOKE, STUCK], "repair": [AIR], "medium": [STICK, SIDES]}
PRICE = [("prices.repair.air-out", '{ words = "Airing out", price = "7.50" }')]
KEY = FindingKey("smells-of-smoke")


def document(**changed: Any) -> dict[str, Any]:
    return {**shop_settings.document(shop_settings.new_shop()), **ADDED, **changed}


def take_in(desk: Desk, *prices: tuple[str, str]) -> None:
    """Put everything in force, with these prices."""
    content = {**shop_settings.document(desk.shop.ask(current_settings.read)), **ADDED}
    desk.shop.run(settings_versions.change, shop_settings.of_document(content, "settings"))
    if prices:
        desk.shop.run(shop_document.set_texts, prices)


def test_the_same_record_comes_back_from_its_file() -> None:
    settings = shop_settings.of_document(document(), "settings")

    assert shop_settings.loads(shop_settings.dump(settings)) == settings
    assert settings.additions.findings[0].outcome is Outcome.REPAIR
    assert settings.additions.repairs[0].minutes == Range(5, 10, 20)
    assert [medium.minutes for medium in settings.additions.media] == [0, 60]


def test_export_import_export_is_the_same_file(desk: Desk) -> None:
    take_in(desk, *PRICE)
    written = desk.shop.ask(shop_document.export)
    gone = [("finding", "[]"), ("repair", "[]"), ("medium", "[]")]
    desk.shop.run(shop_document.set_texts, gone)
    assert KEY not in condition.offered()

    desk.shop.run(shop_document.take_over, written, "shop.toml")

    assert desk.shop.ask(shop_document.export) == written
    assert KEY in condition.offered()


def test_each_is_added_changed_and_taken_out_by_its_path(desk: Desk) -> None:
    repair = '{ words = "air out the cassette", minutes = [5, 10, 20] }'
    desk.shop.run(shop_document.set_texts, [("repair.air-out", repair)])
    finding = '{ words = "smells of smoke", told = "We air it out.", repairs = ["air-out"] }'
    desk.shop.run(shop_document.set_texts, [("finding.smells-of-smoke", finding)])
    desk.shop.run(shop_document.set_texts, [("finding.smells-of-smoke.told", TOLD)])
    added = desk.shop.ask(current_settings.read).additions
    assert added.findings[0].told == TOLD
    assert added.findings[0].repairs == ("air-out",)

    desk.shop.run(settings_versions.undo)
    assert desk.shop.ask(current_settings.read).additions.findings[0].told == "We air it out."
    desk.shop.run(shop_document.set_texts, [("finding.smells-of-smoke", None), ("repair.air-out", None)])
    assert not desk.shop.ask(current_settings.read).additions.findings


def test_changes_are_told_in_words(desk: Desk) -> None:
    before = desk.shop.ask(current_settings.read)
    take_in(desk)
    after = desk.shop.ask(current_settings.read)
    told = settings_changes.lines(before, after)
    assert (
        "New finding “smells of smoke”: “It smells of smoke: we air it out for a day before we play …”; "
        "it plays after a repair; air out the cassette; “Open it by the window.”" in told[0]
    )
    assert told[1:] == (
        "New repair “air out the cassette”: 5 to 20 minutes at the bench, usually 10",
        "New medium “gift box stick”: 32 GB; New medium “archive disc”: 60 minutes",
    )

    desk.shop.run(shop_document.set_texts, [("finding.smells-of-smoke.outcome", "partly")])
    told = settings_changes.lines(after, desk.shop.ask(current_settings.read))
    assert told == (
        "smells of smoke, what it means: it plays after a repair → only part of it can be copied",
    )


@pytest.mark.parametrize(
    ("table", "change", "sentence"),
    [
        ("finding", {"name": "Smoke!"}, "finding 1, name: found 'Smoke!'; a short name of small letters"),
        ("finding", {"name": "snapped"}, "finding 1, name: found 'snapped'; a name that nothing else"),
        ("finding", {"words": "Snapped"}, "finding 1, words: found 'Snapped'; words that nothing else"),
        ("finding", {"words": "smoke, ash"}, "finding 1, words: found 'smoke, ash'; words without a comma"),
        ("finding", {"words": "x" * 41}, "a few words on one line, at most 40 characters"),
        ("finding", {"told": " "}, "finding 1, told: found ' '; one line of text"),
        ("finding", {"told": "a\nb"}, "finding 1, told: found 'a / b'; one line of text without"),
        ("finding", {"outcome": "perhaps"}, "finding 1, outcome: found 'perhaps'; accepted are 'plays'"),
        ("finding", {"outcome": "cannot"}, "finding 1, repairs: found 'air-out'; an empty list"),
        ("finding", {"repairs": []}, "finding 1, repairs: found []; at least one repair"),
        ("finding", {"repairs": ["wax"]}, "finding 1, repairs: found 'wax'; accepted are splice, "),
        ("finding", {"not_for_reuse": True}, "finding 1: found 'not_for_reuse'; the keys accepted here"),
        ("repair", {"name": "splice"}, "repair 1, name: found 'splice'; a name that nothing else"),
        ("repair", {"minutes": [5, 3, 9]}, "repair 1, minutes: found [5.0, 3.0, 9.0]; a list of three"),
        ("repair", {"minutes": [5, 10]}, "repair 1, minutes: found [5, 10]; a list of three numbers"),
        ("repair", {"minutes": [5, "x", 9]}, "repair 1, minutes 2: found 'x'; a list of three numbers"),
        ("medium", {"gigabytes": 0}, "medium 1, gigabytes: found 0.0; gigabytes or minutes are accepted"),
        ("medium", {"minutes": 60}, "medium 1, minutes: found 60.0; gigabytes or minutes are accepted"),
        ("medium", {"name": "usb-32"}, "medium 1, name: found 'usb-32'; a name that nothing else"),
        ("medium", {"name": "own-drive"}, "medium 1, name: found 'own-drive'; a name that nothing else"),
    ],
)
def test_what_does_not_fit_is_refused_by_its_place(
    table: str, change: Mapping[str, Any], sentence: str
) -> None:
    first, *others = ADDED[table]
    # Whatever points to the entry that is renamed would be refused before it.
    kept = {"finding": [{**SMOKE, "repairs": ["splice"]}]} if table == "repair" else {}
    with pytest.raises(WrongInput) as refused:
        shop_settings.of_document(document(**{**kept, table: [{**first, **change}, *others]}), "settings")
    assert sentence in str(refused.value)


def test_two_of_one_name_are_refused() -> None:
    with pytest.raises(WrongInput, match="finding 2, name: found 'label-stuck'"):
        shop_settings.of_document(document(finding=[STUCK, STUCK]), "settings")


def test_one_verdict_of_both_kinds_of_findings(desk: Desk) -> None:
    take_in(desk)
    both = condition.verdict((KEY, Finding.SHELL_BROKEN), booked.line().format)

    assert both.outcome is Outcome.REPAIR
    assert [repair.code for repair in both.repairs] == ["shell-swap", "air-out"]
    assert both.repairs[1].minutes == Range(5, 10, 20)
    assert both.told[-1] == TOLD
    assert "Open it by the window." in both.cautions
    assert set(condition.verdict((Finding.SHELL_BROKEN,), booked.line().format).cautions) < set(both.cautions)
    assert not both.not_for_reuse


@pytest.mark.parametrize("leads", [Finding.MOULD, Finding.COMMERCIAL_RECORDING, Finding.CRUSHED])
def test_beside_what_decides_it_is_a_fact_and_no_promise(desk: Desk, leads: Finding) -> None:
    take_in(desk)
    verdict = condition.verdict((KEY, leads), booked.line().format)

    assert verdict.set_aside
    assert verdict.repairs == ()
    assert TOLD not in verdict.told
    assert verdict.told[-1] == "It was also noted: smells of smoke."
    assert "Open it by the window." in verdict.cautions


def test_its_own_repair_never_ends_the_use_of_a_tape_even_by_a_splice(desk: Desk) -> None:
    """What ends it is the splice on record."""
    take_in(desk)
    desk.shop.run(shop_document.set_texts, [("finding.smells-of-smoke.repairs", '["splice"]')])
    desk.shop.ask(current_settings.read)
    assert not condition.verdict((KEY,), booked.line().format).not_for_reuse


def test_from_the_quote_to_the_receipt(desk: Desk) -> None:
    take_in(desk, *PRICE)
    quote = quoted(desk.shop, booked.line(findings=(KEY,), count=2))
    charge = next(each for each in quote.price.charges if each.code == "repair-air-out")
    assert charge.amount.likely == 2 * 750
    assert charge.because == "smells of smoke"
    assert any(TOLD in warning for warning in quote.warnings)

    job = desk.shop.run(jobs.book, quote)
    first, _ = job.tapes
    assert first.findings == first.draft.findings == (KEY,)
    desk.shop.run(tapes.move, first.code, Station.LOOKED_OVER)
    with pytest.raises(Refused, match="smells of smoke"):
        desk.shop.run(tapes.move, first.code, Station.CLEARED_TO_PLAY)
    desk.shop.run(tapes.move, first.code, Station.AT_THE_BENCH)
    repaired = desk.shop.run(repair_attempts.record, first.code, "air-out", succeeded=True)
    assert repaired.tried[0].words == "air out the cassette"
    price = desk.shop.ask(_price, job.number)
    assert any(each.code == "repair-air-out" for each in price.charges)


def test_without_a_price_the_quote_says_what_to_do(desk: Desk) -> None:
    take_in(desk)
    with pytest.raises(WrongInput, match=r"air-out.*shop set prices\.repair\.air-out"):
        quoted(desk.shop, booked.line(findings=(KEY,)))


def test_found_at_the_bench_it_is_charged_though_the_order_is_older_than_its_price(desk: Desk) -> None:
    """The book of the quote has no price for it, for nobody had thought of it; all its own prices stay."""
    job = desk.book(booked.line())
    desk.clock.go_on(days=1)
    take_in(desk, *PRICE, ("prices.capture.vhs.price", "99"))
    desk.shop.run(repair_record.find, job.tapes[0].code, (KEY,))

    price = desk.shop.ask(_price, job.number)

    assert next(each for each in price.charges if each.code == "repair-air-out").amount.likely == 750
    copying = next(each for each in price.charges if each.code == "capture-vhs")
    assert copying.unit_minor == next(
        each.unit_minor for each in job.quote.price.charges if each.code == "capture-vhs"
    )


def _price(unit: Unit, number: JobNumber) -> Price:
    return payments.price(unit, lookup.job_row(unit, number))


def test_taken_off_and_found_again(desk: Desk) -> None:
    take_in(desk, *PRICE)
    tape = desk.book(booked.line()).tapes[0]
    desk.shop.run(repair_record.find, tape.code, (KEY, Finding.CREASED))
    cleared = desk.shop.run(repair_record.clear_finding, tape.code, FindingKey("smells-of-smoke"), "aired")
    assert cleared.findings == (Finding.CREASED,)
    lines = [entry.words for entry in desk.shop.ask(tapes.history, tape.code)]
    assert any("smells of smoke" in words for words in lines)


def test_what_was_booked_can_be_retired_and_not_removed(desk: Desk) -> None:
    take_in(desk, *PRICE, ("prices.media.gift-stick", '{ words = "Gift stick", price = "19" }'))
    job = desk.book(booked.line(findings=(KEY,)))
    for path in ("finding.smells-of-smoke", "repair.air-out"):
        gone = [("finding.smells-of-smoke.repairs", '["splice"]')] if path.startswith("repair") else []
        with pytest.raises(Refused, match="so it cannot be removed"):
            desk.shop.run(shop_document.set_texts, [*gone, (path, None)])

    desk.shop.run(shop_document.set_texts, [("finding.smells-of-smoke.retired", "true")])

    assert KEY not in condition.offered()
    again = desk.shop.ask(jobs.get, job.number).tapes[0]
    assert again.findings == (KEY,)
    assert again.verdict.told == job.tapes[0].verdict.told
    with pytest.raises(WrongInput):
        condition.named("smells-of-smoke", "--finding")


def test_a_reprint_calls_a_finding_as_it_was_called_then(desk: Desk) -> None:
    take_in(desk)
    before = desk.shop.ask(current_settings.read).front
    desk.shop.run(shop_document.set_texts, [("finding.smells-of-smoke.words", "reeks of smoke")])
    now = desk.shop.ask(current_settings.read).front

    assert voice(before).finding(KEY) == "smells of smoke"
    assert voice(now).finding(KEY) == "reeks of smoke"


@pytest.mark.parametrize(
    ("carrier", "pieces", "charged"), [("gift-stick", "1", 1900), ("long-disc", "2 to 6", 4 * 300)]
)
def test_copies_on_media_of_the_shops_own(desk: Desk, carrier: str, pieces: str, charged: int) -> None:
    """Two SP tapes of two hours: 9.5 GB of H.264, on a stick of 32 GB or two discs of an hour each."""
    media = [
        ("prices.media.gift-stick", '{ words = "Gift stick", price = "19.00" }'),
        ("prices.media.long-disc", '{ words = "Archive disc", price = "3.00" }'),
    ]
    take_in(desk, *media)
    quote = quoted(desk.shop, booked.line(count=2), deliver=(Delivery("files", "h264", carrier),))
    charge = next(each for each in quote.price.charges if each.code == f"media-{carrier}")

    assert (charge.quantity, charge.amount.likely) == (pieces, charged)
    assert quote.storage.copies[0].code == carrier


def test_drafts_of_the_page_give_the_same_entries(desk: Desk) -> None:
    take_in(desk)
    settings = desk.shop.ask(current_settings.read)
    drafts = addition_drafts.of(settings.additions)
    assert addition_drafts.kept(drafts, settings) == settings

    new = AdditionDraft("new-1", "repair", words="Wash the shell", minutes=(1.0, 2.0, 3.0))
    finding = AdditionDraft("new-2", "finding", words="Sand in it", told="We wash it.", repairs=("new-1",))
    made = addition_drafts.kept((*drafts, new, finding), settings).additions
    assert made.findings[-1].repairs == ("wash-the-shell",)
    assert made.findings[-1].name == "sand-in-it"
