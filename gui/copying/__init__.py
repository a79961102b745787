"""What Bench and Pickup share about copies: the form on which each is made, checked, linked or taken back.

May use the shared widgets, the call card and the steps of the services. Promises: each step is run once.
"""
