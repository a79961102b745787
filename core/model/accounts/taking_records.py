"""What was taken and invoiced in some days. Money in minor units."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from core.model.accounts.drawer_records import DrawerCount
from core.model.accounts.invoice_records import Invoice, InvoicedTax
from core.model.names import JobNumber


@dataclass(frozen=True, slots=True)
class TakenByMethod:
    """Money by one method: what came, what was given back (above 0), and how many payments that were."""

    method: str
    came_minor: int
    went_minor: int
    payments: int

    @property
    def sum_minor(self) -> int:
        return self.came_minor - self.went_minor


@dataclass(frozen=True, slots=True)
class TakenLine:
    """One payment, with the order it is for."""

    order: JobNumber
    kind: str
    method: str
    minor: int
    day: date
    by: str


@dataclass(frozen=True, slots=True)
class Takings:
    """The books of some days, first and last one included."""

    first: date
    last: date
    currency: str
    by_method: tuple[TakenByMethod, ...]
    rounding_minor: int
    """What cash could not pay."""
    lines: tuple[TakenLine, ...]
    invoices: tuple[Invoice, ...]
    taxes: tuple[InvoicedTax, ...]
    """Each over all invoices and credit notes."""
    turnover: tuple[tuple[str, int], ...]
    """Net by the code of the charge, most first."""
    counts: tuple[DrawerCount, ...]

    @property
    def taken_minor(self) -> int:
        """All money that came, less what was given back."""
        return sum(each.sum_minor for each in self.by_method)

    @property
    def net_minor(self) -> int:
        """What was invoiced, without tax."""
        return sum(each.sums.net_minor for each in self.invoices)

    @property
    def due_minor(self) -> int:
        """What was invoiced, with tax."""
        return sum(each.sums.due_minor for each in self.invoices)
