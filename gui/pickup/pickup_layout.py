"""Where everything lies on the Pickup screen: tray and panels at the left, the slip at the right."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime

from PySide6.QtWidgets import QLabel, QLineEdit, QWidget

from core.model.job_records import CallerMatch
from gui.copying import copy_rows
from gui.copying.copies_at_work import COPIES_KEYS
from gui.pickup import pickup_sentences
from gui.pickup.checklist import Checklist
from gui.pickup.label_panel import LabelPanel
from gui.pickup.papers_panel import PapersPanel
from gui.pickup.payment_panel import PaymentPanel
from gui.pickup.pickup_slip import PickupSlip
from gui.toolkit import theme
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets import tray_rows
from gui.widgets.button_row import ButtonRow, key_button
from gui.widgets.layouts import Columns, labelled, scrolled, slip, stacked, words
from gui.widgets.tray import Tray, TrayItem


class PickupLayout:
    """Builds the parts into a screen, and shows what belongs to several of them."""

    def __init__(self, screen: QWidget, desk: Desk) -> None:
        self.box = _box()
        self.tray = Tray("check-off", say("pickup", "tray_list"), checks=True)
        self.count = words("", "small")
        self.count.setObjectName("counted")
        self.label = LabelPanel(desk.work)
        self.papers = PapersPanel(desk)
        self.payments = PaymentPanel(desk.work)
        self.copies_button = key_button(
            "copies", COPIES_KEYS, say("copying", "open_button", keys=COPIES_KEYS)
        )
        self.slip = PickupSlip()
        self.slip_area = self._build_slip_side()
        self._guide = _guide()
        self._build(screen)

    def show_no_job(self) -> None:
        """No job is open: the box asks who is picking up."""
        self.tray.lay([])
        self._word_box("ask")
        self.box.clear()
        self.count.setText(say("pickup", "start"))
        self.slip_area.hide()
        self._guide.show()
        self.label.show_tape(None)
        self.papers.show_job(None)
        self.payments.show_job(None)
        self.copies_button.hide()

    def show_matches(self, found: Sequence[CallerMatch]) -> None:
        """Several jobs match: the keyboard goes to the tray, where one of them is chosen."""
        self.tray.lay([tray_rows.found_piece(one) for one in found])
        self.count.setText(say("pickup", "choose", count=len(found)))
        self.tray.setFocus()

    def show_checklist(self, checklist: Checklist, now: datetime) -> None:
        """A job is open: the box asks for a scan of each tape."""
        self._word_box("ask_scan")
        self.tray.lay(_tray_items(checklist, now))
        all_open = len(checklist.open_keys)
        counted = say("pickup", "counted", checked=len(checklist.keys), all=all_open)
        self.count.setText(counted if all_open else say("pickup", "gone_home"))
        about = pickup_sentences.about_copies(checklist)
        self.slip.show_sentences(checklist.tapes_to_mention, about)
        self.slip.show_checked(checklist.summary)
        self.slip_area.show()
        self._guide.hide()
        self.papers.show_job(checklist.job, has_receipt=checklist.has_gone)
        self.payments.show_job(checklist.job)
        self.copies_button.setVisible(bool(checklist.job.copies))
        self.show_label(checklist)

    def show_label(self, checklist: Checklist) -> None:
        """Ask about the label of the tape the keyboard is on, or of the first whose label needs a hand."""
        self.label.show_tape(checklist.label_to_check(self.tray.current))

    def _word_box(self, key: str) -> None:
        self._question.setText(say("pickup", key))
        self.box.setPlaceholderText(say("pickup", f"{key}_hint"))

    def _build(self, screen: QWidget) -> None:
        outer = stacked(screen)
        asked = labelled(self.box, say("pickup", "ask"))
        question = asked.findChild(QLabel)
        assert isinstance(question, QLabel)
        self._question = question
        outer.addWidget(asked)
        columns = Columns(fold_below=112 * theme.UNIT)
        columns.add(self._build_tray_side(), 7)
        columns.add(self.slip_area, 6)
        columns.add(self._guide, 6)
        outer.addWidget(columns, 1)
        columns.folded.connect(self._slip_sheet.unroll)

    def _build_slip_side(self) -> QWidget:
        """The slip scrolls where it has to; what hands back stays in sight below it."""
        side = QWidget()
        self._slip_sheet = scrolled(self.slip, ground="slip")
        column = stacked(side)
        column.addWidget(self._slip_sheet, 1)
        column.addWidget(self.slip.button)
        return side

    def _build_tray_side(self) -> QWidget:
        side = QWidget()
        self.papers.setParent(side)
        column = stacked(side)
        column.addWidget(self.count)
        column.addWidget(self.tray, 1)
        column.addWidget(self.label)
        column.addWidget(ButtonRow([self.copies_button, *self.papers.buttons, self.payments.button]))
        column.addWidget(self.payments)
        return side


def _guide() -> QWidget:
    """How a pickup goes, where its slip will lie."""
    paper, column = slip("pickup-guide")
    column.addWidget(words(say("pickup", "guide"), "heading"))
    for step in ("guide_1", "guide_2", "guide_3"):
        column.addWidget(words(say("pickup", step), "lead"))
    column.addStretch(1)
    return paper


def _tray_items(checklist: Checklist, now: datetime) -> list[TrayItem]:
    job = checklist.job
    items = [TrayItem("", say("pickup", "tapes_head"))]
    items += [tray_rows.tape_piece(tape, now, checklist.checked(tape.code)) for tape in job.tapes]
    if job.copies:
        items.append(TrayItem("", say("pickup", "copies_head")))
    for copy in job.copies:
        key, row = tray_rows.copy_key(copy), copy_rows.row(job, copy)
        items.append(replace(row, key=key, checked=checklist.checked(key)))
    return items


def _box() -> QLineEdit:
    box = QLineEdit()
    box.setObjectName("collector")
    box.setAccessibleName(say("pickup", "ask"))
    box.setFont(theme.font(theme.LEAD))
    box.setMinimumHeight(5 * theme.UNIT)
    return box
