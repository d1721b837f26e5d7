"""`witnessmark letter`: a letter about the car to somebody who can know more of it."""

import sys
from datetime import date
from typing import Annotated

from witnessmark.cli.arguments import CasePath, LanguageOption, argument
from witnessmark.cli.cases import examined_case
from witnessmark.cli.document.printing import print_or_keep, withheld_by_stop
from witnessmark.cli.document.questions import TextOut
from witnessmark.cli.problems import NoNumber
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.report.sheets.message import Addressee, NoLetter, letter_text, why_no_letter

HELP = """To the archive, the title office or an earlier owner: what is asked and why, with the
car's number in full, the owner's consent and the examiner's address. It tells neither what was
read on the car nor what is concluded.

\b
Example:
  witnessmark letter demo/clean archive --out letter.txt
"""


def letter(
    case: CasePath,
    to: Annotated[
        Addressee, argument("archive|title-office|earlier-owner", "To whom the letter goes.")
    ],
    out: TextOut = None,
    language: LanguageOption = None,
) -> None:
    """Print one letter, or write it whole or not at all."""
    examined = examined_case(case, steady=False)
    opinion, book = examined.opinion, examined.book
    withheld = why_no_letter(opinion, book, to)
    if withheld is NoLetter.NO_NUMBER:
        place = examined.opened.places.source(("claim",))
        item = book.identification
        refuse((NoNumber(place, case, item.id if item else "ITEM"),))
    if withheld is NoLetter.STOP:
        withheld_by_stop(opinion.answer, "no owner is to be asked")
    print_or_keep(letter_text(opinion, book, to, date.today()), out)
    print_line("The letter holds the car's number in full.", sys.stderr)
