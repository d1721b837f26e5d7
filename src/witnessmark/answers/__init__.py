"""Answers to a question that needs no case: what one mark says, whether marks belong together,
what a book knows. Each is gathered once, rendered for a machine, and set as an outline."""
