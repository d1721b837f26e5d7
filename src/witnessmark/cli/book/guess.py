"""`witnessmark book guess`: which books and marks a text found on a car could be."""

from typing import Annotated

import typer

from witnessmark.answers.searched import MOST_GUESSES, guessed_page, render_guessed
from witnessmark.cli.arguments import AsJson, AskedBooks, LanguageOption, argument
from witnessmark.cli.opening import books_asked
from witnessmark.cli.terminal import print_outline, print_record
from witnessmark.decoding.guess import guess

HELP = """READING is typed as for decode: ? is worn away, [38] a 3 or an 8. Every mark of
every book tries to read it; the answers are ranked by how much better the mark
foresees the text than chance would, with what speaks for each.

\b
Example:
  witnessmark book guess "L 40047"
"""


def book_guess(
    reading: Annotated[str, argument("READING", "What you see there.")],
    books: AskedBooks = None,
    everything: Annotated[bool, typer.Option("--all", help="Show every answer.")] = False,
    language: LanguageOption = None,
    json: AsJson = False,
) -> None:
    """Marks of all books that a text could be."""

    found = guess(books_asked(books), reading)
    if json:
        print_record(render_guessed(found))
    else:
        print_outline(guessed_page(reading, found, None if everything else MOST_GUESSES))
