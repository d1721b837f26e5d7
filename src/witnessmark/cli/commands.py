"""All commands, put together: what `witnessmark --help` lists."""

from typing import Annotated

import typer

from witnessmark import __version__
from witnessmark.cli import (
    book_check,
    book_coverage,
    book_import,
    book_list,
    book_new,
    book_show,
    book_upgrade,
    case_check,
    case_new,
    case_upgrade,
    compare,
    decode,
    decode_sheet,
    demo,
    examine,
    field_sheet,
    masked_copy,
    next_look,
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

app.command("demo", help=demo.HELP, short_help=demo.SHORT)(demo.demo)
app.command("examine", help=examine.HELP, short_help=examine.SHORT)(examine.examine)
app.command("decode", help=decode.HELP, short_help=decode.SHORT)(decode.decode)
app.command("compare", help=compare.HELP, short_help=compare.SHORT)(compare.compare)
app.command("next", help=next_look.HELP, short_help=next_look.SHORT)(next_look.next_look)
app.command("report", help=report.HELP, short_help=report.SHORT)(report.report)
app.command("masked-copy", help=masked_copy.HELP, short_help=masked_copy.SHORT)(
    masked_copy.masked_copy
)
app.command("field-sheet", help=field_sheet.HELP, short_help=field_sheet.SHORT)(
    field_sheet.field_sheet
)
app.command("picture-request", help=picture_request.HELP, short_help=picture_request.SHORT)(
    picture_request.picture_request
)
app.command("decode-sheet", help=decode_sheet.HELP, short_help=decode_sheet.SHORT)(
    decode_sheet.decode_sheet
)
app.add_typer(book, name="book", help="Code books: list, show, check, begin, fill, bring over.")
app.add_typer(
    case,
    name="case",
    help="Cases: open a new one, check one, bring an old one over.",
)
book.command("list", help=book_list.HELP, short_help=book_list.SHORT)(book_list.book_list)
book.command("show", help=book_show.HELP, short_help=book_show.SHORT)(book_show.book_show)
book.command("check", help=book_check.HELP, short_help=book_check.SHORT)(book_check.book_check)
book.command("new", help=book_new.HELP, short_help=book_new.SHORT)(book_new.book_new)
book.command("import", help=book_import.HELP, short_help=book_import.SHORT)(book_import.book_import)
book.command("upgrade", help=book_upgrade.HELP, short_help=book_upgrade.SHORT)(
    book_upgrade.book_upgrade
)
book.command("coverage", help=book_coverage.HELP, short_help=book_coverage.SHORT)(
    book_coverage.book_coverage
)
case.command("new", help=case_new.HELP, short_help=case_new.SHORT)(case_new.case_new)
case.command("check", help=case_check.HELP, short_help=case_check.SHORT)(case_check.case_check)
case.command("upgrade", help=case_upgrade.HELP, short_help=case_upgrade.SHORT)(
    case_upgrade.case_upgrade
)


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
