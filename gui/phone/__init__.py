"""Phone: one box, and the answer to read out while the caller is still speaking.

May use `widgets`, `tables` and `toolkit`; knows no other moment.
"""
