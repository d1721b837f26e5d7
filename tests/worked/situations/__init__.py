"""What the weighing must get right: whole cars, one thing changed, an inspector's answer."""
