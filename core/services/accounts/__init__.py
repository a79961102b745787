"""The books of the shop: the counted drawer, takings, invoices, and the journal for an accountant."""
