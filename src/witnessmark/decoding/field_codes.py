"""The codes that a book lists for a field, and what each means for the cars in question."""

from dataclasses import dataclass

from witnessmark.catalogue import said, spoken
from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.marks import Field, Mark
from witnessmark.codebook.records import Applies, CarContext, CodeRow
from witnessmark.decoding.kept import kept, table_rows
from witnessmark.decoding.options import Asked
from witnessmark.decoding.records import FieldMeaning


@dataclass(frozen=True, slots=True)
class ListedCode:
    """A code and what each of its rows means; `is_outside` where none holds for this car."""

    code: str
    meanings: tuple[FieldMeaning, ...]
    is_outside: bool


@dataclass(frozen=True, slots=True)
class FieldCodes:
    """The codes of a field, and its alphabet with the characters that only its codes have."""

    listed: tuple[ListedCode, ...]
    alphabet: str


def field_codes(asked: Asked, field: Field) -> FieldCodes:
    """Every code of the field's table, with the rows that hold for this car or else all."""
    book, mark, context = asked.book, asked.mark, asked.context
    field_asked = (field.id, field.says, field.table, field.alphabet)
    question = (*field_asked, mark.applies, context, spoken())
    return kept(book, question, lambda: _field_codes(book, mark, field, context))


def _field_codes(book: CodeBook, mark: Mark, field: Field, context: CarContext) -> FieldCodes:
    rows_of: dict[str, list[CodeRow]] = {}
    for row in table_rows(book, field.table):
        rows_of.setdefault(row.code, []).append(row)
    listed = tuple(_listed(book, mark, field, context, rows) for rows in rows_of.values())
    return FieldCodes(listed, "".join(dict.fromkeys(field.alphabet + "".join(rows_of))))


def _listed(
    book: CodeBook, mark: Mark, field: Field, context: CarContext, rows: list[CodeRow]
) -> ListedCode:
    """One code with the rows that hold for this car, or else with all its rows."""
    meeting = [
        row for row in rows if row.applies.covers(context) and _meet(row.applies, mark.applies)
    ]
    holding = [row for row in meeting if not _is_another(book, field.says, row.value, context)]
    shown = holding or meeting or rows
    is_limited = not meeting or any(row.applies != shown[0].applies for row in shown)
    meanings = tuple(_meaning(book, field, row, is_limited) for row in shown)
    return ListedCode(rows[0].code, meanings, is_outside=not holding)


def _is_another(book: CodeBook, item: str, value: str, context: CarContext) -> bool:
    """Is this the year, works or model of another car than the one in question?"""
    match item:
        case "model_year":
            return context.model_year is not None and value != str(context.model_year)
        case "model":
            return context.model is not None and value != context.model
        case _:
            same_role = {works.id for works in book.works if works.role == item}
            known = same_role & context.works
            return bool(known) and value in same_role and value not in known


def _meet(first: Applies, second: Applies) -> bool:
    """Is there a car for which both hold?"""
    return (
        first.first_year <= second.last_year
        and second.first_year <= first.last_year
        and (not first.works or not second.works or bool(first.works & second.works))
        and (not first.models or not second.models or bool(first.models & second.models))
    )


def _meaning(book: CodeBook, field: Field, row: CodeRow, is_limited: bool) -> FieldMeaning:
    """The meaning of one row; with its years, works and models where they matter."""
    meaning = row.meaning
    if is_limited:
        meaning = listed_for(meaning, _limits(book, row.applies))
    if row.disputed:
        meaning = said("{meaning} (sources disagree)", meaning=meaning)
    return FieldMeaning(
        field=field.id,
        code=row.code,
        says=field.says,
        value=row.value,
        meaning=meaning,
        basis=row.citation.basis,
        source=row.citation.source,
    )


def listed_for(meaning: str, limits: str) -> str:
    """A meaning with the years, works and models that it is listed for."""
    return said("{meaning} (listed for {limits})", meaning=meaning, limits=limits)


def _limits(book: CodeBook, applies: Applies) -> str:
    """The years, works and models of a row in words."""
    first, last = applies.first_year, applies.last_year
    years = str(first) if first == last else said("{first} to {last}", first=first, last=last)
    parts = [years]
    parts += [works.name for works in book.works if works.id in applies.works]
    parts += [model.name for model in book.models if model.id in applies.models]
    return ", ".join(parts)
