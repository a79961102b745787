"""Customer side: the same slip in large type, turned to the person whose tapes they are.

May use `widgets`, `tables` and `toolkit`; knows no other moment.
"""
