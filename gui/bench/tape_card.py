"""Everything about one tape on one slip: the shell, what was found, what to be careful of, its splices."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from PySide6.QtCore import QRectF, Slot
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from core.capture.file_report import CapturedFile, clock
from core.catalogue import acclimatisation, bench_cards, brief_cautions, next_steps
from core.model.names import FormatName
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import JournalEntry, TapeRecord
from core.playtime import tape_doubts
from gui.bench.capture_panel import spelled_size
from gui.bench.repair_sentences import joints, look_words, splice_words, struck_words, tried_words
from gui.toolkit import sizes, theme
from gui.toolkit.text import minutes_range, moment, say, sentence_case, since
from gui.widgets import tray_rows
from gui.widgets.button_row import key_button
from gui.widgets.cassette_drawing import largest_shell, paint_cassette, shell
from gui.widgets.caution_frame import caution_frame
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import empty, stacked, words
from gui.widgets.not_for_reuse_strip import NotForReuseStrip

_PLAYED = (Station.LOOKED_OVER, Station.CLEARED_TO_PLAY, Station.PLAYING)
"""Where it matters which machine takes the tape, and that the tape is protected from being recorded on."""


_HEADS = theme.Length(13)
_PIXELS_A_MM = 1.05
CAUTION_KEYS = "Alt+Y"
_HALF = 32
"""Digits of a checksum that stand together: the whole is too wide for a slip."""


class TapeCard(QFrame):
    """The slip about the tape in hand."""

    def __init__(self, timezone: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("tape-card")
        self.setProperty("role", "slip")
        self.timezone = timezone
        self._files: FactList | None = None
        self._column = QVBoxLayout(self)
        margin = 2 * theme.UNIT
        self._column.setContentsMargins(margin, margin, margin, margin)
        self._column.setSpacing(theme.UNIT)
        self.wait()

    def wait(self) -> None:
        """No tape in hand."""
        self._files = None
        empty(self._column)
        self._column.addWidget(words(say("bench", "start"), "lead"))
        self._column.addStretch(1)

    def show_tape(self, tape: TapeRecord, history: Sequence[JournalEntry], now: datetime) -> None:
        """Write the slip anew."""
        empty(self._column)
        self._write_head(tape, now)
        self._write_band(tape)
        self._write_cautions(tape, self._write_rest(tape, now))
        facts = FactList(_HEADS.px)
        found = [spoken(finding) for finding in tape.findings] or [say("bench", "no_findings")]
        facts.add(say("bench", "became"), _became(tape))
        signed = tape.signed_off_by
        facts.add(say("checking", "on_card"), (say("checking", "signed_by", name=signed),) if signed else ())
        facts.add(say("bench", "findings"), found)
        facts.add(say("bench", "not_here"), tape.verdict.told if tape.verdict.elsewhere else ())
        to_do = [each.words for each in next_steps.still_to_do(tape)]
        facts.add(say("bench", "repairs"), to_do)
        self._write_repairs(facts, tape)
        facts.add(say("bench", "doubts"), tape_doubts.of_tape(tape), "attention")
        card = bench_cards.card(tape.format)
        if tape.station in bench_cards.OPENED:
            facts.add(say("bench", "card"), card.opening)
        if tape.station in _PLAYED:
            facts.add(say("bench", "protect"), (card.protect,) if card.protect else ())
            facts.add(say("bench", "plays"), card.plays)
        self._files, happened = FactList(_HEADS.px), FactList(_HEADS.px)
        told = [_happened(each, self.timezone) for each in reversed(history)]
        happened.add(say("bench", "history"), told, "small")
        for part in (facts, self._files, happened):
            self._column.addWidget(part)
        self._column.addStretch(1)

    @Slot(object)
    def know_files(self, files: Sequence[CapturedFile]) -> None:
        """The files recorded from the tape in hand, with the fingerprint that tells an unchanged copy."""
        if self._files is None:
            return
        for number, each in enumerate(files):
            report = each.report
            told = say(
                "capture",
                "on_card",
                name=report.name,
                facts=say(
                    "capture", "facts", length=clock(report.seconds), size=spelled_size(report.size_bytes)
                ),
                bill=say("capture", "bill", minutes=f"{report.billable_minutes:.1f}"),
            )
            self._files.add(say("capture", "files") if number == 0 else "", [told])
            sha = say("capture", "sha256", first=report.sha256[:_HALF], rest=report.sha256[_HALF:])
            self._files.add("", [sha], "small")
            self._files.add("", report.remarks, "attention")

    def _write_cautions(self, tape: TapeRecord, besides: Sequence[str]) -> None:
        """Those that bear on this tape here, a line each; all of them in full behind one key."""
        brief, full = brief_cautions.of_tape(tape), (*bench_cards.cautions_of(tape), *besides)
        self._brief = caution_frame((*brief, *besides), brief_cautions.whose_rules(), self._more_button())
        self._full = caution_frame(full)
        self._full.setObjectName("cautions-in-full")
        for frame in (self._brief, self._full):
            self._column.addWidget(frame)
        self._full.hide()
        self._brief.setVisible(bool(full))

    def _more_button(self) -> QPushButton:
        told = say("bench", "cautions_in_full", keys=CAUTION_KEYS)
        button = key_button("cautions-in-full-button", CAUTION_KEYS, told, "word")
        button.clicked.connect(self._show_cautions)
        return button

    @Slot()
    def _show_cautions(self) -> None:
        """All of them, in the place of the short ones."""
        self._brief.hide()
        self._full.show()

    def _write_repairs(self, facts: FactList, tape: TapeRecord) -> None:
        zone = self.timezone
        standing = joints(tape, zone)
        facts.add(say("bench", "splices"), standing)
        for number, each in enumerate(tape.struck):
            head = say("bench", "splices") if number == 0 and not standing else ""
            facts.add(head, [splice_words(tape, each.splice, zone)], "small", struck=True)
            facts.add("", [struck_words(each, zone)], "small")
        facts.add(say("repair", "tried"), [tried_words(each, zone) for each in tape.tried])
        facts.add(say("repair", "look"), look_words(tape, zone), "attention" if tape.look_due else "")

    def _write_head(self, tape: TapeRecord, now: datetime) -> None:
        row = QHBoxLayout()
        row.setSpacing(3 * theme.UNIT)
        row.addWidget(ShellCard(tape.format))
        beside = QWidget()
        column = stacked(beside, 2)
        column.addWidget(words(f"{tape.format_words} {tape.marking or ''}".strip(), "great"))
        if tape.label:
            column.addWidget(words(tape.label, "lead"))
        column.addWidget(words(_where(tape, now), "time"))
        column.addWidget(words(_told_by_code(tape), "small"))
        row.addWidget(beside, 1)
        self._column.addLayout(row)

    def _write_band(self, tape: TapeRecord) -> None:
        if tape.label_astray:
            self._column.addWidget(words(say("repair", "astray"), "attention"))
        if not tape.not_for_reuse:
            return
        self._column.addWidget(NotForReuseStrip(tray_rows.band_words(tape), sizes.BODY))
        if tape.marked_at is None:
            line = words(say("bench", "label_missing"))
        else:
            line = words(say("bench", "label_on", when=moment(tape.marked_at, self.timezone)), "small")
        self._column.addWidget(line)

    def _write_rest(self, tape: TapeRecord, now: datetime) -> tuple[str, ...]:
        """Until when a tape that came in cold rests; gives what to be careful of as long as it does."""
        if tape.rests_until is None or tape.rests_until <= now:
            return ()
        until = moment(tape.rests_until, self.timezone)
        self._column.addWidget(words(say("bench", "rests_until", when=until), "attention"))
        return (acclimatisation.caution(),)


class ShellCard(QWidget):
    """The cassette in hand, drawn large but to the same scale as every other."""

    def __init__(self, name: FormatName, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._name = name
        width, depth = shell(name)
        self.setFixedSize(theme.scaled(width * _PIXELS_A_MM), theme.scaled(depth * _PIXELS_A_MM))

    def paintEvent(self, event: QPaintEvent) -> None:
        width, depth = largest_shell()
        whole = QRectF(0, 0, theme.scaled(width * _PIXELS_A_MM), theme.scaled(depth * _PIXELS_A_MM))
        whole.moveCenter(QRectF(self.rect()).center())
        painter = QPainter(self)
        paint_cassette(painter, whole, self._name)
        painter.end()


def _became(tape: TapeRecord) -> tuple[str, ...]:
    """What became of the tape, what to do next, and the note with whom it is for."""
    told = []
    if tape.disposition is not None:
        told = [
            sentence_case(spoken(tape.disposition)),
            say("dispositions", f"next-{tape.disposition.value}"),
        ]
    if tape.note:
        told.append(say("bench", "note_for_them" if tape.note_is_told else "note_for_us", note=tape.note))
    return tuple(told)


def _happened(happening: JournalEntry, timezone: str) -> str:
    return f"{moment(happening.at, timezone)} · {happening.by}: {happening.words}"


def _where(tape: TapeRecord, now: datetime) -> str:
    station = sentence_case(spoken(tape.station))
    return say("bench", "here", station=station, since=since(tape.since, now))


def _told_by_code(tape: TapeRecord) -> str:
    code = tray_rows.spaced(tape.code)
    of_job = say("bench", "of_job", job=tape.code[:6], place=int(tape.code[6:9]))
    if tape.played_minutes is not None:
        length = say("bench", "played", minutes=f"{round(tape.played_minutes, 1):g}")
    elif tape.minutes.high > 0:
        length = say("bench", "believed", minutes=minutes_range(tape.minutes))
    else:
        length = say("bench", "not_played")
    return f"{code} · {of_job} · {length}"


def _breakable(digits: str) -> str:
    """With places where a line may end (U+200B), for a narrow card."""
    half = len(digits) // 2
    return f"{digits[:half]}\u200b{digits[half:]}"
