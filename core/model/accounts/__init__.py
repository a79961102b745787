"""What the books of a shop hold: how money came and went, counted drawers, invoices and postings."""
