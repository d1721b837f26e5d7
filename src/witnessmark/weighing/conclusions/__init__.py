"""What is concluded of a car: what does not fit, how strongly it speaks, how far that is steady."""
