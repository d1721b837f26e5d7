"""A case that is being changed, in memory: what is entered is checked where it was typed, and all
else stays to the byte. Whoever takes the entries in writes the text that comes of it.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from witnessmark.casefile import Casefile, CaseParsed, parse_casefile
from witnessmark.casefile.check import check_case as check_alone
from witnessmark.codebook import CarContext, CodeBook
from witnessmark.decoding import Decoding
from witnessmark.documents.json_edit import changed_json, taken_over
from witnessmark.documents.json_places import EnteredPlaces, first_unreadable
from witnessmark.documents.json_rows import JsonRows
from witnessmark.documents.lines import KeyPath
from witnessmark.documents.open_row import OpenRow, as_json
from witnessmark.documents.problems_json import UnreadableCharacter
from witnessmark.examination import book_names, car_context, car_marks, check_case, in_book_words
from witnessmark.problem import Problem
from witnessmark.source import NOWHERE, Source
from witnessmark.wording import Names, typing_sentences


@dataclass(frozen=True, slots=True)
class Entered:
    """A value for a field, and where it was typed."""

    value: Any
    source: Source


@dataclass(frozen=True, slots=True)
class EnteredPair:
    """What was entered of one thing: its name, and what is said of it."""

    left: Entered
    right: Entered


@dataclass(slots=True, kw_only=True)
class CaseDraft:
    """The case as it is to be, with its book and where each new value was typed."""

    opened: CaseParsed
    """The case as it is, of the present format."""
    casefile: Casefile
    book: CodeBook
    given: dict[KeyPath, Source] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    removed: list[KeyPath] = field(default_factory=list)
    """Entries of the case as it is that are taken away, each where it stood by then."""
    kept: Casefile = field(init=False)
    """The case as it is, without these."""

    def __post_init__(self) -> None:
        """Nothing is taken away yet."""
        self.kept = self.opened.casefile or self.casefile

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
        old = _entries(self.kept, section)
        read = _entries(in_book_words(self.casefile, self.book), section)
        now = tuple(
            typed if n < len(old) and typed == old[n] else read[n]
            for n, typed in enumerate(_entries(self.casefile, section))
        )
        self.casefile = _with_entries(self.casefile, section, now)

    def remove(self, section: str, at: int) -> bool:
        """Take this entry away, and let those behind it move up; False where there is none."""
        if not 0 <= at < len(_entries(self.casefile, section)):
            return False
        path = tuple(section.split("."))
        if at < len(_entries(self.kept, section)):
            self.kept = _without(self.kept, section, at)
            self.removed.append((*path, at))
        self.casefile = _without(self.casefile, section, at)
        self.given = dict(_moved_up(self.given, path, at))
        return True

    def places(self) -> EnteredPlaces:
        """Where the values of the case stand, and where new ones were typed."""
        at = self.opened.places
        return EnteredPlaces(at.lines, at.values, at.keys, self.given)

    def text(self) -> str:
        """The document as it is to be: what does not differ stays to the byte."""
        at = self.opened.places
        typed, left = json.loads(at.text), json.loads(at.text)
        for *section, entry in self.removed:
            entries = left
            for name in section:
                entries = entries[name]
            del entries[entry]
        now = taken_over(left, as_json(self.kept), as_json(self.casefile))
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
        assert was is not None, "a case that cannot be read has no draft"
        wrong = (*check_alone(was, before), *check_case(was, before, self.book))
        told = {(type(each), each.sentence()) for each in wrong}
        return tuple(each for each in found if (type(each), each.sentence()) not in told)


def _entries(casefile: Casefile, section: str) -> tuple[Any, ...]:
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


def _without(casefile: Casefile, section: str, at: int) -> Casefile:
    entries = _entries(casefile, section)
    return _with_entries(casefile, section, (*entries[:at], *entries[at + 1 :]))


def _moved_up(
    given: Mapping[KeyPath, Source], section: tuple[str, ...], at: int
) -> Iterator[tuple[KeyPath, Source]]:
    """Where values were typed, once the entry at this place of a section is gone."""
    depth = len(section)
    for path, source in given.items():
        place = path[depth] if path[:depth] == section and len(path) > depth else None
        if not isinstance(place, int) or place < at:
            yield path, source
        elif place > at:
            yield (*section, place - 1, *path[depth + 1 :]), source


def unreadable(given: Entered) -> list[Problem]:
    """A character of a typed text that no text may hold."""
    texts = given.value if isinstance(given.value, list) else [given.value]
    written = (json.dumps(each, ensure_ascii=False) for each in texts if isinstance(each, str))
    found = map(first_unreadable, written)
    return [UnreadableCharacter(given.source, each.code_point) for each in found if each]


def checked(draft: CaseDraft) -> tuple[str, tuple[Problem, ...]]:
    """The document as it is to be, and everything that is wrong with what was entered: with any
    problem it is not to be written."""
    text = draft.text()
    return text, tuple(dict.fromkeys((*draft.problems, *draft.faults(text))))


def decoded(draft: CaseDraft, since: int | None = None) -> tuple[Decoding, ...]:
    """The readings that were entered, or those from this one on, decoded; one that holds two
    marks is two."""
    old = len(draft.kept.readings) if since is None else since
    entered = replace(draft.casefile, readings=draft.casefile.readings[old:])
    if not entered.readings:
        return ()
    return car_marks(in_book_words(entered, draft.book), draft.book).decodings


def read_back(draft: CaseDraft) -> tuple[str, ...]:
    """What the readings that were entered say, and what of them may have been mistyped."""
    return typing_sentences(decoded(draft), draft.book, draft.names)
