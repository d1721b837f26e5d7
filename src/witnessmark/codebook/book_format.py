"""The format of a code book: what book.toml may hold, and the rows of each table."""

from witnessmark.codebook.date_records import Lag, Point, Run
from witnessmark.codebook.marks import DateForm, Mark, MarkLayout
from witnessmark.codebook.piece_records import Piece
from witnessmark.codebook.records import (
    Assembly,
    BodyFamily,
    CarRow,
    CodeRow,
    Item,
    KnownException,
    Model,
    Rule,
    Series,
    Works,
)
from witnessmark.codebook.site_records import Feature, Remark, Settlement, Site
from witnessmark.documents.row import (
    Row,
    citations,
    free_text,
    identifier,
    many_rows,
    number,
    word,
    year,
    yes_no,
)
from witnessmark.documents.shapes import Key, Shape

FORMAT = "witnessmark-book"
FORMAT_VERSION = 2


class Top(Row, called="a code book"):
    """A code book: cited tables of one maker and span of years."""

    format = word("Always witnessmark-book.", (FORMAT,), instead=None)
    format_version = number(
        "Always 2; a book of format 1 is read as it is.", FORMAT_VERSION, FORMAT_VERSION
    )
    id = identifier("Its id, the same as the name of its folder.")
    title = free_text("Its title: Tarvane, 1952 to 1961.")
    maker = free_text("The maker of the cars.")
    version = free_text("Its version, such as the day of its last change.")
    first_year = year("First model year that it covers.")
    last_year = year("Last model year that it covers.")
    summary = free_text("What it covers, in one or two sentences.", default="")
    invented = yes_no("Is the maker invented? Only then may a basis be.")
    sources = citations("Sources by a short key, each as it is cited in full.")
    item = many_rows("What marks say about the car.", Item, default=())
    assembly = many_rows("The parts that carry marks.", Assembly, default=())
    piece = many_rows("What is made and replaced as one.", Piece, default=())
    date_form = many_rows("How date codes are built.", DateForm, default=())
    layout = many_rows("Fields that several marks share.", MarkLayout, default=())
    mark = many_rows("The marks.", Mark, default=())


ROWS: dict[str, type[Row]] = {
    "works": Works,
    "body_families": BodyFamily,
    "models": Model,
    "codes": CodeRow,
    "series": Series,
    "rules": Rule,
    "lags": Lag,
    "sites": Site,
    "features": Feature,
    "exceptions": KnownException,
    "settlements": Settlement,
    "runs": Run,
    "remarks": Remark,
    "points": Point,
}
"""The rows of each table by the stem of its file; codes may also stand in codes-*.csv."""

BOOK = Top.shape
TABLES = {stem: row.shape for stem, row in ROWS.items()}

_FOR_ALL = CarRow.shape.names()


def render_tables() -> str:
    """What docs/codebook.md says of every table and column, in Markdown."""
    return "\n".join(map(_page_of, TABLES.values()))


def _page_of(shape: Shape) -> str:
    """One table: its own columns, then those that all tables have."""
    own = [key for key in shape.keys if key.name not in _FOR_ALL]
    shared = ", ".join(f"`{key.name}`" for key in shape.keys if key.name in _FOR_ALL)
    lines = [f"**{shape.name}**: {shape.about}", "", "| column | what it holds |", "|---|---|"]
    for key in own:
        may_be_empty = "" if key.required else " (or empty)"
        lines.append(f"| `{key.name}`{may_be_empty} | {key.about}{_words(key)} |")
    return "\n".join((*lines, f"| {shared} | as in every table |", ""))


def _words(key: Key) -> str:
    return f" One of: {', '.join(key.words)}." if len(key.words) > 1 else ""
