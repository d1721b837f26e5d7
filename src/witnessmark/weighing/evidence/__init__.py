"""What was seen of each piece, in the form in which it is weighed: numbers, days, surfaces."""
