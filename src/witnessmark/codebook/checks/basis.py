"""Basis and source of every entry of a book."""

from collections.abc import Iterator

from witnessmark.codebook.checks.problems_names import InventedBasis, UnknownSource
from witnessmark.codebook.draft import Draft
from witnessmark.codebook.records import Basis
from witnessmark.documents.entries import Entry
from witnessmark.documents.problems import near_word
from witnessmark.problem import Problem


def check_basis(draft: Draft) -> tuple[Problem, ...]:
    """No basis that a book cannot have, no mistyped key of a source."""
    return tuple(_check(draft))


def _check(draft: Draft) -> Iterator[Problem]:
    is_invented = draft.top.yes("invented")
    keys = tuple(draft.ground.sources.values)
    for entry in cited(draft):
        if entry.text("basis") == Basis.INVENTED and not is_invented:
            yield InventedBasis(entry.source("basis"))
        source = entry.text("source")
        # A source in words is welcome, "memory" too; one word much like a key is a slip.
        in_words = " " in source or source in set(Basis)
        if source and not in_words and source not in keys and near_word(source, keys):
            yield UnknownSource(entry.source("source"), source, keys)


def cited(draft: Draft) -> Iterator[Entry]:
    """All entries that have a basis and a source, those inside others too."""
    waiting = [
        draft.top,
        *(
            each.entry
            for placed in (
                draft.works,
                draft.body_families,
                draft.models,
                draft.codes,
                draft.series,
                draft.rules,
                draft.lags,
                draft.sites,
                draft.features,
                draft.exceptions,
                draft.settlements,
                draft.runs,
                draft.remarks,
                draft.points,
            )
            for each in placed
        ),
    ]
    while waiting:
        entry = waiting.pop()
        if "basis" in entry.values:
            yield entry
        for name, value in entry.values.items():
            # The keys of [sources] are the author's own and may be any word.
            if isinstance(value, tuple) and name != "sources":
                waiting += [each for each in value if isinstance(each, Entry)]
