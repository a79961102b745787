"""A box in which everything was found that can be: two spliced tapes in eight, mold, a scratch, a repair
declined, one with nothing on it, one lost here. Everybody and everything in it is made up.
"""

from __future__ import annotations

from dataclasses import replace

from core.catalogue import condition
from core.model.dispositions import Disposition
from core.model.job_records import Agreement, Pickup
from core.model.names import AnyFinding, Finding
from core.model.numbers import tape_code
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from tests.support import invented_job

LABELS = (
    "Christmas mornings 1989 to 1995",
    "Grandma’s kitchen – the last one with her voice",
    "Wedding, reel 2",
    "Garage",
    "School play",
    "Łódź, summer 1994",
    "",
    "Uncle Bo’s boat",
)
FOUND: tuple[tuple[tuple[AnyFinding, ...], Disposition], ...] = (
    ((), Disposition.COPIED),
    ((Finding.SNAPPED,), Disposition.COPIED),
    ((Finding.SNAPPED, Finding.STRETCHED), Disposition.COPIED_IN_PART),
    ((Finding.MOULD,), Disposition.CANNOT_BE_PLAYED),
    ((Finding.SCRATCHED,), Disposition.COPIED),
    ((Finding.SNAPPED, Finding.CREASED), Disposition.REPAIR_DECLINED),
    ((), Disposition.NOTHING_ON_IT),
    ((), Disposition.LOST),
)
"""What was found of each tape and what became of it; the eight come round again."""


def tape(place: int) -> TapeRecord:
    """The tape at a place of the box, from 1."""
    findings, became = FOUND[(place - 1) % len(FOUND)]
    first = invented_job.job(1).tapes[0]
    spliced = Finding.SNAPPED in findings and became.is_copied
    return replace(
        first,
        code=tape_code(invented_job.NUMBER, place),
        n=place,
        label=LABELS[(place - 1) % len(LABELS)],
        findings=findings,
        draft=replace(first.draft, findings=findings, label=LABELS[(place - 1) % len(LABELS)]),
        verdict=condition.verdict(findings, first.format),
        station=Station.HANDED_BACK,
        disposition=became,
        played_minutes=97.35 + place if became.is_copied else None,
        splices=(invented_job.splice(12.1 + place, 2.5),) if spliced else (),
        not_for_reuse=spliced,
        marked_at=invented_job.BOOKED_AT if spliced else None,
        signed_off_by="Kim" if became.is_copied else None,
    )


def pickup(tapes: int, still_here: int = 0) -> Pickup:
    """So many tapes handed back, signed and paid for, with a consent on record; others may still be here."""
    every = tuple(tape(place) for place in range(1, tapes + still_here + 1))
    waiting = tuple(
        replace(each, station=Station.PLAYING, disposition=None, not_for_reuse=False, splices=())
        for each in every[tapes:]
    )
    signed = invented_job.pickup()
    agreed = Agreement(
        invented_job.BOOKED_AT, "Ada", "Łucja Núñez-Brandt", "splice the wedding tape, $25.00", 54500
    )
    return replace(
        signed,
        job=replace(signed.job, tapes=(*every[:tapes], *waiting), agreements=(agreed,)),
        handed_back=every[:tapes],
        still_here=waiting,
    )
