"""Pickup: tapes counted back one by one, the customer told, the balance paid, the receipt signed.

May use `widgets`, `tables` and `toolkit`; knows no other moment.
"""
