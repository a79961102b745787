"""How long copies run where the machine takes another time than the recording: a scanner, a faster deck."""

from __future__ import annotations

from collections.abc import Sequence

from core.catalogue.formats import catalogue
from core.model.names import FormatName
from core.model.quote_records import QuotedTape
from core.model.ranges import ZERO, Range


def of_box(minutes: Range, tapes: Sequence[QuotedTape]) -> tuple[Range, list[Range]]:
    """The minutes of all recordings together and of each; ``minutes`` are those of the machines together."""
    on_machine = [tape.minutes for tape in tapes]
    paces = [_pace(tape.draft.format) for tape in tapes]
    if all(pace == 1.0 for pace in paces):
        return minutes, on_machine
    each = [took.times(1 / pace) for took, pace in zip(on_machine, paces, strict=True)]
    whole, recorded = sum(on_machine, ZERO), sum(each, ZERO)
    return minutes.times(recorded.likely / whole.likely if whole.likely else 1.0), each


def _pace(name: FormatName) -> float:
    """Minutes on the machine for one minute of the recording."""
    amount = catalogue().format(name).record.amount
    return amount.pace.value if amount and amount.pace else 1.0
