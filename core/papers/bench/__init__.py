"""What stays with the box at the bench.

Pure. The same record gives the same bytes.
"""
