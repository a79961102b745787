"""Reads a PDF back: its words, where they stand, its strokes, the codes a scanner sees."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager

import pikepdf
import pypdfium2
import pypdfium2.raw as raw
import zxingcpp

Box = tuple[float, float, float, float]
"""Left, bottom, right, top in points."""


@contextmanager
def opened(paper: bytes) -> Iterator[pypdfium2.PdfDocument]:
    document = pypdfium2.PdfDocument(paper)
    try:
        yield document
    finally:
        document.close()


def pages(paper: bytes) -> list[str]:
    """The words of each page, lines joined by single spaces."""
    with opened(paper) as document:
        return [" ".join(_words_of(page).split()) for page in document]


def words(paper: bytes) -> str:
    """The words of the whole paper."""
    return " ".join(pages(paper))


def text_boxes(paper: bytes) -> list[tuple[int, str, Box]]:
    """Every stretch of text with its page (from 0) and its box."""
    found = []
    with opened(paper) as document:
        for number, page in enumerate(document):
            text = page.get_textpage()
            for index in range(text.count_rects()):
                box = text.get_rect(index)
                found.append((number, text.get_text_bounded(*box), box))
    return found


def size(paper: bytes) -> tuple[float, float]:
    """Width and height of the first page in points."""
    with opened(paper) as document:
        width, height = document[0].get_size()
    return float(width), float(height)


def scanned(paper: bytes, dpi: int = 300) -> list[tuple[str, str]]:
    """Kind and text of every code on the paper as printed at ``dpi``."""
    with opened(paper) as document:
        images = [page.render(scale=dpi / 72).to_pil().convert("L") for page in document]
    return [(code.format.name, code.text) for image in images for code in zxingcpp.read_barcodes(image)]


def path_boxes(paper: bytes, page: int) -> list[Box]:
    """The box of every drawn path on a page."""
    with opened(paper) as document:
        objects = document[page].get_objects(filter=(raw.FPDF_PAGEOBJ_PATH,))
        return [tuple(thing.get_bounds()) for thing in objects]


def fonts(paper: bytes) -> dict[str, bool]:
    """Every font of the file and whether its glyphs are inside the file."""
    found = {}
    with pikepdf.open(io.BytesIO(paper)) as document:
        for thing in document.objects:
            if isinstance(thing, pikepdf.Dictionary) and thing.get("/Type") == "/Font":
                descriptor = thing.get("/FontDescriptor")
                found[str(thing["/BaseFont"])] = descriptor is not None and "/FontFile2" in descriptor
    return found


def about(paper: bytes) -> dict[str, str]:
    """Title, author and language as a reader shows them."""
    with pikepdf.open(io.BytesIO(paper)) as document:
        return {
            "title": str(document.docinfo["/Title"]),
            "author": str(document.docinfo["/Author"]),
            "language": str(document.Root["/Lang"]),
            "shows title": str(document.Root["/ViewerPreferences"]["/DisplayDocTitle"]),
        }


def _words_of(page: pypdfium2.PdfPage) -> str:
    return str(page.get_textpage().get_text_range()).replace("\ufffe", "-")


def pictures(paper: bytes) -> list[Box]:
    """The box of every picture, page after page."""
    with opened(paper) as document:
        return [
            found.get_bounds() for page in document for found in page.get_objects([raw.FPDF_PAGEOBJ_IMAGE])
        ]
