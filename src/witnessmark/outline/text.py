"""The text press: an outline as lines, laid out for a terminal, or one thing a line to check it.

Text is shown as it is: no mark-up is read in it, and what no screen can show is written as
its code point. Words carry every meaning; what is bold is only easier to find.
"""

import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from witnessmark.catalogue import said
from witnessmark.outline.letters import visible
from witnessmark.outline.records import (
    Block,
    Boxed,
    BoxWindow,
    Bullets,
    Cards,
    CharacterBoxes,
    Columns,
    Drawing,
    DrawnBoxes,
    Facts,
    Heading,
    Outline,
    Paragraph,
    Photograph,
    Pictures,
    Pointed,
    Signature,
    Table,
    TickBoxes,
    Together,
    WriteIn,
)

IN = 2
"""How far a step further in is."""

GUTTER = 2
"""Blanks between two columns."""

LONGEST_WORD = 16
"""A longer word is parted where its column ends, if need be."""

_JOINED = "\x03%"
"""Stands for a blank and a % while a text is wrapped; no text can hold it."""


@dataclass(frozen=True, slots=True)
class TextLine:
    """One line of a page; its `tone` is that of the paragraph or of the table's row, for a
    terminal that has colours. Whatever it means stands in the words, too."""

    text: str
    is_bold: bool = False
    tone: str = ""


def text_lines(outline: Outline, width: int | None = None) -> tuple[TextLine, ...]:
    """The lines of an outline, none wider than `width` but for words that are; without a
    width one thing a line."""
    page = _Page(width)
    page.say(outline.title, is_bold=True)
    for each in (_named(outline), outline.printed):
        if each and each != outline.title:
            page.say(each)
    page.blocks(outline.front, 0)
    page.pairs([(fact.label, fact.text) for fact in outline.cover], IN)
    for number, section in enumerate(outline.sections, start=1):
        page.gap()
        page.say(
            f"{number}. {section.title}" if outline.is_numbered else section.title, is_bold=True
        )
        if page.width is None:
            page.gap()
        page.blocks(section.blocks, IN)
    if outline.footer:
        page.gap()
        page.say(outline.footer)
    return tuple(page.lines)


def report_text(outline: Outline) -> str:
    """Everything that an outline says, one thing a line."""
    return "\n".join([*(line.text for line in text_lines(outline)), ""])


