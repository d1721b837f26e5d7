"""`witnessmark decode`: what one mark says, by the code book of its years."""

from typing import TYPE_CHECKING, Annotated

import typer

from witnessmark.cli.arguments import (
    AsJson,
    BesideBooks,
    BookName,
    MarkName,
    ModelName,
    ModelYear,
    WorksName,
)
from witnessmark.cli.opening import books_beside, context_of_car, named_mark
from witnessmark.cli.terminal import Sheet, percent, print_outline, show_problems

if TYPE_CHECKING:
    from witnessmark.codebook.book import CodeBook
    from witnessmark.codebook.marks import Mark
    from witnessmark.codebook.records import CarContext, Citation, Point, Remark
    from witnessmark.decoding.records import Alternative, Decoding, FieldMeaning

SHORT = "What one mark means, by a code book."

HELP = """Say what one mark means, by a code book: every meaning that fits, in order.

READING is what stands on the metal, place by place, doubt kept: ? is worn away,
[38] a 3 or an 8, ~ ground off or struck over, _ never struck, ... an unknown
number of places lost, | between the windows of a plate.

\b
Example:
  witnessmark decode tarvane-1952-1961 engine_number 'S2[38]117' --year 1955
"""

PUBLISHED_KEYS = (
    "book",
    "mark",
    "reading",
    "normalised",
    "problems",
    "alternatives",
    "not_listed_share",
    "unread",
)
"""What --json gives for every reading, in this order, as docs/commands.md promises."""

MOST_REMARKS = 6
"""Remarks on a page, unless all are asked for."""

MOST_SPANS = 10
"""Spans of days of one date that a page lists; --json gives all."""

MOST_SHOWN = 12
"""Alternatives listed on a page; --json gives all."""


def decode(
    book: BookName,
    mark: MarkName,
    reading: Annotated[str, typer.Argument(metavar="READING", help="What stands there.")],
    year: ModelYear = None,
    model: ModelName = "",
    works: WorksName = "",
    beside: BesideBooks = None,
    remarks: Annotated[bool, typer.Option("--remarks", help="Show all remarks.")] = False,
    json: AsJson = False,
) -> None:
    """Decode one reading of one mark."""
    from witnessmark.decoding import decode as decode_reading
    from witnessmark.decoding import render_decoding
    from witnessmark.reading import parse_reading

    code_book = books_beside(book, tuple(beside or ()))
    named = named_mark(code_book, mark)
    context = context_of_car(code_book, year, model, works)
    decoding = decode_reading(parse_reading(reading, named), code_book, named, context)
    as_read = _as_read(decoding, code_book, context)
    problems = tuple(dict.fromkeys((*decoding.reading.problems, *decoding.problems)))
    if json:
        rendered = render_decoding(decoding)
        known = _known(decoding, code_book, named, as_read)
        print_outline({key: rendered[key] for key in PUBLISHED_KEYS} | known)
    elif not problems:
        sheet = Sheet()
        sheet.title(f"{named.name} ({named.id}), {code_book.that_describes(named).title}")
        lay_out_years(sheet, named, context)
        lay_out_contradiction(sheet, decoding.of_car, context)
        most_remarks = None if remarks else MOST_REMARKS
        lay_out(sheet, decoding, named, code_book, as_read, most_remarks)
        sheet.show()
    if problems:
        show_problems(problems)
        raise typer.Exit(2)


def _as_read(decoding: "Decoding", book: "CodeBook", context: "CarContext") -> "CarContext":
    """What is given about the car, and where that is open what the mark itself says of it."""
    from witnessmark.codebook.records import CarContext

    fields = decoding.alternatives[0].fields if decoding.alternatives else ()
    said = {field.says: field.value for field in fields if field.listed}
    year, model = said.get("model_year", ""), said.get("model", "")
    works = {works.id for works in book.works} & {said.get("works", "")}
    return CarContext(
        model_year=context.model_year or (int(year) if year.isdigit() else None),
        model=context.model or model or None,
        works=context.works or frozenset(works),
    )


