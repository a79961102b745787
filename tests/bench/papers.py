"""A full receipt of forty tapes against the barest document that embeds one font."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from core.model import resource_files
from core.papers.handover import receipt
from tests.bench.ratio import Ratio, median, timed
from tests.support import invented_job as records

RUNS = 30
AT_MOST = 10.0


def measure() -> Iterator[Ratio]:
    """Medians; the receipt must come out byte for byte the same each time."""
    pickup = records.pickup(40)
    made = {receipt.render(pickup, records.FRONT) for _ in range(2)}
    assert len(made) == 1, "the same receipt came out differently"
    ours = timed(lambda: receipt.render(pickup, records.FRONT), RUNS)
    floor = timed(_bare, RUNS)
    yield Ratio("receipt of 40 tapes", median(ours), "bare TTF document", median(floor), "ms", AT_MOST)


def _bare() -> bytes:
    pdfmetrics.registerFont(TTFont("Floor", str(resource_files.path("fonts", "Lato-Regular.ttf"))))
    paper = BytesIO()
    canvas = Canvas(paper, invariant=1)
    canvas.setFont("Floor", 11)
    canvas.drawString(72, 720, "Receipt for forty cassettes — Łódź")
    canvas.save()
    return paper.getvalue()
