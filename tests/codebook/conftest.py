"""Tests of this room start from the tiny book."""

from tests.codebook.tiny_book import tiny

__all__ = ["tiny"]
