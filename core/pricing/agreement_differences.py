"""What one version of an agreement changed of the one before, line by line."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from enum import Enum

from core.model.agreement_records import AgreementVersion
from core.model.copies.copy_records import DOWNLOAD
from core.model.inventory import TapeLine
from core.model.names import TapeCode
from core.model.quote_records import Quote
from core.pricing import bitrates
from core.wording.messages import say


class AgreementPart(Enum):
    """What a difference is about."""

    TAPE_ADDED = "tape-added"
    TAPE_LEFT_OUT = "tape-left-out"
    TAPE_DESCRIBED = "tape-described"
    CHARGE = "charge"
    TOTAL = "total"
    CEILING = "ceiling"
    GIVEN_AWAY = "given-away"
    DATE = "date"
    COPIES = "copies"
    RUSH = "rush"
    WISH = "wish"
    CUSTOMER = "customer"


@dataclass(frozen=True, slots=True)
class AgreementDifference:
    """One line. ``about`` names the charge, or the code of the tape; None: there was, or is, nothing."""

    part: AgreementPart
    about: str = ""
    before: object = None
    after: object = None

    @property
    def minor(self) -> int | None:
        """By how much an amount grew; None where it is no amount."""
        if self.part not in _AMOUNTS:
            return None
        return int(str(self.after or 0)) - int(str(self.before or 0))


_AMOUNTS = (AgreementPart.CHARGE, AgreementPart.TOTAL, AgreementPart.CEILING, AgreementPart.GIVEN_AWAY)


def differences(before: AgreementVersion, after: AgreementVersion) -> tuple[AgreementDifference, ...]:
    """What differs: tapes first, then what each costs, then the sums, the date and the wishes."""
    return (
        *_of_tapes(before.tapes, after.tapes),
        *_of_charges(before, after),
        *(
            AgreementDifference(part, "", was, now)
            for part, look in _WHOLE
            if (was := look(before)) != (now := look(after))
        ),
    )


def _of_tapes(
    before: dict[TapeCode, TapeLine], after: dict[TapeCode, TapeLine]
) -> Iterator[AgreementDifference]:
    for code in sorted(before.keys() | after.keys()):
        was, now = before.get(code), after.get(code)
        if was is None:
            yield AgreementDifference(AgreementPart.TAPE_ADDED, code, None, now)
        elif now is None:
            yield AgreementDifference(AgreementPart.TAPE_LEFT_OUT, code, was, None)
        elif was != now:
            yield AgreementDifference(AgreementPart.TAPE_DESCRIBED, code, was, now)


def _of_charges(before: AgreementVersion, after: AgreementVersion) -> Iterator[AgreementDifference]:
    """Charges of one code are summed: a line that was split costs what it cost."""
    was, now = _charges(before.quote), _charges(after.quote)
    for code in dict.fromkeys((*was, *now)):
        (first, words), (second, newer) = was.get(code, (0, "")), now.get(code, (0, ""))
        if first != second:
            yield AgreementDifference(AgreementPart.CHARGE, newer or words, first, second)


def _charges(quote: Quote) -> dict[str, tuple[int, str]]:
    found: dict[str, tuple[int, str]] = {}
    for charge in quote.price.charges:
        minor, words = found.get(charge.code, (0, ""))
        text = charge.text if not words or words == charge.text else f"{words}; {charge.text}"
        found[charge.code] = (minor + charge.amount.likely, text)
    return found


def _copies(version: AgreementVersion) -> tuple[str, ...]:
    pieces = [
        say("media", "pieces", n=round(each.count.likely), words=each.words)
        for each in version.quote.storage.copies
    ]
    files = (each.codec or "h264" for each in version.inventory.deliver if each.carrier == DOWNLOAD)
    return (*pieces, *(say("media", "download-of", files=bitrates.words(codec)) for codec in files))


def _customer(version: AgreementVersion) -> str:
    who = version.inventory.customer
    return "" if who is None else ", ".join(each for each in (who.name, who.phone, who.email) if each)


def _day(version: AgreementVersion) -> date | None:
    return version.promise.day


_WHOLE: tuple[tuple[AgreementPart, Callable[[AgreementVersion], object]], ...] = (
    (AgreementPart.TOTAL, lambda version: version.quote.price.due.likely),
    (AgreementPart.CEILING, lambda version: version.ceiling_minor),
    (AgreementPart.GIVEN_AWAY, lambda version: version.given_away_minor),
    (AgreementPart.DATE, _day),
    (AgreementPart.COPIES, _copies),
    (AgreementPart.RUSH, lambda version: version.inventory.rush),
    (AgreementPart.WISH, lambda version: version.inventory.needed_by),
    (AgreementPart.CUSTOMER, _customer),
)
