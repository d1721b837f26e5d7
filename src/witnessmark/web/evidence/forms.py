"""The forms of a card: each entry has its own, told apart by who read it and whether again."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum

from witnessmark.casefile import Casefile, Legibility, LookSeen, MarkReading, Orientation, Seen
from witnessmark.codebook import CodeBook, Mark
from witnessmark.examination import in_book_words
from witnessmark.problem import Problem
from witnessmark.web.evidence.plates import WindowField, has_windows, plate_rows, typed_text
from witnessmark.web.shared.desk import Bench
from witnessmark.wording.case_words import signer_name

KNOWN = {"": None, "yes": True, "no": False}
"""Did the reader know the claimed number: as a form says it."""


@dataclass(frozen=True, slots=True)
class RadioWord:
    """One of several answers of a form."""

    value: str
    label: str
    is_chosen: bool


@dataclass(frozen=True, slots=True)
class Refused:
    """What was sent and not taken: the form, what it held, what was wrong."""

    form: str
    typed: Mapping[str, str]
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Whose:
    """Which entry of several of one thing a form speaks of."""

    by: str
    again: bool = False
    nth: int = 0

    @property
    def tail(self) -> str:
        """What tells its form from those of the others."""
        signs = "".join(sign if sign.isalnum() else "-" for sign in self.by)
        return f"{signs}{'-again' if self.again else ''}{f'-{self.nth}' if self.nth else ''}"


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingForm:
    """A reading as it is filled in; `rows` are the windows of a plate, empty where it is typed in
    one go."""

    id: str
    mark: str
    whose: Whose
    by_shown: str
    text: str = ""
    rows: tuple[tuple[WindowField, ...], ...] = ()
    legibility: tuple[RadioWord, ...] = ()
    orientation: tuple[RadioWord, ...] = ()
    seen: tuple[RadioWord, ...] = ()
    known: tuple[RadioWord, ...] = ()
    note: str = ""
    when: datetime | None = None
    is_new: bool = False
    problems: tuple[Problem, ...] = ()

    def seen_by(self, seen: tuple[RadioWord, ...]) -> "ReadingForm":
        """The same with another way of having seen it chosen."""
        return replace(self, seen=seen)


@dataclass(frozen=True, slots=True, kw_only=True)
class LookForm:
    """How one feature of a place looked to somebody."""

    id: str
    whose: Whose
    by_shown: str
    outcome: str = ""
    note: str = ""
    is_new: bool = False
    problems: tuple[Problem, ...] = ()


def choices(words: type[StrEnum], chosen: str) -> tuple[RadioWord, ...]:
    """The words of a fixed list as answers."""
    return tuple(RadioWord(each.value, each.value, each.value == chosen) for each in words)


def me_of(name: str, casefile: Casefile) -> str:
    """How the entries of this person are signed: by an examiner's id where one is so called."""
    return next((e.id for e in casefile.assignment.examiners if e.name == name), name)


def my_names(name: str, casefile: Casefile) -> frozenset[str]:
    """All that this person's entries are signed with."""
    ids = (each.id for each in casefile.assignment.examiners if each.name == name)
    return frozenset((name, *ids))


def keyed[E: (MarkReading, LookSeen)](
    entries: Iterable[tuple[int, E]],
) -> Iterator[tuple[int, Whose, E]]:
    """Entries of one thing with what tells them apart."""
    seen: dict[tuple[str, bool], int] = {}
    for at, each in entries:
        nth = seen.get((each.by, each.again), 0)
        seen[each.by, each.again] = nth + 1
        yield at, Whose(by=each.by, again=each.again, nth=nth), each


def readings_of(
    casefile: Casefile, book: CodeBook, mark: str
) -> tuple[tuple[int, Whose, MarkReading], ...]:
    """The readings of a mark, each with its place in the case."""
    read = enumerate(in_book_words(casefile, book).readings)
    return tuple(keyed((at, each) for at, each in read if each.mark == mark))


def looks_of(
    casefile: Casefile, book: CodeBook, site: str, feature: str
) -> tuple[tuple[int, Whose, LookSeen], ...]:
    """What was noted of a feature of a place, each with its place in the case."""
    seen = enumerate(in_book_words(casefile, book).looks)
    return tuple(keyed((n, e) for n, e in seen if (e.site, e.feature) == (site, feature)))


