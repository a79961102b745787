"""The chapter on prices: the table to change them, what that would change, every book with who and when."""

from __future__ import annotations

from gui.shop.prices.prices_chapter import PriceChapter

CHAPTER = PriceChapter
