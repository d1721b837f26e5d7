"""Papers of a page or two: what is filled in beside the car, and what its numbers say."""
