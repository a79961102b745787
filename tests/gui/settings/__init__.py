"""The pages on which a shop is set up."""
