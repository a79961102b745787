"""An invented job of twelve mixed tapes, two of them spliced, as the records papers and screens are given.

Everybody and everything in it is made up. ``job`` and ``pickup`` take the number of tapes, so that a long
paper can be asked for.
"""

from __future__ import annotations

import hashlib
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import cycle, islice
from math import cos, sin

from core.capture.file_report import CapturedFile, Report, Sound
from core.model.agreement_records import AgreedHow, AgreementKind, AgreementVersion, Consent
from core.model.copies.copy_records import CopyRecord
from core.model.incident_records import Incident, IncidentKind, IncidentLine
from core.model.inventory import CustomerDraft, Delivery, Inventory, TapeLine
from core.model.job_records import Customer, Job, Payment, Pickup
from core.model.money import MoneyRange, flat, total
from core.model.names import Finding, FormatName, JobNumber, Join, Outcome, Speed, TvSystem
from core.model.numbers import job_number, tape_code
from core.model.own_shop.settings_records import ShopFront
from core.model.promise_records import Chance, Promise
from core.model.quote_records import Charge, Copy, Price, Quote, QuotedTape, Storage
from core.model.ranges import Range, exactly
from core.model.repair_records import Repair, Splice, Verdict
from core.model.signatures import Signature
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.pricing.agreement_differences import AgreementDifference, differences

BOOKED_AT = datetime(2026, 2, 26, 16, 40, tzinfo=UTC)
PICKED_UP_AT = datetime(2026, 3, 13, 21, 5, tzinfo=UTC)
PROMISED = date(2026, 3, 12)

FRONT = ShopFront(
    name="The Tape Table",
    address=("14 Alder Lane", "Millbrook Falls"),
    phone="(202) 555-0142",
    currency="USD",
    timezone="America/New_York",
)
NUMBER: JobNumber = job_number(1)
CUSTOMER = Customer("Łucja Núñez-Brandt", "+12025550187", None)

SOUND = Verdict(Outcome.PLAYS, (), (), (), not_for_reuse=False)
SPLICED = Verdict(
    Outcome.REPAIR,
    (Repair("splice", "splice on the back", Range(10, 15, 25)),),
    ("Blades: protect eyes and hands; local rules go first.",),
    (
        "This tape snapped. We join it for one copy; a second or so of the recording is lost at the joint, "
        "and after that it must never be played or recorded on again.",
    ),
    not_for_reuse=True,
)
SCRATCHED = Verdict(
    Outcome.PARTLY,
    (),
    (),
    ("A scratch along the tape shows as a line through the whole picture; nobody can take it out again.",),
    not_for_reuse=False,
)
CRUSHED = Verdict(
    Outcome.CANNOT,
    (),
    (),
    ("This cassette cannot be played. We give it back with the others.",),
    not_for_reuse=False,
)

LINES = (
    TapeLine(5, FormatName("vhs"), "T-120", label="Christmas mornings 1989 to 1995"),
    TapeLine(3, FormatName("vhs-c"), "TC-30", speed=Speed.SP, label="Łódź, summer 1994"),
    TapeLine(
        1,
        FormatName("hi8"),
        "P6-120",
        recorded_as=FormatName("digital8"),
        findings=(Finding.SNAPPED,),
        label="Grandma’s kitchen – the last one with her voice",
    ),
    TapeLine(
        1, FormatName("vhs"), "T-160", findings=(Finding.SNAPPED, Finding.STRETCHED), label="Wedding, reel 2"
    ),
    TapeLine(1, FormatName("minidv"), "DVM60", findings=(Finding.SCRATCHED,), label="School play"),
    TapeLine(1, FormatName("video8"), None, findings=(Finding.CRUSHED,), label=""),
)
_KNOWN = {
    Finding.SNAPPED: SPLICED,
    Finding.SCRATCHED: SCRATCHED,
    Finding.CRUSHED: CRUSHED,
}
_WORDS = {"vhs": "VHS", "vhs-c": "VHS-C", "hi8": "Hi8", "minidv": "MiniDV", "video8": "Video8"}
_MINUTES = {
    "vhs": Range(62, 118, 240),
    "vhs-c": Range(19, 28, 31),
    "hi8": Range(31, 52, 61),
    "minidv": Range(34, 58, 62),
    "video8": exactly(0),
}


