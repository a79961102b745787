"""Counter: a box of tapes becomes a slip while the customer watches, and is booked with one key.

May use `widgets`, `tables` and `toolkit`; knows no other moment.
"""
