"""A new token put on paper."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from core.model.own_shop.settings_records import ShopFront
from core.services import paper_files
from core.services.proving.access_tokens import NewToken


def written(made: NewToken, person: str, front: ShopFront, today: date, folder: Path) -> Path:
    """The token as a paper in ``folder``, which was found writable."""
    from core.papers import token_paper

    page = token_paper.render(made.token, made.kept.name, person, made.kept.until, front)
    return paper_files.write(folder, f"token-{today.isoformat()}", page)
