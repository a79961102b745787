"""What `verify` compares: the chain, every row with its digest, and what lines of history say of things."""
