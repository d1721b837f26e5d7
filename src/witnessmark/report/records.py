"""What a report says, before it is set: sentences, tables, figures, nothing of layout.

The outline is pure: everything a reader will read stands in it as text, so that
it can be checked without a PDF. Blocks know their own `kind`, by which the
template chooses how to set them.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from witnessmark.wording import ConclusionText
from witnessmark.wording.catalogue import ENGLISH_CATALOGUE, Catalogue


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
    """One cell: a main text and quieter lines below it; `mono` for characters as read."""

    text: str
    below: tuple[str, ...] = ()
    mono: bool = False
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Table:
    """Rows under a head; `shares` are the widths of the columns relative to each other."""

    head: tuple[str, ...]
    rows: tuple[tuple[TableCell, ...], ...]
    shares: tuple[float, ...]
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
    """One conclusion as it stands on the summary page."""

    text: ConclusionText
    favours: str
    standing: str
    kind: Literal["card"] = "card"


@dataclass(frozen=True, slots=True)
class Signature:
    """A place to sign for one examiner."""

    name: str
    qualifications: str
    kind: Literal["signature"] = "signature"


Block = Paragraph | Heading | Bullets | Facts | Table | Drawing | Photograph | Card | Signature


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
class Outline:
    """A whole document as text and figures, in reading order.

    `label` says what kind of document it is ("Report of examination"); `cover` and
    `how_to_read`, a heading and sentences, stand on its first page where there are any;
    `is_numbered` says whether its sections bear numbers; `language` is the tag of its
    language.
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
    language: str = "en"


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
