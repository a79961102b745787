"""What became of a tape, and what is written down of one that was lost or damaged."""

from __future__ import annotations

from pathlib import Path

from core.cli import json_answers
from core.cli.invocation import Invocation, Reply
from core.cli.subcommands import paper_folder
from core.cli.subcommands.tape_care import told
from core.model.dispositions import Disposition
from core.model.errors import Refused, WrongInput
from core.model.incident_records import Incident, IncidentKind
from core.model.names import JobNumber, TapeCode
from core.services import decks, incident_photos, incidents, jobs, paper_files, tape_dispositions
from core.services.records_door import Shop
from core.wording.locale_figures import tape_code
from core.wording.messages import say

_LINES = {"add": IncidentKind.ADDED, "told": IncidentKind.TOLD, "settled": IncidentKind.SETTLED}


def settle(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        record = shop.run(
            tape_dispositions.settle,
            TapeCode(asked.code),
            Disposition(asked.disposition),
            note=asked.note or "",
            tell=asked.tell,
            happened=asked.when,
        )
    return told(record)


def unsettle(call: Invocation) -> Reply:
    with call.open() as shop:
        record = shop.run(tape_dispositions.reopen, TapeCode(call.asked.code), because=call.asked.because)
    return told(record)


def tell_incident(call: Invocation) -> Reply:
    """Adds what is said to the incident of a tape, then tells all of it."""
    asked, code = call.asked, TapeCode(call.asked.code)
    place = paper_folder.folder(call)
    kind = next((kind for name, kind in _LINES.items() if getattr(asked, name) is not None), None)
    if kind is None and asked.when is not None:
        raise WrongInput("--when", asked.when.isoformat(), say("incidents", "when-with"))
    with call.open() as shop:
        _incident(shop, code)
        folder = incident_photos.beside(shop.where)
        photos = [incident_photos.keep(Path(name), folder) for name in asked.photo]
        if kind is not None:
            words = next(getattr(asked, name) for name in _LINES if getattr(asked, name) is not None)
            shop.run(incidents.add, code, kind, words, moment=asked.when)
        for photo in photos:
            shop.run(incidents.attach, code, photo)
        found = _incident(shop, code)
        job = shop.ask(jobs.get, JobNumber(found.tape[:6]))
        front = shop.ask(decks.settings).front
    done = say("incidents", "is-kept", code=tape_code(found.tape))
    written, note = paper_folder.after(
        done, place, lambda there: paper_files.of_incident(job, found, front, there)
    )
    return Reply(json_answers.incident(found, written), _plain(found, written), note=note)


def _incident(shop: Shop, code: TapeCode) -> Incident:
    found = shop.ask(incidents.of_tape, code)
    if found is None:
        raise Refused(say("incidents", "none", code=tape_code(code), typed=code))
    return found


def _plain(found: Incident, written: tuple[Path, ...]) -> str:
    lines = (
        f"{line.at.isoformat(timespec='minutes')}  {line.by}: "
        + say("incidents", f"event-{line.kind.value}", words=line.words, photo=line.photo or "").strip()
        for line in found.lines
    )
    return "\n".join([*lines, *map(str, written)])
