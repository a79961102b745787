"""The date of a box: its chance, what holds it, what would help, and whether dates were kept.

Pure. May use the shelves below. A chance that is stated is a share of simulated scenarios.
"""
