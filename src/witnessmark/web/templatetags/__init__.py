"""What every template of the workshop may call."""
