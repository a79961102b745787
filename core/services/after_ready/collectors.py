"""Who collects an order: the customer, somebody they named beforehand, or somebody who shows something."""

from __future__ import annotations

from dataclasses import dataclass

from core.model import entered_text, folding
from core.model.errors import WrongInput
from core.model.handover_records import HandoverWishes, NamedCollector
from core.model.job_records import Customer
from core.services.after_ready import handover_wishes
from core.store import row_records
from core.store.tables import JobRow
from core.store.unit import Unit
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class Collected:
    """By what right somebody collects."""

    named: NamedCollector | None
    """Named beforehand, where that is who signs."""
    shown: str
    """What they showed, in words; nothing where nobody had to show anything."""


def check(unit: Unit, row: JobRow, signer: str, shown: str | None) -> Collected:
    """By what right ``signer`` collects; ``shown`` None: nobody asked, and then nothing is needed.

    WrongInput for somebody who was not named beforehand and showed nothing.
    """
    showed = entered_text.line(say("handing_back", "shown"), shown or "")
    customer, wishes = row_records.customer(row.customer), handover_wishes.of_row(unit, row)
    if shown is not None and not showed and not is_expected(customer, wishes, signer):
        accepted = say("handing_back", "needs_shown", name=signer, customer=customer.name)
        raise WrongInput(say("handing_back", "shown"), "", accepted)
    is_named = not _is_same(customer.name, signer) and is_expected(customer, wishes, signer)
    return Collected(wishes.collector if is_named else None, showed)


def is_expected(customer: Customer, wishes: HandoverWishes, signer: str) -> bool:
    """Whether whoever signs is the customer, or was named by them beforehand."""
    named = _words(wishes.collector.words) if wishes.collector else frozenset()
    return _is_same(customer.name, signer) or (bool(_words(signer)) and _words(signer) <= named)


def _is_same(name: str, signer: str) -> bool:
    return _words(name) == _words(signer)


def _words(name: str) -> frozenset[str]:
    letters = "".join(sign if sign.isalnum() else " " for sign in folding.folded(name))
    return frozenset(letters.split())
