"""The report about a tape lost or damaged in the shop, for its owner and the insurer, line by line."""

from __future__ import annotations

from core.model.incident_records import Incident, IncidentKind, IncidentLine
from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.model.tape_records import TapeRecord
from core.papers.tape_words import full_name, short_code
from core.papers.typesetting.binding import Cover, bound, story
from core.papers.typesetting.paper_tokens import QUIET, STRONG, TITLE, UNIT
from core.papers.typesetting.story import Cell, PaperTable, Story, TableColumn, text_cell
from core.papers.voice import Voice, voice


def render(job: Job, incident: Incident, front: ShopFront, *, paper: str | None = None) -> bytes:
    """The report as a PDF on ``a4`` or ``letter``, dated by its newest line."""
    speaker = voice(front)
    told = story(speaker, paper)
    tape = next(each for each in job.tapes if each.code == incident.tape)
    _tell_title(told, job, tape, incident, speaker)
    _tell_answers(told, incident, speaker)
    _tell_lines(told, incident, speaker)
    told.say(speaker.say("incident-law"), QUIET, before=UNIT)
    return bound(told, Cover(speaker.say("incident-title"), tape.code), speaker, paper)


def _tell_title(told: Story, job: Job, tape: TapeRecord, incident: Incident, speaker: Voice) -> None:
    head = speaker.say(f"incident-head-{incident.opening.kind.value}", number=job.number)
    told.say(head, STRONG, before=3 * UNIT)
    told.say(
        speaker.say("incident-made", day=speaker.day_of(max(line.at for line in incident.lines))),
        QUIET,
        before=0,
    )
    (width,) = told.panel_widths(1)
    cell = text_cell(full_name(tape), width, TITLE)
    cell += text_cell(speaker.say("incident-code", code=short_code(tape)), width)
    booked = speaker.say("incident-owner", name=job.customer.name, day=speaker.day_of(job.booked_at))
    told.panel((cell + text_cell(booked, width),), (width,))


def _tell_answers(told: Story, incident: Incident, speaker: Voice) -> None:
    """What an insurer asks first: what happened, when, found by whom, told when, settled how."""
    opening = incident.opening
    _tell_answer(told, "what", opening.words, speaker)
    _tell_answer(told, "when", _moment(opening, speaker), speaker)
    found = speaker.say("incident-found_by", who=opening.by, when=_written(opening, speaker))
    _tell_answer(told, "found", found, speaker)
    for name, line in (("told", incident.told), ("settled", incident.settled)):
        said = speaker.say("incident-not_yet") if line is None else f"{_moment(line, speaker)}: {line.words}"
        _tell_answer(told, name, said, speaker)


def _tell_answer(told: Story, question: str, answer: str, speaker: Voice) -> None:
    widths = (130.0, told.width - 142)
    cells = (text_cell(speaker.say(f"incident-{question}"), widths[0], QUIET), text_cell(answer, widths[1]))
    told.beside(cells, widths, before=UNIT / 2)


def _tell_lines(told: Story, incident: Incident, speaker: Voice) -> None:
    told.head(speaker.say("incident-lines"))
    table = PaperTable(
        (
            TableColumn(speaker.say("incident-written"), 150),
            TableColumn(speaker.say("incident-line")),
            TableColumn(speaker.say("incident-by"), 90),
        ),
        told.width,
    )
    told.table(table, [_row(table, line, speaker) for line in incident.lines])


def _row(table: PaperTable, line: IncidentLine, speaker: Voice) -> tuple[Cell, ...]:
    what = table.cell(1, speaker.say(f"incident-kind-{line.kind.value}"), line.words)
    if line.moment is not None:
        what += table.cell(1, (speaker.say("incident-at", when=_moment(line, speaker)), QUIET))
    if line.kind is IncidentKind.PHOTO:
        what += table.cell(1, (line.photo or "", QUIET), (line.sha256 or "", QUIET))
    return table.cell(0, _written(line, speaker)), what, table.cell(2, line.by)


def _moment(line: IncidentLine, speaker: Voice) -> str:
    """When it was; the moment it was written down where nobody said."""
    at = line.moment or line.at
    return speaker.say("incident-moment", day=speaker.day_of(at), time=speaker.clock(at))


def _written(line: IncidentLine, speaker: Voice) -> str:
    return speaker.say("incident-moment", day=speaker.day_of(line.at), time=speaker.clock(line.at))
