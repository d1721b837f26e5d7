"""Code books: what a maker is known to have done, declared and cited.

`open_book` reads a folder of `book.toml` and `tables/*.csv` and gives a
`CodeBook`, every problem with its place, and the digest by which an opinion
remembers the book. `read_date_code` reads a date code under a declared form.
"""

from witnessmark.codebook.book import ANY_CAR, CodeBook
from witnessmark.codebook.conditions import Condition, held
from witnessmark.codebook.date_records import Lag, Point, Run
from witnessmark.codebook.dates import read_date_code, render_date_code
from witnessmark.codebook.folder import (
    changelog_problems,
    find_book,
    open_book,
    shipped_books,
)
from witnessmark.codebook.joined import joined, makers_own
from witnessmark.codebook.marks import (
    SEVENTEEN,
    Alias,
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
    WeekCount,
    YearIs,
)
from witnessmark.codebook.parse import BookOpened
from witnessmark.codebook.records import (
    IN_FULL,
    MODEL,
    MODEL_YEAR,
    Applies,
    Assembly,
    AssemblyKind,
    Basis,
    BodyFamily,
    CarContext,
    Citation,
    CodeRow,
    Item,
    ItemKind,
    KnownException,
    Model,
    NumbersFollow,
    Rule,
    RuleKind,
    Series,
    Strength,
    Works,
)
from witnessmark.codebook.schema import book_schema
from witnessmark.codebook.site_records import Feature, FeatureOutcome, Remark, Settlement, Site
from witnessmark.codebook.sketches import Sketch, sketches

__all__ = [
    "ANY_CAR",
    "IN_FULL",
    "MODEL",
    "MODEL_YEAR",
    "SEVENTEEN",
    "Alias",
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
    "Condition",
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
    "NumbersFollow",
    "Placeholder",
    "Point",
    "Remark",
    "Rule",
    "RuleKind",
    "Run",
    "Series",
    "Settlement",
    "Site",
    "Sketch",
    "Strength",
    "WeekCount",
    "Works",
    "YearIs",
    "book_schema",
    "changelog_problems",
    "find_book",
    "held",
    "joined",
    "makers_own",
    "open_book",
    "read_date_code",
    "render_date_code",
    "shipped_books",
    "sketches",
]
