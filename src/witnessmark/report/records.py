"""How a document is printed: on which paper, with which files and photographs."""

from dataclasses import dataclass
from enum import StrEnum

from witnessmark.catalogue import ENGLISH_CATALOGUE, Catalogue


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
class Form:
    """How a document is printed: on which paper, in which language, with which files inside."""

    size: PaperSize = PaperSize.A4
    catalogue: Catalogue = ENGLISH_CATALOGUE
    attachments: tuple[Attachment, ...] = ()


@dataclass(frozen=True, slots=True)
class Annex:
    """What stands behind a report, on paper and for a browser: the same sentences in both."""

    pdf: bytes
    html: bytes


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph made ready for the page: a JPEG, or a sentence why there is none."""

    exhibit: str
    jpeg: bytes
    missing: str