def reading_forms(
    bench: Bench,
    mark: Mark,
    name: str,
    refused: Refused | None = None,
    *,
    again: bool = False,
) -> tuple[ReadingForm, ...]:
    """A form for each reading of a mark, this person's own first, empty where there is none;
    `again` says that it is a second one."""
    case = bench.casefile
    found = [
        _filled(mark, whose, reading, signer_name(reading.by, case))
        for _, whose, reading in readings_of(case, bench.book, mark.id)
    ]
    mine = my_names(name, case)
    own = [each for each in found if each.whose.by in mine]
    others = [each for each in found if each.whose.by not in mine]
    if not own:
        own = [_empty(mark, Whose(by=me_of(name, case), again=again), name)]
    return tuple(_with_refused(each, mark, refused) for each in (*own, *others))


def reading_again(bench: Bench, mark: Mark, name: str) -> ReadingForm | None:
    """A form for reading it once more; None where this person has read it twice, or not yet."""
    case, mine = bench.casefile, my_names(name, bench.casefile)
    own = [w for _, w, _ in readings_of(case, bench.book, mark.id) if w.by in mine]
    if not own or any(each.again for each in own):
        return None
    return _empty(mark, Whose(by=me_of(name, case), again=True), name)


def _id(mark: Mark, whose: Whose) -> str:
    return f"read-{mark.id.replace(':', '-').replace('.', '-')}-{whose.tail}"


def _empty(mark: Mark, whose: Whose, name: str) -> ReadingForm:
    none = MarkReading(mark=mark.id, text=" ")
    legibility = choices(Legibility, "")  # whoever has read says so
    form = _filled(mark, whose, none, name)
    return replace(form, is_new=True, text="", when=None, legibility=legibility)


def _filled(mark: Mark, whose: Whose, reading: MarkReading, name: str) -> ReadingForm:
    text = reading.text.strip() and reading.text
    return ReadingForm(
        id=_id(mark, whose),
        mark=mark.id,
        whose=whose,
        by_shown=name,
        text=text,
        rows=plate_rows(mark, text) if has_windows(mark, text) else (),
        legibility=choices(Legibility, reading.legibility),
        orientation=choices(Orientation, reading.orientation),
        seen=choices(Seen, reading.seen),
        known=_known(reading.claim_known),
        note=reading.note,
        when=reading.when,
    )


def _known(known: bool | None) -> tuple[RadioWord, ...]:
    labels = {"": "not noted, taken as known", "yes": "knew it", "no": "did not know it"}
    return tuple(RadioWord(key, label, KNOWN[key] is known) for key, label in labels.items())


def _with_refused(form: ReadingForm, mark: Mark, refused: Refused | None) -> ReadingForm:
    """The form with what was typed into it and not taken."""
    if refused is None or refused.form != form.id:
        return form
    typed = refused.typed
    text = typed_text(mark, typed)
    return replace(
        form,
        text=text,
        rows=plate_rows(mark, text) if form.rows else (),
        legibility=_chosen(form.legibility, typed.get("legibility")),
        orientation=_chosen(form.orientation, typed.get("orientation")),
        seen=_chosen(form.seen, typed.get("seen")),
        known=_chosen(form.known, typed.get("claim_known")),
        note=typed.get("note", form.note),
        problems=refused.problems,
    )


def _chosen(found: tuple[RadioWord, ...], value: str | None) -> tuple[RadioWord, ...]:
    if value is None:
        return found
    return tuple(replace(each, is_chosen=each.value == value) for each in found)


def look_forms(
    bench: Bench,
    of: tuple[str, str],
    name: str,
    refused: Refused | None = None,
    *,
    again: bool = False,
) -> tuple[LookForm, ...]:
    """A form for each person's look at a feature, this person's own first."""
    site, feature = of
    case, mine = bench.casefile, my_names(name, bench.casefile)
    found = [
        LookForm(id=_look_id(feature, whose), whose=whose, by_shown=signer_name(look.by, case),
                 outcome=look.outcome, note=look.note)
        for _, whose, look in looks_of(case, bench.book, site, feature)
    ]  # fmt: skip
    own = [each for each in found if each.whose.by in mine]
    if not own:
        whose = Whose(by=me_of(name, case), again=again)
        own = [LookForm(id=_look_id(feature, whose), whose=whose, by_shown=name, is_new=True)]
    others = [each for each in found if each.whose.by not in mine]
    return tuple(_look_with_refused(each, refused) for each in (*own, *others))


def _look_id(feature: str, whose: Whose) -> str:
    return f"look-{feature}-{whose.tail}"


def _look_with_refused(form: LookForm, refused: Refused | None) -> LookForm:
    if refused is None or refused.form != form.id:
        return form
    typed = refused.typed
    return replace(form, outcome=typed.get("outcome", form.outcome),
                   note=typed.get("note", form.note), problems=refused.problems)  # fmt: skip
