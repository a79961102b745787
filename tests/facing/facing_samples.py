"""What the Customer side is shown in pictures and in tests of its layout: boxes from one tape to 120."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

from core.model.inventory import TapeLine
from core.model.job_records import Job
from core.model.money import MoneyRange
from core.model.names import Finding, FormatName
from core.model.own_shop.settings_records import ShopFront
from core.model.price_ways import FlatOffer, LookFirstOffer, PriceWay, WaysToAgree
from core.model.quote_records import Quote, QuotedTape
from core.model.ranges import Range, exactly
from core.model.repair_records import Verdict
from core.papers.booking import signing_sheet
from core.papers.booking.signing_sheet import SigningSheet
from core.papers.handover import pickup_sheet
from core.papers.handover.pickup_sheet import PickupSheet
from gui.customer_side.customer_window import CustomerSide
from tests.support import invented_job
from tests.support.invented_job import CRUSHED, SCRATCHED, SOUND, SPLICED

SIZES = ((1280, 720), (1366, 768), (1920, 1080), (3840, 2160), (1080, 1920))
COUNTS = (1, 8, 40, 120)
POSTED = (
    ("Monday–Friday", "9:00 AM–6:00 PM"),
    ("Saturday", "10:00 AM–2:00 PM"),
    ("Sunday", "closed"),
)
CLOSED = (date(2026, 3, 17),)
FRONT = replace(invented_job.FRONT, welcome="Good to see you. Have a seat while we count your tapes.")

_VERDICTS = {Finding.SNAPPED: SPLICED, Finding.SCRATCHED: SCRATCHED, Finding.CRUSHED: CRUSHED}
_LABELS = ("Christmas 1989", "Łódź, summer 1994", "Grandma’s kitchen", "School play", "Wedding, reel 2")
_KINDS = (
    ("vhs", "T-120", ()),
    ("vhs-c", "TC-30", ()),
    ("hi8", "P6-120", (Finding.SNAPPED,)),
    ("minidv", "DVM60", (Finding.SCRATCHED,)),
    ("betamax", "L-750", ()),
    ("video8", "P6-90", (Finding.CRUSHED,)),
    ("vhs", "T-160", (Finding.SNAPPED,)),
)


def quote(tapes: int, *, is_apart: bool = False, way: PriceWay = PriceWay.BY_PLAY) -> Quote:
    """A box of so many tapes in few lines; ``is_apart``: each tape is a line of its own."""
    drafts = _drafts(tapes, is_apart=is_apart)
    quoted = tuple(
        QuotedTape(line, n, draft, _minutes(draft), _verdict(draft))
        for line, draft in enumerate(drafts, 1)
        for n in range(1, draft.count + 1)
    )
    made = invented_job.quote()
    price = made.price
    ways = WaysToAgree(
        price.due,
        price.ceiling_minor,
        FlatOffer(44900),
        LookFirstOffer(4500, MoneyRange(4500, price.due.likely, price.due.high)),
    )
    inventory = replace(made.inventory, lines=tuple(drafts), way=way)
    return replace(made, tapes=quoted, inventory=inventory, ways=ways)


def job(tapes: int) -> Job:
    """The same box, booked."""
    return replace(invented_job.job(min(tapes, 40)), quote=quote(tapes))


def sheet(tapes: int, *, is_apart: bool = False) -> SigningSheet:
    """What is signed for such a box."""
    made = quote(tapes, is_apart=is_apart)
    told = [*{sentence for tape in made.tapes for sentence in tape.verdict.told}, *made.warnings]
    return signing_sheet.of_quote(made, sorted(told), FRONT, "Kim")


def pickup(tapes: int, *, is_done: bool = False) -> PickupSheet:
    """So many tapes collected, the last third not counted yet."""
    made = invented_job.job(tapes)
    codes = [tape.code for tape in made.tapes if tape.station.may_go_home]
    told = (
        "“Hi8 P6-120 — Grandma’s kitchen” was spliced 34.5 minutes in; about 4.4 s are gone there.",
        "Please never play or record on it again. A splice lets go with age and heat. Watch the copies, "
        "and keep the cassette as a keepsake.",
    )
    found = pickup_sheet.of_job(
        made,
        codes,
        codes[: max(1, 2 * len(codes) // 3)],
        [copy.words for copy in made.copies],
        invented_job.final(),
        told,
        FRONT,
        made.customer.name,
    )
    return replace(found, is_done=is_done)


Scene = Callable[[CustomerSide, int], None]


def scenes(front: ShopFront = FRONT) -> dict[str, Scene]:
    """How each page is brought on show, by its name; the number is that of the tapes."""

    def begin(side: CustomerSide) -> None:
        side.show_front(front)
        side.show_hours(POSTED, CLOSED)

    def greet(side: CustomerSide, _: int) -> None:
        begin(side)
        side.show_quote(None)

    def show_quote(side: CustomerSide, tapes: int) -> None:
        begin(side)
        side.show_quote(quote(tapes))

    def show_lines(side: CustomerSide, tapes: int) -> None:
        begin(side)
        side.show_quote(quote(tapes, is_apart=True))

    def show_ways(side: CustomerSide, tapes: int) -> None:
        show_quote(side, tapes)
        side.show_ways(True)

    def show_booked(side: CustomerSide, tapes: int) -> None:
        begin(side)
        side.show_job(job(tapes))

    def ask_to_sign(side: CustomerSide, tapes: int) -> None:
        begin(side)
        side.ask_to_sign(sheet(tapes, is_apart=tapes > 40))

    def show_pickup(side: CustomerSide, tapes: int) -> None:
        begin(side)
        side.show_moment("pickup")
        side.show_pickup(pickup(tapes))

    return {
        "greeting": greet,
        "quote": show_quote,
        "lines": show_lines,
        "ways": show_ways,
        "booked": show_booked,
        "signing": ask_to_sign,
        "pickup": show_pickup,
    }


def _drafts(tapes: int, *, is_apart: bool) -> list[TapeLine]:
    """The kinds come round again until there are enough; equal ones share a line unless each is apart."""
    drafts: list[TapeLine] = []
    left, n = tapes, 0
    while left > 0:
        name, marking, findings = _KINDS[n % len(_KINDS)]
        share = 1 if is_apart or findings or tapes < 4 else max(2, tapes // 6)
        count = min(left, share)
        drafts.append(
            TapeLine(count, FormatName(name), marking, findings=findings, label=_LABELS[n % len(_LABELS)])
        )
        left, n = left - count, n + 1
    return drafts


def _verdict(draft: TapeLine) -> Verdict:
    found = [_VERDICTS[each] for each in draft.findings if isinstance(each, Finding)]
    return found[0] if found else SOUND


def _minutes(draft: TapeLine) -> Range:
    return exactly(0) if Finding.CRUSHED in draft.findings else Range(34, 58, 122)