@dataclass(slots=True)
class _Page:
    """A page under way."""

    width: int | None
    lines: list[TextLine] = field(default_factory=list)

    def gap(self) -> None:
        """One empty line, never two, and none at the top."""
        if self.lines and self.lines[-1].text:
            self.lines.append(TextLine(""))

    def say(
        self, text: str, at: int = 0, hanging: int = 0, *, is_bold: bool = False, tone: str = ""
    ) -> None:
        """A paragraph; lines after the first stand `hanging` further in."""
        if self.width is None:
            self.lines.append(TextLine(visible(text), is_bold, tone))
            return
        for each in visible(text).split("\n"):
            lines = wrapped(each, self.width, " " * at, " " * (at + hanging))
            self.lines.extend(TextLine(line, is_bold, tone) for line in lines)

    def heading(self, text: str, at: int) -> None:
        """A line that opens a part of the page."""
        self.gap()
        self.say(text if self.width else f"-- {text}", at, is_bold=True)

    def blocks(self, blocks: Iterable[Block], at: int) -> None:
        """Blocks with their headings at a column; below a heading all stands further in."""
        inner = max(at, IN)
        for block in blocks:
            if isinstance(block, Heading):
                self.heading(block.text, at)
                inner = at + IN
            elif isinstance(block, Cards):
                self.cards(block, at)
            elif isinstance(block, Together | Boxed | Columns):
                each = (*block.left, *block.right) if isinstance(block, Columns) else block.blocks
                self.blocks(each, at)
            else:
                self._block(block, inner)

    def cards(self, cards: Cards, at: int) -> None:
        """Each place with how it ended and all that is done there, then the signs to write."""
        for card in cards.cards:
            self.heading(" ".join(filter(None, (card.number, card.name, card.note))), at)
            head = (each for each in (card.way, card.ended) if each)
            self.blocks((*head, *card.blocks), at + IN)
        self.pairs([(fact.label, fact.text) for fact in cards.key], at)

    def _block(self, block: Block, at: int) -> None:
        match block:
            case Paragraph():
                self.say(block.text, at, IN, is_bold=block.tone == "strong", tone=block.tone)
            case Bullets():
                for number, item in enumerate(block.items, start=1):
                    self.say(f"{number}. {item}" if block.is_numbered else f"- {item}", at, IN)
            case Facts():
                self.pairs([(fact.label, fact.text) for fact in block.facts], at)
            case Table():
                self.table(block, at)
            case Pointed():
                self.pointed(block, at)
            case _:
                for line in _lines(block):
                    self.say(line, at, IN)

    def pairs(self, rows: list[tuple[str, str]], at: int) -> None:
        """Labels in one column, texts in the next."""
        if self.width is None:
            for label, text in rows:
                self.say(f"{label}: {text}")
        else:
            self._grid([([label], text.split("\n")) for label, text in rows], (1.0, 2.0), at)

    def table(self, table: Table, at: int) -> None:
        """A head, if there is one, and rows; each cell with what stands below its text. Rows of
        several lines stand apart, unless the table is a dense one."""
        if self.width is None:
            told = ([" / ".join((c.text or c.told, *c.below)) for c in row] for row in table.rows)
            for texts in filter(None, (table.head, *told)):
                self.say(" | ".join(texts))
            return
        rows = [tuple([*c.text.split("\n"), *c.below] for c in row) for row in table.rows]
        head = [tuple([label] for label in table.head)] if table.head else []
        count = max(map(len, [*rows, *head]), default=0)
        if head:
            self.gap()
        first = len(self.lines)
        is_apart = bool(head) and not table.is_dense
        tones = [*([""] if head else []), *(next((c.tone for c in r), "") for r in table.rows)]
        self._grid([*head, *rows], table.shares or (1.0,) * count, at, is_apart, tones)
        if head:
            self.lines[first] = replace(self.lines[first], is_bold=True)

    def _grid(
        self,
        rows: list[tuple[list[str], ...]],
        shares: tuple[float, ...],
        at: int,
        is_apart: bool = False,
        tones: Sequence[str] = (),
    ) -> None:
        """Columns side by side, each wrapped to its width; below each other where there is no
        room for that."""
        assert self.width is not None
        shown = [tuple([visible(each) for each in cell] for cell in row) for row in rows]
        columns = [[each for row in shown for each in row[n]] for n in range(len(shares))]
        widths = column_widths(columns, shares, self.width - at)
        was = 1
        for number, row in enumerate(shown):
            if is_apart and was > 1 < number:
                self.gap()
            cells = [_in_column(*each) for each in zip(row, widths, strict=True)] if widths else []
            was = max(map(len, cells), default=len(row))
            tone = tones[number] if tones else ""
            for n, cell in enumerate(row if not widths else ()):
                self.say("\n".join(filter(None, cell)), at + (2 * IN if n else 0), IN, tone=tone)
            for at_line in range(was if widths else 0):
                parts = (cell[at_line] if at_line < len(cell) else "" for cell in cells)
                joined = (" " * GUTTER).join(map(str.ljust, parts, widths))
                self.lines.append(TextLine(f"{' ' * at}{joined}".rstrip(), tone=tone))

    def pointed(self, block: Pointed, at: int) -> None:
        """The line of the text that holds the column, and what is said of the sign there below
        it, behind a ^; where that leaves too little room, on the next line. A line that is wider
        than the page is parted, and nothing of it left out."""
        before = visible(block.text[: block.column - 1].split("\n")[-1])
        after = visible(block.text[block.column - 1 :].split("\n")[0])
        start, is_told = 0, False
        for piece in _parted(before + after, self.width and self.width - at):
            self.lines.append(TextLine(" " * at + piece.rstrip()))
            if not is_told and len(before) <= start + len(piece) - bool(after):
                self._told_at(" " * (at + len(before) - start) + "^", block.told, at)
                is_told = True
            start += len(piece)

    def _told_at(self, start: str, told: str, at: int) -> None:
        if self.width is None or len(start) <= self.width // 2:
            told, behind = f"{start} {visible(told)}", " " * len(start)
            lines = wrapped(told, self.width or len(told), "", behind)
            self.lines.extend(map(TextLine, lines))
        else:
            self.lines.append(TextLine(start))
            self.say(told, at)


