"""What a change of an agreement is in words: line by line, for paper, screen and command line alike."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from core.catalogue.formats import catalogue
from core.model.agreement_records import AgreementVersion
from core.model.inventory import TapeLine
from core.model.spoken_names import spoken
from core.papers.voice import Voice
from core.pricing.agreement_differences import AgreementDifference, AgreementPart
from core.wording import locale_figures, messages


@dataclass(frozen=True, slots=True)
class Told:
    """One difference in words; ``before`` or ``after`` is a dash where there was, or is, nothing."""

    what: str
    before: str
    after: str

    @property
    def sentence(self) -> str:
        return messages.say("agreement", "told", what=self.what, before=self.before, after=self.after)


def told(difference: AgreementDifference, currency: str, voice: Voice | None = None) -> Told:
    """A difference in words; ``voice`` None: as the process speaks."""
    language = None if voice is None else voice.speech
    locale = None if voice is None else voice.locale
    part, about = difference.part, difference.about
    if part is AgreementPart.CHARGE:
        what = about
    else:
        what = messages.say(
            "agreement", f"part-{part.value}", language=language, code=locale_figures.tape_code(about)
        )

    def say(value: object) -> str:
        return _value(part, value, currency, language, locale)

    return Told(what, say(difference.before), say(difference.after))


def kind_words(version: AgreementVersion, voice: Voice | None = None) -> str:
    """``Version 2: changed``."""
    language = None if voice is None else voice.speech
    return messages.say("agreement", "version", language=language, n=version.number, kind=version.kind.value)


def agreed_words(version: AgreementVersion, day: str, voice: Voice | None = None) -> str:
    """Who agreed, how, when and to whom; that nobody wrote it down where nobody did."""
    return messages.say(
        "agreement",
        "agreed",
        language=None if voice is None else voice.speech,
        who=version.agreed_by or "",
        how=_how(version),
        day=day,
        by=version.by,
    )


def _how(version: AgreementVersion) -> str:
    if version.agreed_by is None:
        return "none"
    return "open" if version.consent is None else version.consent.how.value


def _value(
    part: AgreementPart, value: object, currency: str, language: messages.Speech | None, locale: str | None
) -> str:
    if isinstance(value, bool):
        return messages.say("agreement", "yes" if value else "no", language=language)
    if isinstance(value, int):
        return locale_figures.money(value, currency, locale)
    if isinstance(value, date):
        return locale_figures.day(value, locale)
    if isinstance(value, TapeLine):
        return _tape(value, language)
    if isinstance(value, tuple):
        return ", ".join(value) or messages.say("agreement", "usual_copies", language=language)
    return str(value) if value else messages.say("agreement", "nothing", language=language)


def _tape(line: TapeLine, language: messages.Speech | None) -> str:
    """``VHS T-120, EP, snapped · the cabin``."""
    system = line.recorded_as if line.recorded_as != line.format else None
    parts = [" ".join(filter(None, (catalogue().format(line.format).words, line.marking)))]
    parts += [catalogue().format(system).words] if system else []
    parts += [line.speed.words] if line.speed else []
    parts += [spoken(finding) for finding in line.findings]
    return " · ".join(filter(None, (", ".join(parts), line.label)))
