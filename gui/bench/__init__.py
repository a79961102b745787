"""Bench: a tape by its code, all that is known of it, the repair record, and where it goes next.

May use `widgets`, `tables` and `toolkit`; knows no other moment.
"""
