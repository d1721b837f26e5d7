"""`witnessmark book search`: where the books speak of a code, a name or a number."""

from typing import Annotated

import typer

from witnessmark.answers.searched import MOST_HITS, render_searched, searched_page
from witnessmark.cli.arguments import AsJson, AskedBooks, LanguageOption, argument
from witnessmark.cli.opening import books_asked
from witnessmark.cli.terminal import print_outline, print_record
from witnessmark.codebook.search import search_books

HELP = """Prints the rows that speak of TEXT, the closest first: the code itself, ranges that
hold the number, then rows with the word in what they say. Case, hyphens and
blanks do not matter.

\b
Examples:
  witnessmark book search 3956618
  witnessmark book search "month letter"
"""


def book_search(
    text: Annotated[str, argument("TEXT", "What to look for.")],
    books: AskedBooks = None,
    everything: Annotated[bool, typer.Option("--all", help="Show every answer.")] = False,
    language: LanguageOption = None,
    json: AsJson = False,
) -> None:
    """Rows of all books that speak of a text."""

    hits = search_books(books_asked(books), text)
    if json:
        print_record(render_searched(hits))
    else:
        print_outline(searched_page(text, hits, None if everything else MOST_HITS))
