"""An order is settled once nothing of it is here any more: its agreement ends, and it is invoiced."""

from __future__ import annotations

from core.model.agreement_records import AgreementKind, Consent
from core.model.copies import copy_standing
from core.model.quote_records import Price
from core.services.accounts import invoices
from core.services.agreement import agreement_versions
from core.services.agreement.agreement_versions import NewVersion
from core.store import row_records
from core.store.tables import JobRow
from core.store.unit import Unit


def settle(unit: Unit, row: JobRow, price: Price, consent: Consent | None) -> None:
    """Settles the agreement of an order at hand, where its last tape and its last copy are gone."""
    job = row_records.job(row)
    copies_here = copy_standing.here(job) and not copy_standing.has_nothing_to_copy(job)
    if copies_here or any(tape.station.is_in_the_shop for tape in row.tapes):
        return
    if agreement_versions.current(row).kind is not AgreementKind.SETTLED:
        agreement_versions.enter(unit, row, NewVersion(AgreementKind.SETTLED, consent=consent))
        invoices.issue(unit, row, price)
