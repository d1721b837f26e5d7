"""Two or three marks as they stand on a car: do they belong together? Nothing is kept."""
