"""Copies as work: what is on each, how those of an order stand, what a customer is asked about them.

May use what the model may use. Nothing here knows a price.
"""
