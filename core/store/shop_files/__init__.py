"""The files of a shop: written for good, copied, locked, dumped, and put back whole."""
