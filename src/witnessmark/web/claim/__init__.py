"""What is said about the car, by whom, for whom; what is taken as known."""
