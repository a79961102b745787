"""The step that invoices an order when somebody asks, before the last of it is handed over or afterwards."""

from __future__ import annotations

from core.model.accounts.invoice_records import Invoice
from core.model.errors import Refused
from core.model.names import JobNumber
from core.services import payments
from core.services.accounts import invoices
from core.store import lookup
from core.store.steps import step
from core.store.unit import Unit
from core.wording.messages import say


@step
def give(unit: Unit, number: JobNumber) -> Invoice:
    """Invoices what an order costs as it stands, or credits what it costs less than was invoiced.

    Refused where the newest one says just that.
    """
    row = lookup.job_row(unit, number)
    given = invoices.issue(unit, row, payments.price(unit, row))
    if given is None:
        raise Refused(say("accounts", "nothing-new", number=number))
    return given
