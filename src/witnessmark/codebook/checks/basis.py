"""Basis and source of every entry of a book."""

from collections.abc import Iterator

from witnessmark.codebook.checks.problems_names import InventedBasis, UnknownSource
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.records import Basis
from witnessmark.documents.problems import near_word
from witnessmark.problem import Problem


def check_basis(draft: Draft) -> Iterator[Problem]:
    """No basis that a book cannot have, no mistyped key of a source."""
    is_invented = draft.top.yes("invented")
    keys = tuple(draft.ground.sources)
    for each in draft.lists:
        for entry in each.entries if "basis" in each.shape.by_name else ():
            if entry.text("basis") == Basis.INVENTED and not is_invented:
                yield InventedBasis(entry.source("basis"))
            source = entry.text("source")
            # A source in words is welcome, "memory" too; one word much like a key is a slip.
            in_words = " " in source or source in set(Basis)
            if source and not in_words and source not in keys and near_word(source, keys):
                yield UnknownSource(entry.source("source"), source, keys)
