"""The photographs and documents: shown small, and logged in full with their digests."""

from witnessmark.casefile.records import Casefile, ExhibitEntry
from witnessmark.catalogue import as_said, said
from witnessmark.examination import Opinion
from witnessmark.outline.records import Block, Paragraph, Photograph, Section, Table, TableCell
from witnessmark.report.press.pictures import NO_PICTURE, NOT_BROUGHT, TOO_LARGE
from witnessmark.report.records import Picture
from witnessmark.wording import Names, moment_text
from witnessmark.wording.amounts import capital
from witnessmark.wording.case_words import feature_word

DIGEST_SHOWN = 16
FOURS = 4


def pictures_intro() -> str:
    """What the pictures are, and where their digests stand."""
    return said(
        "Each picture is a reduced copy for reading. The original is kept byte for byte; "
        "the first {count} characters of its SHA-256 digest are given here, the full "
        "digest in the photo log.",
        count=DIGEST_SHOWN,
    )


def log_intro() -> str:
    """What the photo log lists, and what a digest is good for."""
    return said(
        "Every photograph and document of the case. The digest is that of the original "
        "file, written in groups of four: computing it again shows whether a file is the "
        "same."
    )


def photographs_section(opinion: Opinion, pictures: tuple[Picture, ...]) -> Section | None:
    """Each exhibit with its caption, the marks it shows and the short form of its digest."""
    case = opinion.casefile
    if not case.exhibits:
        return None
    ready = _ready(case, pictures)
    blocks: list[Block] = [Paragraph(pictures_intro(), "lead")]
    for entry in case.exhibits:
        shown = "; ".join(_bound(case, entry.id, Names(opinion.names)))
        details = (
            said("Belongs to: {marks}", marks=shown)
            if shown
            else said("Tied to no reading or look"),
            capital(_taken(entry)),
            said("SHA-256 {digest}…", digest=entry.sha256[:DIGEST_SHOWN]),
        )
        picture = ready[entry.id]
        blocks.append(
            Photograph(
                id=entry.id,
                caption=entry.caption or said("No caption was given."),
                details=tuple(text for text in details if text),
                file=entry.id if picture.jpeg else "",
                missing=missing_sentence(picture.missing),
            )
        )
    return Section(said("Photographs and documents"), tuple(blocks))


def photo_log_section(opinion: Opinion, pictures: tuple[Picture, ...]) -> Section | None:
    """Every exhibit with its whole digest, by whom and when, what it bears on, and the file."""
    case = opinion.casefile
    if not case.exhibits:
        return None
    ready = _ready(case, pictures)
    names = Names(opinion.names)
    rows = tuple(
        (
            TableCell(entry.id, (entry.caption or said("No caption was given."),), strong=True),
            TableCell(grouped(entry.sha256), mono=True),
            TableCell(capital(_taken(entry)) or said("Not stated")),
            TableCell(
                "; ".join(_bound(case, entry.id, names)) or said("Tied to no reading or look"),
                (_file_sentence(ready[entry.id]),),
            ),
        )
        for entry in case.exhibits
    )
    head = (said("Exhibit"), said("SHA-256"), said("Taken"), said("What it shows, and the file"))
    table = Table(head, rows, (2.6, 3.5, 2.2, 3.6), is_dense=True)
    return Section(said("Photo log"), (Paragraph(log_intro(), "lead"), table))


def grouped(digest: str) -> str:
    """A digest in groups of four characters.

    >>> grouped("ab12cd34")
    'ab12 cd34'
    """
    return " ".join(digest[at : at + FOURS] for at in range(0, len(digest), FOURS))


def missing_sentence(missing: str) -> str:
    """Why a picture is not shown, in the language of the page."""
    return as_said(missing) if missing else ""


def _file_sentence(picture: Picture) -> str:
    """Whether the file was there and is the one that was recorded."""
    if not picture.missing or picture.missing in (NO_PICTURE, TOO_LARGE):
        return said("The file was there and its digest is the one recorded.")
    return missing_sentence(picture.missing)


def _ready(case: Casefile, pictures: tuple[Picture, ...]) -> dict[str, Picture]:
    """A picture for every exhibit; one that was not brought where there is none."""
    ready = {entry.id: Picture(entry.id, b"", NOT_BROUGHT) for entry in case.exhibits}
    return ready | {picture.exhibit: picture for picture in pictures}


def _taken(entry: ExhibitEntry) -> str:
    when = moment_text(entry.taken_at) if entry.taken_at else ""
    if not entry.taken_by:
        return when
    by = said("taken by {name}", name=entry.taken_by)
    return f"{by}, {when}" if when else by


def _bound(case: Casefile, exhibit: str, names: Names) -> tuple[str, ...]:
    """The marks, looks, sites and papers of the case that name this exhibit."""
    marks = [names.mark(r.mark) for r in case.readings if exhibit in r.exhibits]
    looks = [
        said("{feature} of the {site}", feature=feature_word(k.feature), site=names.any(k.site))
        for k in case.looks
        if exhibit in k.exhibits
    ]
    sites = [names.any(s.site) for s in case.sites if exhibit in s.exhibits]
    papers = [names.paper(p.mark, p.name) for p in case.papers if exhibit in p.exhibits]
    title = [said("the title")] if exhibit in case.title_paper.exhibits else []
    return tuple(dict.fromkeys([*marks, *looks, *sites, *papers, *title]))
