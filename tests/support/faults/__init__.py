"""What can go wrong around the records, for tests to bring about."""
