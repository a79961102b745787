"""What papers say of each copy: how many pieces, which tapes and files are on it, who made and checked it."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from core.model.copies import copy_standing
from core.model.copies.copy_records import CopiedFile, CopyRecord
from core.model.job_records import Job
from core.model.names import TapeCode
from core.papers.tape_words import full_name
from core.papers.typesetting.paper_tokens import QUIET, STRONG, UNIT
from core.papers.typesetting.story import Story
from core.papers.voice import Voice
from core.wording.locale_figures import listed


def tell(
    told: Story, job: Job, copies: Sequence[CopyRecord], speaker: Voice, known: Collection[str] = ()
) -> None:
    """One paragraph a copy; files whose SHA-256 is among ``known`` stand on the paper already."""
    for copy in copies:
        words = speaker.say("quote-copy", count=speaker.number(copy.pieces), words=copy.words)
        told.say(words, STRONG, before=UNIT, with_next=copy.made is not None)
        if copy.made is not None:
            told.say(on_it(job, copy, speaker), before=0)
            told.say(_by_whom(copy, speaker), QUIET, before=0)
            _tell_files(told, copy.contents.files, known, speaker)


def on_it(job: Job, copy: CopyRecord, speaker: Voice) -> str:
    """Which tapes are on a copy, and which are not."""
    missing = (*copy_standing.lacks(job, copy), *copy_standing.still_open(job))
    lacking = [code for code in missing if code not in copy.contents.tapes]
    return speaker.say(
        "copies-on_it",
        n=len(copy.contents.tapes),
        tapes=_names(job, copy.contents.tapes),
        lacks=len(lacking),
        lacking=_names(job, lacking),
    )


def _names(job: Job, codes: Sequence[TapeCode]) -> str:
    of = {tape.code: tape.label or full_name(tape) for tape in job.tapes}
    return listed([*dict.fromkeys(of.get(code, code) for code in codes)])


def _by_whom(copy: CopyRecord, speaker: Voice) -> str:
    made, checked = copy.made, copy.checked
    if made is None:
        return ""
    by, day = made.by, speaker.day_of(made.at)
    if checked is None:
        return speaker.say("copies-made", by=by, day=day)
    return speaker.say("copies-checked", by=by, day=day, checker=checked.by, when=speaker.day_of(checked.at))


def _tell_files(told: Story, files: Sequence[CopiedFile], known: Collection[str], speaker: Voice) -> None:
    new = [each for each in files if each.sha256 not in known]
    if len(new) < len(files):
        told.say(speaker.count("copies-above", len(files) - len(new)), before=0)
    for each in new:
        size = speaker.say("files-bytes", n=speaker.number(each.size_bytes))
        told.say(speaker.say("copies-file", name=each.name, size=size), before=UNIT / 2, with_next=True)
        told.say(each.sha256, QUIET, before=0)
