"""Shop: the owner's chapters: the deck week, promises under review, plans, and what the figures rest on.

May use `widgets`, `tables` and `toolkit`; knows no other moment.
"""
