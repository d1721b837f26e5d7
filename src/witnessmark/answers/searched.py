"""What the code books say of a text, and which marks it could be: outlines, and for a machine."""

from typing import TYPE_CHECKING, Any

from witnessmark.answers.meanings import shortened
from witnessmark.answers.picked import picked
from witnessmark.catalogue import as_said, counted, from_to, in_a_row, said
from witnessmark.outline.records import Block, Heading, Outline, Paragraph, Table, TableCell

if TYPE_CHECKING:
    from witnessmark.codebook.search import Hit
    from witnessmark.decoding.guess import Guess
    from witnessmark.decoding.records import FieldMeaning

MOST_HITS = 20
"""Rows on a page, unless all are asked for."""

MOST_GUESSES = 5
"""Answers on a page, unless all are asked for."""

MOST_NAMES = 2
"""Marks named in one cell or line."""

LONGEST = 90
"""Characters of what a row says on a page, unless all are asked for."""

CLEARLY = 7.0
"""From so many bits, more than a hundred to one, the first answer is told as ahead of the next."""


def searched_page(text: str, hits: "tuple[Hit, ...]", most: int | None) -> Outline:
    """The rows that speak of a text, book by book, the closest first."""
    if not hits:
        told = said(
            "No row of these books speaks of it. A list that lacks a code does not say that the "
            "maker never used it."
        )
        return Outline(said("“{text}” in the code books", text=text), (Paragraph(told),))
    shown = hits[:most]
    blocks: list[Block] = []
    for book in dict.fromkeys(hit.book for hit in shown):
        rows = tuple(_hit_row(hit, LONGEST if most else None) for hit in shown if hit.book == book)
        head = (said("Code or name"), said("What it says"), said("Read on"), said("Years, basis"))
        blocks += [Heading(book), Table(head, rows, (1.2, 2.2, 2.2, 1.2), is_dense=True)]
    if len(shown) < len(hits):
        blocks.append(
            Paragraph(said("{number} more rows: --all", number=len(hits) - len(shown)), "quiet")
        )
    rows_found = counted("{number} row", "{number} rows", len(hits))
    title = said("“{text}” in the code books: {rows}", text=text, rows=rows_found)
    return Outline(title, tuple(blocks))


def _hit_row(hit: "Hit", longest: int | None) -> tuple[TableCell, ...]:
    field = in_a_row(hit.fields[:MOST_NAMES], ", ")
    years = from_to(hit.applies.first_year, hit.applies.last_year) if hit.applies else ""
    return (
        TableCell(hit.label, mono=True),
        TableCell(shortened(hit.text, longest) if longest else hit.text),
        TableCell(field, (_some(hit.marks),) if hit.marks else ()),
        TableCell(years, (as_said(hit.citation.basis.value),) if hit.citation else ()),
    )


def _some(names: tuple[str, ...]) -> str:
    """The first names, and how many more there are."""
    shown = in_a_row(names[:MOST_NAMES], ", ")
    left = len(names) - MOST_NAMES
    return said("{names} and {number} more", names=shown, number=left) if left > 0 else shown


def render_searched(hits: "tuple[Hit, ...]") -> list[dict[str, Any]]:
    """The same for a machine, every row of it."""
    return [
        {
            **picked(hit, "book", "table", "label", "text", "fields", "marks"),
            "first_year": hit.applies.first_year if hit.applies else None,
            "last_year": hit.applies.last_year if hit.applies else None,
            "works": sorted(hit.applies.works) if hit.applies else [],
            "models": sorted(hit.applies.models) if hit.applies else [],
            "basis": hit.citation.basis.value if hit.citation else None,
            "source": hit.citation.source if hit.citation else None,
            "closeness": hit.closeness.name.lower().replace("_", " "),
        }
        for hit in hits
    ]


def guessed_page(text: str, guesses: "tuple[Guess, ...]", most: int | None) -> Outline:
    """What a text could be, the likeliest first, with what speaks for each and against it."""
    title = said("What “{text}” could be", text=text)
    if not guesses:
        told = said(
            "Nothing in these books looks like it. Read it again with your doubts (? for a "
            "character that is worn away), or look for a part of it: witnessmark book search TEXT"
        )
        return Outline(title, (Paragraph(told),))
    blocks: list[Block] = [Paragraph(guessed_in_short(guesses), "strong")]
    for number, each in enumerate(guesses[:most], start=1):
        blocks += [Heading(f"{number}. {guessed_marks(each)}"), *guessed_because(each)]
    if most is not None and len(guesses) > most:
        left = said("{number} less likely answers: --all", number=len(guesses) - most)
        blocks.append(Paragraph(left, "quiet"))
    blocks.append(
        Paragraph(
            said(
                "This says what a text looks like, not what the car is: type two or three of its "
                "marks and compare them (witnessmark compare)."
            ),
            "quiet",
        )
    )
    return Outline(title, tuple(blocks))


def guessed_marks(each: "Guess") -> str:
    """The marks that would read like this, by name."""
    return _some(tuple(mark.name for mark in each.marks))


def guessed_because(each: "Guess") -> tuple[Block, ...]:
    """The book, and what speaks for one answer and against it."""
    speaks = (Paragraph(_speaks(said_there)) for said_there in each.speaks)
    names = in_a_row(each.against, ", ")
    against = (Paragraph(said("against it: {names}", names=names)),) if each.against else ()
    return (Paragraph(_of_book(each)), *speaks, *against)


def guessed_in_short(guesses: "tuple[Guess, ...]") -> str:
    """Whether the first answer stands out."""
    books = tuple(dict.fromkeys(each.book.title for each in guesses))
    if len(guesses) == 1 or guesses[0].bits - guesses[1].bits >= CLEARLY:
        return said("One answer stands out: {book}.", book=guesses[0].book.title)
    if len(books) == 1:
        return said("Several marks of one book would read like this: {book}.", book=books[0])
    return said("Several books have marks that would read like this.")


def _of_book(each: "Guess") -> str:
    times = 2.0**each.bits
    told = said("over a million") if times > 1e6 else said("about {number}", number=_round(times))
    return said(
        "{book} ({id}); such a text is {times} times likelier here than by chance",
        book=each.book.title,
        id=each.book.id,
        times=told,
    )


def _round(number: float) -> str:
    """To one figure: 17,203 is 20,000."""
    return f"{float(f'{number:.0e}'):,.0f}"


def _speaks(meaning: "FieldMeaning") -> str:
    basis = as_said(meaning.basis.value)
    return f"{meaning.code}: {meaning.meaning} [{basis}]"


def render_guessed(guesses: "tuple[Guess, ...]") -> list[dict[str, Any]]:
    """The same for a machine."""
    return [
        {
            "book": each.book.id,
            "marks": [mark.id for mark in each.marks],
            "bits": round(each.bits, 2),
            "speaks": [
                picked(meaning, "says", "code", "value", "meaning", "basis", "source")
                for meaning in each.speaks
            ],
            "against": each.against,
        }
        for each in guesses
    ]
