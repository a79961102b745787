"""Takes a customer out of the records for good; what the books need stays, and everything stays verifiable.

Names, numbers, signatures, labels and notes go from the tables, from the lines of history and from drafts;
the orders stay with their sums, minutes and dates. The history says who erased and when, not whom. A line
that was emptied keeps its digest: words go into it only by way of a salted digest, whose salt goes with them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import select

from core.model import folding
from core.model.errors import Refused, WrongInput
from core.model.own_shop.settings_records import Permission
from core.services import payments
from core.services.own_shop import backup_places
from core.services.privacy import emptied_records, held_copies, personal_files
from core.services.privacy.emptied_records import Emptied
from core.services.privacy.paper_places import PaperPlace
from core.store import permissions, row_records, search
from core.store.audits import row_audit
from core.store.steps import special_step
from core.store.tables import CustomerRow, JobRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.locale_figures import listed
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop


@dataclass(frozen=True, slots=True)
class Erased:
    """What an erasure took out: orders that stay without a name, files that went; and what is left."""

    orders: tuple[str, ...]
    photos: tuple[str, ...]
    files: tuple[Path, ...] = ()
    """Papers and photos that were removed."""
    exported: tuple[Path, ...] = ()
    """Files that the customer's data were once written to; they may be with the customer."""
    elsewhere: tuple[PaperPlace, ...] = ()
    """Where papers were once written to and none was found now, or nobody can look from here."""
    copies: tuple[Path, ...] = ()
    """Copies of the records that still hold the customer and that nobody thins out."""
    in_backups_until: date | None = None
    """The day by which the last backup that may hold the customer is thinned out; None: there is none."""

    @property
    def sentences(self) -> tuple[str, ...]:
        """What is to be told, with what still holds the customer and until when."""
        until = self.in_backups_until
        said = [
            say("privacy", "no-backups")
            if until is None
            else say("privacy", "in-backups", until=locale_figures.full_day(until)),
            say("privacy", "by-hand"),
        ]
        if self.copies:
            files = listed([str(each) for each in self.copies])
            said.append(say("privacy", "copies-hold", n=len(self.copies), files=files))
        return (*self.sentences_without_backups, *said)

    @property
    def sentences_without_backups(self) -> tuple[str, ...]:
        """What was taken out of the records and the papers, and what was given out before."""
        said = [say("privacy", "erased", n=len(self.orders))]
        if self.files:
            said.append(say("privacy", "files-removed", n=len(self.files)))
        if self.exported:
            files = listed([str(each) for each in self.exported])
            said.append(say("privacy", "was-exported", n=len(self.exported), files=files))
        if self.elsewhere:
            places = listed([each.words for each in self.elsewhere])
            said.append(say("privacy", "papers-elsewhere", n=len(self.elsewhere), places=places))
        return tuple(said)


@dataclass(frozen=True, slots=True)
class Meant:
    """Who would be erased, with which orders."""

    name: str
    orders: tuple[str, ...]


def would_erase(unit: Unit, who: str) -> Meant:
    """Who `erase_rows` would take out; refused as that would be."""
    permissions.check(unit, Permission.ERASE)
    customer = meant(unit, who)
    jobs = emptied_records.orders_of(unit, customer)
    _check_done(unit, jobs)
    return Meant(customer.name, tuple(job.number for job in jobs))


@special_step(secrets=("who",))
def erase_rows(unit: Unit, who: str) -> Emptied:
    """Erases the one customer that ``who`` names (order number, phone or whole name) from tables and history.

    `clean_up` does the rest. NotPermitted without the right; Refused while an order of theirs is open or
    unpaid, or where the records do not agree with their history; WrongInput unless exactly one customer is
    meant. Of ``who`` a slow hash is kept as long as answers are, under a salt that goes with the answer.
    """
    permissions.check(unit, Permission.ERASE)
    customer = meant(unit, who)
    jobs = emptied_records.orders_of(unit, customer)
    if emptied_records.is_emptied(unit, customer):
        return Emptied(tuple(job.number for job in jobs))
    _check_done(unit, jobs)
    if wrong := next(iter(row_audit.differences(unit)), None):
        raise Refused(say("privacy", "not-sound", problem=wrong))
    return emptied_records.empty(unit, customer, jobs)


def clean_up(shop: Shop, gone: Emptied, papers: Sequence[Path] = ()) -> Erased:
    """What follows `erase_rows`, and can be done again.

    The places the records leave free are overwritten, papers (in the folders ``papers``, and wherever they
    were noted to be written to) and photos removed, and the list beside the shop and in every place of the
    backups says which orders those were. Unavailable where that failed; the customer is erased all the same.
    """
    held_copies.list_erased(shop)
    held_copies.remove_leftovers(shop)
    shop.scrub()
    removed = personal_files.remove(shop.where, gone, papers)
    state = shop.ask(backup_places.read)
    return Erased(
        gone.orders,
        gone.photos,
        removed.files,
        elsewhere=removed.not_found,
        exported=tuple(Path(each) for each in gone.exported),
        copies=held_copies.beside(shop),
        in_backups_until=held_copies.last_day(state, shop.clock()),
    )


def meant(unit: Unit, who: str) -> CustomerRow:
    """The one customer of an order number, a phone number or a whole name; WrongInput for none or several."""
    found = [job for job, matched in search.jobs(unit, who) if matched != "similar-name"]
    asked = select(CustomerRow).join(JobRow, JobRow.customer_id == CustomerRow.id).where(JobRow.id.in_(found))
    people = list(unit.session.scalars(asked.distinct().order_by(CustomerRow.id)))
    whole = [each for each in people if each.folded == folding.folded(who)] or people
    if len(whole) != 1:
        raise WrongInput(say("privacy", "customer"), who, say("privacy", "one-customer", n=len(whole)))
    return whole[0]


def _check_done(unit: Unit, jobs: Sequence[JobRow]) -> None:
    """Refused while a tape is here or money is owed: then the name is needed."""
    records = [(row, row_records.job(row)) for row in jobs]
    open_ones = [job.number for _, job in records if job.is_open]
    if open_ones:
        raise Refused(say("privacy", "still-open", orders=listed(open_ones), n=len(open_ones)))
    owing = [job.number for row, job in records if payments.price(unit, row).due.likely > job.paid_minor]
    if owing:
        raise Refused(say("privacy", "still-owing", orders=listed(owing), n=len(owing)))
