"""A case folder taken over into the store with its revisions, and written out of it again.

What is taken in and written out is the same to the byte: the document, each revision's file, and
every exhibit that one of them lists, under the name that it has there.
"""

import json
from collections.abc import Iterable, Iterator
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Any

from django.db import IntegrityError, transaction

from witnessmark.casefile.exhibits import ExhibitFolder
from witnessmark.casefile.file_names import name_fault
from witnessmark.casefile.folder import (
    CASE_NAME,
    EXHIBITS_NAME,
    document_of,
    read_document,
    write_case,
)
from witnessmark.casefile.problems import (
    CaseExists,
    CaseUnreadable,
    CaseUnwritable,
    ExhibitAbsent,
    ExhibitNameRefused,
)
from witnessmark.casefile.records import ExhibitEntry
from witnessmark.casefile.revisions import FOUND, Revision, Revisions, digest, rendered
from witnessmark.casefile.whole import put_whole, who_wrote
from witnessmark.documents.utf8 import printable
from witnessmark.problem import Problem
from witnessmark.source import NOWHERE, Source
from witnessmark.store.document import document
from witnessmark.store.exhibits import file_of, keep_exhibit, place_of
from witnessmark.store.models import HeldCase, HeldExhibit, HeldRevision
from witnessmark.store.moments import columns, moment
from witnessmark.store.problems import CaseHeld, NotKeptError
from witnessmark.store.records import KeptRevision, Revised, TakenOver
from witnessmark.store.revising import changes, head, kept_revision, revise


def folder_in(folder: Path, at: datetime) -> TakenOver:
    """Take over the case in this folder, all of it; a document that was written by other means
    since its last revision is one more."""
    path, filed = _opened(folder, at)
    problems, kept_names = _take_exhibits(path.parent, (each.case for each, _ in filed), at)
    there = path.parent / EXHIBITS_NAME
    names = {each.name for each in there.iterdir()} if there.is_dir() else set()
    kept = _hold(document(filed[-1][0].case).id, filed, at, path)
    return TakenOver(kept=kept, problems=problems, left=tuple(sorted(names - kept_names)))


def folder_back(folder: Path, *, who: str, at: datetime) -> tuple[Revised, tuple[Problem, ...]]:
    """A case that was written out of here, worked on elsewhere and is brought back: what was done
    there meets what was done here since. Gives with it what is wrong with its exhibits.

    The last revision that both have is what they come from; of a folder that has none of ours it
    is refused that the case is here already.
    """
    path, filed = _opened(folder, at)
    last = filed[-1][0]
    case = document(last.case).id
    here = {each.number: each.sha256 for each in changes(case)}
    common = [each for each, _ in filed if here.get(each.number) == each.sha256]
    if not common:
        raise NotKeptError((CaseHeld(Source(printable(path)), case),))
    base = common[-1].number
    done = dict.fromkeys(each.did for each, _ in filed if each.number > base)
    problems, _names = _take_exhibits(path.parent, (each.case for each, _ in filed), at)
    did = f"brought back: {'; '.join(done)}"
    return revise(case, base, last.case, who=who, did=did, at=at), problems


def folder_out(case: str, target: Path) -> tuple[Problem, ...]:
    """Write a case with its revisions and exhibits into a folder that has none; the document
    comes last. Gives what is wrong with exhibits, which then are not there."""
    last_number = head(case).number
    rows = HeldRevision.objects.filter(case_id=case, number__lte=last_number).order_by("number")
    place = target / CASE_NAME
    written = Revisions(place)
    if place.exists() or written.numbers():
        raise NotKeptError((CaseExists(Source(printable(place)), who_wrote(place)),))
    text, entries, last = "", dict[str, str](), dict[str, str]()
    try:
        written.folder.mkdir(parents=True, exist_ok=True)
        for row in rows.iterator(chunk_size=20):
            text = row.text
            last = {each.file: each.sha256 for each in _entries(text)}
            entries |= last
            put_whole(written.file(row.number), _file(row), may_replace=False)
        problems = tuple(_write_exhibits(target / EXHIBITS_NAME, entries, frozenset(last)))
    except OSError as fault:
        reason = fault.strerror or "the system refuses"
        raise NotKeptError((CaseUnwritable(Source(str(target)), reason),)) from fault
    faults = write_case(target, text, may_replace=False)
    if faults:
        raise NotKeptError(faults)
    return problems


def _opened(folder: Path, at: datetime) -> tuple[Path, tuple[tuple[Revision, str], ...]]:
    """The document of a folder and all its revisions, the last of which is the document."""
    path = document_of(folder)
    found = Revisions(path)
    told = found.settle()
    content = read_document(path, printable(path)) if told is None else told
    if isinstance(content, Problem):
        raise NotKeptError((content,))
    filed = tuple(_filed(found))
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError:
        raise NotKeptError((CaseUnreadable(Source(str(path)), "it is not UTF-8 text"),)) from None
    last = filed[-1][0] if filed else None
    if last is None or last.sha256 != digest(content):
        filed = (*filed, (_found_like_this(last, text, at), ""))
    return path, filed