def inventory() -> Inventory:
    """Twelve tapes in six lines, to be delivered as files and on discs."""
    return Inventory(
        LINES,
        tv=TvSystem.NTSC,
        customer=CustomerDraft(CUSTOMER.name, CUSTOMER.phone),
        deliver=(Delivery("files", "h264", "usb"), Delivery("dvd")),
    )


def promise() -> Promise:
    """Thursday, March 12, nineteen times in twenty."""
    by = (0.0, 0.04, 0.12, 0.24, 0.41, 0.66, 0.82, 0.91, 0.955, 0.985, 1.0)
    start = date(2026, 3, 3)
    days = [start + timedelta(days=days) for days in range(16)]
    open_days = [day for day in days if day.weekday() < 6][: len(by)]
    chances = tuple(Chance(day, chance) for day, chance in zip(open_days, by, strict=True))
    stated = next(chance.by for chance in chances if chance.day == PROMISED)
    return Promise(
        PROMISED, stated, date(2026, 3, 7), PROMISED, ("waiting for the Hi8 deck",), chances, BOOKED_AT
    )


def price() -> Price:
    """As quoted: what is not known yet as a range, sales tax on top."""
    charges = (
        Charge("tape", "Copying, per tape", "11 tapes can be played", "11 tapes", 2000, flat(22000)),
        Charge(
            "hours",
            "Play time beyond the first hour of a tape",
            "a T-120 can hold up to six hours, depending on the speed it was recorded at",
            "2–19 h",
            600,
            MoneyRange(1200, 4800, 11400),
        ),
        Charge("splice", "Splice", "two tapes are snapped", "2 splices", 2500, flat(5000)),
        Charge(
            "dvd-r",
            "DVD-R disc",
            "what fits on the discs you asked for",
            "6–14 discs",
            300,
            MoneyRange(1800, 2700, 4200),
        ),
        Charge("usb-64", "USB stick, 64 GB", "to carry the files", "1 stick", 1400, flat(1400)),
        Charge("many", "Ten tapes or more", "5% off copying", "5%", 0, flat(-1100)),
    )
    return _summed(charges, ceiling=52000, deposit=10000)


def quote() -> Quote:
    """The quote of the twelve tapes."""
    return Quote(
        inventory=inventory(),
        book="2026-01",
        made_at=BOOKED_AT,
        valid_until=date(2026, 3, 28),
        tapes=tuple(_quoted()),
        capture_hours=Range(7.1, 13.4, 23.6),
        price=price(),
        storage=Storage(
            Range(31, 52, 96),
            Range(6, 9, 14),
            (
                Copy("dvd-r", "DVD-R discs", Range(6, 9, 14)),
                Copy("usb-64", "USB stick, 64 GB", exactly(1)),
            ),
        ),
        promise=promise(),
        questions=(),
        warnings=("One tape has no marking: its play time is a wide guess until it has been on a deck.",),
    )


def job(tapes: int = 12) -> Job:
    """The job as booked and worked on: the snapped tapes are spliced and marked."""
    records = tuple(_record(place, draft) for place, draft in enumerate(_drafts(tapes), start=1))
    return Job(
        number=NUMBER,
        customer=CUSTOMER,
        booked_at=BOOKED_AT,
        booked_by="Robin",
        rush=False,
        quote=quote(),
        promise=promise(),
        tapes=records,
        copies=copies(),
        payments=(Payment("deposit", 10000, BOOKED_AT, "Robin"),),
    )


