"""A case that is being changed: what is entered is checked where it was typed, then written as
a revision, and told in three lines or fewer.
"""

import getpass
import json
from codecs import BOM_UTF8
from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from witnessmark.casefile import Casefile, CaseOpened, ExhibitEntry, open_case, parse_casefile
from witnessmark.casefile.check import check_case as check_alone
from witnessmark.casefile.folder import document_of, read_document
from witnessmark.casefile.revisions import Alteration, Revisions, digest
from witnessmark.casefile.site_entries import SiteEntries
from witnessmark.catalogue import in_a_row, said
from witnessmark.cli.cases import books_of_case
from witnessmark.cli.problems import NotReceived, UnknownName, UpgradeFirst, why
from witnessmark.cli.terminal import known, print_line, refuse
from witnessmark.cli.writing import only_writer
from witnessmark.codebook import CarContext, CodeBook
from witnessmark.decoding import Decoding
from witnessmark.documents.json_edit import changed_json, taken_over
from witnessmark.documents.json_places import EnteredPlaces, first_unreadable
from witnessmark.documents.json_rows import JsonRows
from witnessmark.documents.lines import KeyPath
from witnessmark.documents.open_row import OpenRow, as_json
from witnessmark.documents.problems_json import UnreadableCharacter
from witnessmark.examination import book_names, car_context, car_marks, check_case, in_book_words
from witnessmark.examination.book_words import place_named
from witnessmark.problem import Problem
from witnessmark.source import NOWHERE, Source
from witnessmark.wording import Names, typing_sentences
from witnessmark.wording.terms import term

MOST_NAMED = 3
"""Entries that are named in a line; of further ones their number."""
LONGEST_TOLD = 120
"""Characters of an entry that are repeated in a line."""


@dataclass(frozen=True, slots=True)
class Entered:
    """A value for a field, and where it was typed."""

    value: Any
    source: Source


