"""A second examiner, who sees places and photographs and nothing that was read."""