def _filed(found: Revisions) -> Iterator[tuple[Revision, str]]:
    """Each revision, and its file where another would be written for it."""
    for number in found.numbers():
        each = found.read(number)
        if isinstance(each, Problem):
            raise NotKeptError((each,))
        content = found.file(number).read_bytes()
        is_ours = rendered(_revision(_row(each, ""))) == content
        yield each, "" if is_ours else content.decode("utf-8")


def _found_like_this(last: Revision | None, text: str, at: datetime) -> Revision:
    """The document as it stands, as the next command would keep it."""
    return Revision(
        number=last.number + 1 if last else 1,
        parent=last.sha256 if last else "",
        sha256=digest(text.encode("utf-8")),
        when=at,
        who="",
        did=FOUND,
        case=text,
    )


def _hold(
    case: str, filed: Iterable[tuple[Revision, str]], at: datetime, path: Path
) -> KeptRevision:
    rows = [_row(each, file) for each, file in filed]
    try:
        with transaction.atomic():
            held = HeldCase(id=case, made_at=at)
            held.save(force_insert=True)
            for row in rows:
                row.case = held
                row.save()
    except IntegrityError:
        raise NotKeptError((CaseHeld(Source(str(path)), case),)) from None
    return kept_revision(rows[-1])


def _row(each: Revision, filed: str) -> HeldRevision:
    return HeldRevision(
        number=each.number,
        parent_sha256=each.parent,
        sha256=each.sha256,
        who=each.who,
        did=each.did,
        undoes=each.undoes,
        text=each.case,
        filed=filed,
        **columns(each.when),
    )


def _revision(row: HeldRevision) -> Revision:
    return Revision(
        number=row.number,
        parent=row.parent_sha256,
        sha256=row.sha256,
        when=None if row.at is None else moment(row.at, row.offset_minutes),
        who=row.who,
        did=row.did,
        undoes=row.undoes,
        case=row.text,
    )


def _file(row: HeldRevision) -> bytes:
    return row.filed.encode("utf-8") or rendered(_revision(row))


def _entries(text: str) -> Iterator[ExhibitEntry]:
    """The exhibits that a document lists, as far as they can be read."""
    with suppress(ValueError, RecursionError):
        values: Any = json.loads(text.removeprefix("\ufeff"))
        listed = values.get("exhibits") if isinstance(values, dict) else None
        for each in listed if isinstance(listed, list) else ():
            named = each if isinstance(each, dict) else {}
            file, sha256 = named.get("file"), named.get("sha256")
            if isinstance(file, str) and isinstance(sha256, str):
                yield ExhibitEntry(id=str(named.get("id", "")), file=file, sha256=sha256)


def _take_exhibits(
    folder: Path, texts: Iterable[str], at: datetime
) -> tuple[tuple[Problem, ...], frozenset[str]]:
    """Keep the files that the revisions list; of those that the last one does not list, one that
    is not there is nobody's loss."""
    exhibits = ExhibitFolder(folder / EXHIBITS_NAME)
    problems: dict[tuple[str, str], tuple[Problem, ...]] = {}
    kept: dict[tuple[str, str], str] = {}
    last: list[tuple[str, str]] = []
    for text in texts:
        entries = {(each.file, each.sha256): each for each in _entries(text)}
        last = list(entries)
        for key, each in entries.items():
            if key in kept or key in problems:
                continue
            faults = exhibits.read(each, Source(printable(folder / CASE_NAME))).problems
            if faults:
                problems[key] = faults
                continue
            with (exhibits.folder / each.file).open("rb") as stream:
                keep_exhibit(stream, f"{EXHIBITS_NAME}/{each.file}", at)
            kept[key] = each.file
    told = (problem for key in last for problem in problems.get(key, ()))
    return tuple(told), frozenset(kept.values())


def _write_exhibits(
    folder: Path, entries: dict[str, str], last: frozenset[str]
) -> Iterator[Problem]:
    """Copy the files; a name that could lead elsewhere is written by nobody. Of those that the
    last revision does not list, one that is not held is nobody's loss."""
    exhibits = ExhibitFolder(folder)
    held = dict(HeldExhibit.objects.values_list("sha256", "media_type"))
    for file, sha256 in entries.items():
        if (fault := name_fault(file)) is not None:
            found: Problem | None = ExhibitNameRefused(NOWHERE, file, fault)
        elif sha256 not in held:
            found = ExhibitAbsent(NOWHERE, file)
        else:
            found = exhibits.keep(place_of(file_of(sha256, held[sha256])).read_bytes(), file)
        if found is not None and file in last:
            yield found
