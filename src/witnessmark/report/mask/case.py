"""A case without serials, people and places: what the masked copy is made from."""

from calendar import day_abbr, day_name, month_abbr, month_name
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import Enum
from typing import Any

from pydantic import BaseModel

from witnessmark.casefile.records import Casefile, ExhibitEntry
from witnessmark.catalogue import said
from witnessmark.examination import Opinion
from witnessmark.report.mask.names import bare, forms_of, joined, words_of
from witnessmark.report.mask.signs import main_item
from witnessmark.report.mask.texts import TextMask

GONE = "\ue000"
"""Stands for a file's digest until the outline is made; no font shows it."""

KEPT = {
    "Casefile": ("format",),
    "Claim": ("built",),
    "Statement": ("about",),
    "SiteSeen": ("site", "mark"),
    "MarkReading": ("mark",),
    "LookSeen": ("site", "feature", "outcome"),
    "Paper": ("mark", "copied_from", "asked_in_vain"),
    "StatedPrior": ("question",),
    "Override": ("row",),
    "Vouched": ("row",),
    "Stakes": ("currency",),
}
"""Texts that stand as they are where the code book has such a name."""

SIGNED = {"Examiner": ("name",)}
"""Names of those who answer for the report: they stand, but no serial in them."""

LEFT_OUT = {
    "Claim": ("made_by",),
    "Assignment": ("client", "intended_users", "owner_consent", "owner_reply"),
    "Visit": ("place", "present"),
    "Title": ("issued_by",),
}
"""Texts that tell of people and places: the copy says that they are left out."""

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
    for record in (case.claim, case.assignment, case.visit, case.title_paper):
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
    """All words in small letters that the case, but for its ids, and the book use: no names."""
    case = opinion.casefile
    told = (each.caption for each in case.exhibits)
    names = (each.name for each in opinion.names)
    return " ".join((case.model_dump_json(exclude={"id", "exhibits"}), *told, *names))


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
    case, signs = opinion.casefile, mask.signs
    signing = who_signs(case)
    masked = _Case(mask, exhibit_names(case, mask), signing).record(case)
    claimed = {
        item: signs.masked(text, item) if item in signs.items else mask.claimed(text, item)
        for item, text in case.claim.items.items()
    }
    number = case.title_paper.number
    title = signs.masked(number, main_item(opinion, signs.items)) if number.strip() else ""
    readings = tuple(
        _by(new, signing).model_copy(
            update={"text": read.get((old.mark, old.text)) or signs.blank(old.text)}
        )
        for new, old in zip(masked.readings, case.readings, strict=True)
    )
    vouched = tuple(_by(each, signing) for each in masked.circumstances.vouched)
    update = {
        "id": mask.id_text(case.id),
        "book": opinion.book.id,
        "beside": tuple(each.id for each in opinion.beside),
        "title": "" if mask.typed_text(case.title) != case.title else case.title,
        "claim": masked.claim.model_copy(update={"items": claimed}),
        "title_paper": masked.title_paper.model_copy(update={"number": title}),
        "stakes": type(case.stakes)(),
        "readings": readings,
        "looks": tuple(_by(each, signing) for each in masked.looks),
        "circumstances": masked.circumstances.model_copy(update={"vouched": vouched}),
        "exhibits": tuple(_entry(each, signing) for each in masked.exhibits),
    }
    return masked.model_copy(update=update)


def exhibit_names(case: Casefile, mask: TextMask) -> dict[str, str]:
    """Each exhibit's id, or a number in its place where the id tells something."""
    return {
        each.id: each.id if mask.id_text(each.id) == each.id else f"exhibit-{at}"
        for at, each in enumerate(case.exhibits, start=1)
    }


def _by[Seen: BaseModel](record: Seen, signing: frozenset[str]) -> Seen:
    """Who read it, where that is somebody who signs."""
    by = getattr(record, "by", "")
    return record if by in signing or not by else record.model_copy(update={"by": left_out()})


def _entry(entry: ExhibitEntry, signing: frozenset[str]) -> ExhibitEntry:
    """The entry of an exhibit without the names and digest of its file."""
    update = {"file": left_out(), "sha256": GONE * 64}
    if entry.taken_by not in signing:
        update["taken_by"] = ""
    return entry.model_copy(update=update)


@dataclass(frozen=True, slots=True)
class _Case:
    """Masks the records of a case, field by field; `exhibits` are their names in the copy."""

    mask: TextMask
    exhibits: dict[str, str]
    signing: frozenset[str]

    def record[Record: BaseModel](self, record: Record) -> Record:
        """The record with its texts masked; texts of no list are masked as typed."""
        update = {
            field: self._field(record, field, getattr(record, field))
            for field in type(record).model_fields
        }
        return type(record).model_construct(None, **update)

    def _field(self, record: BaseModel, field: str, value: Any) -> object:
        name = type(record).__name__
        if field in LEFT_OUT.get(name, ()):
            return left_out() if str(value).strip() else value
        if field in SIGNED.get(name, ()):
            return self.mask.signed_text(value) if value in self.signing else left_out()
        if (name, field) == ("ExhibitEntry", "id"):
            return self.exhibits[value]
        if field == "exhibits" and name != "Casefile":
            return tuple(self.exhibits.get(each) or left_out() for each in value)
        shows = self.mask.known_text if field in KEPT.get(name, ()) else self.mask.typed_text
        return self._value(value, shows)

    def _value(self, value: object, shows: Callable[[str], str]) -> object:
        if isinstance(value, Enum):
            return value
        if isinstance(value, str):
            return shows(value)
        if isinstance(value, BaseModel):
            return self.record(value)
        if isinstance(value, tuple):
            return tuple(self._value(each, shows) for each in value)
        return value
