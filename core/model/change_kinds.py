"""Kinds of records that change, by what screens show."""

from __future__ import annotations

EVERY_KIND = frozenset({"jobs", "tapes", "shop"})
"""All that screens show, and on which dates depend; ``drafts`` are read by their own counter alone."""

ELSEWHERE = "elsewhere"
"""Stands among the kinds of a change that nobody at this window made."""
