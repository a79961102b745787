"""What a button does to what, for those who hear it: "Record a splice on tape …", not "Record a splice"."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton, QWidget

from core.model.names import JobNumber, TapeCode
from core.wording.locale_figures import tape_code
from core.wording.messages import knows, say
from gui.toolkit import actions
from gui.toolkit.text import sentence_case


def name_for_tape(within: QWidget, code: TapeCode) -> None:
    """Every button inside ``within`` acts on the tape of this code."""
    _name(within, say("commands", "target-tape", code=tape_code(code)))


def name_for_order(within: QWidget, number: JobNumber) -> None:
    """Every button inside ``within`` acts on the order of this number."""
    _name(within, say("commands", "target-order", number=str(number)))


def _name(within: QWidget, target: str) -> None:
    for button in within.findChildren(QPushButton):
        told = actions.told_on(button) or actions.plain(button.text(), actions.keys_of(button))
        key = f"does-{button.objectName()}"
        if told:
            key = key if knows("commands", key) else "does-it"
            name = say("commands", key, does=sentence_case(told), target=target)
            actions.name_with_target(button, told, name)
