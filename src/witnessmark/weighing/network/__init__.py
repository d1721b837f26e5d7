"""The network of one car: its pieces bound together, and their sums."""
