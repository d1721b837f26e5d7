"""What does not fit; which marks speak of one car; the time line."""
