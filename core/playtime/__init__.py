"""What is believed about the minutes on a tape, learned from the shop's own tapes, and what a cut takes away.

Pure. May use the shelves below. The same draft and the same habits give the same belief.
"""
