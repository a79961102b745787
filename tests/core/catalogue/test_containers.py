"""What things are called together, and that every sentence about tapes has its own for everything else."""

from __future__ import annotations

import pytest

from core.catalogue import containers
from core.model.names import Container, FormatName
from core.wording.messages import knows, say

KINDS = (*(each.value for each in Container), containers.MIXED)


@pytest.mark.parametrize(
    ("names", "kind"),
    [
        ((), "tape"),
        (("vhs", "hi8"), "tape"),
        (("super-8", "film-16mm"), "reel"),
        (("slides", "prints"), "box"),
        (("optical-disc",), "disc"),
        (("vhs", "slides"), "thing"),
        (("of-another-shop",), "tape"),
    ],
)
def test_things_of_one_kind_are_called_by_it(names: tuple[str, ...], kind: str) -> None:
    assert containers.together(map(FormatName, names)) == kind


def test_a_format_is_called_as_it_was_then() -> None:
    assert containers.together([FormatName("super-8")], {"super-8": "box"}) == "box"


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize(
    ("room", "key"),
    [
        ("paper", "quote-made"),
        ("paper", "quote-tapes"),
        ("paper", "quote-count"),
        ("paper", "quote-hours"),
        ("paper", "slip-tapes"),
        ("paper", "slip-bring"),
        ("paper", "receipt-tapes"),
        ("paper", "receipt-not_returned"),
        ("paper", "receipt-still_here"),
        ("paper", "receipt-do_plain"),
        ("paper", "receipt-told_plain"),
        ("spoken", "whose-tapes"),
        ("customer", "tape"),
        ("customer", "tapes"),
    ],
)
def test_every_sentence_that_counts_tapes_has_one_for_every_kind(room: str, key: str, kind: str) -> None:
    found = containers.sentence(room, key, kind)

    assert knows(room, found, "en")
    hours = {"low": "1", "likely": "2", "high": "3"}
    told = say(room, found, None, n=3, count=3, number="three", name="Ada", day="Thursday", **hours)
    assert ("tape" in told.casefold()) is (kind == "tape")
