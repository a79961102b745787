"""Labels for the cassettes, and the stock they are printed on.

Pure. The same record gives the same bytes.
"""
