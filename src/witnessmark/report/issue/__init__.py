"""What was issued: an Opinion as it was kept, and the supplement to it."""