def lay_out(
    sheet: Sheet,
    decoding: "Decoding",
    mark: "Mark",
    book: "CodeBook",
    context: "CarContext",
    most_remarks: int | None,
) -> None:
    """The page of one decoding: what it says, what is known beside it, then why."""
    lay_out_reading(sheet, decoding)
    lay_out_meanings(sheet, decoding, mark)
    lay_out_doubt(sheet, decoding, mark)
    lay_out_notes(sheet, decoding)
    points = known_points(decoding, book, context)
    lay_out_known(sheet, points, book.remarks_on(mark, context), most_remarks)
    lay_out_basis(sheet, decoding, mark, book)


def lay_out_years(sheet: Sheet, mark: "Mark", context: "CarContext") -> None:
    """Says so where the book has no such mark on a car of this year."""
    if not mark.applies.covers(context):
        first, last = mark.applies.first_year, mark.applies.last_year
        sheet.say(
            f"The book has the {mark.name} for {first} to {last}, not for {context.model_year}.", 2
        )


def lay_out_contradiction(sheet: Sheet, said: "CarContext", given: "CarContext") -> None:
    """Says so where the mark surely says another year, works or model than was given."""
    pairs = [
        ("model year", said.model_year, given.model_year),
        ("model", said.model, given.model),
        ("works", next(iter(said.works), None), next(iter(given.works), None)),
    ]
    for name, own, taken in pairs:
        if own is not None and taken is not None and own != taken:
            sheet.say(f"Given was the {name} {taken}; the mark itself says {own}.", 2)


def lay_out_reading(sheet: Sheet, decoding: "Decoding") -> None:
    """What was typed, and what its plain form says otherwise."""
    reading = decoding.reading
    sheet.pairs((("as typed", reading.as_typed), ("normalised", reading.normalised)))
    for change in reading.changes:
        sheet.say(
            f"At place {change.column} of what was typed, {change.typed!r} is read as "
            f"{change.normalised!r}: {change.reason}.",
            indent=2,
        )


def lay_out_meanings(sheet: Sheet, decoding: "Decoding", mark: "Mark") -> None:
    """The alternatives in order, each with its share."""
    sheet.heading("What it says")
    if not decoding.alternatives:
        sheet.say("Undecoded: the book lists nothing that fits. That is no fault of the car.", 2)
    for place, alternative in enumerate(decoding.alternatives[:MOST_SHOWN], start=1):
        if len(decoding.alternatives) > 1:
            sheet.gap()
            share = percent(alternative.share)
            sheet.say(f"{place}. with {share} of what the reading allows", 2)
        sheet.table(_rows(alternative, mark), indent=4)
    left = len(decoding.alternatives) - MOST_SHOWN
    if left > 0:
        sheet.gap()
        sheet.say(f"and {left} more (--json lists all).", 2)


def _rows(alternative: "Alternative", mark: "Mark") -> tuple[tuple[str, str, str], ...]:
    names = {field.id: field.name for field in mark.fields}
    named = tuple((names.get(field.field, field.field), field) for field in alternative.fields)
    return tuple((name, field.code, _beside(name, meaning(field))) for name, field in named)


def _beside(name: str, said: str) -> str:
    """The meaning without the field's own name, which stands beside it already."""
    return "" if said == name else said.removeprefix(f"{name}: ")


def meaning(field: "FieldMeaning") -> str:
    """What one field says, with the days a date code may mean."""
    said = field.meaning or field.value
    shown = [str(span) for span in field.spans[:MOST_SPANS]]
    left = len(field.spans) - len(shown)
    days = " or ".join([*shown, f"{left} more"] if left else shown)
    if days and days not in said:
        said = f"{said}: {days}" if said else days
    return said


