"""The statement of what could not be saved and why, for relatives and insurers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from core.model.dispositions import Disposition
from core.model.incident_records import Incident
from core.model.job_records import Job
from core.model.names import Finding, Outcome, TapeCode
from core.model.own_shop.settings_records import ShopFront
from core.model.signatures import Signature
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.papers.handover.home_cautions import hazards_cell
from core.papers.tape_words import became, full_name, short_code, standing
from core.papers.typesetting.binding import Cover, bound, fitted, story
from core.papers.typesetting.paper_tokens import LEAD, QUIET, STRONG, UNIT
from core.papers.typesetting.signature_box import Signed
from core.papers.typesetting.story import Cell, Gap, PaperTable, Story, TableColumn, text_cell
from core.papers.voice import Voice, voice

_WISHED = (Disposition.NOT_WANTED, Disposition.NOTHING_ON_IT)
"""Nothing was to be saved there."""
_SIGN = 300.0


def losses(job: Job) -> tuple[TapeRecord, ...]:
    """The tapes of which something could not be saved, as far as that is settled."""
    return tuple(tape for tape in job.tapes if _is_loss(tape))


def _is_loss(tape: TapeRecord) -> bool:
    if tape.disposition in _WISHED or tape.left_out_in is not None:
        return False
    if tape.disposition is Disposition.COPIED:
        return _is_partly(tape)
    return tape.disposition is not None or tape.station is Station.CANNOT_BE_PLAYED


def _is_partly(tape: TapeRecord) -> bool:
    """Whether a copied tape lost seconds to a splice, or plays with a fault nobody can take out."""
    is_cut = any(splice.seconds_removed and not splice.in_leader for splice in tape.splices)
    return is_cut or tape.verdict.outcome is Outcome.PARTLY


def render(job: Job, incidents: Sequence[Incident], front: ShopFront, *, paper: str | None = None) -> bytes:
    """The statement as a PDF on ``a4`` or ``letter``, dated by what was settled last."""
    speaker = voice(front)
    told = fitted(lambda margin: _told(job, incidents, speaker, paper, margin), 1, speaker, paper)
    return bound(told, Cover(speaker.say("unsaved-title"), job.number), speaker, paper)


def _told(job: Job, incidents: Sequence[Incident], speaker: Voice, paper: str | None, margin: float) -> Story:
    told, lost = story(speaker, paper, short=True, margin=margin), losses(job)
    _tell_title(told, job, lost, speaker)
    _tell_tapes(told, lost, {each.tape: each for each in incidents}, speaker)
    if cautions := hazards_cell([tape for tape in lost if tape.is_returned], told.width, speaker):
        told.add(cautions, before=UNIT)
    last = len(told.pieces)
    told.say(speaker.say("unsaved-means"), before=2 * UNIT)
    told.say(speaker.say("law"), QUIET)
    told.add((Signed(Signature("", ()), _SIGN),), before=UNIT)
    told.say(speaker.say("unsaved-sign", shop=speaker.front.name), QUIET, before=0)
    told.keep_from(last)
    return told


def _tell_title(told: Story, job: Job, lost: Sequence[TapeRecord], speaker: Voice) -> None:
    told.say(speaker.say("unsaved-head", number=job.number), LEAD, before=2 * UNIT)
    newest = max((tape.since for tape in lost), default=job.booked_at)
    told.say(speaker.say("incident-made", day=speaker.day_of(newest)), QUIET, before=0)
    (width,) = told.panel_widths(1)
    owner = speaker.say("incident-owner", name=job.customer.name, day=speaker.day_of(job.booked_at))
    cell = text_cell(owner, width, STRONG)
    cell += text_cell(speaker.count("unsaved-sum", len(lost), all=len(job.tapes)), width)
    told.panel((cell,), (width,), before=UNIT)


def _tell_tapes(
    told: Story, lost: Sequence[TapeRecord], incidents: dict[TapeCode, Incident], speaker: Voice
) -> None:
    if not lost:
        return
    table = PaperTable(
        (
            TableColumn(speaker.say("unsaved-tape"), 150),
            TableColumn(speaker.say("unsaved-what"), 120),
            TableColumn(speaker.say("unsaved-why")),
        ),
        told.width,
    )
    told.table(table, [_row(table, tape, incidents.get(tape.code), speaker) for tape in lost])


def _row(table: PaperTable, tape: TapeRecord, incident: Incident | None, speaker: Voice) -> tuple[Cell, ...]:
    now = became(tape, speaker) if tape.disposition else standing(tape, speaker)
    why = tuple(line for reason in reasons(tape, incident, speaker) for line in table.cell(2, reason))
    seconds = sum(splice.seconds_removed for splice in tape.splices if not splice.in_leader)
    gone = speaker.say("unsaved-seconds", seconds=speaker.number(seconds, 1)) if seconds else ""
    return (
        table.cell(0, (full_name(tape), STRONG), (short_code(tape), QUIET)),
        table.cell(1, now, gone),
        why or (Gap(0),),
    )


def reasons(tape: TapeRecord, incident: Incident | None, speaker: Voice) -> Iterator[str]:
    """Why, in sentences: what was found, what was tried in vain, what happened here."""
    for finding in tape.findings:
        if isinstance(finding, Finding):
            yield speaker.say(f"why-{finding.value}")
        else:
            yield speaker.sentence(speaker.finding(finding))
    for tried in tape.tried:
        if not tried.succeeded:
            yield speaker.say("repair-failed", what=tried.words)
    if tape.verdict.elsewhere is not None:
        yield speaker.sentence(speaker.say("tape-not-here"))
    if incident is not None:
        opening = incident.opening
        day = speaker.day_of(opening.moment or opening.at)
        yield speaker.say("unsaved-incident", day=day, words=opening.words)
    if tape.disposition is Disposition.REPAIR_DECLINED:
        yield speaker.say("unsaved-declined")
    if tape.told_note:
        yield speaker.sentence(tape.told_note)
