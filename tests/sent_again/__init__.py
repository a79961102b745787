"""Every step carried out under an id and sent again: an example of each, and lines that lose the answer."""
