"""The bench's screens; they do not know one another."""
