"""What would help, asked of the records: for one box on the counter, or for the whole queue. Costly."""

from __future__ import annotations

from core import captures, decks, promises, quoting, relief, whatifs
from core.inventory import Inventory
from core.relief import Relief
from core.unit import Unit
from core.whatifs import WhatIf

MOST = 3


def with_a_box(unit: Unit, box: Inventory) -> tuple[WhatIf, ...]:
    """The three changes that would bring the date of a box forward most; none that would not."""
    habits = captures.habits(unit)
    found = whatifs.helps(
        promises.reckoned(unit),
        decks.queue(unit),
        decks.on_the_shops_clock(unit, unit.now),
        quoting.quoted_tapes(box, habits),
        rush=box.rush,
        shop=habits,
    )
    return tuple(each for each in found if each.day and (each.days_gained is None or each.days_gained > 0))[
        :MOST
    ]


def with_the_queue(unit: Unit) -> tuple[Relief, ...]:
    """The three changes that would help the boxes in the shop most."""
    endangered = {kept.job.number: kept.promise for kept in promises.under_review(unit) if kept.is_at_risk}
    now = decks.on_the_shops_clock(unit, unit.now)
    return relief.reliefs(promises.reckoned(unit), decks.queue(unit), now, endangered)
