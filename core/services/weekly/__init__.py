"""The last weeks of the shop, counted from its records."""
