"""A list as a text: CSV with commas, semicolons or tabs, as spreadsheets save it."""

import codecs
import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from witnessmark.bookmaking.problems import ListTooLarge, NoList, OtherAlphabet
from witnessmark.bookmaking.sheet import MOST_ROWS, ListCell, ListRead, ListRow
from witnessmark.documents.csv_cells import CsvCell, parse_cells
from witnessmark.documents.entries import FileText
from witnessmark.problem import Problem
from witnessmark.source import Source

SEPARATORS = {",": "a comma", ";": "a semicolon", "\t": "a tab"}
_LINE = re.compile(rb"[^\r\n]*(?:\r\n|\n|\r)?")
_WIDE = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


@dataclass(frozen=True, slots=True)
class _Decoded:
    """The text of a file, and the problem that some of its bytes are none."""

    text: str
    problem: Problem | None = None


def read_text_list(name: str, content: bytes, is_heading: Callable[[str], bool]) -> ListRead:
    """Take the text of a list apart; `is_heading` helps to tell what separates the cells."""
    if b"\0" in content and not content.startswith(_WIDE):
        return ListRead((), (NoList(Source(name), "holds bytes that no text can have"),))
    decoded = _decode(name, content)
    problems = [decoded.problem] if decoded.problem else []
    separator = _separator(decoded.text, is_heading)
    stand_in = _unused(decoded.text)
    swapped = decoded.text.translate({ord(separator): ",", ord(","): stand_in})
    back = {ord(","): separator, ord(stand_in): ","} if separator != "," else {}
    parsed = parse_cells(FileText(name, swapped if back else decoded.text))
    rows = tuple(_row(cells, back) for cells in parsed.rows)
    problems += [
        replace(problem, source=_back(problem.source, back)) for problem in parsed.problems
    ]
    if len(rows) > MOST_ROWS + 1:
        problems.append(ListTooLarge(Source(name), f"{MOST_ROWS:,} rows"))
    return ListRead(rows[: MOST_ROWS + 2], tuple(problems), separator=SEPARATORS[separator])


def _decode(name: str, content: bytes) -> _Decoded:
    """The text, whatever the bytes; a line that is no UTF-8 is read as an older Windows would."""
    if content.startswith(_WIDE):
        text = content.decode("utf-16", "replace")
        odd = text.find("\ufffd")
        problem = NoList(Source(name), "holds bytes that no text can have") if odd >= 0 else None
        return _Decoded(text, problem)
    lines: list[str] = []
    places: list[Source] = []
    bytes_: list[int] = []
    for number, line in enumerate(_LINE.findall(content.removeprefix(codecs.BOM_UTF8)), 1):
        try:
            lines.append(line.decode("utf-8"))
        except UnicodeDecodeError as fault:
            text = line.decode("cp1252", "replace")
            lines.append(text)
            places.append(Source(name, number, fault.start + 1, 1, text.rstrip("\r\n")))
            bytes_.append(line[fault.start])
    if not places:
        return _Decoded("".join(lines))
    letter = bytes((bytes_[0],)).decode("cp1252", "ignore")
    return _Decoded("".join(lines), OtherAlphabet(places[0], bytes_[0], letter, len(places)))


def _separator(text: str, is_heading: Callable[[str], bool]) -> str:
    """The separator by which the first line falls into most headings, or else most cells."""
    first = next((line for line in text.splitlines() if line.strip(" ,;\t")), "")

    def headings(separator: str) -> tuple[int, int]:
        cells = [cell.strip(' "') for cell in first.split(separator)]
        return (sum(is_heading(cell) for cell in cells), len(cells))

    return max(SEPARATORS, key=headings)


def _unused(text: str) -> str:
    """A character that does not stand in the text and is no space: it can stand for a comma."""
    used = set(text)
    return next(chr(code) for code in range(0xE000, 0x110000) if chr(code) not in used)


def _row(cells: tuple[CsvCell, ...], back: dict[int, str]) -> ListRow:
    """A row with its separators as they were typed."""
    own = tuple(ListCell(cell.text.translate(back), _back(cell.source, back)) for cell in cells)
    first = own[0].source
    return ListRow(own, Source(first.name, first.line, 1, max(1, len(first.text)), first.text))


def _back(source: Source, back: dict[int, str]) -> Source:
    """The place in the text as it was typed."""
    return replace(source, text=source.text.translate(back)) if back else source
