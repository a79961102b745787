"""What has changed in an agreement: one version beside the one before, on one page, to be signed or sent."""

from __future__ import annotations

from core.model.agreement_records import AgreementVersion
from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.model.signatures import Signature
from core.papers import agreement_words
from core.papers.booking import price_and_day
from core.papers.typesetting.binding import Cover, bound, page_count, story
from core.papers.typesetting.paper_tokens import QUIET, STRONG, TITLE, UNIT
from core.papers.typesetting.signature_box import Signed
from core.papers.typesetting.story import Cell, PaperTable, Story, TableColumn, text_cell
from core.papers.voice import Voice, voice
from core.pricing.agreement_differences import AgreementDifference, AgreementPart

_MOST = 30
"""Lines of differences that one page may take; fewer where they are long, and the rest is counted."""
_LEAST = 4
_WHOLE = (AgreementPart.TOTAL, AgreementPart.CEILING, AgreementPart.DATE)


def render(
    job: Job,
    version: AgreementVersion,
    differences: tuple[AgreementDifference, ...],
    front: ShopFront,
    *,
    paper: str | None = None,
) -> bytes:
    """One page as a PDF on ``a4`` or ``letter``; dated by the version."""
    speaker, most = voice(front), _MOST
    told = _told(job, version, differences, most, speaker, paper)
    while most > _LEAST and page_count(told, speaker, paper) > 1:
        most -= 1
        told = _told(job, version, differences, most, speaker, paper)
    return bound(told, Cover(speaker.say("changed-title"), job.number), speaker, paper)


def _told(
    job: Job,
    version: AgreementVersion,
    differences: tuple[AgreementDifference, ...],
    most: int,
    speaker: Voice,
    paper: str | None,
) -> Story:
    """The page with at most so many lines of differences."""
    told = story(speaker, paper)
    _tell_title(told, job, version, speaker)
    # What holds from now on, before what it was.
    heading = speaker.say("changed-price")
    price_and_day.tell(told, version.quote, version.promise, version.ceiling_minor, heading, speaker)
    _tell_differences(told, version, differences, most, speaker)
    _tell_agreed(told, version, speaker)
    return told


def _tell_title(told: Story, job: Job, version: AgreementVersion, speaker: Voice) -> None:
    head = speaker.say("changed-head", number=job.number, name=job.customer.name)
    told.say(speaker.say("changed-title"), TITLE, before=3 * UNIT)
    told.say(head, STRONG)
    said = agreement_words.agreed_words(version, speaker.day_of(version.at), speaker)
    told.say(f"{agreement_words.kind_words(version, speaker)}. {said}", QUIET, before=0)
    if version.reason:
        told.say(speaker.say("changed-reason", reason=version.reason))


def _tell_differences(
    told: Story,
    version: AgreementVersion,
    differences: tuple[AgreementDifference, ...],
    most: int,
    speaker: Voice,
) -> None:
    if not differences:
        told.say(speaker.say("changed-nothing"), before=2 * UNIT)
        return
    table = PaperTable(
        (
            TableColumn(speaker.say("changed-what")),
            TableColumn(speaker.say("changed-before"), 150),
            TableColumn(speaker.say("changed-now"), 150),
        ),
        told.width,
    )
    currency = version.quote.price.currency
    shown = _shown(differences, most)
    told.table(table, [_row(table, each, currency, speaker) for each in shown])
    if len(shown) < len(differences):
        told.say(speaker.count("changed-more", len(differences) - len(shown)), QUIET)


def _shown(differences: tuple[AgreementDifference, ...], most: int) -> list[AgreementDifference]:
    """As many as one page takes; the sums and the day are always among them."""
    whole = [each for each in differences if each.part in _WHOLE]
    single = [each for each in differences if each.part not in _WHOLE]
    return [*single[: max(0, most - len(whole))], *whole]


def _row(
    table: PaperTable, difference: AgreementDifference, currency: str, speaker: Voice
) -> tuple[Cell, ...]:
    words = agreement_words.told(difference, currency, speaker)
    strong = difference.part in _WHOLE
    after = (words.after, STRONG) if strong else words.after
    return table.cell(0, words.what), table.cell(1, words.before), table.cell(2, after)


def _tell_agreed(told: Story, version: AgreementVersion, speaker: Voice) -> None:
    told.say(speaker.say("changed-terms"), before=2 * UNIT, with_next=True)
    strokes = version.consent.strokes if version.consent else ()
    name = version.agreed_by or ""
    line = speaker.say("changed-sign", name=name, day=speaker.day_of(version.at))
    signed = Signed(Signature(name, strokes), min(told.width, 300.0))
    told.add((signed, *text_cell(line, told.width, QUIET)), before=UNIT)
