"""What a reading of packs means, on a slip: minutes on each reel, the share run, whether the marking fits."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QLabel, QVBoxLayout, QWidget

from core.model.inventory import TapeLine
from core.playtime.pack_reading import PackMeasurement
from gui.inspection.pack_sentences import doubt_words, fit_words, meaning_words, reel_words, share_words
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import slip, stacked, words


class PackAnswer:
    """The slip ``paper`` shows either an answer or the sentence that says what is missing for one."""

    def __init__(self) -> None:
        self.paper: QFrame
        self.paper, column = slip("pack-slip")
        self._waiting = words("", "lead")
        column.addWidget(self._waiting)
        self._answer = QWidget()
        self._lay_out(stacked(self._answer))
        column.addWidget(self._answer)
        column.addStretch(1)

    def show_reading(self, found: PackMeasurement, line: TapeLine) -> None:
        """Write what the packs of this tape say."""
        for label, reel in zip(self._figures, (found.to_come, found.run), strict=True):
            label.setText(reel_words(reel))
        self._share.setText(share_words(found))
        self._means.setText(meaning_words(found))
        sentence, is_wrong = fit_words(found)
        _write(self._fit, sentence, is_wrong=is_wrong)
        self._off.setText(doubt_words(found, speed_is_known=line.speed is not None))
        self._sources.setText("\n".join(f"· {source}" for source in found.sources))
        self._answer.show()
        self._waiting.hide()

    def wait(self, sentence: str, *, is_wrong: bool) -> None:
        """No answer yet, and why."""
        self._answer.hide()
        _write(self._waiting, sentence, is_wrong=is_wrong)
        self._waiting.show()

    def _lay_out(self, column: QVBoxLayout) -> None:
        self._figures = (words("", "time"), words("", "time"))
        for head, label in zip(("to_come_head", "run_head"), self._figures, strict=True):
            column.addWidget(words(say("packs", head), "field"))
            column.addWidget(label)
        self._share, self._means, self._fit = words("", "heading"), words(), words()
        self._off, self._sources = words("", "small"), words("", "small")
        for part in (self._share, self._means, self._fit, self._off):
            column.addWidget(part)
        column.addWidget(words(say("packs", "sources"), "field"))
        column.addWidget(self._sources)


def _write(label: QLabel, sentence: str, *, is_wrong: bool) -> None:
    label.setText(sentence)
    theme.set_style_property(label, "ink", "attention" if is_wrong else "muted")
