"""The declared format of book.toml: every key, what it may hold and what it is for."""

from witnessmark.codebook.marks import Carried, DatePart, HowMade, MarkKind, WeekCount, YearIs
from witnessmark.codebook.piece_records import SOLD, UNKNOWN, PieceKind, ServiceNumbers, Stage
from witnessmark.codebook.records import AssemblyKind, Basis, ItemKind
from witnessmark.documents.shapes import (
    CANONICAL,
    CANONICAL_NAME,
    Key,
    Kind,
    Shape,
    identifier,
    number,
    text,
    word,
    year,
)

FORMAT = "witnessmark-book"
FORMAT_VERSION = 2
SEVENTEEN = "seventeen characters"
RULE_TABLES = {
    SEVENTEEN: (
        "characters",
        "check_digits",
        "letter_values",
        "look_alikes",
        "never_in_year",
        "never_used",
        "regions",
        "weights",
    )
}
"""The code tables that the rules of a whole number read, by the name of the rules."""

LONGEST_FIELD = 64
"""Most characters that a field, a number or a part of a date can have."""

INCOMPLETE = "Are its rows known to leave gaps? Then missing years are no fault of the book."

# A faulty basis is taken as memory, so that the row explains and never argues.
CITATION = (
    word(
        "basis",
        "What it rests on: published, common practice, memory (explains, never argues), "
        "or invented where the maker is.",
        # What is assumed stands in the model's own tables, never in a book.
        tuple(basis for basis in Basis if basis is not Basis.ASSUMED),
        Basis.MEMORY,
    ),
    text("source", "Who says so: a key of [sources], or the source in words.", required=True),
)
APPLIES = (
    year("first_year", "First model year for which it holds; the book's first where missing."),
    year("last_year", "Last model year for which it holds; the book's last where missing."),
    Key("works", Kind.TEXTS, "The works for which it holds; all where empty."),
    Key("models", Kind.TEXTS, "The models for which it holds; all where empty."),
)
ITEM = Shape(
    "an item",
    "Something that a mark says about the car.",
    (
        identifier("id", "Its id, which fields name under `says`.", required=True),
        text("name", "What it is called in sentences: chassis number.", required=True),
        word(
            "kind",
            "A number is compared place by place, a code by its value, a date by its days.",
            tuple(ItemKind),
            ItemKind.CODE,
        ),
        text("alphabet", "The characters that a number can have.", default="0123456789"),
        number("length", "How many characters a number has in full.", 0, LONGEST_FIELD, default=0),
        Key(
            "numbers_follow",
            Kind.TEXT,
            "What their order follows: the cars as they were built (build), orders, or unknown.",
            words=("build", "orders", UNKNOWN),
            default=UNKNOWN,
        ),
        Key("identification", Kind.YES_NO, "Is it the number by which the maker names the car?"),
        identifier("home", "The assembly whose own number it is; empty for the identity bearer."),
        Key("incomplete", Kind.YES_NO, INCOMPLETE),
    ),
)
ASSEMBLY = Shape(
    "an assembly",
    "A part of the car that carries marks and can come from another car.",
    (
        identifier("id", "Its id, which marks name under `assembly`.", required=True),
        text("name", "What it is called in sentences: frame.", required=True),
        word("kind", "What kind of part it is.", tuple(AssemblyKind), AssemblyKind.BODY),
        Key("identity_bearer", Kind.YES_NO, "Does it bear the identity? One or two do."),
        *APPLIES,
        *CITATION,
    ),
)
PIECE = Shape(
    "a piece",
    "What is made and replaced as one: a block, a door, a plate, a paper.",
    (
        identifier("id", "Its id, which marks name under `piece`.", required=True),
        text("name", "What it is called in sentences: engine block.", required=True),
        word("kind", "What kind of piece it is.", tuple(PieceKind), PieceKind.FITTED),
        identifier("assembly", "The assembly it belongs to; empty for plates and papers."),
        Key(
            "sold_in_service",
            Kind.TEXT,
            "Was it sold in service, to take the place of the first one?",
            words=SOLD,
            default=UNKNOWN,
        ),
        Key(
            "service_numbers",
            Kind.TEXT,
            "Who struck the car's number on one that was supplied in service.",
            words=tuple(ServiceNumbers),
            default=ServiceNumbers.NEVER,
        ),
        Key(
            "stage",
            Kind.TEXT,
            "When in the building of a car it came to it; by its assembly where empty.",
            words=("", *Stage),
            default="",
        ),
        *APPLIES,
        *CITATION,
    ),
)
TOKEN = Shape(
    "a part of a date",
    "One part of a date code, in the order in which the code is written.",
    (
        word("part", "What this part of the code gives.", tuple(DatePart), DatePart.LITERAL),
        number("width", "How many characters it has, at most.", 0, LONGEST_FIELD, default=0),
        number(
            "least_width",
            "How few it can have, where a number is written without a leading nought.",
            0,
            LONGEST_FIELD,
            default=0,
        ),
        identifier("table", "The code table of a month letter or week letter."),
        text("text", "The text of a literal part, which says nothing."),
        Key(
            "counted",
            Kind.TEXT,
            "How weeks are counted: sevens from 1 January, or full weeks, Sunday to Saturday.",
            words=tuple(WeekCount),
            default=WeekCount.SEVENS,
        ),
    ),
)
PLACEHOLDER = Shape(
    "a placeholder",
    "A code that stands where a date should and is none.",
    (
        text("code", "The code as written.", required=True),
        text("meaning", "What it says instead.", required=True),
        *CITATION,
    ),
)
DATE_FORM = Shape(
    "a form of date",
    "How a date code is built.",
    (
        identifier("id", "Its id, which fields name under `date_form`.", required=True),
        year("first_year", "First calendar year that a code of this form can mean."),
        year("last_year", "Last calendar year that a code of this form can mean."),
        Key("start", Kind.DAY, "Day 0 of a day count."),
        Key("tokens", Kind.TABLES, "Its parts, in order.", required=True, shape=TOKEN),
        Key("placeholders", Kind.TABLES, "Codes that are no dates.", shape=PLACEHOLDER),
        Key(
            "within",
            Kind.TEXT,
            "run: the day lies in a run of the car's model year (tables/runs.csv).",
            words=("", "run"),
            default="",
        ),
        Key(
            "year_is",
            Kind.TEXT,
            "What its year is: the calendar year, the model year, or either by its sources.",
            words=tuple(YearIs),
            default=YearIs.CALENDAR,
        ),
        number(
            "model_year_from_month",
            "The month from which a model year's dates lie in the calendar year before.",
            1,
            12,
            default=8,
        ),
        *CITATION,
    ),
)
EMPTY = Shape(
    "an empty field's meaning",
    "What it says that the field was left empty.",
    (
        Key(
            "value",
            Kind.TEXT,
            "The canonical value that an empty field says.",
            required=True,
            pattern=CANONICAL,
            pattern_name=CANONICAL_NAME,
        ),
        text("meaning", "The meaning in words.", required=True),
        *CITATION,
    ),
)
FIELD = Shape(
    "a field",
    "One part of a mark and what it says.",
    (
        identifier("id", "Its id, unlike any other of the same mark.", required=True),
        text("name", "What it is called in sentences.", required=True),
        identifier("says", "The item that it says.", required=True),
        Key(
            "widths",
            Kind.NUMBERS,
            "The numbers of characters it can have.",
            required=True,
            least=1,
            most=LONGEST_FIELD,
        ),
        text("alphabet", "The characters that can stand in it.", required=True),
        identifier("table", "The code table that explains it."),
        identifier("date_form", "The form of date that it follows."),
        Key(
            "part",
            Kind.TEXT,
            "Which places of a number stand here: all, last 4, first 3.",
            pattern=r"all|(?:first|last) [1-9][0-9]?",
            pattern_name="all, or such as 'last 4' or 'first 3'",
            default="all",
        ),
        text("before", "Text that stands before it on the metal and says nothing."),
        text("heading", "The heading of its window."),
        number("row", "The row of its window, from the top.", 1, 99, default=1),
        number("column", "The column of its window, from the left.", 1, 99, default=1),
        Key("optional", Kind.YES_NO, "Can it be missing?"),
        Key("incomplete", Kind.YES_NO, INCOMPLETE),
        Key("empty", Kind.TABLE, "What it says when it is left empty.", shape=EMPTY),
    ),
)
ALIAS = Shape(
    "a name that people use",
    "A name that means this mark on some of the cars that bear it.",
    (text("name", "The name: vin.", required=True), *APPLIES),
)
MARK = Shape(
    "a mark",
    "A plate, stamping, casting, label or paper that says something about the car.",
    (
        identifier("id", "Its id, which readings name.", required=True),
        text("name", "What it is called in sentences: chassis plate.", required=True),
        text("local_name", "What its maker's people call it."),
        Key("aliases", Kind.TEXTS, "What the trade calls it: vin, trim tag. Its alone on a car."),
        Key("alias", Kind.TABLES, "Names that mean it on some cars alone.", shape=ALIAS),
        identifier("other_form_of", "The mark in whose place a car bears this one."),
        word("kind", "What kind of mark it is.", tuple(MarkKind), MarkKind.PAPER),
        identifier("assembly", "The assembly it stands on; empty for plates and papers."),
        identifier("site", "The site where it stands; empty for papers."),
        identifier("piece", "The declared piece on which it stands; derived where empty."),
        identifier("surface", "What is struck, ground or skimmed as one; its site where empty."),
        word("how_made", "How its characters were made.", tuple(HowMade), HowMade.PRINTED),
        word("carried", "What carries it.", tuple(Carried), Carried.PAPER),
        text("fixings", "How it is fixed: four brass rivets."),
        Key("windows", Kind.YES_NO, "Is each field a window of its own?"),
        Key("always_struck", Kind.YES_NO, "Is its absence evidence?"),
        Key(
            "number_rules",
            Kind.TEXT,
            "Rules that the whole number follows beyond its fields.",
            words=("", SEVENTEEN),
            default="",
        ),
        Key("field", Kind.TABLES, "Its fields, in reading order.", required=True, shape=FIELD),
        *APPLIES,
        *CITATION,
    ),
)
BOOK = Shape(
    "a code book",
    "A code book: cited tables of one maker and span of years.",
    (
        Key("format", Kind.TEXT, "Always witnessmark-book.", required=True, words=(FORMAT,)),
        Key(
            "format_version",
            Kind.NUMBER,
            "Always 2; a book of format 1 is read as it is.",
            required=True,
            least=FORMAT_VERSION,
            most=FORMAT_VERSION,
        ),
        identifier("id", "Its id, the same as the name of its folder.", required=True),
        text("title", "Its title: Tarvane, 1952 to 1961.", required=True),
        text("maker", "The maker of the cars.", required=True),
        text("version", "Its version, such as the day of its last change.", required=True),
        year("first_year", "First model year that it covers.", required=True),
        year("last_year", "Last model year that it covers.", required=True),
        text("summary", "What it covers, in one or two sentences."),
        Key("invented", Kind.YES_NO, "Is the maker invented? Only then may a basis be."),
        Key("sources", Kind.CITATIONS, "Sources by a short key, each as it is cited in full."),
        Key("item", Kind.TABLES, "What marks say about the car.", shape=ITEM),
        Key("assembly", Kind.TABLES, "The parts that carry marks.", shape=ASSEMBLY),
        Key("piece", Kind.TABLES, "What is made and replaced as one.", shape=PIECE),
        Key("date_form", Kind.TABLES, "How date codes are built.", shape=DATE_FORM),
        Key("mark", Kind.TABLES, "The marks.", shape=MARK),
    ),
)
