"""A case without serials, people and places: what the masked copy is made from."""

import json
from calendar import day_abbr, day_name, month_abbr, month_name
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import Enum
from typing import Any

from witnessmark.casefile.records import Casefile
from witnessmark.catalogue import said
from witnessmark.documents.open_row import OpenRow, as_json
from witnessmark.examination import Opinion
from witnessmark.report.mask.names import bare, forms_of, joined, words_of
from witnessmark.report.mask.signs import main_item
from witnessmark.report.mask.texts import TextMask

GONE = "\ue000"
"""Stands for a file's digest until the outline is made; no font shows it."""

KEPT = {
    "Statement": ("about",),
    "SiteSeen": ("site", "mark"),
    "MarkReading": ("mark",),
    "LookSeen": ("site", "feature", "outcome"),
    "Paper": ("mark", "copied_from", "asked_in_vain"),
    "StatedPrior": ("question",),
    "Override": ("row",),
    "Vouched": ("row",),
}
"""Texts that stand as they are where the code book has such a name."""

LEFT_OUT = {
    "Claim": ("made_by",),
    "Assignment": ("client", "intended_users", "owner_consent", "owner_reply"),
    "Visit": ("place", "present"),
    "Title": ("issued_by",),
    "Assistance": ("who",),
    "CustodyEntry": ("lent_by",),
}
"""Texts about people and places: the copy says that they are left out."""

_NO_NAMES = frozenset(
    {"mr", "mrs", "ms", "miss", "dr", "sir", "prof", "the", "and", "for"}
    | {each.lower() for each in (*month_name, *month_abbr, *day_name, *day_abbr) if each}
)
"""Words with a capital that name nobody; no copy hides a month because a letter was of it."""
_WRITTEN = ("owner_consent", "owner_reply")
"""Texts in whole sentences, whose first words have a capital anyway."""


def left_out() -> str:
    """What stands where something is left out."""
    return said("[left out]")


def names_of(opinion: Opinion) -> Iterator[str]:
    """Words, bare, that name the people and places that are left out, as far as capitals tell."""
    case = opinion.casefile
    signing = [each.name for each in case.assignment.examiners if each.id in who_signs(case)]
    known = _words(" ".join([opinion.book.title, *signing, *book_words(opinion)]))
    common = {word for word in _words(_all_text(opinion)) if word.islower()}
    for typed, is_written in _private(case):
        text = bare(typed)
        for found in words_of(text):
            word = found[0]
            before = text[: found.start()].rstrip()
            starts = not before or before.endswith((".", "!", "?", ":"))
            if starts and (is_written or word.lower() in common):
                continue
            for form in forms_of(word):
                if form not in known and form.lower() not in _NO_NAMES:
                    yield form
        if not is_written:
            yield from joined(text)


def book_words(opinion: Opinion) -> tuple[str, ...]:
    """The names that the code book gives, word by word and bare."""
    return tuple(word for each in opinion.names for word in bare(each.name).split())


def _words(text: str) -> set[str]:
    return {found[0] for found in words_of(bare(text))}


def _private(case: Casefile) -> Iterator[tuple[str, bool]]:
    """The texts whose names must not stand anywhere else; True for those in whole sentences."""
    records = (case.claim, case.assignment, case.visit, case.title_paper)
    for record in (*records, *case.assignment.assistance, *case.custody):
        for field in LEFT_OUT[type(record).__name__]:
            yield str(getattr(record, field)), field in _WRITTEN
    signing = who_signs(case)
    for text in (
        *(each.by for each in case.readings),
        *(each.by for each in case.looks),
        *(each.by for each in case.circumstances.vouched),
        *(each.taken_by for each in case.exhibits),
    ):
        if text not in signing:
            yield text, False


def _all_text(opinion: Opinion) -> str:
    """All words in small letters that the case (except in its ids) and the book use: not names."""
    case = opinion.casefile
    told = (each.caption for each in case.exhibits)
    told_in = {k: v for k, v in as_json(case).items() if k not in ("id", "exhibits")}
    names = (each.name for each in opinion.names)
    return " ".join((json.dumps(told_in, ensure_ascii=False), *told, *names))


