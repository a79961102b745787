"""What a history shows of people's work: how long steps take, when people work, how long waits are.

Pure. May use the shelves below. The same lines of history and the same settings give the same beliefs.
"""
