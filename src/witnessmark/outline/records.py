"""What a document or an answer says, before it is laid out: sentences, tables, figures, no layout.

The outline is pure: everything a reader will read is in it as text, so that
it can be checked without a PDF or a terminal. Blocks know their own `kind`, by which
each press chooses how to set them.
"""

from dataclasses import KW_ONLY, dataclass, field
from typing import Literal

from witnessmark.catalogue import said


@dataclass(frozen=True, slots=True)
class Fact:
    """A label and what stands beside it."""

    label: str
    text: str


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Running text; `tone` is plain, answer (what all the rest is read for), strong, quiet, note
    (smaller) or lead (quiet, kept with what follows)."""

    text: str
    tone: str = "plain"
    kind: Literal["paragraph"] = "paragraph"


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading inside a section."""

    text: str
    kind: Literal["heading"] = "heading"


@dataclass(frozen=True, slots=True)
class Bullets:
    """Sentences one below the other; with their numbers where others point to them."""

    items: tuple[str, ...]
    is_numbered: bool = False
    kind: Literal["bullets"] = "bullets"


@dataclass(frozen=True, slots=True)
class Facts:
    """Labels with their texts."""

    facts: tuple[Fact, ...]
    kind: Literal["facts"] = "facts"


@dataclass(frozen=True, slots=True)
class TableCell:
    """One cell: a main text and quieter lines below it; `mono` for characters as read.

    `sign` names the shape that stands before the first line below, if any, and says the same;
    characters with one are parted where they are wider than their column. `bar` is a log10 LR,
    drawn from the middle of the cell as far as 4 either way; `svg` a drawing above the text,
    which says the same, or `told` where it does not. The `tone` of the first cell (for, against,
    quiet) is that of its row on a screen with colours; the words say the same. `about` are the
    marks, places and papers of which it speaks, for a page that has an address of each.
    """

    text: str
    below: tuple[str, ...] = ()
    _: KW_ONLY
    mono: bool = False
    strong: bool = False
    sign: str = ""
    bar: float | None = None
    svg: str = ""
    told: str = ""
    tone: str = ""
    about: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Pointed:
    """A text as it was typed, and what is said of the sign at a column of it, from 1."""

    text: str
    column: int
    told: str
    kind: Literal["pointed"] = "pointed"


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under a head, if there is one; `shares` are the widths of the columns relative to
    each other, all alike where there are none.

    `is_dense` sets it in small type with narrow rows, for lists to look things up in;
    `axis` stands below the last head, for drawings in the cells of its column.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[TableCell, ...], ...]
    shares: tuple[float, ...] = ()
    _: KW_ONLY
    is_dense: bool = False
    axis: TableCell | None = None
    kind: Literal["table"] = "table"


def table_of(*rows: tuple[str, ...], shares: tuple[float, ...] = ()) -> Table:
    """Rows of plain cells without a head."""
    return Table((), tuple(tuple(map(TableCell, row)) for row in rows), shares)


@dataclass(frozen=True, slots=True)
class Drawing:
    """A figure: SVG text, what it is called, and what it shows for those who hear it. `leads`:
    what follows belongs to it, and says its caption to those who see it."""

    svg: str
    title: str
    caption: str
    leads: bool = False
    kind: Literal["drawing"] = "drawing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Photograph:
    """One photograph, or why it is not shown.

    `number` is that by which the document cites it, empty where there is none; `file` names the
    prepared picture, empty where it is `missing`, which says why.
    """

    id: str
    number: str
    caption: str
    file: str
    missing: str
    kind: Literal["photograph"] = "photograph"


@dataclass(frozen=True, slots=True)
class Pictures:
    """Photographs side by side, so many in a row."""

    photographs: tuple[Photograph, ...]
    across: int = 1
    kind: Literal["pictures"] = "pictures"


@dataclass(frozen=True, slots=True)
class Signature:
    """A place to sign for one examiner, and what that one answers for."""

    name: str
    qualifications: str
    answers_for: str = ""
    kind: Literal["signature"] = "signature"


@dataclass(frozen=True, slots=True)
class WriteIn:
    """A label and empty lines to write on."""

    label: str
    lines: int = 1
    kind: Literal["write_in"] = "write_in"


@dataclass(frozen=True, slots=True)
class BoxWindow:
    """One window of character boxes: `places` boxes, or one long line where that is 0.

    `before` is text that stands there already, `note` stands beside the label.
    """

    label: str
    places: int
    before: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class CharacterBoxes:
    """Boxes to write a mark into, one a character, row by row as the windows of a plate stand.

    `made` stands beside the label: how the characters were made; `noted` are choices to tick
    behind it.
    """

    label: str
    rows: tuple[tuple[BoxWindow, ...], ...]
    made: str = ""
    noted: tuple[str, ...] = ()
    kind: Literal["character_boxes"] = "character_boxes"


