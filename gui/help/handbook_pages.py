"""The pages of the handbook: Markdown files of `resources/handbook`, and the bench cards of the catalogue."""

from __future__ import annotations

import re
from typing import NamedTuple

from core.model import resource_files
from core.wording.messages import say
from gui.help import bench_card_page
from gui.help.likeness import likeness

FOLDER = "handbook"
OF_SCREENS = ("counter", "phone", "bench", "pickup", "shop", "set-up")
"""The pages that F1 opens, named like the moments."""
OTHERS = ("everywhere", "customer-side", "one-line")
CHANGES = "changelog"
_HEADING = re.compile(r"^#{1,3} +(.+)$", re.MULTILINE)
_MOST = 12
"""Passages that are told of one search."""


class Page(NamedTuple):
    """One page."""

    name: str
    title: str
    text: str
    """Markdown."""


class Passage(NamedTuple):
    """A heading of a page and what stands under it."""

    page: str
    title: str
    """Of the page."""
    heading: str
    text: str


def every() -> tuple[Page, ...]:
    """All pages: of the screens, of what is done in all of them, the bench cards, what is new."""
    files = [_read(name) for name in (*OF_SCREENS, *OTHERS)]
    cards = Page("bench-cards", say("commands", "bench-cards"), bench_card_page.markdown())
    return (*files, cards, _read(CHANGES))


def found(pages: tuple[Page, ...], wanted: str) -> tuple[Passage, ...]:
    """The passages with every word of ``wanted``, slips allowed; those with it in the heading first."""
    rated = []
    for page in pages:
        for passage in passages(page):
            in_text = likeness(wanted, (passage.heading, passage.text))
            if in_text:
                rated.append((in_text + likeness(wanted, (passage.heading,)), passage))
    return tuple(passage for _, passage in sorted(rated, key=lambda each: -each[0])[:_MOST])


def passages(page: Page) -> tuple[Passage, ...]:
    """A page cut at its headings."""
    marks = [*_HEADING.finditer(page.text)]
    ends = [*(mark.start() for mark in marks[1:]), len(page.text)]
    return tuple(
        Passage(page.name, page.title, mark[1].strip(), page.text[mark.end() : end])
        for mark, end in zip(marks, ends, strict=True)
    )


def _read(name: str) -> Page:
    text = resource_files.path(FOLDER, f"{name}.md").read_text(encoding="utf-8")
    heading = _HEADING.search(text)
    return Page(name, heading[1].strip() if heading else name, text)
