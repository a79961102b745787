"""What a customer gets when the box comes in: quote, claim slip, agreement, and what has changed since.

Pure. The same record gives the same bytes.
"""
