"""What a report says, before it is set: sentences, tables, figures, nothing of layout.

The outline is pure: everything a reader will read stands in it as text, so that
it can be checked without a PDF. Blocks know their own `kind`, by which the
template chooses how to set them.
"""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import Literal

from witnessmark.catalogue import ENGLISH_CATALOGUE, Catalogue, said
from witnessmark.wording import ConclusionText


@dataclass(frozen=True, slots=True)
class Fact:
    """A label and what stands beside it."""

    label: str
    text: str


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Running text; `tone` is plain, strong, quiet, or lead (quiet, kept with what follows)."""

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
    """Sentences one below the other."""

    items: tuple[str, ...]
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
    which says the same.
    """

    text: str
    below: tuple[str, ...] = ()
    mono: bool = False
    strong: bool = False
    sign: str = ""
    bar: float | None = None
    svg: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under a head; `shares` are the widths of the columns relative to each other.

    `is_dense` sets it in small type with narrow rows, for lists to look things up in;
    `axis` stands below the last head, for drawings in the cells of its column.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[TableCell, ...], ...]
    shares: tuple[float, ...]
    is_dense: bool = False
    axis: TableCell | None = None
    kind: Literal["table"] = "table"


@dataclass(frozen=True, slots=True)
class Drawing:
    """A figure: SVG text, what it is called, and what it shows for those who hear it."""

    svg: str
    title: str
    caption: str
    kind: Literal["drawing"] = "drawing"


@dataclass(frozen=True, slots=True)
class Photograph:
    """One photograph, or why it is not shown.

    `file` names the prepared picture, empty where there is none.
    """

    id: str
    caption: str
    details: tuple[str, ...]
    file: str
    missing: str
    kind: Literal["photograph"] = "photograph"


@dataclass(frozen=True, slots=True)
class Card:
    """One conclusion as it stands on the summary page.

    `unseen` says how little of the part was seen, where that is so.
    """

    text: ConclusionText
    favours: str
    standing: str
    unseen: str = ""
    kind: Literal["card"] = "card"


@dataclass(frozen=True, slots=True)
class Signature:
    """A place to sign for one examiner."""

    name: str
    qualifications: str
    kind: Literal["signature"] = "signature"


@dataclass(frozen=True, slots=True)
class PlaceHeading:
    """The heading of one place of a walk: its number, its name, and a word beside them."""

    number: int
    name: str
    note: str = ""
    is_starred: bool = False
    kind: Literal["stop"] = "stop"


@dataclass(frozen=True, slots=True)
class WriteIn:
    """A label and empty lines to write on."""

    label: str
    lines: int = 1
    kind: Literal["write_in"] = "write_in"


@dataclass(frozen=True, slots=True)
class BoxWindow:
    """One window of character boxes: `places` boxes, or one long line where that is 0.

    `before` is text that stands there already, `note` stands below the boxes.
    """

    label: str
    places: int
    before: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class CharacterBoxes:
    """Boxes to write a mark into, one a character, row by row as the windows of a plate stand.

    `made` stands beside the label: how the characters were made.
    """

    label: str
    rows: tuple[tuple[BoxWindow, ...], ...]
    made: str = ""
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


@dataclass(frozen=True, slots=True)
class Together:
    """Blocks that stay on one page, where one page can hold them.

    Those inside another stay whole where the outer one must part. `is_on_new_page_if_long`:
    where no page can, do they begin on a new one?
    """

    blocks: tuple["Block", ...]
    is_on_new_page_if_long: bool = False
    kind: Literal["together"] = "together"


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
    | Table
    | Drawing
    | Photograph
    | Card
    | Signature
    | PlaceHeading
    | WriteIn
    | CharacterBoxes
    | TickBoxes
    | DrawnBoxes
    | Together
    | Columns
)


@dataclass(frozen=True, slots=True)
class Section:
    """A titled run of blocks; `new_page` where it must begin on one."""

    title: str
    blocks: tuple[Block, ...]
    new_page: bool = False


class PaperSize(StrEnum):
    """The size of the paper, by its name in Typst."""

    A4 = "a4"
    LETTER = "us-letter"


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file inside the PDF, with the digest by which it can be told from another."""

    name: str
    content: str
    media_type: str
    description: str


@dataclass(frozen=True, slots=True)
class PageWords:
    """The words that the pages bring along themselves, around what is filled in.

    What stands in braces is filled in by the template: the day, the number of the page.
    """

    document: str
    case: str
    printed: str
    page: str
    first: str
    second: str
    ratio: str
    band: str
    capped_band: str
    signature: str
    date: str
    photograph: str


def page_words() -> PageWords:
    """The words of the pages in the language of the document."""
    return PageWords(
        document=said("{title}, case {case}"),
        case=said("Case {case}, printed {printed}"),
        printed=said("Printed {printed}"),
        page=said("page {page} of {pages}"),
        first=said("First"),
        second=said("Second"),
        ratio=said("LR {ratio}"),
        band=said("band {low} to {high}"),
        capped_band=said("band {low} to {high}; no ratio goes further"),
        signature=said("Signature"),
        date=said("Date"),
        photograph=said("Photograph {exhibit}: {caption}"),
    )


@dataclass(frozen=True, slots=True)
class Outline:
    """A whole document as text and figures, in reading order.

    `label` says what kind of document it is ("Report of examination"); `front` fills a
    first page of its own; `cover` and `how_to_read`, a heading and sentences, follow on the
    next where there are any, or stand on the first; `is_numbered` says whether its sections
    bear numbers; `is_read_at_the_car` whether its type is large and all ink, for a dim
    garage; `language` is the tag of its language.
    """

    label: str
    title: str
    case_id: str
    printed: str
    printed_iso: str
    footer: str
    sections: tuple[Section, ...]
    cover: tuple[Fact, ...] = ()
    how_to_read: tuple[str, ...] = ()
    is_numbered: bool = True
    is_read_at_the_car: bool = False
    language: str = "en"
    front: tuple[Block, ...] = ()
    words: PageWords = field(default_factory=page_words)


@dataclass(frozen=True, slots=True)
class Form:
    """How a document is printed: on which paper, in which language, with which files inside."""

    size: PaperSize = PaperSize.A4
    catalogue: Catalogue = ENGLISH_CATALOGUE
    attachments: tuple[Attachment, ...] = ()


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph made ready for the page: a JPEG, or a sentence why there is none."""

    exhibit: str
    jpeg: bytes
    missing: str
