"""All commands, put together: what `witnessmark --help` lists."""

from typing import Annotated

import typer

from witnessmark import __version__
from witnessmark.cli.answer import compare, decode, examine, next_look
from witnessmark.cli.book import begin as book_begin
from witnessmark.cli.book import check as book_check
from witnessmark.cli.book import coverage, guess, list_books, search, show, take_in
from witnessmark.cli.book import upgrade as book_upgrade
from witnessmark.cli.case import begin as case_begin
from witnessmark.cli.case import check as case_check
from witnessmark.cli.case import upgrade as case_upgrade
from witnessmark.cli.document import (
    decode_sheet,
    demo,
    field_sheet,
    masked_copy,
    picture_request,
    report,
)
from witnessmark.cli.opening import shipped_folder
from witnessmark.cli.terminal import print_line

HELP_NAMES = {"help_option_names": ["-h", "--help"]}

app = typer.Typer(
    name="witnessmark",
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings=HELP_NAMES,
    help="Reads the marks a factory left on a collector car and says how well they support "
    "what is claimed for it.",
    epilog=f"The pages that messages name are in {shipped_folder('docs')}.",
)
book = typer.Typer(rich_markup_mode=None, context_settings=HELP_NAMES, no_args_is_help=True)
case = typer.Typer(rich_markup_mode=None, context_settings=HELP_NAMES, no_args_is_help=True)

for group, name, module, command in (
    (app, "demo", demo, demo.demo),
    (app, "examine", examine, examine.examine),
    (app, "decode", decode, decode.decode),
    (app, "compare", compare, compare.compare),
    (app, "next", next_look, next_look.next_look),
    (app, "report", report, report.report),
    (app, "masked-copy", masked_copy, masked_copy.masked_copy),
    (app, "field-sheet", field_sheet, field_sheet.field_sheet),
    (app, "picture-request", picture_request, picture_request.picture_request),
    (app, "decode-sheet", decode_sheet, decode_sheet.decode_sheet),
    (book, "list", list_books, list_books.book_list),
    (book, "show", show, show.book_show),
    (book, "search", search, search.book_search),
    (book, "guess", guess, guess.book_guess),
    (book, "check", book_check, book_check.book_check),
    (book, "new", book_begin, book_begin.book_new),
    (book, "import", take_in, take_in.book_import),
    (book, "upgrade", book_upgrade, book_upgrade.book_upgrade),
    (book, "coverage", coverage, coverage.book_coverage),
    (case, "new", case_begin, case_begin.case_new),
    (case, "check", case_check, case_check.case_check),
    (case, "upgrade", case_upgrade, case_upgrade.case_upgrade),
):
    first = module.HELP.partition("\n")[0]
    group.command(name, help=module.HELP, short_help=first)(command)
app.add_typer(book, name="book", help="Code books: list, show, check, begin, fill, bring over.")
app.add_typer(case, name="case", help="Cases: open a new one, check one, bring an old one over.")


@app.callback(invoke_without_command=True)
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
