"""The orders it could be, when there are several, over the tapes of the one that is answered for."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from PySide6.QtWidgets import QWidget

from core.model.agreement_records import WaitingAnswer
from core.model.handover_records import ToldHow
from core.model.job_records import CallerMatch, Job
from core.services.after_ready.telling import ToTell
from core.services.copies.downloads import Download
from core.services.promises import Kept
from gui.toolkit.text import money, phone, say, short_day
from gui.widgets.layouts import stacked, words
from gui.widgets.tray import Tray, TrayItem
from gui.widgets.tray_rows import found_piece, tape_pieces, to_call_piece, waiting_piece


class MatchesPanel(QWidget):
    """Two trays, each there only while it has something to show."""

    def __init__(self) -> None:
        super().__init__()
        self.matches = Tray("matches", say("phone", "matches_list"), always_lit=True)
        self._matches_head = words("", "small")
        self.tapes = Tray("tapes", say("phone", "tapes_list"))
        self._tapes_head = words(say("phone", "tapes"), "small")
        self.to_tell = Tray("to-tell", say("phone", "to_tell_list"))
        self._to_tell_head = words(say("phone", "to_tell_head"), "small")
        column = stacked(self)
        for head, tray in (
            (self._matches_head, self.matches),
            (self._to_tell_head, self.to_tell),
            (self._tapes_head, self.tapes),
        ):
            column.addWidget(head)
            column.addWidget(tray, 1)

    def show_to_call(self, waiting: Sequence[WaitingAnswer], at_risk: Sequence[Kept]) -> None:
        """Nobody is calling: show whom to call, first those whose answer is needed, then promises at risk."""
        asked = {one.number for one in waiting}
        pieces = [waiting_piece(one) for one in waiting]
        pieces += [to_call_piece(kept) for kept in at_risk if kept.job.number not in asked]
        self._show_matches(pieces, say("phone", "call_first"), at_least=1)
        self._hide_tapes()
        self.setVisible(bool(pieces))

    def show_to_tell(self, due: Sequence[ToTell], to_delete: Sequence[Download] = ()) -> None:
        """Nobody is calling: show whose orders are ready, who is to be reminded, which download is over."""
        pieces = [*map(_to_tell_piece, due), *map(_to_delete_piece, to_delete)]
        self.to_tell.lay(pieces)
        for widget in (self._to_tell_head, self.to_tell):
            widget.setVisible(bool(pieces))
        if pieces:
            self.show()

    def hide_to_tell(self) -> None:
        """Somebody is calling."""
        for widget in (self._to_tell_head, self.to_tell):
            widget.hide()

    def hide_tapes(self) -> None:
        """The caller is not sure yet: nothing of the order is shown."""
        self._hide_tapes()

    def show_matches(self, found: Sequence[CallerMatch]) -> None:
        """Show the matching orders; a single one is not offered for choice."""
        head = say("phone", "others", count=len(found))
        self._show_matches([found_piece(one) for one in found], head, at_least=2)
        if not found:
            self._hide_tapes()
        self.setVisible(bool(found))

    def show_tapes(self, job: Job, now: datetime) -> None:
        """Show the tapes of the order that is answered for."""
        self.tapes.lay(tape_pieces(job.tapes, now))
        self._tapes_head.show()
        self.tapes.show()

    def _show_matches(self, items: list[TrayItem], head: str, at_least: int) -> None:
        self.matches.lay(items)
        self._matches_head.setText(head)
        for widget in (self._matches_head, self.matches):
            widget.setVisible(len(items) >= at_least)

    def _hide_tapes(self) -> None:
        self.tapes.lay([])
        self.tapes.hide()
        self._tapes_head.hide()


def _to_delete_piece(due: Download) -> TrayItem:
    """A download past its last day."""
    small = say("phone", "to_delete_small", number=str(due.job.number), day=short_day(due.link.until))
    return TrayItem(due.job.number, due.job.customer.name, small, say("phone", "to_delete"))


def _to_tell_piece(due: ToTell) -> TrayItem:
    """One order that is ready: how its owner is reached, how long it waits, what is to be done."""
    customer = due.job.customer
    reach = customer.email if due.how is ToldHow.EMAIL else phone(customer.phone or "")
    small = say(
        "phone", "to_tell_small", number=str(due.job.number), reach=reach or "–", days=due.days_waiting
    )
    if due.storage_minor:
        kept = money(due.storage_minor, due.currency)
        small = say("phone", "to_tell_storage", small=small, money=kept)
    what = "unclaimed" if due.round is None else "remind" if due.round else "tell"
    place = say("phone", "to_tell_place", what=what, round=due.round or 0)
    return TrayItem(due.job.number, customer.name, small, place)
