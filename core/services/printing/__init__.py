"""What papers of an order are made of, read from the records, and written into a folder."""
