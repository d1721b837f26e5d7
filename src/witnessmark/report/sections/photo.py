"""The log of the photographs and documents, each with its digest; and those not shown elsewhere."""

from witnessmark.casefile.records import Casefile, ExhibitEntry
from witnessmark.catalogue import as_said, said
from witnessmark.outline.records import (
    Heading,
    Paragraph,
    Pictures,
    Section,
    Table,
    TableCell,
)
from witnessmark.report.press.pictures import NO_PICTURE, NOT_BROUGHT, TOO_LARGE
from witnessmark.report.records import Picture
from witnessmark.report.sections.matter import Matter
from witnessmark.wording import Names, moment_text
from witnessmark.wording.amounts import capital, clause
from witnessmark.wording.case_words import feature_word

FOURS = 4


def log_intro() -> str:
    """What the photo log lists, and what a digest is good for."""
    return said(
        "Every photograph and document of the case. The digest is that of the original "
        "file, written in groups of four: computing it again shows whether a file is the "
        "same."
    )


def photo_log_section(matter: Matter, shown: frozenset[str]) -> Section | None:
    """Every exhibit by its number, with its whole digest, by whom and when, and the file; then
    the photographs that the report does not show, which shows those in `shown`."""
    case = matter.case
    if not case.exhibits:
        return None
    entries = {entry.id: entry for entry in case.exhibits}
    ready = {entry.id: Picture(entry.id, b"", NOT_BROUGHT) for entry in case.exhibits}
    ready |= {picture.exhibit: picture for picture in matter.pictures}
    rows = tuple(
        (
            TableCell(str(number), strong=True),
            TableCell(clause(entries[each].caption) or said("No caption was given."), (each,)),
            TableCell(grouped(entries[each].sha256), mono=True),
            TableCell(capital(_taken(entries[each])) or said("Not stated")),
            TableCell(
                "; ".join(_bound(case, each, matter.names)) or said("Tied to no reading or look"),
                (_file_sentence(ready[each]),),
            ),
        )
        for each, number in matter.numbers.items()
    )
    shows = said("What it shows, and the file")
    head = (said("No."), said("Photograph or document"), said("SHA-256"), said("Taken"), shows)
    table = Table(head, rows, (0.6, 2.4, 3.3, 2.0, 3.6), is_dense=True)
    left = tuple(each for each in matter.numbers if each not in shown)
    others = Pictures(tuple(map(matter.photograph, left)), 3)
    more = (Heading(said("Photographs that the report does not show")), others) if left else ()
    return Section(said("Photograph log"), (Paragraph(log_intro(), "lead"), table, *more))


def grouped(digest: str) -> str:
    """A digest in groups of four characters.

    >>> grouped("ab12cd34")
    'ab12 cd34'
    """
    return " ".join(digest[at : at + FOURS] for at in range(0, len(digest), FOURS))


def _file_sentence(picture: Picture) -> str:
    """Whether the file was there and is the one that was recorded."""
    if not picture.missing or picture.missing in (NO_PICTURE, TOO_LARGE):
        return said("The file was there and its digest is the one recorded.")
    return as_said(picture.missing)


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