@dataclass(frozen=True, slots=True)
class TickBoxes:
    """A label and choices, each with a box to tick."""

    label: str
    choices: tuple[str, ...]
    kind: Literal["tick_boxes"] = "tick_boxes"


@dataclass(frozen=True, slots=True)
class DrawnChoice:
    """A choice with the sketch that shows it: SVG text, and what is heard in its place."""

    text: str
    svg: str
    heard: str


@dataclass(frozen=True, slots=True)
class DrawnBoxes:
    """A label and choices, each with a sketch and a box to tick; all of one size and weight."""

    label: str
    choices: tuple[DrawnChoice, ...]
    kind: Literal["drawn_boxes"] = "drawn_boxes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """What is done at one place of a walk: its number (empty where it has none), its name, a word
    beside that for one of the best looks, the way to it, how it ended (ticked at the top right),
    and the rest."""

    name: str
    blocks: tuple["Block", ...]
    number: str = ""
    note: str = ""
    way: Facts | None = None
    ended: TickBoxes | None = None


@dataclass(frozen=True, slots=True)
class Cards:
    """Cards below each other on a sheet, which is cut or folded between them: one for each place;
    one that no sheet holds goes on onto the next, as `again` says behind its name.

    `key` stands on the foot of each: signs to write, with what they mean.
    """

    cards: tuple[Card, ...]
    key: tuple[Fact, ...]
    again: str
    kind: Literal["cards"] = "cards"


@dataclass(frozen=True, slots=True)
class Together:
    """Blocks that stay on one page, where one page can hold them."""

    blocks: tuple["Block", ...]
    kind: Literal["together"] = "together"


@dataclass(frozen=True, slots=True)
class Boxed:
    """Blocks set off from the rest: what must be read if nothing else is."""

    blocks: tuple["Block", ...]
    kind: Literal["boxed"] = "boxed"


@dataclass(frozen=True, slots=True)
class Columns:
    """Two runs of blocks side by side, read left before right; `shares` are their widths."""

    left: tuple["Block", ...]
    right: tuple["Block", ...]
    shares: tuple[float, float] = (1.0, 1.0)
    kind: Literal["columns"] = "columns"


Block = (
    Paragraph
    | Heading
    | Bullets
    | Facts
    | Pointed
    | Table
    | Drawing
    | Pictures
    | Signature
    | WriteIn
    | CharacterBoxes
    | TickBoxes
    | DrawnBoxes
    | Cards
    | Together
    | Boxed
    | Columns
)


@dataclass(frozen=True, slots=True)
class Section:
    """A titled run of blocks; `new_page` where it must begin on one."""

    title: str
    blocks: tuple[Block, ...]
    new_page: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PageWords:
    """The words that the pages bring along themselves, around what is filled in, in the language
    of the document.

    What stands in braces is filled in by the template: the day, the number of the page.
    """

    document: str = field(default_factory=lambda: said("{title}, case {case}"))
    case: str = field(default_factory=lambda: said("Case {case}, printed {printed}"))
    titled: str = field(default_factory=lambda: said("{title}, report {report}"))
    numbered: str = field(default_factory=lambda: said("Report {report}, printed {printed}"))
    printed: str = field(default_factory=lambda: said("Printed {printed}"))
    page: str = field(default_factory=lambda: said("page {page} of {pages}"))
    card: str = field(default_factory=lambda: said("{case}, card {card} of {of}"))
    signature: str = field(default_factory=lambda: said("Signature"))
    date: str = field(default_factory=lambda: said("Date"))
    photograph: str = field(default_factory=lambda: said("Photograph {number}: {caption}"))


@dataclass(frozen=True, slots=True)
class Outline:
    """A whole document or answer as text and figures, in reading order.

    `label` says what kind of document it is ("Report of examination"); `number` is the number
    and issue of a report, which its pages bear in place of the case's id; `front` fills a
    first page of its own, `cover` stands on the first where there is none; `is_numbered` says
    whether its sections bear numbers; `is_read_at_the_car` whether its type is large and all
    ink, for a dim garage; `language` is the tag of its language.
    """

    title: str
    front: tuple[Block, ...] = ()
    sections: tuple[Section, ...] = ()
    _: KW_ONLY
    label: str = ""
    case_id: str = ""
    number: str = ""
    printed: str = ""
    printed_iso: str = ""
    footer: str = ""
    cover: tuple[Fact, ...] = ()
    is_numbered: bool = True
    is_read_at_the_car: bool = False
    language: str = "en"
    words: PageWords = field(default_factory=PageWords)
