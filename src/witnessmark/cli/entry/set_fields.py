"""`witnessmark case set`: the plain fields of a case: what is claimed, for whom, when and where."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Annotated, Any

from witnessmark.casefile import Casefile
from witnessmark.catalogue import said
from witnessmark.cli.arguments import CasePath, argument, option
from witnessmark.cli.cases import claim_read
from witnessmark.cli.entry.draft import CaseDraft, Entered, change_case, named_in_a_row
from witnessmark.cli.entry.typed import claims_of, part
from witnessmark.cli.problems import ItemIsClaimed, NotAPair, UnknownName, typed
from witnessmark.documents.open_row import OpenRow
from witnessmark.documents.row import Column
from witnessmark.documents.shapes import Kind
from witnessmark.examination.book_words import item_named
from witnessmark.wording.case_words import field_word

HELP = """FIELD is a field of the case that holds a text, a number or a date: title; built,
made_by and text of the claim; client, purpose, scope and the like; date, place,
light of the visit; price_asked, currency; number and issued_by of the title paper.
Two of one name are told apart by their part: claim.text. Nothing behind the equals
sign empties a field, or takes a claim back.

\b
Example:
  witnessmark case set my-sprint client='A. Buyer' built=1955-05 --claim paint=oxblood
"""

FORM = "FIELD=VALUE"
KEPT = ("format", "format_version", "id", "book", "beside")
PLAIN = (Kind.TEXT, Kind.NUMBER, Kind.AMOUNT, Kind.DAY, Kind.MOMENT, Kind.PARTIAL_DATE)


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


def plain_fields() -> dict[str, tuple[str, str, Column]]:
    """The fields that can be set, by name where only one has it, and by part and name: the part
    (empty for the case itself), the field and its column."""
    found: dict[str, tuple[str, str, Column]] = {}
    counts: dict[str, int] = {}
    for part_name, row in _parts():
        for name, column in row.fields_declared().items():
            if column.key.kind in PLAIN and not (not part_name and name in KEPT):
                found[f"{part_name}.{name}" if part_name else name] = (part_name, name, column)
                counts[name] = counts.get(name, 0) + 1
    alone = {each[1]: each for each in found.values() if counts[each[1]] == 1}
    return alone | found


def _parts() -> Iterator[tuple[str, type[OpenRow]]]:
    """The case and the parts that it has once."""
    yield "", Casefile
    for name, column in Casefile.fields_declared().items():
        if column.key.kind is Kind.TABLE and isinstance(default := column.default(), OpenRow):
            yield name, type(default)


def _set(draft: CaseDraft, pairs: tuple[str, ...]) -> Iterator[str]:
    known = plain_fields()
    for pair in pairs:
        left, equals, right = pair.partition("=")
        name = left.strip().replace("-", "_")
        if not equals or not name:
            draft.problems.append(NotAPair(typed(FORM, pair), pair, FORM, "built=1955-05"))
        elif name not in known and draft.book.item(item_named(draft.book, name)):
            source = part(FORM, pair, 0, len(left)).source
            draft.problems.append(ItemIsClaimed(source, name, pair))
        elif name not in known:
            source = part(FORM, pair, 0, len(left)).source
            draft.problems.append(UnknownName(source, "field", name, "of a case", tuple(known)))
        else:
            part_name, own, column = known[name]
            value = part(FORM, pair, len(left) + 1, len(pair))
            _put(draft, part_name, own, replace(value, value=_valued(column, str(value.value))))
            yield said(
                "{field}: {value}", field=field_word(own), value=right.strip() or said("nothing")
            )


def _valued(column: Column, text: str) -> Any:
    """The value that a text means for a field: a number where it is one, nothing where it is
    empty; anything else is told by the check of the field."""
    if not text:
        return None if column.default() is None else ""
    try:
        match column.key.kind:
            case Kind.NUMBER:
                return int(text)
            case Kind.AMOUNT:
                found = float(text)
                return found if math.isfinite(found) else text
    except ValueError:
        return text
    return text


def _put(draft: CaseDraft, part_name: str, name: str, given: Entered) -> None:
    """Another value for a field of the case or of a part of it."""
    owner = getattr(draft.casefile, part_name) if part_name else draft.casefile
    made = draft.put_in(owner, {name: given}, (part_name,) if part_name else ())
    if isinstance(made, Casefile):
        draft.casefile = made
    elif made is not None:
        changed: dict[str, Any] = {part_name: made}
        draft.casefile = replace(draft.casefile, **changed)


def _claimed(draft: CaseDraft, claims: tuple[str, ...]) -> Iterator[str]:
    """The claimed items; one without a value is claimed no longer."""
    items = dict(draft.casefile.claim.items)
    for item, claimed in claims_of(draft.book, claims, draft.problems, may_be_empty=True).items():
        draft.given[("claim", "items", item)] = claimed.source
        items |= {item: claimed.value}
        told = claimed.value or said("not claimed")
        yield said("{item}: {value}", item=draft.names.item(item), value=told)
    items = {item: value for item, value in items.items() if value}
    if claims:
        now = replace(draft.casefile.claim, items=items)
        draft.casefile = replace(draft.casefile, claim=now)
