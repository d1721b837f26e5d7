"""A case changed by a command: read, entered into, written as a revision, and told in three lines
or fewer.
"""

import getpass
from codecs import BOM_UTF8
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from witnessmark.casefile import CaseOpened, ExhibitEntry, open_case
from witnessmark.casefile.folder import document_of, read_document
from witnessmark.casefile.revisions import Alteration, Revisions, digest
from witnessmark.catalogue import in_a_row, said
from witnessmark.cli.cases import books_of_case
from witnessmark.cli.problems import NotReceived, UpgradeFirst, why
from witnessmark.cli.terminal import known, print_line, refuse
from witnessmark.cli.writing import only_writer
from witnessmark.entry import CaseDraft, checked, read_back
from witnessmark.source import Source


@dataclass(frozen=True, slots=True)
class FileToKeep:
    """A file that is copied into the case once all else is right."""

    path: Path
    entry: ExhibitEntry
    source: Source


def change_case(
    case: str,
    command: str,
    make: Callable[[CaseDraft], Sequence[str]],
    files: Sequence[FileToKeep] = (),
) -> None:
    """Alteration the case in this folder or document: `make` enters into the draft and gives the
    lines that tell what it did, and fills in the `files`. Nothing is written where anything is
    wrong."""
    document = document_of(Path(case))
    with writing_alone(document):
        revisions = settled(document)
        opened = open_case(document, check_exhibits=False)
        if opened.casefile is None:
            refuse(opened.problems)
        if opened.changes:
            refuse((UpgradeFirst(Source(str(document)), case),))
        was = known(read_document(document, str(document)))
        book = books_of_case(opened, opened.casefile).book
        draft = CaseDraft(opened=opened, casefile=opened.casefile, book=book)
        told = tuple(filter(None, make(draft)))
        text, problems = checked(draft)
        if problems:
            refuse(problems)
        if text == opened.places.text:
            print_line(said("Nothing changed: the case says so already."))
            return
        _keep_files(opened, files)
        mark = "\ufeff" if was.startswith(BOM_UTF8) else ""
        change = Alteration(mark + text, f"{command}: {in_a_row(told, '. ')}", who_types(), now())
        made = known(revisions.record(was, change))
    for line in told:
        print_line(line)
    back = f"witnessmark case undo {case}"
    print_line(
        said("Revision {number}; `{command}` takes it back.", number=made.number, command=back)
    )
    for sentence in read_back(draft):
        print_line(sentence)


def _keep_files(opened: CaseOpened, files: Sequence[FileToKeep]) -> None:
    """Copy the files into the case, byte for byte; one that is no longer what it was is not."""
    for each in files:
        try:
            content = each.path.read_bytes()
        except OSError as fault:
            refuse((NotReceived(each.source, str(each.path), why(fault)),))
        if digest(content) != each.entry.sha256:
            reason = "it has changed since it was looked at"
            refuse((NotReceived(each.source, str(each.path), reason),))
        known(opened.exhibits.keep(content, each.entry.file, each.source))


def writing_alone(document: Path) -> AbstractContextManager[None]:
    """Nobody else of us writes into the folder of this document meanwhile, if there is one."""
    folder = document.parent
    return only_writer(folder) if folder.is_dir() else nullcontext()


def settled(document: Path) -> Revisions:
    """The revisions of the case, once a change that broke off is finished."""
    revisions = Revisions(document)
    known(revisions.settle())
    return revisions


def who_types() -> str:
    """Who gives the command, as far as the system says."""
    try:
        return getpass.getuser()
    except (ImportError, KeyError, OSError):
        return ""


def now() -> datetime:
    """The moment, in the time of this machine, with its zone."""
    return datetime.now(UTC).astimezone().replace(microsecond=0)
