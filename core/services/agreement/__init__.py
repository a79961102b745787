"""What is agreed with a customer: numbered versions, changes of a booked order, and the watch over the
ceiling.

It uses the store and the pure shelves below it. It promises that nothing above what was agreed is charged
without a yes on record, and that no version is ever changed.
"""
