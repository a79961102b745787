"""What a customer gets when tapes go home: the receipt and the list of files.

Pure. The same record gives the same bytes.
"""
