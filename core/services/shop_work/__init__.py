"""What the shop's own history shows of its people's work, read once and put into every plan."""
