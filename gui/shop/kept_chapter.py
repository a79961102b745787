"""The owner's chapter: were dates kept as often as was said, which were late, and why."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from core.model.names import EVERY_KIND
from core.promise import recalibration
from core.promise.reliability import FEWEST_TO_ALARM, Group, Judged, Reliability
from core.services.shop_overview import ShopView
from gui.shop.calibration_drawing import CalibrationPicture, points
from gui.shop.chapter import Chapter
from gui.shop.reliability_drawing import DecileBars, KeptStrip, in_words
from gui.toolkit import theme
from gui.toolkit.text import day, say
from gui.widgets.layouts import rule, slip, stacked, words

MOST_LATE = 20


def _page(view: ShopView) -> QWidget:
    """The strips with their sentences, the tenths, and the late ones."""
    found = view.record
    paper, column = slip("chapter-kept")
    column.addWidget(words(say("shop", "kept"), "heading"))
    if view.no_reports:
        column.addWidget(words(view.no_reports, "lead"))
        return paper
    if found.whole is None:
        column.addWidget(words(say("shop", "kept_none"), "lead"))
        return paper
    column.addWidget(words(_whole(found.whole), "lead"))
    if found.alarms:
        column.addWidget(words(say("shop", "kept_alarm"), "attention"))
    column.addWidget(words(recalibration.explained(view.learned.recalibration)))
    for group in found.groups:
        column.addWidget(rule())
        column.addWidget(words(in_words(group)))
        column.addWidget(KeptStrip(group))
    column.addWidget(words(say("shop", "kept_legend"), "small"))
    _add_tenths(column, view)
    _add_late(column, found)
    return paper


def _whole(group: Group) -> str:
    key = "kept_whole_one" if group.count == 1 else "kept_whole"
    return say("shop", key, count=group.count, kept=group.kept, stated=round(group.stated * group.count))


def _add_tenths(column: QVBoxLayout, view: ShopView) -> None:
    found = view.record
    column.addWidget(rule())
    column.addWidget(words(say("shop", "calibration"), "field"))
    if len(found.judged) < FEWEST_TO_ALARM:
        column.addWidget(words(say("shop", "kept_too_few", fewest=FEWEST_TO_ALARM), "small"))
        return
    column.addWidget(CalibrationPicture(points(found.deciles, view.planned, len(found.judged))))
    column.addWidget(words(say("shop", "calibration_legend"), "small"))
    column.addWidget(words(say("shop", "kept_tenths"), "field"))
    column.addWidget(DecileBars(found.deciles))
    column.addWidget(words(say("shop", "kept_tenths_legend"), "small"))
    column.addWidget(words(say("shop", "kept_days_off", days=f"{found.days_off:.1f}"), "small"))


def _add_late(column: QVBoxLayout, found: Reliability) -> None:
    column.addWidget(rule())
    if not found.late:
        column.addWidget(words(say("shop", "kept_all")))
        return
    column.addWidget(words(say("shop", "kept_late"), "field"))
    for judged in found.late[:MOST_LATE]:
        column.addWidget(_late(judged))
    if len(found.late) > MOST_LATE:
        column.addWidget(words(say("shop", "kept_more_late", count=len(found.late) - MOST_LATE), "small"))


def _late(judged: Judged) -> QWidget:
    box = QWidget()
    column = stacked(box, 2)
    column.setContentsMargins(0, 0, 0, theme.UNIT)
    assert judged.promise.day is not None
    days = say("shop", "late_day" if judged.days_late == 1 else "late_days", count=judged.days_late)
    key = "late_ready" if judged.ready_on else "late_open"
    when = day(judged.promise.day)
    column.addWidget(words(f"{judged.customer} · {judged.number}"))
    column.addWidget(words(say("shop", key, day=when, days=days), "" if judged.ready_on else "attention"))
    reasons = "; ".join(judged.reasons)
    why = say("shop", "held_by", reasons=reasons) if reasons else say("shop", "late_no_reason")
    column.addWidget(words(why, "small"))
    return box


class KeptChapter(Chapter):
    """How the promises turned out."""

    name = "kept"
    place = 30
    kinds = EVERY_KIND | {"who"}

    def open(self, view: ShopView) -> QWidget:
        return _page(view)


CHAPTER = KeptChapter
