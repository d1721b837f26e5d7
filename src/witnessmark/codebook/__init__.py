"""Code books: what a maker is known to have done, declared and cited.

`open_book` reads a folder of `book.toml` and `tables/*.csv` and gives a
`CodeBook`, every problem with its place, and the digest by which an opinion
remembers the book. `read_date_code` reads a date code under a declared form.
"""

from witnessmark.codebook.book import CodeBook
from witnessmark.codebook.dates import read_date_code, render_date_code
from witnessmark.codebook.folder import BookOpened, find_book, open_book, shipped_books
from witnessmark.codebook.marks import (
    Carried,
    DateForm,
    DatePart,
    DateToken,
    EmptyMeaning,
    Field,
    HowMade,
    Mark,
    MarkKind,
    Placeholder,
)
from witnessmark.codebook.records import (
    Applies,
    Assembly,
    AssemblyKind,
    Basis,
    BodyFamily,
    CarContext,
    Citation,
    CodeRow,
    Feature,
    FeatureOutcome,
    Item,
    ItemKind,
    KnownException,
    Lag,
    Model,
    Rule,
    Series,
    Settlement,
    Site,
    Works,
)
from witnessmark.codebook.schema import book_schema, render_book_schema

__all__ = [
    "Applies",
    "Assembly",
    "AssemblyKind",
    "Basis",
    "BodyFamily",
    "BookOpened",
    "CarContext",
    "Carried",
    "Citation",
    "CodeBook",
    "CodeRow",
    "DateForm",
    "DatePart",
    "DateToken",
    "EmptyMeaning",
    "Feature",
    "FeatureOutcome",
    "Field",
    "HowMade",
    "Item",
    "ItemKind",
    "KnownException",
    "Lag",
    "Mark",
    "MarkKind",
    "Model",
    "Placeholder",
    "Rule",
    "Series",
    "Settlement",
    "Site",
    "Works",
    "book_schema",
    "find_book",
    "open_book",
    "read_date_code",
    "render_book_schema",
    "render_date_code",
    "shipped_books",
]
