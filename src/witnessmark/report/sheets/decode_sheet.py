"""The decode sheet: one page that says in words what a car's numbers say.

It explains codes and compares nothing. Serials are masked on it as in the masked copy
(decisions/0022), without the signs that tell which places agree.
"""

import re
from dataclasses import replace
from datetime import date

from witnessmark.catalogue import language, said, voiced
from witnessmark.codebook.book import CodeBook
from witnessmark.examination import Opinion
from witnessmark.outline.records import Outline
from witnessmark.report.mask.opinion import masked
from witnessmark.report.mask.signs import SAME_PLACE
from witnessmark.report.sheets.decode_around import Read, title_as_claimed
from witnessmark.report.sheets.decode_lines import CodeLine, clearest, code_lines, main_of
from witnessmark.report.sheets.decode_page import decode_page
from witnessmark.wording import date_text
from witnessmark.wording.amounts import capital

_LIMIT = re.compile(r"\d{4}")


def build_decode_sheet(
    opinion: Opinion, book: CodeBook, printed: date, *, with_numbers: bool = False
) -> Outline:
    """The outline of the sheet; `with_numbers` leaves the serials in full, for the owner."""
    read = _read(opinion, book, with_numbers)
    return Outline(
        label=said("Decode sheet"),
        language=language(),
        title=title_as_claimed(read.opinion, book),
        case_id=read.opinion.casefile.id,
        printed=date_text(printed),
        printed_iso=printed.isoformat(),
        footer=_footer(with_numbers),
        is_numbered=False,
        front=decode_page(read),
        sections=(),
    )


def _footer(with_numbers: bool) -> str:
    if with_numbers:
        return said("Numbers stand here in full. Before this sheet is shown to others, mask them.")
    return said("Serials are masked on this sheet: {sign} hides one character.", sign=SAME_PLACE[0])


def _read(opinion: Opinion, book: CodeBook, with_numbers: bool) -> Read:
    shown = opinion if with_numbers else masked(opinion, book, one_sign=SAME_PLACE[0]).opinion
    shown = voiced(shown)
    decodings = clearest(shown.decodings)
    main = main_of(decodings, book)
    lines = code_lines(shown, decodings, main[0] if main else None, book)
    if not with_numbers:
        lines = tuple(_bare(line, book) for line in lines)
    return Read(shown, book, decodings, main, lines, not with_numbers)


def _bare(line: CodeLine, book: CodeBook) -> CodeLine:
    """A number's line without other readings of it, and without the limits of its series."""
    if not line.is_number:
        return line
    item = book.item(line.item)
    without_years = re.sub(r"\b(?:1[789]|20)\d\d\b", "", line.says)
    if item is not None and _LIMIT.search(without_years):
        line = replace(line, says=capital(item.name), is_from_memory=False)
    return replace(line, also=())
