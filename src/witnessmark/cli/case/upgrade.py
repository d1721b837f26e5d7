"""`witnessmark case upgrade`: a case of format 1 becomes one of format 2, and nothing is lost."""

import json
from codecs import BOM_UTF8
from collections.abc import Iterator
from pathlib import Path
from typing import Annotated

from witnessmark.casefile import FORMAT_VERSION, CaseOpened, open_case, parse_casefile
from witnessmark.casefile.folder import document_of
from witnessmark.casefile.upgrade import upgraded_text
from witnessmark.catalogue import counted, said
from witnessmark.cli.arguments import CasePath, option
from witnessmark.cli.terminal import print_line, refuse
from witnessmark.cli.writing import tell_upgraded, write_upgraded
from witnessmark.documents.changes import OLD_VERSION, FormatChange
from witnessmark.documents.json_places import JsonPlaces
from witnessmark.outline.records import Paragraph, Section

HELP = """Only what the format changed is rewritten; everything else stays exactly as it
was. The original is kept beside it as case.format-1.json, unless --out names
another file. A case already in the current format is left alone. Issued reports
stay valid: their Opinions are read as they were kept.

\b
Example:
  witnessmark case upgrade demo/clean
"""


def case_upgrade(
    case: CasePath,
    out: Annotated[
        Path | None, option("FILE", "Write a new file here; leave the case alone.")
    ] = None,
) -> None:
    """Bring one case over, whole or not at all."""
    opened = open_case(Path(case), check_exhibits=False)
    if opened.casefile is None or opened.problems:
        refuse(opened.problems)
    if not opened.changes:
        told = f"is already in format {FORMAT_VERSION}; nothing was written"
        print_line(f"{opened.places.name} {told}.")
        return
    document = document_of(Path(case))
    before = document.read_bytes()
    mark = BOM_UTF8 if before.startswith(BOM_UTF8) else b""
    now = _brought_over(opened.places, opened.changes)
    as_read = mark + opened.places.text.encode("utf-8")
    kept = write_upgraded(document, out, as_read, mark + now.encode("utf-8"), "case")
    fields = counted("{number} field", "{number} fields", len(opened.changes))
    tell_upgraded(out or document, fields, _told(opened.places, opened.changes), kept)


def _brought_over(places: JsonPlaces, changes: tuple[FormatChange, ...]) -> str:
    """The text in the present format, read again before anybody relies on it."""
    text = upgraded_text(places, changes)
    before, now = (parse_casefile(each, places.name) for each in (places.text, text))
    assert not now.problems
    assert now.casefile == before.casefile, "it reads as before"
    return text


def _told(places: JsonPlaces, changes: tuple[FormatChange, ...]) -> Iterator[str]:
    """What differs in the present format, a line a field."""
    for each in changes:
        place, name = places.key_source(each.path).place(), each.path[-1]
        if each.value is None:
            yield said(
                '{place}: "{name}" is now "{key}": kept and, as before, not read',
                place=place,
                name=name,
                key=each.key,
            )
        else:
            yield said(
                '{place}: "{name}": {before} is now "{key}": {now}',
                place=place,
                name=name,
                before=places.typed(each.path),
                key=each.key,
                now=json.dumps(each.value),
            )


def upgrade_sections(opened: CaseOpened) -> tuple[Section, ...]:
    """Of a case that was of the previous format, or is: what reads otherwise, and why a ratio can
    be another than it was. Nothing of any other case."""
    before = opened if opened.changes else kept_before(opened)
    if before is None:
        return ()
    rest = said(
        "Nothing else in the case changed. Cars have been weighed in a different way since "
        "then: the parts of a car are linked by a few causes, an impossible order of dates "
        "counts, and a band shows how far an answer rests on assumed rates. A ratio may have "
        "moved for that reason alone: `report --supplement-to` sets the issued report beside "
        "the new one."
    )
    told = (*_told(before.places, before.changes), rest)
    title = said("What differs from the previous format")
    return (Section(title, tuple(map(Paragraph, told))),)


def kept_before(opened: CaseOpened) -> CaseOpened | None:
    """The case as it was before it was converted, if it is kept beside it."""
    document = opened.exhibits.folder.parent / Path(opened.places.name).name
    kept = document.with_name(f"{document.stem}.format-{OLD_VERSION}.json")
    if not kept.is_file():
        return None
    found = open_case(kept, check_exhibits=False)
    if found.casefile is None or opened.casefile is None or not found.changes:
        return None
    return found if found.casefile.id == opened.casefile.id else None