def lay_out_doubt(sheet: Sheet, decoding: "Decoding", mark: "Mark") -> None:
    """What the book does not list, what is left over or missing, and the place that decides."""
    names = {field.id: field.name for field in mark.fields}
    said = []
    if decoding.not_listed_share > 0:
        share = percent(decoding.not_listed_share)
        said.append(("not listed", f"{share} of what the reading allows is no listed code"))
    if decoding.unread:
        said.append(("left over", f"{decoding.unread!r}, which no field of this mark explains"))
        said.append(("", "where something is left over, the fields may be cut otherwise"))
    for each in decoding.unexplained:
        name = names.get(each.field, each.field)
        said.append(("unread", f"{each.text!r} as {name}: {each.reason}"))
    for field in decoding.missing:
        said.append(("missing", f"characters for the {names.get(field, field)}"))
    if said:
        sheet.heading("What stays open")
        sheet.pairs(said)
    if decoding.deciding_column is not None and len(decoding.alternatives) > 1:
        sheet.gap()
        sheet.say("The place that decides between the first two:", 2)
        sheet.exactly(decoding.reading.as_typed, 4)
        sheet.exactly(" " * (decoding.deciding_column - 1) + "^", 4)


def lay_out_notes(sheet: Sheet, decoding: "Decoding") -> None:
    """What the rules of the whole number say of it."""
    if decoding.notes:
        sheet.heading("What the number's own rules say")
    for note in decoding.notes:
        sheet.say(f"{note.sentence} [{note.basis.value}]", 2, hanging=2)


def lay_out_known(
    sheet: Sheet,
    points: "tuple[Point, ...]",
    remarks: "tuple[Remark, ...]",
    most_remarks: int | None,
) -> None:
    """What the book knows beside its codes: known cars, and remarks on the mark."""
    if not remarks and not points:
        return
    sheet.heading("What else is known")
    for point in points:
        sheet.say(f"{point.meaning} [{point.citation.basis.value}]", 2, hanging=2)
    for remark in remarks[:most_remarks]:
        sheet.say(f"{remark.sentence} [{remark.citation.basis.value}]", 2, hanging=2)
    left = len(remarks[most_remarks:]) if most_remarks is not None else 0
    if left:
        sheet.gap()
        sheet.say(f"and {left} more remarks (--remarks shows all).", 2)


def known_points(
    decoding: "Decoding", book: "CodeBook", context: "CarContext"
) -> "tuple[Point, ...]":
    """The known cars and ranges in which the numbers of the first alternative lie."""
    fields = decoding.alternatives[0].fields if decoding.alternatives else ()
    found = (p for field in fields for p in book.points_at(field.says, field.value, context))
    return tuple(dict.fromkeys(found))


def _known(
    decoding: "Decoding", book: "CodeBook", mark: "Mark", context: "CarContext"
) -> dict[str, object]:
    """What --json adds where there is something: unread fields, notes, remarks, known cars."""
    from witnessmark.decoding import render_decoding

    rendered = render_decoding(decoding)
    remarks = [
        {"about": r.about, "sentence": r.sentence, **_cited(r.citation)}
        for r in book.remarks_on(mark, context)
    ]
    points = [
        {"number": p.first, "dated": p.dated, "meaning": p.meaning, **_cited(p.citation)}
        for p in known_points(decoding, book, context)
    ]
    added = {
        "unread_in_fields": rendered["unread_in_fields"],
        "notes": rendered["notes"],
        "remarks": remarks,
        "points": points,
    }
    return {key: value for key, value in added.items() if value}


def _cited(citation: "Citation") -> dict[str, str]:
    return {"basis": citation.basis.value, "source": citation.source}


def lay_out_basis(sheet: Sheet, decoding: "Decoding", mark: "Mark", book: "CodeBook") -> None:
    """On what each meaning rests."""
    if not decoding.alternatives:
        return
    sheet.heading("Why")
    names = {item.id: item.name for item in book.items}
    said: dict[str, set[str]] = {}
    for alternative in decoding.alternatives[:MOST_SHOWN]:
        for field in alternative.fields:
            if field.listed:
                rests_on = f"{field.basis.value} ({field.source})"
                said.setdefault(rests_on, set()).add(names.get(field.says, field.says))
    by = book.that_describes(mark)
    sheet.say(f"By the book {by.id}, version {by.version}.", 2)
    for rests_on in sorted(said):
        sheet.say(f"{', '.join(sorted(said[rests_on]))}: {rests_on}", 2, hanging=2)