@dataclass(slots=True, kw_only=True)
class CaseDraft:
    """The case as it is to be, with its book and where each new value was typed."""

    opened: CaseOpened
    casefile: Casefile
    book: CodeBook
    given: dict[KeyPath, Source] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    files: list[tuple[Path, ExhibitEntry, Source]] = field(default_factory=list)
    """Files that are copied into the case once all else is right."""

    @property
    def context(self) -> CarContext:
        """What the claim says of the car."""
        return car_context(self.casefile, self.book)

    @property
    def names(self) -> Names:
        """What the book calls the things of the case."""
        bare = replace(in_book_words(self.casefile, self.book), readings=())
        return Names(book_names(car_marks(bare, self.book)))

    def add(self, section: str, row: type[OpenRow], fields: Mapping[str, Entered]) -> None:
        """One more entry of this section, or its problems; `section` may be `claim.statements`."""
        entries = _entries(self.casefile, section)
        made = self.record(row, fields, (*section.split("."), len(entries)))
        if made is not None:
            self.casefile = _with_entries(self.casefile, section, (*entries, made))

    def put(self, section: str, at: int, fields: Mapping[str, Entered]) -> None:
        """Other values for fields of an entry that is there."""
        entries = _entries(self.casefile, section)
        made = self.put_in(entries[at], fields, (section, at))
        if made is not None:
            now = (*entries[:at], made, *entries[at + 1 :])
            self.casefile = _with_entries(self.casefile, section, now)

    def enter(
        self, section: str, at: int, row: type[OpenRow], own: Mapping[str, Entered], fields: Any
    ) -> int | None:
        """These fields in the entry that stands at this place, or in one more, which gets its `own`
        too; gives its place, None where something is at fault."""
        faults = len(self.problems)
        if at < len(_entries(self.casefile, section)):
            self.put(section, at, fields)
        else:
            self.add(section, row, {**own, **fields})
        return at if len(self.problems) == faults else None

    def put_in[R: OpenRow](self, row: R, fields: Mapping[str, Entered], path: KeyPath) -> R | None:
        """The record with other values for these fields; None where one is at fault."""
        there = {name: Entered(as_json(each), NOWHERE) for name, each in row.values().items()}
        return self.record(type(row), {**there, **fields}, path)

    def record[R: OpenRow](
        self, row: type[R], fields: Mapping[str, Entered], path: KeyPath
    ) -> R | None:
        """The record of these values, which will stand at this path; None where one is at fault."""
        typed = {(*path, name): each.source for name, each in fields.items() if each.source.name}
        unread = [p for each in fields.values() for p in unreadable(each)]
        self.problems += unread
        self.given |= typed
        for name, each in fields.items():
            if isinstance(each.value, list):
                self.given |= {(*path, name, n): each.source for n in range(len(each.value))}
        rows = JsonRows(self.places())
        made = rows.row(row, {name: each.value for name, each in fields.items()}, path)
        self.problems += () if unread else rows.problems()
        return made

    def in_book_words(self, section: str) -> None:
        """Let what was entered last bear the book's own ids; older entries stay as typed."""
        old = _entries(self.opened.casefile, section)
        read = _entries(in_book_words(self.casefile, self.book), section)
        now = tuple(
            typed if n < len(old) and typed == old[n] else read[n]
            for n, typed in enumerate(_entries(self.casefile, section))
        )
        self.casefile = _with_entries(self.casefile, section, now)

    def places(self) -> EnteredPlaces:
        """Where the values of the case stand, and where new ones were typed."""
        at = self.opened.places
        return EnteredPlaces(at.lines, at.values, at.keys, self.given)

    def text(self) -> str:
        """The document as it is to be: what does not differ stays to the byte."""
        at = self.opened.places
        typed = json.loads(at.text)
        now = taken_over(typed, as_json(self.opened.casefile), as_json(self.casefile))
        return changed_json(at, typed, now)

    def faults(self, text: str) -> tuple[Problem, ...]:
        """What would be wrong that is not wrong already, each where it was typed."""
        parsed = parse_casefile(text, self.opened.places.name)
        if parsed.casefile is None:  # what no text may hold is told where it was typed
            return () if self.problems else parsed.problems
        at = parsed.places
        places = EnteredPlaces(at.lines, at.values, at.keys, self.given)
        found = [*check_alone(self.casefile, places), *check_case(self.casefile, places, self.book)]
        if not found:
            assert parsed.casefile == self.casefile, "what was entered is what is read"
            return ()
        was, before = self.opened.casefile, self.opened.places
        assert was is not None, "a case that cannot be read has ended the command"
        wrong = (*check_alone(was, before), *check_case(was, before, self.book))
        told = {(type(each), each.sentence()) for each in wrong}
        return tuple(each for each in found if (type(each), each.sentence()) not in told)


def _entries(casefile: Casefile | None, section: str) -> tuple[Any, ...]:
    """The entries of a section: readings, or claim.statements."""
    owner: Any = casefile
    for name in section.split("."):
        owner = getattr(owner, name)
    return tuple(owner)


def _with_entries(casefile: Casefile, section: str, entries: tuple[Any, ...]) -> Casefile:
    """The case with these entries in this section."""
    above, _, name = section.rpartition(".")
    changed: dict[str, Any] = {name: entries}
    if above:
        changed = {above: replace(getattr(casefile, above), **changed)}
    return replace(casefile, **changed)


def unreadable(given: Entered) -> list[Problem]:
    """A character of a typed text that no text may hold."""
    texts = given.value if isinstance(given.value, list) else [given.value]
    written = (json.dumps(each, ensure_ascii=False) for each in texts if isinstance(each, str))
    found = map(first_unreadable, written)
    return [UnreadableCharacter(given.source, each.code_point) for each in found if each]


