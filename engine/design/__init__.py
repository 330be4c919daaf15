"""Design: the layout of one method with the fewest attachments, and the verdict on it."""