def _parted(text: str, room: int | None) -> list[str]:
    """A text in pieces that there is room for, behind a blank where there is one.

    >>> _parted("57 | 28 | 1", 6), _parted("572", None)
    (['57 | ', '28 | 1'], ['572'])
    """
    pieces, left = [], text
    while room is not None and len(left) > room:
        end = left.rfind(" ", 1, room) + 1 or room
        pieces.append(left[:end])
        left = left[end:]
    return [*pieces, left]


def column_widths(
    columns: Sequence[Sequence[str]], shares: tuple[float, ...], room: int
) -> list[int]:
    """How wide each column of texts is: as wide as its longest text, or its share of the room
    that the narrow ones leave, and wide enough for its words; none where there is no room.

    >>> column_widths([["axle"], ["a text of some length"]], (1.0, 1.0), 20)
    [4, 14]
    """
    longest = [max(map(len, texts), default=0) for texts in columns]
    words = [max((len(w) for text in texts for w in text.split()), default=0) for texts in columns]
    widths: dict[int, int] = {}
    room -= GUTTER * (len(columns) - 1)
    while len(widths) < len(columns):
        left = [n for n in range(len(columns)) if n not in widths]
        whole = sum(shares[n] for n in left)
        share = {n: int(room * shares[n] / whole) for n in left}
        least = {n: min(words[n], LONGEST_WORD) for n in left}
        settled = {n: longest[n] for n in left if longest[n] <= share[n]} or {
            n: least[n] for n in left if least[n] > share[n]
        }
        widths |= settled or share
        room -= sum(settled.values())
        if room < 0:
            return []
    return [widths[n] for n in range(len(columns))]


def _in_column(cell: list[str], width: int) -> list[str]:
    """The lines of a cell; a word that is wider than its column is parted."""
    lines = [wrapped(each, max(width, 1), "", "", parting=True) for each in cell if each]
    return [line for each in lines for line in each]


def wrapped(
    text: str, width: int, first: str = "", others: str = "", *, parting: bool = False
) -> list[str]:
    """Wrapped at spaces, so that paths and numbers stay whole; no % begins a line."""
    lines = textwrap.wrap(
        text.replace(" %", _JOINED),
        width,
        initial_indent=first,
        subsequent_indent=others,
        break_long_words=parting,
        break_on_hyphens=False,
    )
    return [line.replace(_JOINED, " %") for line in lines]


def _lines(block: Block) -> list[str]:
    """The lines of a block that is a figure, or is filled in by hand."""
    match block:
        case Drawing(leads=True):
            return [f"[{said('Figure: {title}.', title=block.title)}]"]
        case Drawing():
            told = said("Figure: {title}. {caption}", title=block.title, caption=block.caption)
            return [f"[{told}]"]
        case Pictures():
            return [line for each in block.photographs for line in _pictured(each)]
        case WriteIn():
            return [f"{block.label} {'_' * 24}"] + ["_" * 24] * (block.lines - 1)
        case CharacterBoxes():
            rows = ["  ".join(map(_boxes, row)) for row in block.rows]
            noted = "  ".join(f"[ ] {each}" for each in block.noted)
            return [" ".join(filter(None, (block.label, block.made, noted))), *rows]
        case TickBoxes():
            return [f"{block.label} {'  '.join(f'[ ] {each}' for each in block.choices)}"]
        case DrawnBoxes():
            drawn = (f"[ ] {each.text} [{each.heard}]" for each in block.choices)
            return [f"{block.label} {'  '.join(drawn)}"]
        case Signature():
            signed = said("Signed: {line}", line="_" * 20)
            parts = (signed, block.name, block.qualifications, block.answers_for)
            return [" ".join(each for each in parts if each)]
    raise AssertionError(f"a block of the kind {block.kind} is laid out elsewhere")


def _named(outline: Outline) -> str:
    """The report by its number, else the case; empty for what is of none."""
    if outline.number:
        return said("Report {report}", report=outline.number)
    return said("Case {case}", case=outline.case_id) if outline.case_id else ""


def _boxes(window: BoxWindow) -> str:
    """One window of boxes to write in: its label, what stands there, a place for each character."""
    boxes = "[ ]" * window.places or "_" * 24
    return " ".join(part for part in (window.label, window.before, boxes, window.note) if part)


def _pictured(photograph: Photograph) -> list[str]:
    number, caption = photograph.number, photograph.caption
    if not number:
        return [f"[{photograph.missing}]"]
    told = said("Photograph {number}: {caption}", number=number, caption=caption)
    return [f"[{told}]", *filter(None, (photograph.missing,))]
