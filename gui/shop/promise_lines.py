"""The open promises on paper: whom to call first, and why."""

from __future__ import annotations

from PySide6.QtCore import Qt, SignalInstance
from PySide6.QtWidgets import QWidget

from core.model import box_standing
from core.services.promises import Kept
from core.services.shop_overview import ShopView
from gui.toolkit import text
from gui.toolkit.text import day, say, times_in_twenty
from gui.widgets.layouts import rule, slip, stacked, words
from gui.widgets.order_ways import of_order
from gui.widgets.row_menu import RowMenu

_LOST = 0.05
"""Less than one chance in 20."""


def promises(
    view: ShopView, *, only_risky: bool = False, wants_moment: SignalInstance | None = None
) -> QWidget:
    """Every open promise, those to call about first; with ``wants_moment`` each has a menu of ways on."""
    paper, column = slip("chapter-promises")
    risky = [kept for kept in view.promises if kept.is_at_risk]
    others = [] if only_risky else [kept for kept in view.promises if not kept.is_at_risk]
    well, waiting = ([kept for kept in others if kept.is_done is done] for done in (False, True))
    if not view.promises:
        column.addWidget(words(say("shop", "no_promises"), "lead"))
    for head, role, some in (
        ("call_first", "attention", risky),
        ("kept_well", "field", well),
        ("waiting", "field", waiting),
    ):
        if some:
            column.addWidget(words(say("shop", head), role))
        for kept in some:
            row = _promise(kept)
            column.addWidget(row)
            if wants_moment is not None:
                _offer_ways(row, kept, wants_moment)
            column.addWidget(rule())
    return paper


def _promise(kept: Kept) -> QWidget:
    box = QWidget()
    column = stacked(box, 2)
    job = kept.job
    number = job.customer.phone
    phone = say("shop", "phone", phone=text.phone(number)) if number else say("shop", "no_phone")
    column.addWidget(words(f"{job.customer.name} · {job.number} · {phone}"))
    column.addWidget(words(_promised(kept), "attention" if kept.is_at_risk else ""))
    if kept.held_by:
        column.addWidget(words(say("shop", "held_by", reasons="; ".join(kept.held_by)), "small"))
    if kept.changes and kept.is_at_risk:
        column.addWidget(words(say("shop", "changed", changes="; ".join(kept.changes)), "small"))
    return box


def _offer_ways(row: QWidget, kept: Kept, wants_moment: SignalInstance) -> None:
    """Reached by the keyboard, too, and said as what it is about."""
    job = kept.job
    row.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    row.setObjectName(f"promise-{job.number}")
    row.setAccessibleName(f"{job.customer.name} {job.number}. {_promised(kept)}")
    row.setProperty("role", "row")
    row.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
    RowMenu(row, lambda: tuple(of_order(job.number, wants_moment, "shop")))


def _promised(kept: Kept) -> str:
    if kept.is_done:
        return say("shop", "ready" if box_standing.may_be_collected(kept.job) else "waits_for_owner")
    if kept.promise.day is None or kept.chance is None:
        return say("shop", "no_day")
    words_of_day = say("shop", "promised_for", day=day(kept.promise.day))
    now, before = times_in_twenty(kept.chance), times_in_twenty(kept.promise.stated)
    if kept.chance < _LOST:
        return f"{words_of_day}: {say('shop', 'lost', before=before)}"
    return f"{words_of_day}: {now if now == before else say('shop', 'chance', times=now, before=before)}"
