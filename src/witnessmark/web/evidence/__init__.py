"""A card for each place: what was read and seen there, and its photographs."""
