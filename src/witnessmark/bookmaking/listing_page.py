"""What books know and what they do not, as a page of Markdown."""

from collections.abc import Iterable, Iterator

from witnessmark.bookmaking.answered import MOST_NAMES, answered
from witnessmark.bookmaking.listing import BASES, BookListed, Listed

HEAD = (
    """\
# What the code books know

Made by `make docs`: what stands here is counted in the books. A row counts for each
year for which it holds. Rows from memory explain but carry no weight; a gap is a gap and
costs a car nothing. `witnessmark book coverage BOOK` shows the same for one book.
""",
)


FOR_PEOPLE = (
    """\
## For somebody who looks at a car

What can be said today about a car of each maker. A cell names what a mark on the car says; years in
brackets mean that it is so in those years only.

- **Answered**: rests on something published or on common practice, and may speak for or against
  what is claimed of a car. "In part": the list is known to have gaps, so that a code which is
  missing from it says nothing. "By comparison": whether the maker used the number in that year is
  not known, but it stands in several places on the car, or on a paper as well, and these can be
  compared. "Little of it": most of its list is only explained.
- **Only explained**: from memory. The tool says what the mark most likely means, and lets it
  neither help nor harm the car.
- **Not at all**: there is a place for it on the car, and the book has nothing to read it by. It can
  still be written down and photographed.
""",
)
FIGURES = ("## The figures", "")


def _for_people(listed: BookListed) -> Iterator[str]:
    """What one book can answer, a line for each thing that is asked."""
    is_invented = listed.listed.invented == listed.listed.total()
    yield f"### {listed.book.title}{' (an invented maker)' if is_invented else ''}"
    yield ""
    yield _row("", "answered", "only explained", "not at all")
    yield _row(*("---" for _ in range(4)))
    for line in answered(listed):
        cells = (line.answered, line.explained, line.open)
        yield _row(line.subject, *map(_some, cells))
    yield ""


def _some(names: tuple[str, ...]) -> str:
    """The first of these names, and how many more there are."""
    told = "; ".join(names[:MOST_NAMES])
    more = len(names) - MOST_NAMES
    return f"{told}; and {more} more" if more > 0 else told


def render_listing_page(books: Iterable[BookListed]) -> str:
    """The whole page, books in the given order."""
    listed = tuple(books)
    people = (_for_people(book) for book in listed if book.book.models)
    parts = [HEAD, FOR_PEOPLE, *people, FIGURES, _overview(listed), *map(_book, listed)]
    return "\n".join("\n".join(part) for part in parts).rstrip("\n") + "\n"


def _row(*cells: str) -> str:
    """A row of a table; a bar inside a cell is escaped."""
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _counts(listed: Listed) -> tuple[str, ...]:
    return tuple(str(number or "") for number in listed.numbers())


def _overview(books: tuple[BookListed, ...]) -> Iterator[str]:
    names = tuple(basis.value for basis in BASES)
    yield _row("book", "years", "marks", *names, "gaps")
    yield _row(*("---" for _ in range(len(names) + 4)))
    for listed in books:
        book = listed.book
        years = f"{book.first_year} to {book.last_year}"
        gaps, marks = str(len(listed.missing)), str(len(book.marks))
        yield _row(f"[{book.id}](#{book.id})", years, marks, *_counts(listed.listed), gaps)
    yield ""


def _book(listed: BookListed) -> Iterator[str]:
    book = listed.book
    yield f"## {book.id}"
    yield ""
    yield f"{book.title}, version {book.version}."
    yield f"SHA-256 `{listed.sha256}`."
    yield ""
    yield _row("rows of", *(basis.value for basis in BASES))
    yield _row(*("---" for _ in range(len(BASES) + 1)))
    for table in listed.tables:
        yield _row(table.name.replace("_", " "), *_counts(table.listed))
    yield ""
    yield _row("mark", "field", "says", "explained by", "rows by year")
    yield _row(*("---" for _ in range(5)))
    for mark in listed.marks:
        for field in mark.fields:
            yield _row(f"`{mark.mark.id}`", field.name, field.says, field.reads, field.words())
    yield ""
    yield "What is missing:" if listed.missing else "Nothing that is looked for is missing."
    yield ""
    for missing in listed.missing:
        yield f"- `{missing.about}`: {missing.sentence}"
    if listed.missing:
        yield ""
