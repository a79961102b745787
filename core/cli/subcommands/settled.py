"""What became of a tape, and what is written down of one that was lost or damaged."""

from __future__ import annotations

from pathlib import Path

from core.cli import json_answers, plain_answers
from core.cli.invocation import Invocation, Reply
from core.cli.subcommands import paper_folder
from core.model.dispositions import Disposition
from core.model.errors import WrongInput
from core.model.incident_records import Incident, IncidentKind
from core.model.names import TapeCode
from core.model.tape_records import TapeRecord
from core.papers import open_incident_words
from core.services import decks, incident_photos, incidents, paper_files, tape_dispositions
from core.wording.locale_figures import tape_code
from core.wording.messages import say

_LINES = {"add": IncidentKind.ADDED, "told": IncidentKind.TOLD, "settled": IncidentKind.SETTLED}


def settle(call: Invocation) -> Reply:
    asked = call.asked
    with call.open() as shop:
        record = call.run(
            shop,
            tape_dispositions.settle,
            TapeCode(asked.code),
            Disposition(asked.disposition),
            note=asked.note or "",
            tell=asked.tell,
            happened=asked.when,
        )
    return _told(record)


def unsettle(call: Invocation) -> Reply:
    with call.open() as shop:
        record = call.run(
            shop, tape_dispositions.reopen, TapeCode(call.asked.code), because=call.asked.because
        )
    return _told(record)


def tell_incident(call: Invocation) -> Reply:
    """Adds what is said to the incident of a tape, then tells all of it."""
    asked, code = call.asked, TapeCode(call.asked.code)
    place = paper_folder.folder(call)
    kind = next((kind for name, kind in _LINES.items() if getattr(asked, name) is not None), None)
    if kind is None and asked.when is not None:
        raise WrongInput("--when", asked.when.isoformat(), say("incidents", "when-with"))
    with call.open() as shop:
        shop.ask(incidents.report, code)  # refused before a photo is copied
        folder = incident_photos.beside(shop.where)
        photos = [incident_photos.keep(Path(name), folder) for name in asked.photo]
        if kind is not None:
            words = next(getattr(asked, name) for name in _LINES if getattr(asked, name) is not None)
            call.run(shop, incidents.add, code, kind, words, moment=asked.when)
        for photo in photos:
            call.run(shop, incidents.attach, code, photo)
        job, found, front = shop.ask(incidents.report, code)
        done = say("incidents", "is-kept", code=tape_code(found.tape))
        place = paper_folder.remembered(call, shop, place, job.number, done)
    altered = tuple(
        line.photo for line in found.lines if line.photo and not incident_photos.is_whole(line, folder)
    )
    written, note = paper_folder.after(
        done, place, lambda there: paper_files.of_incident(job, found, front, there)
    )
    if altered:
        note = " ".join(filter(None, (note, say("incidents", "photos-altered", names=", ".join(altered)))))
    return Reply(json_answers.incident(found, written, altered), _plain(found, written), note=note)


def list_incidents(call: Invocation) -> Reply:
    with call.open() as shop:
        found, zone = shop.ask(incidents.open_ones), shop.ask(decks.settings).front.timezone
    lines = [
        f"{open_incident_words.what(each, zone)}\n  {open_incident_words.next_step(each)}" for each in found
    ]
    return Reply(json_answers.open_incidents(found), "\n".join(lines) or say("incidents", "none-open"))


def _told(record: TapeRecord) -> Reply:
    return Reply(json_answers.tape(record), plain_answers.tape(record))


def _plain(found: Incident, written: tuple[Path, ...]) -> str:
    lines = (
        f"{plain_answers.at(line.at)}  {line.by}: "
        + say("incidents", f"event-{line.kind.value}", words=line.words, photo=line.photo or "").strip()
        for line in found.lines
    )
    return "\n".join([*lines, *map(str, written)])