def change_case(case: str, command: str, make: Callable[[CaseDraft], Sequence[str]]) -> None:
    """Alteration the case in this folder or document: `make` enters into the draft and gives the
    lines that tell what it did. Nothing is written where anything is wrong."""
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
        text = draft.text()
        problems = dict.fromkeys((*draft.problems, *draft.faults(text)))
        if problems:
            refuse(problems)
        if text == opened.places.text:
            print_line(said("Nothing changed: the case says so already."))
            return
        _keep_files(draft)
        mark = "\ufeff" if was.startswith(BOM_UTF8) else ""
        change = Alteration(mark + text, f"{command}: {in_a_row(told, '. ')}", who_types(), now())
        made = known(revisions.record(was, change))
    for line in told:
        print_line(line)
    back = f"witnessmark case undo {case}"
    print_line(
        said("Revision {number}; `{command}` takes it back.", number=made.number, command=back)
    )
    for sentence in typing_sentences(decoded(draft), draft.book, draft.names):
        print_line(sentence)


def _keep_files(draft: CaseDraft) -> None:
    """Copy the files into the case, byte for byte; one that is no longer what it was is not."""
    for path, entry, source in draft.files:
        try:
            content = path.read_bytes()
        except OSError as fault:
            refuse((NotReceived(source, str(path), why(fault)),))
        if digest(content) != entry.sha256:
            refuse((NotReceived(source, str(path), "it has changed since it was looked at"),))
        known(draft.opened.exhibits.keep(content, entry.file, source))


def decoded(draft: CaseDraft) -> tuple[Decoding, ...]:
    """The readings that were entered, decoded; one that holds two marks is two."""
    old = len(draft.opened.casefile.readings) if draft.opened.casefile else 0
    entered = replace(draft.casefile, readings=draft.casefile.readings[old:])
    if not entered.readings:
        return ()
    return car_marks(in_book_words(entered, draft.book), draft.book).decodings


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


def reached(draft: CaseDraft) -> str:
    """Which places ended otherwise than before, in a line; empty where none did."""
    was = SiteEntries(draft.opened.casefile.sites if draft.opened.casefile else ())
    ended: dict[str, list[str]] = {}
    for each in draft.casefile.sites:
        before = was.of(each.site, each.mark)
        if before is None or before.state is not each.state:
            ended.setdefault(term(each.state), []).append(place_name(draft, each.site, each.mark))
    told = [
        said("Now {state}: {places}.", state=state, places=in_a_row(places, "; "))
        for state, places in ended.items()
    ]
    return in_a_row(told, " ")


def placed(draft: CaseDraft, given: Entered) -> tuple[str, str] | None:
    """The site that is named, and the mark where it is called by one of several there. A name of
    marks at several places means that which was read; else it adds to the problems."""
    name, book, context = str(given.value), draft.book, draft.context
    found = place_named(book, name, context)
    if found != ("", ""):
        return found
    marks = [mark for mark in book.marks_named(name, context) if mark.site]
    read = {each.mark for each in in_book_words(draft.casefile, book).readings}
    there = [mark for mark in marks if mark.id in read]
    if len(there) == 1:
        return place_named(book, there[0].id, context)
    sites = dict.fromkeys(mark.site for mark in marks or book.marks_for(context) if mark.site)
    where = f"of the book {book.id}"
    draft.problems.append(UnknownName(given.source, "place", name, where, tuple(sites)))
    return None


def place_name(draft: CaseDraft, site: str, mark: str = "") -> str:
    """What the book calls a place, or the one mark of it."""
    of_book = draft.book.mark(mark) if mark else draft.book.site(site, draft.context)
    found = of_book or draft.book.site(site)
    return found.name if found else site


def named_in_a_row(names: Sequence[str]) -> str:
    """The first names, and how many more there are."""
    left = len(names) - MOST_NAMED
    short = [n if len(n) <= LONGEST_TOLD else f"{n[: LONGEST_TOLD - 1]}…" for n in names]
    told = [*short[:MOST_NAMED], *([said("{number} more", number=left)] if left > 0 else [])]
    return in_a_row(told, "; ")
