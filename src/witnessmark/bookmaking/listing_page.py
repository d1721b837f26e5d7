"""What books know and what they do not, as a page of Markdown."""

from collections.abc import Iterable, Iterator

from witnessmark.bookmaking.listing import BASES, BookListed, Listed

HEAD = (
    """\
# What the code books know

Made by `make docs`: what stands here is counted in the books. A row counts for each
year for which it holds. Rows from memory explain and never argue; a gap is a gap, and
costs a car nothing. `witnessmark book coverage BOOK` shows the same for one book.
""",
)


def render_listing_page(books: Iterable[BookListed]) -> str:
    """The whole page, books in the given order."""
    listed = tuple(books)
    parts = [HEAD, _overview(listed), *(_book(book) for book in listed)]
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