def who_signs(case: Casefile) -> frozenset[str]:
    """Ids and names of the examiners, but for one who has a name in common with whoever made the
    claim or is the client: he is not named."""
    others = _words(f"{case.claim.made_by} {case.assignment.client}") - _words(case.title)
    parties = {form.casefold() for word in others for form in forms_of(word)}
    return frozenset(
        text
        for each in case.assignment.examiners
        if parties.isdisjoint(word.casefold() for word in _words(each.name))
        for text in (each.id, each.name)
    )


def masked_case(opinion: Opinion, mask: TextMask, read: dict[tuple[str, str], str]) -> Casefile:
    """The case with every text masked or left out; `read` gives masked readings by mark and text.

    Fields that this version does not know are left out: nobody can say what is in them.
    """
    case = opinion.casefile
    return _Case(opinion, mask, read, exhibit_names(case, mask), who_signs(case)).record(case)


def exhibit_names(case: Casefile, mask: TextMask) -> dict[str, str]:
    """Each exhibit's id, or a number in its place where the id tells something."""
    return {
        each.id: each.id if mask.id_text(each.id) == each.id else f"exhibit-{at}"
        for at, each in enumerate(case.exhibits, start=1)
    }


@dataclass(frozen=True, slots=True)
class _Case:
    """Masks the records of a case, field by field; a text of no list is masked as typed."""

    opinion: Opinion
    mask: TextMask
    read: dict[tuple[str, str], str]
    exhibits: dict[str, str]
    signing: frozenset[str]

    def record[Record: OpenRow](self, record: Record) -> Record:
        """The record with its texts masked."""
        name = type(record).__name__
        update: dict[str, Any] = {
            field: left_out()
            if field in LEFT_OUT.get(name, ()) and str(getattr(record, field)).strip()
            else self._field(record, name, field, getattr(record, field))
            for field in record.columns
        }
        return type(record)(**update)

    def _field(self, record: OpenRow, name: str, field: str, value: Any) -> object:
        match name, field:
            case ("Casefile", "format") | ("Claim", "built"):
                return value
            case ("Casefile", "id"):
                return self.mask.id_text(value)
            case ("Casefile", "book"):
                return self.opinion.book.id
            case ("Casefile", "beside"):
                return tuple(each.id for each in self.opinion.beside)
            case ("Casefile", "title"):
                return value if self.mask.typed_text(value) == value else ""
            case ("Casefile", "stakes" | "sums"):
                return type(value)()
            case ("Claim", "items"):
                return {item: self._claimed(text, item) for item, text in value.items()}
            case ("Title", "number"):
                return self._claimed(value, main_item(self.opinion, self.mask.signs.items))
            case ("MarkReading", "text"):
                blank = self.mask.signs.blank(value)
                return self.read.get((getattr(record, "mark", ""), value)) or blank
            case ("Examiner", "name") | (_, "by"):
                return self._who(value)
            case ("Examiner", "firm" | "address" | "telephone") if (
                getattr(record, "id", "") not in self.signing
            ):
                return left_out() if value.strip() else value
            case ("ExhibitEntry", "taken_by"):
                return value if value in self.signing else ""
            case ("ExhibitEntry", "id"):
                return self.exhibits[value]
            case ("ExhibitEntry", "file"):
                return left_out()
            case ("ExhibitEntry", "sha256"):
                return GONE * len(value)
            case (_, "exhibits") if name != "Casefile":
                return tuple(self.exhibits.get(each) or left_out() for each in value)
        is_kept = field in KEPT.get(name, ())
        return self._value(value, self.mask.known_text if is_kept else self.mask.typed_text)

    def _claimed(self, text: str, item: str) -> str:
        signs = self.mask.signs
        return signs.masked(text, item) if item in signs.items else self.mask.claimed(text, item)

    def _who(self, name: str) -> str:
        """Somebody who signs, by name or id; nobody else is named."""
        if name in self.signing:
            return self.mask.signed_text(name)
        return left_out() if name.strip() else name

    def _value(self, value: object, shows: Callable[[str], str]) -> object:
        if isinstance(value, Enum):
            return value
        if isinstance(value, str):
            return shows(value)
        if isinstance(value, OpenRow):
            return self.record(value)
        if isinstance(value, tuple):
            return tuple(self._value(each, shows) for each in value)
        return value
