"""`witnessmark case set`: the plain fields of a case: what is claimed, for whom, when and where."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Annotated

from witnessmark.cli.arguments import CasePath, argument, option
from witnessmark.cli.entry.change import change_case
from witnessmark.cli.entry.typed import claims_of, part
from witnessmark.cli.problems import ItemIsClaimed, NotAPair, typed
from witnessmark.entry import (
    CaseDraft,
    claim_read,
    named_in_a_row,
    plain_fields,
    set_claims,
    set_field,
)
from witnessmark.examination.book_words import item_named

HELP = """FIELD is a field of the case that holds a text, a number or a date: title; built,
made_by and text of the claim; client, purpose, scope and the like; date, place,
light of the visit; price_asked, currency; number and issued_by of the title paper.
Two of one name are told apart by their part: claim.text. Nothing behind the equals
sign empties a field, or takes a claim back. What is claimed is typed as it stands on
the car, in words, or by the book's own name: `book values` lists them.

\b
Example:
  witnessmark case set my-sprint client='A. Buyer' built=1955-05 --claim paint=oxblood
"""

FORM = "FIELD=VALUE"


def case_set(
    case: CasePath,
    fields: Annotated[
        list[str] | None, argument(f"[{FORM}]...", "Fields, and what each is to say.")
    ] = None,
    claim: Annotated[
        list[str] | None, option("ITEM=VALUE", "What is claimed; may be repeated.")
    ] = None,
) -> None:
    """Set fields of the case and of its claim."""

    def enter(draft: CaseDraft) -> Sequence[str]:
        nothing = () if fields or claim else ("",)
        told = [*_set(draft, tuple(fields or nothing)), *_claimed(draft, tuple(claim or ()))]
        read = claim_read(draft.casefile, draft.book) if claim and not draft.problems else ()
        return (named_in_a_row(told), *read)

    change_case(case, "set", enter)


def _set(draft: CaseDraft, pairs: tuple[str, ...]) -> Iterator[str]:
    known = plain_fields()
    for pair in pairs:
        left, equals, _ = pair.partition("=")
        name = left.strip().replace("-", "_")
        named = replace(part(FORM, pair, 0, len(left)), value=name)
        if not equals or not name:
            draft.problems.append(NotAPair(typed(FORM, pair), pair, FORM, "built=1955-05"))
        elif name not in known and draft.book.item(item_named(draft.book, name)):
            draft.problems.append(ItemIsClaimed(named.source, name, pair))
        else:
            yield set_field(draft, named, part(FORM, pair, len(left) + 1, len(pair)))


def _claimed(draft: CaseDraft, claims: tuple[str, ...]) -> tuple[str, ...]:
    """The claimed items; one without a value is claimed no longer."""
    standing = draft.casefile.claim.items
    return set_claims(draft, claims_of(draft.book, claims, draft.problems, standing))
