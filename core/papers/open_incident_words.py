"""An open incident in two sentences, as the command line and the Shop screen tell it."""

from __future__ import annotations

from core.model.incident_records import OpenIncident
from core.papers import tape_words
from core.wording import locale_figures
from core.wording.messages import say


def what(found: OpenIncident, timezone: str) -> str:
    """Which tape, whether lost or damaged, when, and what was written down first."""
    opening = found.incident.opening
    return say(
        "incidents",
        "open-line",
        code=locale_figures.tape_code(found.incident.tape),
        tape=tape_words.full_name(found.tape),
        kind=opening.kind.value,
        when=locale_figures.moment(found.happened, timezone),
        words=opening.words,
    )


def next_step(found: OpenIncident) -> str:
    """Whom to tell, or that it is to be settled with them."""
    phone = locale_figures.phone(found.phone) if found.phone else say("incidents", "no-phone")
    return say("incidents", "open-next", next=found.next.value, name=found.customer, phone=phone)
