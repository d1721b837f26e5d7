"""All commands, put together: what `witnessmark --help` lists.

A command is imported when it is named, so that each may import what it needs.
"""

from collections.abc import Sequence
from importlib import import_module
from typing import Annotated, NoReturn

import typer

from witnessmark import __version__
from witnessmark.cli.terminal import print_line
from witnessmark.entry.shipped import shipped_folder

BOOK_HELP = "Code books: list, search, check, start, fill, convert."
CASE_HELP = "Cases: open, fill in, take back, check, convert."
ADD_HELP = "Enter what was read, seen, received or said."

HELP_NAMES = {"help_option_names": ["-h", "--help"]}

COMMANDS = (
    ("", "serve", "workshop.serve:serve",
     "Open the workshop: the whole job in a browser, on this machine alone."),
    ("", "backup", "workshop.back_up:backup",
     "Write everything that a workshop keeps into one file."),
    ("", "restore", "workshop.put_back:restore",
     "Put a backup back into an empty workshop."),
    ("", "demo", "document.demo:demo",
     "Examine the six demonstration cars and write their reports."),
    ("", "examine", "answer.examine:examine",
     "Examine a case: what the numbers say about each question."),
    ("", "decode", "answer.decode:decode",
     "Say what a mark means according to a code book: the likeliest meaning, and what else fits."),
    ("", "compare", "answer.compare:compare",
     "Compare marks with each other: do these numbers belong together?"),
    ("", "next", "answer.next_look:next_look",
     "Say what to look at next, and how much fits into the time available."),
    ("", "report", "document.report:report",
     "Write the report of a case: a PDF that a stranger can follow."),
    ("", "masked-copy", "document.masked_copy:masked_copy",
     "Write a copy of the report that can be shown to others."),
    ("", "field-sheet", "document.field_sheet:field_sheet",
     "Write a sheet to take to the car: where to look, in walking order, with boxes to write in."),
    ("", "picture-request", "document.picture_request:picture_request",
     "Write a letter asking a seller for photographs: which places, and how to take them."),
    ("", "questions", "document.questions:questions",
     "Write what to ask the seller, as a message to paste, and what to photograph again."),
    ("", "letter", "document.letter:letter",
     "Write a letter about the car to an archive, a title office or an earlier owner."),
    ("", "decode-sheet", "document.decode_sheet:decode_sheet",
     "Write one page that explains the codes of a car: for an owner, a judge or a show."),
    ("book", "list", "book.list_books:book_list",
     "List the code books that come with Witnessmark."),
    ("book", "show", "book.show:book_show",
     "Show what a code book covers: what can be claimed, marks and fields, what to look at."),
    ("book", "values", "book.values:book_values",
     "List what can be claimed of one item: each value in words, its years, its basis."),
    ("book", "search", "book.search:book_search",
     "Find a code, a colour, a name, a number or a form of date in all code books."),
    ("book", "guess", "book.guess:book_guess",
     "Say which books and marks a text found on a car could belong to."),
    ("book", "check", "book.check:book_check",
     "Check a code book: gaps, overlaps, rows without a source, names that refer to nothing."),
    ("book", "new", "book.begin:book_new",
     "Start a code book: a folder with a small, error-free example."),
    ("book", "import", "book.take_in:book_import",
     "Import a list (.xlsx, or CSV in UTF-8) into a table of a code book."),
    ("book", "upgrade", "book.upgrade:book_upgrade",
     "Convert a code book to the current format, and say what changed."),
    ("book", "coverage", "book.coverage:book_coverage",
     "Show what a code book covers: how many rows, on what basis and for which years."),
    ("case", "new", "case.begin:case_new",
     "Open a new case: a folder with case.json and an empty exhibits folder."),
    ("case", "set", "entry.set_fields:case_set",
     "Set what is claimed, for whom and why, and the other plain fields of a case."),
    ("case add", "reading", "entry.reading:add_reading",
     "Enter what was read of marks, as it stands on the car."),
    ("case add", "look", "entry.look:add_look",
     "Enter how the metal looks."),
    ("case add", "site", "entry.site:add_site",
     "Enter how places ended: read, absent, not accessible."),
    ("case add", "photo", "entry.photo:add_photo",
     "Enter photographs and scans: copied into the case byte for byte."),
    ("case add", "paper", "entry.paper:add_paper",
     "Enter papers, those of the book and any other, and where they are."),
    ("case add", "statement", "entry.statement:add_statement",
     "Enter what was said about the car before anybody looked."),
    ("case", "undo", "entry.undo:case_undo",
     "Take back the last change of a case."),
    ("case", "history", "entry.history:case_history",
     "List the revisions of a case: when, who, what."),
    ("case", "check", "case.check:case_check",
     "Check a case: its document, its exhibits, and its readings by its code book."),
    ("case", "upgrade", "case.upgrade:case_upgrade",
     "Convert a case to the current format, and say what changed."),
    ("", "profile", "case.profile:profile",
     "Keep what you say of yourself in every case: name, firm, address, fee."),
)  # fmt: skip
"""The group of each command, its name, and the module and function that it is, and the
first line of its help."""


def app_of(arguments: Sequence[str] | None = None) -> typer.Typer:
    """All commands; where `arguments` are given, of the one that they name alone the module is
    imported, with all that it needs."""
    app = typer.Typer(
        name="witnessmark",
        pretty_exceptions_enable=False,
        rich_markup_mode=None,
        context_settings=HELP_NAMES,
        help="Reads the marks a factory left on a collector car and says how well they support "
        "what is claimed for it.",
        epilog=f"The pages that messages name are in {shipped_folder('docs')}.",
    )
    book, case, entries = (
        typer.Typer(rich_markup_mode=None, context_settings=HELP_NAMES, no_args_is_help=True)
        for _ in ("book", "case", "case add")
    )
    groups = {"": app, "book": book, "case": case, "case add": entries}
    named = [each for each in arguments or () if not each.startswith("-")]
    for group, name, place, first in COMMANDS:
        add = groups[group].command
        words = f"{group} {name}".split()
        if arguments is None or named[: len(words)] == words:
            module, _, function = place.partition(":")
            found = import_module(f"witnessmark.cli.{module}")
            add(name, help=f"{first}\n\n{found.HELP}", short_help=first)(getattr(found, function))
        else:
            add(name, short_help=first)(_not_named)
    app.add_typer(book, name="book", help=BOOK_HELP)
    case.add_typer(entries, name="add", help=ADD_HELP)
    app.add_typer(case, name="case", help=CASE_HELP)
    app.callback(invoke_without_command=True)(start)
    return app


def _not_named() -> NoReturn:
    raise AssertionError("a command that was named has its module")


def start(
    context: typer.Context,
    version: Annotated[bool, typer.Option("--version", help="Print the version.")] = False,
) -> None:
    """Shows the help when no command is named."""
    if version:
        print_line(f"witnessmark {__version__}")
        raise typer.Exit
    if context.invoked_subcommand is None:
        print_line(context.get_help())
