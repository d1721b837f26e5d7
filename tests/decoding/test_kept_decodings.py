"""A decoding that was kept for the same codes is the one that would be worked out afresh."""

import sys
from itertools import permutations
from unittest.mock import patch

import pytest

from witnessmark.codebook import find_book, open_book
from witnessmark.decoding import decode
from witnessmark.reading import parse_reading

MODULE = sys.modules["witnessmark.decoding.decode"]
"""The module, whose name its function has in the room."""


@pytest.mark.parametrize(
    "texts", list(permutations(["010|SPO|283667|423", "04|SPO|491677|423", "4|SPO|491678|423"]))
)
def test_a_number_with_fewer_noughts_has_its_own_places(texts):
    """Of two readings with the same codes one has fewer cells than the other."""
    book = open_book(find_book("ford-1964-1973")).book
    mark = book.mark("build_sheet")
    for text in texts:
        reading = parse_reading(text, mark)
        kept = decode(reading, book, mark)
        with patch.object(MODULE, "same_codes", return_value=None):
            afresh = decode(reading, book, mark)
        assert (kept, kept.field_cells) == (afresh, afresh.field_cells)
        assert kept.deciding_column == afresh.deciding_column