def change(tapes: int = 12) -> tuple[Job, AgreementVersion, tuple[AgreementDifference, ...]]:
    """The order with half its tapes, then with all of them: what the second version changed."""
    booked = job(tapes)
    quoted = tuple(
        QuotedTape(tape.line, tape.n, tape.draft, tape.minutes, tape.verdict) for tape in booked.tapes
    )
    few = replace(booked.quote, tapes=quoted[: tapes // 2])
    dearer = replace(booked.quote.price, gross=MoneyRange(40000, 50000, 60000))
    was = AgreementVersion(
        number=1,
        kind=AgreementKind.QUOTED,
        quote=few,
        codes=tuple(tape.code for tape in booked.tapes)[: tapes // 2],
        ceiling_minor=40000,
        given_away_minor=0,
        fee_minor=0,
        promise=booked.promise,
        reason="",
        agreed_by=None,
        consent=None,
        choice=None,
        at=BOOKED_AT,
        by="Robin",
    )
    now = replace(
        was,
        number=2,
        kind=AgreementKind.REVISED,
        quote=replace(booked.quote, price=dearer, tapes=quoted),
        codes=tuple(tape.code for tape in booked.tapes),
        ceiling_minor=65000,
        reason="the other half was in the attic",
        agreed_by=CUSTOMER.name,
        consent=Consent(CUSTOMER.name, AgreedHow.SIGNATURE, signature().strokes),
    )
    return booked, now, differences(was, now)


def copies() -> tuple[CopyRecord, ...]:
    """Eight discs and a stick."""
    words = ["DVD-R disc"] * 8 + ["USB stick, 64 GB"]
    codes = ["dvd-r"] * 8 + ["usb-64"]
    pairs = enumerate(zip(codes, words, strict=True), start=1)
    return tuple(CopyRecord(number, code, name, None) for number, (code, name) in pairs)


def pickup(tapes: int = 12) -> Pickup:
    """All but the last two tapes handed back, signed, the balance paid."""
    booked = job(tapes)
    balance = Payment("balance", 26697, PICKED_UP_AT, "Ada")
    return Pickup(
        job=replace(booked, payments=(*booked.payments, balance)),
        at=PICKED_UP_AT,
        by="Ada",
        signature=signature(),
        handed_back=tuple(replace(tape, station=Station.HANDED_BACK) for tape in booked.tapes[:-2]),
        still_here=tuple(replace(tape, station=Station.PLAYING) for tape in booked.tapes[-2:]),
        copies=booked.copies,
        final=final(),
        paid_minor=balance.minor,
        due_minor=0,
        head=hashlib.sha256(b"the line before").hexdigest(),
    )


def final() -> Price:
    """What it came to; every figure is known now."""
    charges = (
        Charge("tape", "Copying, per tape", "11 tapes were played", "11 tapes", 2000, flat(22000)),
        Charge("hours", "Play time beyond the first hour of a tape", "as measured", "7 h", 600, flat(4200)),
        Charge("splice", "Splice", "two tapes were snapped", "2 splices", 2500, flat(5000)),
        Charge("dvd-r", "DVD-R disc", "as burned", "8 discs", 300, flat(2400)),
        Charge("usb-64", "USB stick, 64 GB", "to carry the files", "1 stick", 1400, flat(1400)),
        Charge("many", "Ten tapes or more", "5% off copying", "5%", 0, flat(-1100)),
    )
    return _summed(charges, ceiling=52000, deposit=10000)


def signature() -> Signature:
    """Three strokes and a dot, as a hand would leave them."""
    wave = tuple((0.06 + step * 0.004, 0.5 + 0.25 * sin(step / 4) * (1 - step / 140)) for step in range(110))
    loop = tuple((0.6 + step * 0.003 + 0.06 * cos(step / 9), 0.5 + 0.3 * sin(step / 9)) for step in range(90))
    return Signature(CUSTOMER.name, (wave, loop, ((0.1, 0.9), (0.9, 0.82)), ((0.88, 0.2),)), aspect=3.2)


def splice(at_minutes: float = 34.5, cut_cm: float = 5.0, joined_with: Join = Join.TAPE) -> Splice:
    """A join on an NTSC VHS tape at SP: 0.300 s a centimetre, and 2.9 s around it."""
    removed = round(cut_cm * 0.3, 1)
    return Splice(at_minutes, cut_cm, joined_with, removed, round(removed + 2.9, 1), "Ada", BOOKED_AT)


def _drafts(tapes: int) -> list[tuple[int, int, TapeLine]]:
    """Line, place in the line and draft of each tape; the lines come round again for a long job."""
    once = [(line, n, draft) for line, draft in enumerate(LINES, start=1) for n in range(1, draft.count + 1)]
    return list(islice(cycle(once), tapes))


def _verdict(draft: TapeLine) -> Verdict:
    return _KNOWN[draft.findings[0]] if draft.findings else SOUND


def _quoted() -> list[QuotedTape]:
    return [
        QuotedTape(line, n, draft, _MINUTES[draft.format], _verdict(draft))
        for line, n, draft in _drafts(sum(line.count for line in LINES))
    ]


def _record(place: int, numbered: tuple[int, int, TapeLine]) -> TapeRecord:
    line, n, draft = numbered
    verdict = _verdict(draft)
    minutes = _MINUTES[draft.format]
    joins: tuple[Splice, ...] = ()
    if verdict.not_for_reuse:
        joins = (
            (splice(), splice(71.2, 0.0, Join.ADHESIVE))
            if Finding.STRETCHED in draft.findings
            else (splice(12.1, 2.5),)
        )
    cannot = verdict.outcome is Outcome.CANNOT
    return TapeRecord(
        code=tape_code(NUMBER, place),
        line=line,
        n=n,
        format=draft.format,
        format_words=_WORDS[draft.format],
        marking=draft.marking,
        label=draft.label,
        station=Station.CANNOT_BE_PLAYED if cannot else Station.READY,
        since=BOOKED_AT,
        findings=draft.findings,
        verdict=verdict,
        minutes=minutes,
        played_minutes=None if cannot else minutes.likely + place % 7,
        splices=joins,
        not_for_reuse=bool(joins),
        marked_at=datetime(2026, 3, 4, 15, 0, tzinfo=UTC) if joins else None,
        draft=draft,
    )


def _summed(charges: tuple[Charge, ...], *, ceiling: int, deposit: int) -> Price:
    """Sales tax of 8.25 % on top, rounded once a column."""
    net = total(charge.amount for charge in charges)
    tax = MoneyRange(*((column * 825 + 5000) // 10000 for column in (net.low, net.likely, net.high)))
    return Price("USD", charges, net, tax, net + tax, "Sales tax 8.25%, added", ceiling, deposit)


def captured(tapes: int = 12) -> tuple[CapturedFile, ...]:
    """A file of each tape that was played, as the job of as many tapes has them; the second tape has two."""
    played = [tape for tape in job(tapes).tapes if tape.played_minutes is not None]
    files = [_file(tape, n, tape.played_minutes or 0.0) for n, tape in enumerate(played)]
    return (*files, _file(played[1], 99, 12.5))


def _file(tape: TapeRecord, number: int, minutes: float) -> CapturedFile:
    report = Report(
        name=f"{tape.code}-{number:02d}.mp4",
        size_bytes=round(minutes * 39_420_000) + number,
        sha256=hashlib.sha256(f"{tape.code} {number}".encode()).hexdigest(),
        seconds=minutes * 60 + 4,
        has_picture=True,
        sound=Sound.PRESENT,
        stretches=(),
        keep_from=0.0,
        keep_to=minutes * 60 + 4,
        billable_minutes=minutes,
    )
    return CapturedFile(tape.code, report, datetime(2026, 3, 6, 15, 0, tzinfo=UTC), "Ada")


def incident() -> Incident:
    """The third tape was damaged: told, photographed and settled."""
    at = datetime(2026, 3, 5, 16, 20, tzinfo=UTC)
    sha = hashlib.sha256(b"deck 2").hexdigest()
    lines = (
        IncidentLine(
            IncidentKind.DAMAGED, "Chewed by deck 2 at the end of the reel", at, None, None, at, "Ada"
        ),
        IncidentLine(IncidentKind.PHOTO, "", None, f"{sha[:16]}.jpg", sha, at, "Ada"),
        IncidentLine(IncidentKind.TOLD, "By phone, to Łucja herself", at, None, None, at, "Ada"),
        IncidentLine(IncidentKind.SETTLED, "$40.00 off, and the tape goes home", None, None, None, at, "Kim"),
    )
    return Incident(job().tapes[2].code, lines)
