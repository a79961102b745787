"""Every step says which right it takes, or why it takes none; sent by somebody without any, it does so."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from core.model.errors import NotPermitted
from core.model.own_shop.settings_records import Permission
from core.services import recordings, repair_attempts, repair_record, tape_dispositions
from core.services.checking import sign_offs
from core.services.copies import copy_making
from core.services.own_shop import settings_versions, shop_document
from core.store import steps
from core.wording.messages import say
from tests.core.services.test_every_step_once import STEPS
from tests.sent_again.step_examples import EXAMPLES
from tests.support.booked import Desk, command, new_desk

SETTINGS, OVERRIDE = Permission.SETTINGS, Permission.OVERRIDE
COUNTER = "the everyday work of the counter: an order, a payment, what a customer says or is told"
BENCH = "the everyday work of the bench: what was done to a tape or a copy"
HAPPENED = "what happened to the shop, which whoever stands there must be able to enter"
PLANNED = "the order of work and the days closed: taken back as it was put, and told in the history"
OWN = "what nobody but whoever typed it is touched by"

RIGHTS = {
    "payments.refund": Permission.REFUND,
    "privacy.erasures.erase_rows": Permission.ERASE,
    "privacy.customer_export.note": Permission.ERASE,
    "privacy.backup_renewal.note": Permission.ERASE,
    "own_shop.price_books.put_in_force": Permission.PRICES,
    "own_shop.price_books.withdraw": Permission.PRICES,
    "own_shop.shop_document.raise_prices": Permission.PRICES,
    "own_shop.shop_document.take_over_prices": Permission.PRICES,
    "own_shop.shop_document.confirm": Permission.PRICES,
    "own_shop.shop_document.set_texts": SETTINGS,
    "own_shop.shop_document.take_over": SETTINGS,
    "own_shop.shop_document.leave_page": SETTINGS,
    "own_shop.reported_changes.carry_out": SETTINGS,
    "own_shop.settings_versions.change": SETTINGS,
    "own_shop.settings_versions.undo": SETTINGS,
    "own_shop.people.set_pin": SETTINGS,
    "proving.access_tokens.issue": SETTINGS,
    "proving.access_tokens.revoke": SETTINGS,
    "proving.access_tokens.map_user": SETTINGS,
    "proving.access_tokens.unmap_user": SETTINGS,
    "expectations.expect": SETTINGS,
    "expectations.expect_figures": SETTINGS,
    **{
        steps.name_of(each): OVERRIDE
        for each in (
            repair_record.undo_splice,
            repair_attempts.strike,
            recordings.strike,
            sign_offs.withdraw,
            copy_making.strike,
            tape_dispositions.reopen,
        )
    },
}
"""By step: what it takes of somebody who did not enter what it is about."""

WITHOUT = {
    "drafts.keep": OWN,
    "drafts.take_over": OWN,
    "own_shop.people.check_pin": OWN,
    "own_shop.people.sign_in": OWN,
    "promises.renew": f"{COUNTER}; a day before the plan's overrides, and `test_permissions` asks",
    "tapes.move": f"{BENCH}; a tape that is still cold overrides, and `test_permissions` asks",
    "repair_record.clear_finding": f"{BENCH}: a finding that is over; the history keeps it with the reason",
    **dict.fromkeys(
        (
            *("jobs.book", "jobs.correct_customer", "jobs.correct_fields", "drafts.book", "payments.take"),
            *("agreement.agreements.agree", "agreement.agreements.answer", "agreement.amendments.amend"),
            *("agreement.cancellations.cancel", "pickups.hand_back", "calls.note_call"),
            *("after_ready.telling.tell", "after_ready.caller_check.fits", "after_ready.caller_check.vouch"),
            *("after_ready.handover_wishes.wish", "after_ready.noted_calls.note"),
            *("copies.downloads.give", "copies.downloads.delete", "copies.own_drives.describe"),
            "copies.copy_choices.answer",
            *("accounts.drawer.count_float", "accounts.drawer.close_day", "accounts.invoicing.give"),
        ),
        COUNTER,
    ),
    **dict.fromkeys(
        (
            *("repair_attempts.record", "repair_attempts.look", "repair_record.splice", "repair_record.mark"),
            *("repair_record.take_label_off", "repair_record.find", "looks.look_over", "looks.pack_read"),
            *("tape_dispositions.settle", "recordings.attach", "checking.sign_offs.sign_off"),
            *("deck_findings.see", "copies.copy_making.made", "copies.copy_making.checked"),
            *("donors.add", "donors.correct"),
        ),
        BENCH,
    ),
    **dict.fromkeys(
        (
            *("incidents.add", "incidents.attach", "incidents.attach_file", "closed_days.stayed_shut"),
            *("decks.broke_down", "decks.back_in_service"),
        ),
        HAPPENED,
    ),
    **dict.fromkeys(
        (
            *("box_order.put", "box_order.put_back", "closed_days.plan", "closed_days.open_after_all"),
            *("closed_days.open_span", "decks.plan_outage", "decks.cancel_outage"),
        ),
        PLANNED,
    ),
    "own_shop.settings_versions.make_practice": "done before anybody can be entered, by the program itself",
}
"""By step that takes no right: why not."""


@pytest.fixture(scope="module")
def staffed(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """Kim may do everything, Pat nothing."""
    with new_desk(request, "sqlite", tmp_path_factory.mktemp("rights")) as made:
        may = ", ".join(f'"{each.value}"' for each in Permission)
        staff = [("person.Kim", f"{{may = [{may}]}}"), ("person.Pat", "{}")]
        made.shop.run(shop_document.set_texts, staff)
        yield made


def test_every_step_is_in_one_of_the_two_lists() -> None:
    assert RIGHTS.keys() | WITHOUT.keys() == STEPS.keys()
    assert not RIGHTS.keys() & WITHOUT.keys()
    assert all(WITHOUT.values())


@pytest.mark.parametrize("name", sorted(STEPS.keys() - {steps.name_of(settings_versions.make_practice)}))
def test_somebody_without_rights_is_refused_by_name_or_is_not(staffed: Desk, name: str) -> None:
    staffed.clock.go_on(minutes=1)
    staffed.shop.who = "Kim"
    step, args, named = EXAMPLES[STEPS[name]](staffed)
    staffed.shop.who = "Pat"
    if name not in RIGHTS:
        staffed.shop.once(command(), step, *args, **named)
        return
    head = staffed.shop.ask(settings_versions.number)
    with pytest.raises(NotPermitted) as refused:
        staffed.shop.once(command(), step, *args, **named)
    what = say("settings", f"people-to-{RIGHTS[name].value}")
    assert refused.value.sentence.startswith(f"Pat may not {what}. Kim can")
    assert staffed.shop.ask(settings_versions.number) == head
    staffed.shop.who = "Kim"
    staffed.shop.once(command(), step, *args, **named)


@pytest.mark.parametrize("name", sorted(name for name, right in RIGHTS.items() if right is OVERRIDE))
def test_whoever_entered_it_strikes_it_out_without_any_right(staffed: Desk, name: str) -> None:
    staffed.shop.who = "Pat"
    staffed.clock.go_on(minutes=1)
    step, args, named = EXAMPLES[STEPS[name]](staffed)
    staffed.shop.once(command(), step, *args, **named)


def test_all_is_sound_after_that(staffed: Desk) -> None:
    assert staffed.shop.verify() == ()
