"""The amounts on the slip of a pickup: the total, its rounding, what was paid, and what is still owed."""

from __future__ import annotations

from dataclasses import replace

from pytestqt.qtbot import QtBot

from core.model.money import flat
from gui.pickup.pickup_slip import PickupSlip
from gui.toolkit.text import money, say
from tests.support import invented_job as records


def test_a_rounded_balance_is_proposed_and_the_rounding_is_named(qtbot: QtBot) -> None:
    slip = PickupSlip()
    qtbot.addWidget(slip)
    final = records.final()
    slip.show_amounts(replace(final, rounding=flat(-2)), 1000)
    told = slip.amounts.accessibleName()
    assert f"{say('pickup', 'rounding')}: {money(-2, final.currency)}" in told
    owed = final.gross.likely - 2 - 1000
    assert told.endswith(f"{say('pickup', 'due')}: {money(owed, final.currency)}")
    assert slip.paid.minor() == owed


def test_without_tax_and_rounding_neither_is_named(qtbot: QtBot) -> None:
    slip = PickupSlip()
    qtbot.addWidget(slip)
    final = records.final()
    slip.show_amounts(replace(final, tax=flat(0), gross=final.net, tax_words=""), 0)
    told = slip.amounts.accessibleName()
    assert told.startswith(f"Total: {money(final.net.likely, final.currency)}")
    assert say("pickup", "rounding") not in told
