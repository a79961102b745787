"""Opening hours, decks, the dispatching rule and the event simulation that works the queue off.

Pure. May use the shelves below. The same queue, clock and draws give the same plan.
"""
