"""What was found, what to keep safe and whom to write to, for whoever comes later."""
