"""What was brought and seen: how each site ended, readings, looks, papers and exhibits."""

from datetime import datetime
from typing import Any

from witnessmark.casefile.problems import BadDigest
from witnessmark.casefile.words import (
    AttachmentSeen,
    Legibility,
    Orientation,
    PaperKind,
    PaperState,
    Seen,
    SiteState,
)
from witnessmark.documents.open_row import (
    OpenRow,
    named_or_not,
    names,
    noted,
)
from witnessmark.documents.row import (
    form,
    free_text,
    many_rows,
    moment,
    named,
    number,
    word,
    yes_no,
)

_SEEN: Any = word(
    "how it was seen: in person, photograph, copy or told", Seen, default=Seen.IN_PERSON
)
_BY = noted("who saw it: the id of an examiner, or a name")
_EXHIBITS = names("ids of the exhibits that show it")
_NOTE = noted("anything else, in words")


class SiteSeen(OpenRow, called="a site"):
    """How one expected site of the book ended, or one mark of it.

    Without `mark` it speaks of the place and of all its marks that have no entry of their own.
    """

    site: str = named("a site of the code book")
    mark: str = named_or_not(
        "the one mark of the site that this speaks of; empty: all that have no entry"
    )
    state: SiteState = word(
        "how it ended: read, found and illegible, absent, not accessible, not looked for", SiteState
    )
    reason: str = noted("why it was not read")
    attachment: AttachmentSeen = word(
        "whether the part was in place or present but detached",
        AttachmentSeen,
        default=AttachmentSeen.IN_PLACE,
    )
    exhibits: tuple[str, ...] = _EXHIBITS


class MarkReading(OpenRow, called="a reading"):
    """One person's transcript of one mark, as typed (see docs/notation.md).

    `again` is True where it was read again after something did not fit, or by a second person
    who knew neither the claim nor the first reading. `claim_known`: did the reader know the
    claimed number? None where nobody noted it, which is taken as known.
    """

    mark: str = named("a mark of the code book")
    text: str = free_text("the transcript in the notation for readings", most=500)
    legibility: Legibility = word(
        "how well it can be read as a whole: clear, worn or poor",
        Legibility,
        default=Legibility.CLEAR,
    )
    orientation: Orientation = word(
        "which way up it stands: upright, upside down, sideways or unsure",
        Orientation,
        default=Orientation.UPRIGHT,
    )
    seen: Seen = _SEEN
    again: bool = yes_no(
        "true: read again after something did not fit, or blind by a second person", default=False
    )
    claim_known: bool | None = yes_no(
        "did the reader know the claimed number? null: not noted, taken as known", default=None
    )
    by: str = _BY
    when: datetime | None = moment("when it was read, such as 2025-03-14T10:30", default=None)
    exhibits: tuple[str, ...] = _EXHIBITS
    note: str = _NOTE


class LookSeen(OpenRow, called="a look"):
    """How the metal around a mark looked: one feature of one site.

    `outcome` is factory, doubtful or disturbed, or an outcome that the book
    lists for this feature. `again` as in a `MarkReading`.
    """

    site: str = named("a site of the code book")
    feature: str = named("a feature of the code book", default="surface")
    outcome: str = named(
        "factory, doubtful, disturbed, or an outcome the book lists for the feature"
    )
    seen: Seen = _SEEN
    again: bool = yes_no(
        "true: looked at again after something did not fit, or blind by a second person",
        default=False,
    )
    by: str = _BY
    when: datetime | None = moment("when it was seen, such as 2025-03-14T10:30", default=None)
    exhibits: tuple[str, ...] = _EXHIBITS
    note: str = _NOTE


class PaperSays(OpenRow, called="what a paper says"):
    """One thing that a paper says of the car: an item of the book, and its value there."""

    item: str = named("an item of the code book")
    value: str = named("what the paper says of it, as it stands there")


class Paper(OpenRow, called="a paper"):
    """A paper: where it is and, for a copy, what it was copied from.

    What a paper of the book says is a `MarkReading` of its mark. One that the book does not list
    has a `kind` and a `name` in place of `mark`, and `says` what it says; it is told and never
    weighed. A paper whose `copied_from` names another counts as that one's echo, not as a
    witness. `asked_in_vain` names sources of the book (archive, register) that do not have it.
    """

    mark: str = named_or_not("the paper's mark in the code book; empty where it lists none")
    state: PaperState = word(
        "in hand, copy, asked for and awaited, refused, lost or not asked for", PaperState
    )
    kind: PaperKind = word(
        "what it is, of a paper that the book does not list",
        PaperKind,
        default=PaperKind.OF_THE_BOOK,
    )
    name: str = named_or_not("what it is called, of a paper that the book does not list")
    says: tuple[PaperSays, ...] = many_rows(
        "what it says of which items, of a paper that the book does not list",
        PaperSays,
        default=(),
    )
    copied_from: str = named_or_not(
        "the mark, or the name of the paper, that its numbers were copied from, if they were"
    )
    asked_in_vain: tuple[str, ...] = names("sources of the book that were asked and do not have it")
    note: str = _NOTE
    exhibits: tuple[str, ...] = _EXHIBITS


class Title(OpenRow, called="a title"):
    """The number on the title or registration paper."""

    number: str = named_or_not("the number on the title or registration paper")
    issued_by: str = noted("who issued it")
    seen: Seen = _SEEN
    exhibits: tuple[str, ...] = _EXHIBITS


class Region(OpenRow, called="a region"):
    """A rectangle of a picture that shows a number, in pixels of the upright picture.

    Upright is the picture as it is looked at, turned as its camera notes say;
    `left` and `top` count from its upper left corner.
    """

    left: int = number("pixels from the left edge of the upright picture", 0, 1_000_000)
    top: int = number("pixels from its upper edge", 0, 1_000_000)
    width: int = number("pixels across", 1, 1_000_000)
    height: int = number("pixels down", 1, 1_000_000)


class ExhibitEntry(OpenRow, called="an exhibit"):
    """A photograph or document received: its file name in `exhibits/` and its digest.

    `number_regions`: where it shows numbers; empty where somebody looked and it
    shows none; None where nobody has looked, and then no masked copy shows it.
    `shows_whole_car`: it is a photograph of the car as a whole, which belongs to no place.
    """

    id: str = named("a short id that other records refer to")
    file: str = named("its file name in the folder exhibits/")
    sha256: str = form(
        "the SHA-256 of the file, 64 digits 0-9 and a-f", r"[0-9a-f]{64}", refused=BadDigest
    )
    caption: str = noted("what it shows")
    taken_by: str = noted("who took or gave it")
    taken_at: datetime | None = moment("when it was taken, such as 2025-03-14T10:30", default=None)
    shows_whole_car: bool = yes_no("true: it shows the car as a whole", default=False)
    number_regions: tuple[Region, ...] | None = many_rows(
        "where it shows numbers (or anything else to hide): filled in a masked copy; [ ] if it was "
        "looked at and shows none; null: not shown in a masked copy",
        Region,
        default=None,
    )
