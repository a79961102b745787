"""What is kept of a customer and for how long, all of it as one file, and how it is taken out for good.

May use the store and the other services. The books, the chain and the counts stay as they were.
"""
