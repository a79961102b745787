"""Where the records of a shop lie."""
